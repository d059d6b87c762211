// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/job/fields.hpp"
#include "cli/job/join.hpp"
#include "cli/job/values.hpp"
#include "cli/words/quoted.hpp"

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
  if (of_rings && !closed)
    reading.fault(*given, {quoted(given->text) + " is a side of a closed edge only",
                           R"(write "left" or "right", as seen when going along the line, or make the join "closed")"});
}

DrawnEdge to_drawn(Reading &reading, const Fields &fields, const Value &path, bool closed) {
  DrawnEdge drawn;
  if (path.kind != Value::Kind::text)
    refuse_kind(reading, path, "path data such as \"M 0 0 L 200 0\"");
  else if (path.text.find_first_not_of(" \t\r\n") == std::string_view::npos)
    reading.fault(path, {"the path is empty", "write path data such as \"M 0 0 L 200 0\""});
  else
    drawn.path = path.text;
  if (const Value *given = fields["path_unit"])
    drawn.path_unit = to_unit(reading, *given, Units::any).value_or(Unit::mm);
  if (const Value *given = fields["allowance"])
    drawn.allowance = to_fixed(reading, *given, Least::at_least_0).value_or(Formula());
  if (const Value *given = fields["grain"])
    drawn.grain = to_number(reading, *given, -bounds::full_turn, bounds::full_turn, "90").value_or(drawn.grain);
  read_garment(reading, fields, closed, drawn);
  return drawn;
}

} // namespace

Edge to_edge(Reading &reading, const Value &value, bool closed) {
  Edge edge;
  if (value.kind != Value::Kind::object) {
    edge.is = to_long_or_band(reading, value);
    return edge;
  }
  static constexpr std::string_view keys[] = {"length", "path", "path_unit", "allowance", "garment", "ends", "grain"};
  const Fields fields(reading, value, "an edge", keys);
  const Value *length = fields["length"];
  const Value *path = fields["path"];
  if (!fields.meant("length") && !fields.meant("path"))
    reading.fault(value, {"the edge has neither \"length\" nor \"path\"", "write one of the two"});
  if (length && path)
    reading.fault_of_key(*path, {"\"length\" and \"path\" stand together", "leave one of the two out"});
  if (length) edge.is = to_long_or_band(reading, *length);
  if (path) edge.is = to_drawn(reading, fields, *path, closed);
  if (const Value *ends = fields["ends"]) edge.ends = to_two_fixed(reading, *ends, Least::at_least_0);
  if (length && !path)
    for (const std::string_view key : {std::string_view("path_unit"), std::string_view("allowance"),
                                       std::string_view("garment"), std::string_view("grain")})
      if (const Value *given = fields[key])
        reading.fault_of_key(*given,
                             {quoted(key) + " says nothing of an edge given by its length",
                              key == "allowance"
                                  ? R"(write it in the join, and "ends" for what comes before and after the stitches)"
                                  : "leave it out"});
  return edge;
}

} // namespace gatherwright::cli
