// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/job/fields.hpp"
#include "cli/job/join.hpp"
#include "cli/job/values.hpp"
#include "cli/words/quoted.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace gatherwright::cli {

namespace {

constexpr auto kind_names = [] {
  std::array<std::string_view, kinds.size()> names;
  for (std::size_t i = 0; i < kinds.size(); ++i)
    names[i] = kinds[i].name;
  return names;
}();

/// Of a kind that has no least, only the most can be set.
OwnLimits to_limits(Reading &reading, const Value &value, Kind kind) {
  static constexpr std::string_view keys[] = {"least", "ideal", "most"};
  const Fields fields(reading, value, "limits", keys);
  const bool most_alone = takes_fullness(kind) && !has_least(kind);
  const std::string_view such_as = told_in_percent(kind) ? "1.04 (4 % of ease)" : "2.5 (2.5 to 1)";
  OwnLimits limits;
  const auto read = [&](std::string_view key, std::optional<double> &into) {
    const Value *given = fields[key];
    if (!given) return;
    into = to_number(reading, *given, 1, bounds::most_fullness, such_as);
    if (most_alone && key != "most")
      reading.fault_of_key(
          *given, {fmt::format("{} is no limit of {}", quoted(key), name(kind)), "give \"most\" alone: 1.04 is 4 %"});
  };
  read("least", limits.least);
  read("ideal", limits.ideal);
  read("most", limits.most);
  if (most_alone) return limits;
  if (limits.least && limits.most && *limits.least > *limits.most)
    reading.fault(*fields["least"],
                  {"\"least\" is above \"most\"", "\"least\", \"ideal\" and \"most\" rise in this order"});
  else if (limits.ideal &&
           (*limits.ideal < limits.least.value_or(1) || *limits.ideal > limits.most.value_or(bounds::most_fullness)))
    reading.fault(*fields["ideal"], {"\"ideal\" does not lie between the other two",
                                     "\"least\", \"ideal\" and \"most\" rise in this order"});
  return limits;
}

/// One [fraction, extra] of a shape; nothing where it told a fault.
std::optional<std::array<double, 2>> to_shape_point(Reading &reading, const Value &value) {
  if (!is_list_of(reading, value, 2, "a point such as [0.5, 2]: a fraction of the band, and the relative extra there"))
    return std::nullopt;
  std::array<double, 2> point{};
  bool whole = true;
  for (const Value &each : reading.document.children(value)) {
    const bool fraction = each.place == 0;
    const auto number = to_number(reading, each, 0, fraction ? 1 : bounds::most_extra, fraction ? "0.5" : "2");
    if (number && !fraction && *number > 0 && *number < bounds::least_extra) {
      reading.fault(each, {quoted(each.text) + " is too small beside 1", "write 0"});
      whole = false;
    }
    if (number) point[static_cast<std::size_t>(each.place)] = *number;
    whole = whole && number;
  }
  return whole ? std::optional(point) : std::nullopt;
}

void judge_shape(Reading &reading, const Value &shape, const std::vector<std::array<double, 2>> &points) {
  auto at = points.begin();
  const auto last = points.end() - 1;
  for (const Value &each : reading.document.children(shape)) {
    const double fraction = (*at)[0];
    if (at == points.begin() && fraction > 0)
      reading.fault(each, {"the first point is not at 0", "begin at the start of the band: [0, 1]"});
    if (at == last && fraction < 1)
      reading.fault(each, {"the last point is not at 1", "end at the end of the band: [1, 1]"});
    if (at != points.begin() && fraction - (*(at - 1))[0] < bounds::least_gap)
      reading.fault(each, {"the point does not lie after the one before it", "the fractions rise from 0 to 1"});
    ++at;
  }
  if (std::all_of(points.begin(), points.end(), [](const auto &point) { return point[1] == 0; }))
    reading.fault(shape, {"the shape has no extra anywhere", "write at least one point above 0, such as [0.5, 1]"});
}

Shape to_shape(Reading &reading, const Value &value) {
  Shape shape;
  constexpr std::string_view such_as = "a list of two or more points such as [[0, 1], [0.5, 2], [1, 1]]";
  if (value.kind != Value::Kind::list) {
    refuse_kind(reading, value, std::string(such_as));
    return shape;
  }
  const int count = reading.document.count(value);
  if (count < 2) {
    is_list_of(reading, value, 2, such_as);
    return shape;
  }
  for (const Value &each : reading.document.children(value)) {
    if (reading.faults.full()) return shape;
    if (const auto point = to_shape_point(reading, each)) shape.points.push_back(*point);
  }
  if (static_cast<int>(shape.points.size()) == count) judge_shape(reading, value, shape.points);
  return shape;
}

SpreadWish to_spread_of_object(Reading &reading, const Value &value) {
  static constexpr std::string_view keys[] = {"fade", "shape"};
  const Fields fields(reading, value, "a spread", keys);
  const Value *fade = fields["fade"];
  const Value *shape = fields["shape"];
  if (fade && shape)
    reading.fault_of_key(*shape, {"\"fade\" and \"shape\" stand together", "leave one of the two out"});
  if (!fields.meant("fade") && !fields.meant("shape"))
    reading.fault(value, {"the spread says nothing",
                          R"(write "even", { "fade": ["3 cm", "3 cm"] } or { "shape": [[0, 1], [1, 2]] })"});
  SpreadWish spread;
  if (shape) spread = to_shape(reading, *shape);
  if (fade) spread = Fade{to_two_fixed(reading, *fade, Least::at_least_0).value_or(Fade().over)};
  return spread;
}

SpreadWish to_spread(Reading &reading, const Value &value, bool drawn) {
  if (value.kind == Value::Kind::object) return to_spread_of_object(reading, value);
  if (value.kind != Value::Kind::text) {
    refuse_kind(reading, value, R"("even", "grain", { "fade": ["3 cm", "3 cm"] } or { "shape": [[0, 1], [1, 2]] })");
    return Even{};
  }
  static constexpr std::string_view words[] = {"even", "grain"};
  const auto word = to_word(reading, value, words);
  if (!word || words[*word] == "even") return Even{};
  if (!drawn)
    reading.fault(value, {"\"grain\" needs a long edge that is drawn",
                          "give the join's long edge a \"path\", or write \"even\""});
  return AlongGrain{};
}

/// What a segment of some kinds cannot have.
void refuse_unfitting(Reading &reading, const Fields &fields, const Segment &segment) {
  if (!takes_fullness(segment.kind)) {
    for (const std::string_view key :
         {std::string_view("limits"), std::string_view("share"), std::string_view("spread")})
      if (const Value *given = fields[key])
        reading.fault_of_key(*given, {fmt::format("a {} segment has no {}", name(segment.kind), quoted(key)),
                                      "leave it out, or write another \"kind\""});
  } else if (!may_be_spread(segment.kind) && !std::holds_alternative<Even>(segment.spread)) {
    reading.fault(*fields["spread"], {"a segment of kind " + quoted(name(segment.kind)) + " is always even",
                                      "leave \"spread\" out, or write \"gather\" for its kind"});
  }
}

bool read_given(Reading &reading, const Fields &fields, std::string_view key, std::optional<Formula> &formula) {
  const Value *given = fields[key];
  if (!given) return fields.meant(key);
  formula = to_formula(reading, *given);
  if (formula) judge_length(reading, *given, *formula, Least::above_0);
  return true;
}

} // namespace

ReadSegment to_segment(Reading &reading, const Value &value, bool drawn) {
  static constexpr std::string_view keys[] = {"name", "kind", "long", "band", "to", "share", "limits", "spread"};
  const Fields fields(reading, value, "a segment", keys);
  ReadSegment read;
  Segment &segment = read.segment;
  read.kind_known = value.kind == Value::Kind::object && (fields["kind"] || !fields.meant("kind"));
  if (const Value *given = fields["name"]) segment.name = to_text(reading, *given).value_or("");
  if (const Value *given = fields["kind"]) {
    const auto kind = to_word(reading, *given, kind_names);
    if (kind) segment.kind = all_kinds[*kind];
    read.kind_known = kind.has_value();
  }
  read.gives_long = read_given(reading, fields, "long", segment.long_edge);
  read.gives_band = read_given(reading, fields, "band", segment.band);
  read.to_known = value.kind == Value::Kind::object && (fields["to"] || !fields.meant("to"));
  if (const Value *given = fields["to"]) {
    const auto to = to_text(reading, *given);
    segment.to = to.value_or("");
    read.to_known = to.has_value();
  }
  if (const Value *given = fields["share"])
    segment.share = to_number(reading, *given, bounds::least_share, bounds::most_share, "2").value_or(1);
  if (const Value *given = fields["limits"]) segment.limits = to_limits(reading, *given, segment.kind);
  if (const Value *given = fields["spread"]) segment.spread = to_spread(reading, *given, drawn);
  if (read.kind_known) refuse_unfitting(reading, fields, segment);
  return read;
}

} // namespace gatherwright::cli
