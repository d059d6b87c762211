// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/tracing/placing.hpp"

#include "cli/tracing/numbers.hpp"
#include "cli/words/quoted.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <vector>

namespace gatherwright::tracing {

namespace {

using cli::quoted;

constexpr double mm_of_px = 25.4 / 96;
constexpr std::string_view blanks = " \t\r\n\f";

std::optional<AffineMap> rotation(const std::vector<double> &by) {
  if (by.size() != 1 && by.size() != 3) return std::nullopt;
  const double quarters = by[0] / 90;
  const double angle = by[0] * std::numbers::pi / 180;
  double sine = std::sin(angle), cosine = std::cos(angle);
  // Quarter turns are exact.
  if (quarters == std::floor(quarters)) {
    sine = std::round(sine);
    cosine = std::round(cosine);
  }
  const AffineMap turned{cosine, sine, -sine, cosine, 0, 0};
  if (by.size() == 1) return turned;
  return AffineMap{1, 0, 0, 1, by[1], by[2]} * turned * AffineMap{1, 0, 0, 1, -by[1], -by[2]};
}

std::optional<AffineMap> one_transform(std::string_view name, const std::vector<double> &by) {
  const auto tangent = [&] { return std::tan(by[0] * std::numbers::pi / 180); };
  const bool one_or_two = by.size() == 1 || by.size() == 2;
  if (name == "matrix" && by.size() == 6) return AffineMap{by[0], by[1], by[2], by[3], by[4], by[5]};
  if (name == "translate" && one_or_two) return AffineMap{1, 0, 0, 1, by[0], by.size() == 2 ? by[1] : 0};
  if (name == "scale" && one_or_two) return AffineMap{by[0], 0, 0, by.back(), 0, 0};
  if (name == "rotate") return rotation(by);
  if (name == "skewX" && by.size() == 1) return AffineMap{1, 0, tangent(), 1, 0, 0};
  if (name == "skewY" && by.size() == 1) return AffineMap{1, tangent(), 0, 1, 0, 0};
  return std::nullopt;
}

struct Size {
  double width = 0;
  double height = 0;
};

Outcome<Size, DrawingFault> paper_of(const Element &svg) {
  std::array<double, 2> mm{};
  constexpr std::array<std::string_view, 2> names{"width", "height"};
  for (std::size_t i = 0; i < 2; ++i) {
    const std::string *given = svg.attribute(names[i]);
    const auto measure = given ? measure_of(*given) : std::nullopt;
    const std::string instead = "give its <svg> a width and a height in a unit, such as width=\"200mm\" "
                                "height=\"300mm\": most programs ask for them as the size of the page";
    if (!measure || !measure->has_unit)
      return DrawingFault{svg.line,
                          {given
                               ? "the drawing has no real size: its " + std::string(names[i]) + " is " + quoted(*given)
                               : "the drawing has no real size: its <svg> has no " + std::string(names[i]),
                           instead}};
    mm[i] = measure->px * mm_of_px;
    if (!(mm[i] > 0))
      return DrawingFault{svg.line, {"the drawing has a " + std::string(names[i]) + " of nothing", instead}};
  }
  return Size{mm[0], mm[1]};
}

/// Where the drawing goes in what is left over beside it, as shares of that, and how it is fitted.
struct Fit {
  bool stretched = false; ///< each way by itself
  bool sliced = false;    ///< as large as covers, else as goes in
  std::array<double, 2> at{0.5, 0.5};
};

std::vector<std::string_view> words_of(std::string_view text) {
  std::vector<std::string_view> words;
  for (std::size_t at = text.find_first_not_of(blanks); at != std::string_view::npos;) {
    const std::size_t end = std::min(text.find_first_of(blanks, at), text.size());
    words.push_back(text.substr(at, end - at));
    at = text.find_first_not_of(blanks, end);
  }
  return words;
}

std::optional<double> share_of(std::string_view word) {
  if (word == "Min") return 0;
  if (word == "Mid") return 0.5;
  if (word == "Max") return 1;
  return std::nullopt;
}

std::optional<Fit> fit_of(const Element &svg) {
  const std::string *given = svg.attribute("preserveAspectRatio");
  if (!given) return Fit{};
  std::vector<std::string_view> words = words_of(*given);
  if (!words.empty() && words.front() == "defer") words.erase(words.begin());
  if (words.empty() || words.size() > 2) return std::nullopt;
  Fit fit;
  if (words.size() == 2) {
    if (words[1] != "meet" && words[1] != "slice") return std::nullopt;
    fit.sliced = words[1] == "slice";
  }
  fit.stretched = words[0] == "none";
  if (fit.stretched) return fit;
  if (words[0].size() != 8 || words[0][0] != 'x' || words[0][4] != 'Y') return std::nullopt;
  const auto x = share_of(words[0].substr(1, 3)), y = share_of(words[0].substr(5, 3));
  if (!x || !y) return std::nullopt;
  fit.at = {*x, *y};
  return fit;
}

AffineMap fitted(const Size &paper, const std::vector<double> &box, const Fit &fit) {
  double across = paper.width / box[2], down = paper.height / box[3];
  if (!fit.stretched) across = down = fit.sliced ? std::max(across, down) : std::min(across, down);
  return {across,
          0,
          0,
          down,
          fit.at[0] * (fit.stretched ? 0 : paper.width - across * box[2]) - across * box[0],
          fit.at[1] * (fit.stretched ? 0 : paper.height - down * box[3]) - down * box[1]};
}

/// Whether a style has this property, by its name alone.
bool has_property(std::string_view style, std::string_view name) {
  for (std::size_t at = 0; at < style.size();) {
    const std::size_t end = std::min(style.find(';', at), style.size());
    const std::string_view one = style.substr(at, end - at);
    const std::string_view key = one.substr(0, std::min(one.find(':'), one.size()));
    const auto words = words_of(key);
    if (words.size() == 1 && words.front() == name) return true;
    at = end + 1;
  }
  return false;
}

std::optional<Fault> placed_by_style(const Element &element) {
  static constexpr std::array<std::string_view, 7> names{"transform", "transform-origin", "translate",    "rotate",
                                                         "scale",     "offset-path",      "transform-box"};
  const std::string *style = element.attribute("style");
  for (const std::string_view name : names)
    if ((style && has_property(*style, name)) || (name != "transform" && element.attribute(name)))
      if (!(name == "rotate" || name == "scale" || name == "translate") || (style && has_property(*style, name)))
        return Fault{"its place is set by the style " + quoted(name) + ", which is not read",
                     "write it as transform=\"...\", or let the program that drew it do so"};
  return std::nullopt;
}

Outcome<AffineMap, DrawingFault> own_map(const Element &element) {
  if (auto fault = placed_by_style(element)) return DrawingFault{element.line, *std::move(fault)};
  const std::string *given = element.attribute("transform");
  if (!given) return AffineMap{};
  const auto map = transform_of(*given);
  if (map) return *map;
  return DrawingFault{
      element.line,
      {"the transform " + quoted(*given) + " is none", "write such as transform=\"translate(10, 20) rotate(30)\""}};
}

} // namespace

std::optional<AffineMap> transform_of(std::string_view text) {
  Numbers left(text);
  AffineMap whole;
  while (!left.at_end()) {
    const std::string_view name = left.word();
    if (!left.pass('(')) return std::nullopt;
    std::vector<double> by;
    while (!left.pass(')')) {
      const auto number = left.next();
      if (!number) return std::nullopt;
      by.push_back(*number);
    }
    const auto one = one_transform(name, by);
    if (!one) return std::nullopt;
    whole = whole * *one;
    if (left.pass(',') && left.at_end()) return std::nullopt;
  }
  return whole;
}

Outcome<AffineMap, DrawingFault> size_of(const Element &svg) {
  const auto paper = paper_of(svg);
  if (!paper) return paper.fault();
  const std::string *given = svg.attribute("viewBox");
  if (!given) return AffineMap{mm_of_px, 0, 0, mm_of_px, 0, 0};
  const auto box = numbers_of(*given);
  if (!box || box->size() != 4 || !((*box)[2] > 0 && (*box)[3] > 0))
    return DrawingFault{svg.line,
                        {"the viewBox " + quoted(*given) + " is none", "write such as viewBox=\"0 0 200 300\""}};
  const auto fit = fit_of(svg);
  if (!fit)
    return DrawingFault{svg.line,
                        {"the preserveAspectRatio " + quoted(*svg.attribute("preserveAspectRatio")) + " is none",
                         "leave it out, or write such as \"xMidYMid meet\" or \"none\""}};
  return fitted(*paper, *box, *fit);
}

Outcome<AffineMap, DrawingFault> placing_of(const Elements &elements, const Element &element) {
  AffineMap map;
  const Element *at = &element;
  for (; at->parent; at = &elements[*at->parent]) {
    const bool holds_lines = at->name == "g" || at->name == "a" || at->name == "switch";
    if (at != &element && !holds_lines)
      return DrawingFault{element.line,
                          {"it stands in " + (at->name.empty() ? "what is not SVG's" : "<" + at->name + ">") +
                               " (line " + std::to_string(at->line) + "), and is not drawn as it stands",
                           "let the line stand by itself or in groups"}};
    const auto own = own_map(*at);
    if (!own) return own.fault();
    map = *own * map;
  }
  if (at->attribute("transform") || placed_by_style(*at))
    return DrawingFault{at->line, {"the <svg> itself has a transform, which is not read", "put it on a group within"}};
  const auto size = size_of(*at);
  if (!size) return size.fault();
  return *size * map;
}

} // namespace gatherwright::tracing
