// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/job/points.hpp"

#include "cli/job/fields.hpp"
#include "cli/job/values.hpp"
#include "cli/words/quoted.hpp"
#include "gatherwright/text.hpp"

#include <fmt/format.h>

#include <cmath>
#include <string>
#include <vector>

namespace gatherwright::cli {

namespace {

constexpr std::string_view such_as = R"(["3 cm", "5.2 cm"])";

/// Unlike a length of cloth it may lie on either side of 0. That the unit of a bare number is the job's is noted as of
/// any length.
std::optional<double> to_coordinate(Reading &reading, const Value &value) {
  if (value.kind != Value::Kind::number && value.kind != Value::Kind::text) {
    refuse_kind(reading, value, "how far along or up it lies, such as \"5.2 cm\" or \"-5.2 cm\"");
    return std::nullopt;
  }
  std::string_view text = value.kind == Value::Kind::text ? trimmed(value.text) : value.text;
  const bool below = text.starts_with('-') || text.starts_with("\xE2\x88\x92"); // a minus sign
  if (below) text = trimmed(text.substr(text.front() == '-' ? 1 : 3));
  const bool number = value.kind == Value::Kind::number;
  if (number || has_no_unit(text)) reading.bare_lengths = true;
  const auto length = number ? length_of(std::abs(number_of(value)), reading.unit) : read_length(text, reading.unit);
  if (!length) {
    reading.fault(value, length.fault());
    return std::nullopt;
  }
  if (length->mm <= farthest_point.mm) return below ? -length->mm : length->mm;
  reading.fault(value, {"a point lies further off than 1 km", "is the unit right?"});
  return std::nullopt;
}

std::optional<MeasuredPoint> to_point(Reading &reading, const Value &value) {
  const Value *at = &value;
  MeasuredPoint point;
  if (value.kind == Value::Kind::object) {
    static constexpr std::string_view keys[] = {"at", "corner"};
    const Fields fields(reading, value, "a point", keys);
    at = fields.required("at", fmt::format("write where it is: \"at\": {}", such_as));
    if (const Value *corner = fields["corner"]) point.corner = to_truth(reading, *corner).value_or(false);
    if (!at) return std::nullopt;
  }
  if (!is_list_of(reading, *at, 2, fmt::format("how far along and how far up a point lies, such as {}", such_as)))
    return std::nullopt;
  std::array<std::optional<double>, 2> found;
  std::size_t i = 0;
  for (const Value &each : reading.document.children(*at))
    found[i++] = to_coordinate(reading, each);
  if (!found[0] || !found[1]) return std::nullopt;
  point.x = *found[0];
  point.y = *found[1];
  return point;
}

} // namespace

std::optional<LineThrough> to_line_through(Reading &reading, const Value &points, bool closed) {
  if (points.kind != Value::Kind::list) {
    refuse_kind(reading, points, fmt::format("a list of points such as [[\"0 cm\", \"0 cm\"], {}]", such_as));
    return std::nullopt;
  }
  std::vector<MeasuredPoint> read;
  bool sound = true;
  for (const Value &each : reading.document.children(points)) {
    if (reading.faults.full()) return std::nullopt;
    const auto point = to_point(reading, each);
    if (point && !read.empty() && sound && point->x == read.back().x && point->y == read.back().y) {
      reading.fault(each, {"this point is the one before it again", "leave one of the two out"});
      sound = false;
    }
    sound = sound && point;
    if (point) read.push_back(*point);
  }
  if (!sound) return std::nullopt;
  const std::size_t least = closed ? 3 : 2;
  if (read.size() < least) {
    reading.fault(points, {fmt::format("a line through {} point{}", read.size(), read.size() == 1 ? "" : "s"),
                           closed ? "measure at least three of a closed line" : "measure at least two"});
    return std::nullopt;
  }
  if (closed && read.front().x == read.back().x && read.front().y == read.back().y) {
    reading.fault(points,
                  {"the last point is the first again", "leave it out: a closed join's line returns by itself"});
    return std::nullopt;
  }
  return line_through(read, closed);
}

} // namespace gatherwright::cli
