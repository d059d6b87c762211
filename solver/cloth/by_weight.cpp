// SPDX-License-Identifier: GPL-3.0-or-later
#include "cloth/by_weight.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>

namespace gatherwright::cloth {
namespace {

constexpr std::size_t rows = 7;
using Column = std::array<double, rows>;

constexpr Column grams{40, 80, 120, 165, 220, 300, 400};

/// Natural logarithms of `grams`, which std::log cannot give at compile time.
constexpr Column log_grams{3.6888794541139363, 4.382026634673881, 4.787491742782046, 5.10594547390058,
                           5.393627546352362,  5.703782474656201, 5.991464547107982};

constexpr double magnitude(double value) {
  return value < 0 ? -value : value;
}
constexpr double sign(double value) {
  return value < 0 ? -1 : value > 0 ? 1 : 0;
}

/// A column of the table with the slopes of its curve at the rows.
struct Curve {
  Column value;
  Column slope{};

  constexpr explicit Curve(const Column &values) : value(values) {
    Column step{};
    Column secant{};
    for (std::size_t i = 0; i + 1 < rows; ++i) {
      step[i] = log_grams[i + 1] - log_grams[i];
      secant[i] = (value[i + 1] - value[i]) / step[i];
    }
    slope.front() = secant.front();
    slope.back() = secant[rows - 2];
    for (std::size_t i = 1; i + 1 < rows; ++i) {
      const double parabola = (secant[i - 1] * step[i] + secant[i] * step[i - 1]) / (step[i - 1] + step[i]);
      slope[i] = (sign(secant[i - 1]) + sign(secant[i])) *
                 std::min({magnitude(secant[i - 1]), magnitude(secant[i]), 0.5 * magnitude(parabola)});
    }
  }

  /// At `beyond` past row i on the scale of logarithms.
  double at(std::size_t i, double beyond) const {
    const double step = log_grams[i + 1] - log_grams[i];
    const double secant = (value[i + 1] - value[i]) / step;
    const double square = (3 * secant - 2 * slope[i] - slope[i + 1]) / step;
    const double cube = (slope[i] + slope[i + 1] - 2 * secant) / (step * step);
    return value[i] + beyond * (slope[i] + beyond * (square + beyond * cube));
  }
};

constexpr Curve least{{1.35, 1.28, 1.22, 1.18, 1.15, 1.12, 1.10}};
constexpr Curve ideal{{3.00, 2.60, 2.30, 2.10, 1.80, 1.60, 1.50}};
constexpr Curve most{{4.00, 3.50, 3.00, 2.70, 2.25, 2.00, 1.75}};
constexpr Curve ease_most{{1.02, 1.05, 1.07, 1.08, 1.08, 1.09, 1.10}};

ByWeight row(std::size_t i) {
  return {least.value[i], ideal.value[i], most.value[i], ease_most.value[i]};
}

} // namespace

ByWeight by_weight(Weight weight) {
  if (!(weight.grams > lightest.grams)) return row(0);
  if (weight.grams >= heaviest.grams) return row(rows - 1);
  const auto above = std::upper_bound(grams.begin(), grams.end(), weight.grams);
  const std::size_t i = static_cast<std::size_t>(above - grams.begin()) - 1;
  if (weight.grams == grams[i]) return row(i);
  const double beyond = std::log(weight.grams) - log_grams[i];
  return {least.at(i, beyond), ideal.at(i, beyond), most.at(i, beyond), ease_most.at(i, beyond)};
}

} // namespace gatherwright::cloth
