// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/layout/grid.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <tuple>

namespace gatherwright::layout {

namespace {

/// Sizes are sums and products of a few numbers: this many of their roundings is no difference.
constexpr double same = 64 * std::numeric_limits<double>::epsilon();
/// A common unit below this share of the largest size is chance.
constexpr double least_unit = 1e-7;
/// Of the fine unit, so many make up the width: half of one for each of the most rectangles there may be is 3e-10 of
/// it.
constexpr double fine_parts = 0x1p44;
/// Sums of all sizes stay below this.
constexpr double most_ticks = 0x1p60;

/// A size and what its rounding is measured by.
struct Measured {
  double size = 0;
  double by = 0;
};

/// The greatest length of which all sizes are multiples, by Euclid's algorithm in real numbers.
std::optional<Unit> common_unit(const std::vector<Measured> &sizes) {
  double largest = 0;
  for (const Measured &measured : sizes)
    largest = std::max(largest, measured.size);
  double common = largest;
  for (const Measured &measured : sizes)
    for (double size = measured.size; size > largest * least_unit;) {
      const double rest = std::abs(common - std::round(common / size) * size);
      common = size;
      size = rest;
    }
  const Unit unit{largest, std::round(largest / common)};
  const auto multiple = [&](const Measured &measured) {
    const double number = std::round(measured.size / unit.times * unit.over);
    return number >= 1 && std::abs(number * unit.times / unit.over - measured.size) <= same * measured.by;
  };
  if (!std::all_of(sizes.begin(), sizes.end(), multiple)) return std::nullopt;
  return unit;
}

Ticks nearest(double size, const Unit &unit) {
  return std::max<Ticks>(1, std::llround(size / unit.times * unit.over));
}
struct Sizes {
  std::vector<Measured> across; ///< the width among them
  std::vector<Measured> along;
  double total = 0; ///< of all copies, the longer side
};

/// What may turn but does not fit the strip both ways lies the way that fits.
Rectangle as_it_may_lie(Rectangle rectangle, double width) {
  const double most = width * (1 + rounding / 10);
  if (!rectangle.may_turn) return rectangle;
  if (rectangle.across > most) std::swap(rectangle.across, rectangle.along);
  rectangle.may_turn = rectangle.along <= most && rectangle.across != rectangle.along;
  return rectangle;
}

Sizes sizes_of(const std::vector<Rectangle> &rectangles, double width) {
  Sizes sizes{{{width, width}}, {}, width};
  double longest = 0;
  for (const Rectangle &rectangle : rectangles)
    longest = std::max(longest, rectangle.along);
  for (const Rectangle &rectangle : rectangles) {
    sizes.across.push_back({rectangle.across, width});
    sizes.along.push_back({rectangle.along, rectangle.may_turn ? width : longest});
    sizes.total += rectangle.count * std::max(rectangle.across, rectangle.along);
  }
  return sizes;
}

struct Units {
  Unit across;
  Unit along;
  bool exact_across = false;
  bool exact_along = false;
};

std::optional<Unit> found_unit(const std::vector<Measured> &sizes, double total) {
  const auto unit = common_unit(sizes);
  return unit && total / unit->times * unit->over < most_ticks ? unit : std::nullopt;
}

/// One unit for both ways.
std::optional<Units> one_unit(const Sizes &sizes, double width) {
  std::vector<Measured> all = sizes.across;
  all.insert(all.end(), sizes.along.begin(), sizes.along.end());
  if (const auto unit = found_unit(all, sizes.total)) return Units{*unit, *unit, true, true};
  const Unit fine{width, fine_parts};
  if (sizes.total / width * fine_parts < most_ticks) return Units{fine, fine, false, false};
  return std::nullopt;
}

Units two_units(const Sizes &sizes, double width) {
  const auto across = found_unit(sizes.across, sizes.total);
  const auto along = sizes.along.empty() ? std::nullopt : found_unit(sizes.along, sizes.total);
  return {across.value_or(Unit{width, fine_parts}), along.value_or(Unit{sizes.total, most_ticks / 256}),
          across.has_value(), along.has_value()};
}

Strip strip_of(const std::vector<Rectangle> &rectangles, double width, const Units &units) {
  Strip strip;
  strip.width = nearest(width, units.across);
  for (const Rectangle &rectangle : rectangles) {
    Kind kind{std::min(nearest(rectangle.across, units.across), strip.width), nearest(rectangle.along, units.along),
              rectangle.count, rectangle.may_turn};
    if (kind.may_turn) kind.along = std::min(kind.along, strip.width);
    if (kind.across == kind.along) kind.may_turn = false;
    strip.kinds.push_back(kind);
  }
  return strip;
}

/// Equal kinds become one; what may turn lies with its shorter side across.
void merge(Grid &grid) {
  std::vector<Kind> &kinds = grid.strip.kinds;
  std::vector<std::size_t> order(kinds.size());
  for (std::size_t i = 0; i < order.size(); ++i) {
    order[i] = i;
    if (!kinds[i].may_turn || kinds[i].across <= kinds[i].along) continue;
    std::swap(kinds[i].across, kinds[i].along);
    grid.source[i].turned = !grid.source[i].turned;
  }
  const auto key = [&](std::size_t i) { return std::tuple(-kinds[i].along, -kinds[i].across, kinds[i].may_turn); };
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return key(a) < key(b); });
  std::vector<Kind> merged;
  for (std::size_t i = 0; i < order.size(); ++i) {
    if (i > 0 && key(order[i]) == key(order[i - 1]))
      merged.back().count += kinds[order[i]].count;
    else
      merged.push_back(kinds[order[i]]);
    grid.source[order[i]].kind = merged.size() - 1;
  }
  kinds = std::move(merged);
}

} // namespace

Grid on_grid(const Problem &problem) {
  std::vector<Rectangle> rectangles;
  Grid grid;
  bool one = false;
  for (const Rectangle &rectangle : problem.rectangles) {
    rectangles.push_back(as_it_may_lie(rectangle, problem.width));
    grid.source.push_back({0, rectangle.may_turn && rectangles.back().across != rectangle.across});
    one = one || rectangles.back().may_turn;
  }
  const Sizes sizes = sizes_of(rectangles, problem.width);
  const auto for_both = one_unit(sizes, problem.width);
  if (one && !for_both) {
    grid.held = true;
    for (Rectangle &rectangle : rectangles)
      rectangle.may_turn = false;
  }
  const Units units = one && for_both ? *for_both : two_units(sizes, problem.width);
  grid.across = units.across;
  grid.along = units.along;
  const double slack = problem.width * rounding / 10;
  grid.strip = strip_of(rectangles, problem.width + (units.exact_across ? 0 : slack), units);
  if (!units.exact_across) grid.sliver_across = 2 * nearest(slack, units.across);
  if (!units.exact_along) grid.sliver_along = grid.strip.rectangles(); // half a unit each, at most, and as much again
  merge(grid);
  return grid;
}

} // namespace gatherwright::layout
