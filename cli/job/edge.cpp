// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/job/drawing.hpp"
#include "cli/job/fields.hpp"
#include "cli/job/join.hpp"
#include "cli/job/points.hpp"
#include "cli/job/values.hpp"
#include "cli/words/quoted.hpp"

#include <algorithm>
#include <iterator>

namespace gatherwright::cli {

namespace {

constexpr std::array<std::pair<std::string_view, Garment>, 4> sides = {
    {{"left", Garment::left}, {"right", Garment::right}, {"inside", Garment::inside}, {"outside", Garment::outside}}};

/// A faulty one is a length of 0.
Formula to_long_or_band(Reading &reading, const Value &value) {
  auto read = to_formula(reading, value);
  if (!read) return {};
  judge_length(reading, value, *read, Least::above_0);
  return *std::move(read);
}

bool is_above_0(const Reading &reading, const Formula &allowance) {
  const Outcome<Affine> length = evaluate(allowance, reading.names.values);
  return length && length->fixed() && length->constant > 0;
}

void read_garment(Reading &reading, const Fields &fields, bool closed, DrawnEdge &drawn) {
  const Value *given = fields["garment"];
  if (!given) {
    if (is_above_0(reading, drawn.allowance) && !fields.meant("garment"))
      reading.fault(fields.object(),
                    {"\"garment\" is missing, which says to which side the allowance goes",
                     closed ? R"(write "inside" or "outside")" : R"(write "left" or "right" of the drawn line)"});
    return;
  }
  drawn.garment = to_choice(reading, *given, sides);
  const bool of_rings = drawn.garment == Garment::inside || drawn.garment == Garment::outside;
  if (of_rings && !closed && !fields["part"]) // a part may be of a closed line
    reading.fault(*given, {quoted(given->text) + " is a side of a closed edge only",
                           R"(write "left" or "right", as seen when going along the line, or make the join "closed")"});
}

std::string to_path(Reading &reading, const Value &path) {
  if (path.kind != Value::Kind::text)
    refuse_kind(reading, path, "path data such as \"M 0 0 L 200 0\"");
  else if (path.text.find_first_not_of(" \t\r\n") == std::string_view::npos)
    reading.fault(path, {"the path is empty", "write path data such as \"M 0 0 L 200 0\""});
  else
    return std::string(path.text);
  return {};
}

std::optional<DrawnEdge::Part> to_part(Reading &reading, const Value &value, bool closed) {
  if (closed) {
    reading.fault_of_key(value, {"a part of an edge closes no ring", "leave \"part\" out, or \"closed\""});
    return std::nullopt;
  }
  auto part = to_two_fixed(reading, value, Least::at_least_0);
  if (!part) return std::nullopt;
  const auto worth = [&](const Formula &formula) -> std::optional<double> {
    const Outcome<Affine> found = evaluate(formula, reading.names.values);
    return found && found->fixed() ? std::optional(found->constant) : std::nullopt;
  };
  const auto from = worth((*part)[0]), to = worth((*part)[1]);
  if (!from || !to || *from < *to) return *std::move(part);
  reading.fault(value,
                {"the part ends where it begins, or before that", "the nearer place first: [\"3 cm\", \"21 cm\"]"});
  return std::nullopt;
}

/// By which of its keys an edge is drawn.
struct ToDraw {
  const Value *path = nullptr;
  const Value *drawing = nullptr;
  const Value *points = nullptr;

  const Value *any() const { return path ? path : drawing ? drawing : points; }
};

DrawnEdge to_drawn(Reading &reading, const Fields &fields, const ToDraw &by, bool closed) {
  DrawnEdge drawn;
  if (by.path) {
    drawn.path = to_path(reading, *by.path);
    if (const Value *given = fields["path_unit"])
      drawn.path_unit = to_unit(reading, *given, Units::any).value_or(Unit::mm);
  } else if (by.drawing) {
    drawn.path = to_path_of_drawing(reading, fields, *by.drawing).value_or(std::string());
  } else if (auto line = to_line_through(reading, *by.points, closed && !fields["part"])) {
    drawn.path = std::move(line->path);
    drawn.misread = line->misread;
  }
  if (const Value *given = fields["allowance"])
    drawn.allowance = to_fixed(reading, *given, Least::at_least_0).value_or(Formula());
  if (const Value *given = fields["grain"])
    drawn.grain = to_number(reading, *given, -bounds::full_turn, bounds::full_turn, "90").value_or(drawn.grain);
  if (const Value *given = fields["part"]) drawn.part = to_part(reading, *given, closed);
  read_garment(reading, fields, closed, drawn);
  return drawn;
}

/// What a key is said of, that is said in vain.
void refuse_in_vain(Reading &reading, const Fields &fields, std::string_view key, std::string_view of,
                    std::string_view instead) {
  if (const Value *given = fields[key])
    reading.fault_of_key(*given, {quoted(key) + " says nothing of an edge " + std::string(of), std::string(instead)});
}

void refuse_in_vain(Reading &reading, const Fields &fields, const ToDraw &by) {
  if (by.any()) {
    if (!by.path)
      refuse_in_vain(reading, fields, "path_unit", by.points ? "measured by points" : "of a drawing", "leave it out");
    if (!by.drawing) refuse_in_vain(reading, fields, "id", "that is in no drawing", "leave it out");
    return;
  }
  for (const std::string_view key : {std::string_view("path_unit"), std::string_view("id"), std::string_view("part"),
                                     std::string_view("garment"), std::string_view("grain")})
    refuse_in_vain(reading, fields, key, "given by its length", "leave it out");
  refuse_in_vain(reading, fields, "allowance", "given by its length",
                 R"(write it in the join, and "ends" for what comes before and after the stitches)");
}

} // namespace

Edge to_edge(Reading &reading, const Value &value, bool closed) {
  Edge edge;
  if (value.kind != Value::Kind::object) {
    edge.is = to_long_or_band(reading, value);
    return edge;
  }
  static constexpr std::string_view keys[] = {"length",    "path",    "path_unit", "drawing", "id",   "points",
                                              "allowance", "garment", "part",      "ends",    "grain"};
  static constexpr std::string_view ways[] = {"length", "path", "drawing", "points"};
  const Fields fields(reading, value, "an edge", keys);
  const Value *length = fields["length"];
  const ToDraw by{fields["path"], fields["drawing"], fields["points"]};
  if (std::none_of(std::begin(ways), std::end(ways), [&](std::string_view way) { return fields.meant(way); }))
    reading.fault(value, {R"(the edge has neither "length" nor "path", "drawing" or "points")", "write one of them"});
  std::string_view first;
  for (const std::string_view way : ways) {
    const Value *given = fields[way];
    if (given && !first.empty())
      reading.fault_of_key(*given,
                           {quoted(first) + " and " + quoted(way) + " stand together", "leave one of the two out"});
    if (given && first.empty()) first = way;
  }
  if (length) edge.is = to_long_or_band(reading, *length);
  if (by.any()) edge.is = to_drawn(reading, fields, by, closed);
  if (const Value *ends = fields["ends"]) edge.ends = to_two_fixed(reading, *ends, Least::at_least_0);
  if (length || by.any()) refuse_in_vain(reading, fields, by);
  return edge;
}

} // namespace gatherwright::cli
