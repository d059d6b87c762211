// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/job/job_lines.hpp"

#include "cli/words/names.hpp"
#include "cli/words/refusals.hpp"

#include <algorithm>

namespace gatherwright::cli {

namespace {

Spot spot_of(const Document &document, const Value &value) {
  return {value.line, document.pointer(value)};
}

/// What is written of an edge or a spread: the key that says most, or all of it.
const Value &told_by(const Document &document, const Value &value) {
  for (const std::string_view key : {std::string_view("length"), std::string_view("path"), std::string_view("drawing"),
                                     std::string_view("points"), std::string_view("fade"), std::string_view("shape")})
    if (const Value *inner = document.child(value, key)) return *inner;
  return value;
}

/// A part of an edge, and what it is called among the parts of its join.
struct PartOfEdge {
  std::string_view edge, key, called;
};
constexpr PartOfEdge parts_of_edges[] = {
    {"long", "allowance", "allowance of the long edge"}, {"band", "allowance", "allowance of the band"},
    {"long", "ends", "ends of the long edge"},           {"band", "ends", "ends of the band"},
    {"long", "part", "part of the long edge"},           {"band", "part", "part of the band"}};

Spots spots_of(const Document &document, const Value &value) {
  static constexpr std::string_view parts[] = {"long", "band",  "spread",    "from",   "to",    "aim",
                                               "is",   "marks", "allowance", "across", "along", "at"};
  Spots spots{spot_of(document, value), {}};
  if (value.kind != Value::Kind::object) return spots;
  for (const Value &child : document.children(value)) {
    const auto part = std::find(std::begin(parts), std::end(parts), child.key);
    if (part != std::end(parts)) spots.parts.emplace_back(*part, spot_of(document, told_by(document, child)));
    for (const auto &[edge, key, called] : parts_of_edges)
      if (const Value *inner = child.key == edge ? document.child(child, key) : nullptr)
        spots.parts.emplace_back(called, spot_of(document, *inner));
  }
  return spots;
}

/// A rule is where its comparison is.
Spots rule_spots(const Document &document, const Value &value) {
  const Value *holds = document.child(value, "holds");
  return {spot_of(document, holds ? *holds : value), {}};
}

JoinSpots join_spots(const Document &document, const Value &value) {
  JoinSpots spots{spots_of(document, value), {}};
  if (const Value *segments = document.child(value, "segments"))
    for (const Value &segment : document.children(*segments))
      spots.segments.push_back(spots_of(document, segment));
  return spots;
}

/// One part of a side, or a list of them.
std::vector<Spots> side_spots(const Document &document, const Value &value) {
  if (value.kind != Value::Kind::list) return {spots_of(document, value)};
  std::vector<Spots> spots;
  for (const Value &part : document.children(value))
    spots.push_back(spots_of(document, part));
  return spots;
}

PieceSpots piece_spots(const Document &document, const Value &value) {
  PieceSpots spots{spots_of(document, value), {}, {}};
  const Value *allowance = document.child(value, "allowance");
  const Value *sides = document.child(value, "sides");
  for (const Side side : all_sides) {
    const std::string_view key = words::side_called(side);
    const Value *own = allowance ? document.child(*allowance, key) : nullptr;
    const bool of_all = allowance && allowance->kind != Value::Kind::object;
    spots.allowance[side] = own ? spots_of(document, *own) : of_all ? spots_of(document, *allowance) : spots.piece;
    if (const Value *sewn = sides ? document.child(*sides, key) : nullptr)
      spots.sides[side] = side_spots(document, *sewn);
  }
  return spots;
}

/// What a fault is of: a thing of the job, the job itself where that is left out, and which part of it; empty: all.
struct Told {
  const Spots *thing = nullptr;
  std::string_view part = {};
};

/// What the part is called among those of its join.
std::string_view key_of(const place::InEdge &place) {
  const bool band = place.at.edge == WhichEdge::band;
  switch (place.part) {
  case place::InEdge::Part::allowance:
    return parts_of_edges[band ? 1 : 0].called;
  case place::InEdge::Part::ends:
    return parts_of_edges[band ? 3 : 2].called;
  case place::InEdge::Part::part:
    return parts_of_edges[band ? 5 : 4].called;
  case place::InEdge::Part::whole:
    break;
  }
  return band ? "band" : "long";
}

std::string_view key_of(place::InJoin::Part part) {
  if (part == place::InJoin::Part::marks) return "marks";
  return part == place::InJoin::Part::allowance ? "allowance" : "";
}

std::string_view key_of(place::InLength::Part part) {
  using Part = place::InLength::Part;
  switch (part) {
  case Part::is:
    return "is";
  case Part::from:
    return "from";
  case Part::to:
    return "to";
  case Part::aim:
    return "aim";
  case Part::whole:
    break;
  }
  return "";
}

std::string_view key_of(place::InSegment::Part part) {
  using Part = place::InSegment::Part;
  switch (part) {
  case Part::long_edge:
    return "long";
  case Part::band:
    return "band";
  case Part::spread:
    return "spread";
  default: // of the others, in a job that was read, nothing is told after reading
    break;
  }
  return "";
}

std::string_view key_of(place::InPiece::Part part) {
  if (part == place::InPiece::Part::across) return "across";
  return part == place::InPiece::Part::along ? "along" : ""; // of the others nothing is told after reading
}

std::string_view key_of(place::InSidePart::Part part) {
  using Part = place::InSidePart::Part;
  switch (part) {
  case Part::from:
    return "from";
  case Part::to:
    return "to";
  case Part::at:
    return "at";
  case Part::whole:
    break;
  }
  return "";
}

/// By the alternative of the place.
struct Finder {
  const JobLines &lines;

  Told operator()(const place::WholeJob &) const { return {}; }
  Told operator()(const place::InMeasure &) const { return {}; } // told when the job is read, or its list of wearers
  Told operator()(const place::InLength &place) const { return {&lines.lengths.at(place.at.at), key_of(place.part)}; }
  Told operator()(const place::InRule &place) const { return {&lines.rules.at(place.at.at)}; }
  Told operator()(const place::InJoin &place) const { return {&lines.joins.at(place.at.at).join, key_of(place.part)}; }
  Told operator()(const place::InEdge &place) const { return {&lines.joins.at(place.at.join.at).join, key_of(place)}; }
  /// Where no segments are written, the join is the one segment.
  Told operator()(const place::InSegment &place) const {
    const JoinSpots &join = lines.joins.at(place.at.join.at);
    return {join.segments.empty() ? &join.join : &join.segments.at(place.at.segment), key_of(place.part)};
  }
  Told operator()(const place::InPiece &place) const {
    return {&lines.pieces.at(place.at.at).piece, key_of(place.part)};
  }
  Told operator()(const place::InAllowance &place) const {
    return {&lines.pieces.at(place.at.piece.at).allowance[place.at.side]};
  }
  Told operator()(const place::InSidePart &place) const {
    const SideAt side = place.at.side;
    return {&lines.pieces.at(side.piece.at).sides[side.side].at(place.at.part), key_of(place.part)};
  }
};

} // namespace

JobLines lines_of(const Document &document) {
  const Value &root = document.root();
  JobLines lines{spot_of(document, root), {}, {}, {}, {}};
  if (const Value *lengths = document.child(root, "lengths"))
    for (const Value &length : document.children(*lengths))
      lines.lengths.push_back(spots_of(document, length));
  if (const Value *rules = document.child(root, "rules"))
    for (const Value &rule : document.children(*rules))
      lines.rules.push_back(rule_spots(document, rule));
  if (const Value *joins = document.child(root, "joins"))
    for (const Value &join : document.children(*joins))
      lines.joins.push_back(join_spots(document, join));
  if (const Value *pieces = document.child(root, "pieces"))
    for (const Value &piece : document.children(*pieces))
      lines.pieces.push_back(piece_spots(document, piece));
  return lines;
}

InputFault placed(const Job &job, const JobLines &lines, const Refusal &refusal) {
  const auto [thing, part] = std::visit(Finder{lines}, place_of(refusal));
  const Fault told = with_short_halves(words::refusal(job, refusal));
  if (!thing) return {lines.job.line, lines.job.pointer, told};
  const auto written = std::find_if(thing->parts.begin(), thing->parts.end(),
                                    [part = part](const auto &each) { return each.first == part; });
  const Spot &spot = written == thing->parts.end() ? thing->whole : written->second;
  return {spot.line, spot.pointer, told};
}

} // namespace gatherwright::cli
