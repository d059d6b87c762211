// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/plan/drawn.hpp"

#include "solver/formula/figure.hpp"
#include "solver/job/settled.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace gatherwright {

namespace {

/// Pieces of shear along the long edges of a job, some 24 to a strongly bent curve: they take a second to reckon.
constexpr std::size_t most_shear_pieces = 100'000;

using Undrawable = refusal::Undrawable;

Undrawable::Why why(edge::Misdrawn misdrawn) {
  switch (misdrawn) {
  case edge::Misdrawn::too_many_pieces:
    return Undrawable::Why::too_many_pieces;
  case edge::Misdrawn::no_garment:
    return Undrawable::Why::no_side;
  case edge::Misdrawn::no_inside:
    return Undrawable::Why::no_inside;
  case edge::Misdrawn::encloses_nothing:
    return Undrawable::Why::encloses_nothing;
  case edge::Misdrawn::allowance_too_large:
    break;
  }
  return Undrawable::Why::allowance_too_large;
}

refusal::NoStitchingLine::Why why(edge::Unresolved::Kind kind) {
  using Kind = edge::Unresolved::Kind;
  using Why = refusal::NoStitchingLine::Why;
  switch (kind) {
  case Kind::meets_itself:
    return Why::meets_itself;
  case Kind::too_tight:
    return Why::too_tight;
  case Kind::doubles_back:
    return Why::doubles_back;
  case Kind::falls_apart:
    return Why::falls_apart;
  case Kind::runs_across:
    return Why::runs_across;
  case Kind::nothing_left:
    return Why::nothing_left;
  case Kind::too_tangled:
    break;
  }
  return Why::too_tangled;
}

std::optional<std::array<double, 2>> part_of(const DrawnEdge &drawn) {
  if (!drawn.part) return std::nullopt;
  return std::array{figure_of((*drawn.part)[0]), figure_of((*drawn.part)[1])};
}

/// In the job's terms.
struct Refuse {
  EdgeAt at;
  const DrawnEdge &drawn;

  Refusal operator()(const edge::PathFault &path) const { return PlacedFault{place::InEdge{at}, path.fault}; }
  Refusal operator()(edge::Misdrawn misdrawn) const {
    return Undrawable{.at = at,
                      .why = why(misdrawn),
                      .most = static_cast<std::int64_t>(edge::most_drawn_pieces),
                      .allowance = figure_of(drawn.allowance)};
  }
  Refusal operator()(const edge::Unresolved &unresolved) const {
    return refusal::NoStitchingLine{.at = at,
                                    .why = why(unresolved.kind),
                                    .along = unresolved.along * millimetres(drawn.path_unit),
                                    .allowance = figure_of(drawn.allowance)};
  }
  Refusal operator()(const edge::PartBeyond &beyond) const {
    const auto [from, to] = part_of(drawn).value_or(std::array{0.0, 0.0});
    return refusal::NoPart{.at = at, .from = from, .to = to, .stitching = beyond.stitching};
  }
};

Outcome<edge::DrawnLine, Refusal> draw(const DrawnEdge &drawn, bool closed, EdgeAt at, std::size_t pieces_before) {
  auto line = edge::DrawnLine::draw({drawn.path, millimetres(drawn.path_unit), figure_of(drawn.allowance),
                                     drawn.garment, drawn.grain, part_of(drawn), pieces_before});
  if (!line) return std::visit(Refuse{at, drawn}, line.fault());
  if (line->closed() != closed)
    return Refusal(Undrawable{.at = at, .why = closed ? Undrawable::Why::open : Undrawable::Why::closed});
  return *std::move(line);
}

/// How much can be eased in goes by the shear, and what is spread by the grain.
bool asks_for_shear(const Join &join) {
  return std::any_of(join.segments.begin(), join.segments.end(), [](const Segment &segment) {
    return segment.kind == Kind::ease || std::holds_alternative<AlongGrain>(segment.spread);
  });
}

} // namespace

bool drawn_as_asked(const Job &job, const DrawnEdges &edges) {
  const auto as_asked = [](const Edge &edge, const std::optional<edge::DrawnLine> &line) {
    return !line || !edge.drawn() ||
           (line->allowance() == figure_of(edge.drawn()->allowance) && line->part() == part_of(*edge.drawn()));
  };
  for (std::size_t j = 0; j < edges.size(); ++j)
    if (!as_asked(job.joins[j].long_edge, edges[j].long_edge) || !as_asked(job.joins[j].band, edges[j].band))
      return false;
  return true;
}

Outcome<DrawnEdges, Refusals> draw_edges(const Job &as_written) {
  const Settled settled(as_written);
  const Job &job = settled.job();
  DrawnEdges edges;
  Refusals refusals;
  const bool any = std::any_of(job.joins.begin(), job.joins.end(),
                               [](const Join &join) { return join.long_edge.drawn() || join.band.drawn(); });
  if (!any) return edges;
  std::size_t pieces = 0;
  std::size_t shear_left = most_shear_pieces;
  for (std::size_t j = 0; j < job.joins.size(); ++j) {
    const Join &join = job.joins[j];
    DrawnSides &sides = edges.emplace_back();
    const auto take = [&](const Edge &edge, std::optional<edge::DrawnLine> &into, WhichEdge which) {
      if (!edge.drawn()) return;
      auto line = draw(*edge.drawn(), join.closed, EdgeAt(JoinId(static_cast<int>(j)), which), pieces);
      if (!line) return refusals.push_back(line.fault());
      pieces += line->pieces();
      into = *std::move(line);
    };
    take(join.long_edge, sides.long_edge, WhichEdge::long_edge);
    take(join.band, sides.band, WhichEdge::band);
    if (sides.long_edge && asks_for_shear(join) && !sides.long_edge->expect_shear(shear_left)) {
      refusals.push_back(Undrawable{.at = EdgeAt(JoinId(static_cast<int>(j)), WhichEdge::long_edge),
                                    .why = Undrawable::Why::too_many_bends,
                                    .most = static_cast<std::int64_t>(most_shear_pieces)});
      return refusals; // the next would take as long to find so
    }
  }
  if (!refusals.empty()) return refusals;
  return edges;
}

DrawnEdges ready_to_ease(const Job &job, const DrawnEdges &edges) {
  DrawnEdges ready = edges;
  std::size_t left = most_shear_pieces;
  const auto is_flat = [](const Segment &segment) { return !takes_fullness(segment.kind); };
  for (std::size_t j = 0; j < ready.size(); ++j) {
    const auto &segments = job.joins[j].segments;
    if (ready[j].long_edge && std::any_of(segments.begin(), segments.end(), is_flat))
      ready[j].long_edge->expect_shear(left);
  }
  return ready;
}

namespace {

struct Arrow {
  double x = 0;
  double y = 0;

  double length() const { return std::hypot(x, y); }
};

Arrow between(const std::array<double, 2> &from, const std::array<double, 2> &to) {
  return {to[0] - from[0], to[1] - from[1]};
}

double cross(Arrow a, Arrow b) {
  return a.x * b.y - a.y * b.x;
}

/// The ends of a line that has this share of its length between them lie apart.
constexpr double ends_apart = 0.1;

/// From the first place to the last where those lie apart: the garment lies square to it, for the mean of the normal
/// along a line is that of the straight one between its ends.
std::optional<Arrow> chord_of(const edge::DrawnLine &line, Unit unit) {
  if (line.closed()) return std::nullopt;
  const Arrow chord = between(line.place(0).at, line.place(line.stitching()).at);
  if (!(chord.length() * millimetres(unit) > ends_apart * line.stitching())) return std::nullopt;
  return chord;
}

/// With y downwards, what is to the right of x lies below.
GarmentSide side_of_chord(Arrow chord, bool to_the_right) {
  const Arrow garment = to_the_right ? Arrow{-chord.y, chord.x} : Arrow{chord.y, -chord.x};
  if (std::abs(garment.y) >= std::abs(garment.x)) return garment.y > 0 ? GarmentSide::below : GarmentSide::above;
  return garment.x > 0 ? GarmentSide::to_the_right : GarmentSide::to_the_left;
}

GarmentSide side_of(const edge::DrawnLine &line, const DrawnEdge &drawn) {
  if (drawn.garment == Garment::inside) return GarmentSide::inside;
  if (drawn.garment == Garment::outside) return GarmentSide::outside;
  const bool right = drawn.garment == Garment::right;
  if (const auto chord = chord_of(line, drawn.path_unit)) return side_of_chord(*chord, right);
  return right ? GarmentSide::right_of_way : GarmentSide::left_of_way;
}

/// An arch is one that has at least this share of its chord's square under it: our choice, a third of a cap's or less.
constexpr double arch_share = 0.04;

/// The ends of a parabola of area A over a chord c rise at 6 A / c^2; a cap's, which turn level, at less than this
/// share of that.
constexpr double level_share = 0.5;

/// Whether the line is an arch with level ends, and the garment lies on its outer side.
bool is_cap_outside(const edge::DrawnLine &line, const DrawnEdge &drawn) {
  constexpr int stations = 32;
  const bool right = drawn.garment == Garment::right;
  if (!right && drawn.garment != Garment::left) return false;
  const auto chord = chord_of(line, drawn.path_unit);
  if (!chord) return false;
  const auto first = line.place(0);
  const auto last = line.place(line.stitching());
  double area = 0;
  Arrow before;
  for (int i = 1; i <= stations; ++i) {
    const Arrow place = between(first.at, line.place(line.stitching() * i / stations).at);
    area += cross(before, place) / 2;
    before = place;
  }
  const double square = chord->length() * chord->length();
  // Above 0 the line lies to the left of its chord, and so does a garment to the right under it.
  const double outside = (right ? -area : area) / square;
  if (!(outside > arch_share)) return false;
  const auto rise = [&](const std::array<double, 2> &normal) {
    const Arrow n{normal[0], normal[1]};
    const double along = std::abs(cross(*chord, n));
    return along > 0 ? std::abs(chord->x * n.x + chord->y * n.y) / along : HUGE_VAL;
  };
  return std::max(rise(*first.normal), rise(*last.normal)) < level_share * 6 * outside;
}

} // namespace

DrawnPlan drawn_edge(const DrawnEdge &asked, const edge::DrawnLine &line, bool with_outline) {
  constexpr double within = 0.02; // millimetres
  DrawnPlan drawn{.cut_edge = line.cut_edge(), .stitching = line.stitching(), .allowance = line.allowance()};
  if (asked.garment) drawn.garment = side_of(line, asked);
  drawn.cap_outside = line.allowance() > 0 && is_cap_outside(line, asked);
  if (with_outline) {
    edge::DrawnLine::Outline outline = line.outline(within);
    drawn.outline = Outline{std::move(outline.cut_edge), std::move(outline.stitching)};
  }
  return drawn;
}

std::vector<allot::DrawnLengths> lengths_of(const DrawnEdges &edges) {
  std::vector<allot::DrawnLengths> lengths;
  for (const DrawnSides &sides : edges) {
    allot::DrawnLengths &of_join = lengths.emplace_back();
    if (sides.long_edge) {
      of_join.long_edge = sides.long_edge->stitching();
      of_join.mean_shear = [line = &*sides.long_edge](double from, double to) { return line->mean_shear(from, to); };
    }
    if (sides.band) of_join.band = sides.band->stitching();
  }
  return lengths;
}

} // namespace gatherwright
