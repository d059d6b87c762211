// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/job/job_lines.hpp"

#include <algorithm>

namespace gatherwright::cli {

namespace {

Spot spot_of(const Document &document, const Value &value) {
  return {value.line, document.pointer(value)};
}

/// What is written of an edge or a spread: the key that says most, or all of it.
const Value &told_by(const Document &document, const Value &value) {
  for (const std::string_view key :
       {std::string_view("length"), std::string_view("path"), std::string_view("fade"), std::string_view("shape")})
    if (const Value *inner = document.child(value, key)) return *inner;
  return value;
}

Spots spots_of(const Document &document, const Value &value) {
  static constexpr std::string_view parts[] = {"long", "band", "spread", "marks", "from", "to", "aim", "is", "holds"};
  Spots spots{spot_of(document, value), {}};
  if (value.kind != Value::Kind::object) return spots;
  for (const Value &child : document.children(value)) {
    const auto part = std::find(std::begin(parts), std::end(parts), child.key);
    if (part != std::end(parts)) spots.parts.emplace_back(*part, spot_of(document, told_by(document, child)));
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

const Spots *within(const std::vector<Spots> &all, int index) {
  return index >= 0 && index < static_cast<int>(all.size()) ? &all[static_cast<std::size_t>(index)] : nullptr;
}

const Spots *spots_at(const JobLines &lines, const Place &place) {
  if (place.length >= 0) return within(lines.lengths, place.length);
  if (place.rule >= 0) return within(lines.rules, place.rule);
  if (place.join < 0 || place.join >= static_cast<int>(lines.joins.size())) return nullptr;
  const JoinSpots &join = lines.joins[static_cast<std::size_t>(place.join)];
  const Spots *segment = within(join.segments, place.segment);
  return segment ? segment : &join.join;
}

} // namespace

JobLines lines_of(const Document &document) {
  const Value &root = document.root();
  JobLines lines{spot_of(document, root), {}, {}, {}};
  if (const Value *lengths = document.child(root, "lengths"))
    for (const Value &length : document.children(*lengths))
      lines.lengths.push_back(spots_of(document, length));
  if (const Value *rules = document.child(root, "rules"))
    for (const Value &rule : document.children(*rules))
      lines.rules.push_back(rule_spots(document, rule));
  if (const Value *joins = document.child(root, "joins"))
    for (const Value &join : document.children(*joins))
      lines.joins.push_back(join_spots(document, join));
  return lines;
}

InputFault placed(const JobLines &lines, const PlacedFault &fault) {
  const Spots *spots = spots_at(lines, fault.place);
  const Fault told = with_short_halves(fault.fault);
  if (!spots) return {lines.job.line, lines.job.pointer, told};
  const auto part = std::find_if(spots->parts.begin(), spots->parts.end(),
                                 [&](const auto &each) { return each.first == fault.place.part; });
  const Spot &spot = part == spots->parts.end() ? spots->whole : part->second;
  return {spot.line, spot.pointer, told};
}

} // namespace gatherwright::cli
