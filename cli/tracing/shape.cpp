// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/tracing/shape.hpp"

#include "cli/tracing/numbers.hpp"
#include "cli/words/quoted.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

namespace gatherwright::tracing {

namespace {

using Shape = Outcome<std::string, DrawingFault>;

DrawingFault fault_of(const Element &element, std::string what, std::string instead) {
  return {element.line, {std::move(what), std::move(instead)}};
}

/// Attributes of an element that are lengths, in its own units; the first fault of any is kept.
class Lengths {
public:
  explicit Lengths(const Element &element) : element_(element) {}

  /// Nothing where it is left out.
  std::optional<double> if_any(std::string_view name) {
    const std::string *given = element_.attribute(name);
    if (!given || *given == "auto") return std::nullopt;
    const auto measure = measure_of(*given);
    if (!measure && !fault_)
      fault_ = fault_of(element_, fmt::format("{}={} is no length that is read", name, cli::quoted(*given)),
                        "a number, or one with px, mm, cm, in, pt or pc");
    return measure ? measure->px : 0;
  }
  double operator()(std::string_view name) { return if_any(name).value_or(0); }

  /// One that something of no extent would have 0 of.
  double extent(std::string_view name) {
    const double length = (*this)(name);
    if (!(length > 0) && !fault_)
      fault_ = fault_of(element_, fmt::format("its {} is not above 0", name), "give it an extent");
    return length;
  }

  const std::optional<DrawingFault> &fault() const { return fault_; }

private:
  const Element &element_;
  std::optional<DrawingFault> fault_;
};

Shape path(const Element &element) {
  const std::string *data = element.attribute("d");
  if (data && data->find_first_not_of(" \t\r\n\f") != std::string::npos) return *data;
  return fault_of(element, "the path is empty", "draw it");
}

Shape line(const Element &element) {
  Lengths lengths(element);
  const std::array at{lengths("x1"), lengths("y1"), lengths("x2"), lengths("y2")};
  if (lengths.fault()) return *lengths.fault();
  return fmt::format("M {} {} L {} {}", at[0], at[1], at[2], at[3]);
}

Shape points(const Element &element) {
  const std::string *given = element.attribute("points");
  const auto numbers = given ? numbers_of(*given) : std::nullopt;
  if (!numbers || numbers->size() < 4 || numbers->size() % 2 != 0)
    return fault_of(element, "its points are not pairs of numbers, two at the least", "points=\"0,0 10,5\"");
  std::string data;
  for (std::size_t i = 0; i < numbers->size(); i += 2)
    data += fmt::format("{} {} {} ", i == 0 ? "M" : "L", (*numbers)[i], (*numbers)[i + 1]);
  if (element.name == "polygon") data += "Z";
  return data;
}

/// With rounded corners as SVG 1.1, 9.2, draws them: from the top, clockwise.
Shape rect(const Element &element) {
  Lengths lengths(element);
  const double x = lengths("x"), y = lengths("y"), width = lengths.extent("width"), height = lengths.extent("height");
  const auto rx_given = lengths.if_any("rx"), ry_given = lengths.if_any("ry");
  if (lengths.fault()) return *lengths.fault();
  const double rx = std::min(rx_given.value_or(ry_given.value_or(0)), width / 2);
  const double ry = std::min(ry_given.value_or(rx_given.value_or(0)), height / 2);
  if (rx < 0 || ry < 0) return fault_of(element, "a corner's radius is below 0", "leave rx and ry out");
  const double right = x + width, below = y + height;
  if (rx == 0 || ry == 0)
    return fmt::format("M {} {} L {} {} L {} {} L {} {} Z", x, y, right, y, right, below, x, below);
  const std::string arc = fmt::format("A {} {} 0 0 1", rx, ry);
  return fmt::format("M {} {} L {} {} {} {} {} L {} {} {} {} {} L {} {} {} {} {} L {} {} {} {} {} Z", x + rx, y, //
                     right - rx, y, arc, right, y + ry,                                                          //
                     right, below - ry, arc, right - rx, below,                                                  //
                     x + rx, below, arc, x, below - ry,                                                          //
                     x, y + ry, arc, x + rx, y);
}

Shape round(const Element &element) {
  const bool circle = element.name == "circle";
  Lengths lengths(element);
  const double x = lengths("cx"), y = lengths("cy");
  const double rx = lengths.extent(circle ? "r" : "rx"), ry = circle ? rx : lengths.extent("ry");
  if (lengths.fault()) return *lengths.fault();
  const std::string arc = fmt::format("A {} {} 0 0 1", rx, ry);
  return fmt::format("M {} {} {} {} {} {} {} {} {} {} {} {} {} {} Z", x + rx, y, //
                     arc, x, y + ry, arc, x - rx, y, arc, x, y - ry, arc, x + rx, y);
}

using Draw = Shape (*)(const Element &);
constexpr std::array<std::pair<std::string_view, Draw>, 7> shapes{{{"path", path},
                                                                   {"line", line},
                                                                   {"polyline", points},
                                                                   {"polygon", points},
                                                                   {"rect", rect},
                                                                   {"circle", round},
                                                                   {"ellipse", round}}};

Draw drawing_of(const Element &element) {
  for (const auto &[name, draw] : shapes)
    if (name == element.name) return draw;
  return nullptr;
}

} // namespace

bool is_line(const Element &element) {
  return drawing_of(element) != nullptr;
}

Shape shape_of(const Element &element) {
  if (const Draw draw = drawing_of(element)) return draw(element);
  const std::string_view name = element.name.empty() ? std::string_view("something else") : element.name;
  return fault_of(element, fmt::format("it is no line but <{}>", name),
                  element.name == "use" ? "make of the copy a line of its own" : "take the id of the line itself");
}

} // namespace gatherwright::tracing
