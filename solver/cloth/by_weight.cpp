// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/by_weight.hpp"

#include <algorithm>
#include <cmath>

namespace gatherwright::cloth {
namespace {

/// Natural logarithms of `row_grams`, which std::log cannot give at compile time.
constexpr WeightColumn log_grams{3.6888794541139363, 4.382026634673881, 4.787491742782046, 5.10594547390058,
                                 5.393627546352362,  5.703782474656201, 5.991464547107982};

double sign(double value) {
  return value < 0 ? -1 : value > 0 ? 1 : 0;
}

} // namespace

CurveOverWeights::CurveOverWeights(const WeightColumn &values) : value_(values) {
  WeightColumn step{};
  WeightColumn secant{};
  for (std::size_t i = 0; i + 1 < weight_rows; ++i) {
    step[i] = log_grams[i + 1] - log_grams[i];
    secant[i] = (value_[i + 1] - value_[i]) / step[i];
  }
  slope_.front() = secant.front();
  slope_.back() = secant[weight_rows - 2];
  for (std::size_t i = 1; i + 1 < weight_rows; ++i) {
    const double parabola = (secant[i - 1] * step[i] + secant[i] * step[i - 1]) / (step[i - 1] + step[i]);
    slope_[i] = (sign(secant[i - 1]) + sign(secant[i])) *
                std::min({std::abs(secant[i - 1]), std::abs(secant[i]), 0.5 * std::abs(parabola)});
  }
}

double CurveOverWeights::at(Weight weight) const {
  if (!(weight.grams > lightest.grams)) return value_.front();
  if (weight.grams >= heaviest.grams) return value_.back();
  const auto above = std::upper_bound(row_grams.begin(), row_grams.end(), weight.grams);
  const std::size_t i = static_cast<std::size_t>(above - row_grams.begin()) - 1;
  if (weight.grams == row_grams[i]) return value_[i];
  const double beyond = std::log(weight.grams) - log_grams[i];
  const double step = log_grams[i + 1] - log_grams[i];
  const double secant = (value_[i + 1] - value_[i]) / step;
  const double square = (3 * secant - 2 * slope_[i] - slope_[i + 1]) / step;
  const double cube = (slope_[i] + slope_[i + 1] - 2 * secant) / (step * step);
  return value_[i] + beyond * (slope_[i] + beyond * (square + beyond * cube));
}

ByWeight by_weight(Weight weight) {
  static const CurveOverWeights least(row_least);
  static const CurveOverWeights ideal(row_ideal);
  static const CurveOverWeights most(row_most);
  static const CurveOverWeights ease_most(row_ease_most);
  return {least.at(weight), ideal.at(weight), most.at(weight), ease_most.at(weight)};
}

} // namespace gatherwright::cloth
