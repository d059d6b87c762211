// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/refusal.hpp"

namespace gatherwright {

namespace {

struct OfCondition {
  Place operator()(const condition::Holds &rule) const { return place::InRule{rule.at}; }
  Place operator()(const condition::InRange &range) const { return place::InLength{range.at}; }
  Place operator()(const condition::AddsUp &edge) const { return place::InJoin{edge.at.join}; }
  Place operator()(const condition::Flat &flat) const { return place::InSegment{flat.at}; }
  Place operator()(const condition::Given &given) const { return place::InSegment{given.at}; }
  Place operator()(const condition::NoWider &piece) const { return place::InPiece{piece.at}; }
  Place operator()(const condition::WithinStock &) const { return place::WholeJob{place::WholeJob::Part::fabric}; }
};

struct OfRefusal {
  Place operator()(const PlacedFault &fault) const { return fault.place; }
  Place operator()(const refusal::Undrawable &edge) const { return place::InEdge{edge.at}; }
  Place operator()(const refusal::NoPart &edge) const { return place::InEdge{edge.at, place::InEdge::Part::part}; }
  Place operator()(const refusal::NoStitchingLine &edge) const { return place::InEdge{edge.at}; }
  Place operator()(const refusal::TooMuch &) const { return place::WholeJob{}; }
  /// The second of two: it is the one that could have been written otherwise.
  Place operator()(const refusal::Indistinct &indistinct) const {
    if (!indistinct.conditions) return place::WholeJob{};
    return std::visit(OfCondition{}, indistinct.conditions->back());
  }
  Place operator()(const refusal::NoBand &none) const {
    if (const auto *segment = std::get_if<SegmentAt>(&none.of)) return place::InSegment{*segment};
    return place::InEdge{EdgeAt(std::get<JoinId>(none.of), WhichEdge::band)};
  }
  Place operator()(const refusal::Unsettled &loose) const {
    return place::InSegment{SegmentAt(loose.at, loose.segments.front())};
  }
  Place operator()(const refusal::TooManyMarks &marks) const { return place::InJoin{marks.at}; }
  Place operator()(const refusal::FadeTooLong &fade) const { return spread(fade.at); }
  Place operator()(const refusal::NoShear &stretch) const { return spread(stretch.at); }
  Place operator()(const refusal::NoSize &none) const {
    return place::InPiece{none.at, none.across ? place::InPiece::Part::across : place::InPiece::Part::along};
  }
  Place operator()(const refusal::BeforeTheSide &part) const {
    return place::InSidePart{part.at, place::InSidePart::Part::at};
  }
  Place operator()(const refusal::TooManyOnSides &part) const { return place::InSidePart{part.at}; }

  static Place spread(SegmentAt at) { return place::InSegment{at, place::InSegment::Part::spread}; }
};

} // namespace

Place place_of(const Refusal &refusal) {
  return std::visit(OfRefusal{}, refusal);
}

} // namespace gatherwright
