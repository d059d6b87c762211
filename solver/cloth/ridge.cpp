// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/cloth/ridge.hpp"

#include <algorithm>
#include <cmath>
#include <gsl/gsl_sf_ellint.h>
#include <numbers>

namespace gatherwright::cloth {
namespace {

// GSL's elliptic integrals in Carlson's forms, in which nothing cancels where the modulus is small. All arguments here
// lie within their domain, so that GSL's error handler is never called.

/// R_F(x, y, z)
double first_form(double x, double y, double z) {
  gsl_sf_result result;
  gsl_sf_ellint_RF_e(x, y, z, GSL_PREC_DOUBLE, &result);
  return result.val;
}

/// R_D(x, y, z)
double second_form(double x, double y, double z) {
  gsl_sf_result result;
  gsl_sf_ellint_RD_e(x, y, z, GSL_PREC_DOUBLE, &result);
  return result.val;
}

/// Complete elliptic integrals at a parameter m = k^2, 0 <= m < 1.
struct Complete {
  double first;    ///< K
  double takes_up; ///< 2 (1 - E / K), which is 1 - 1 / R
};

Complete complete_integrals(double m) {
  const double first = first_form(0, 1 - m, 1);
  return {first, 2 * m * second_form(0, 1 - m, 1) / (3 * first)};
}

/// d takes_up / dm.
double slope_of_take_up(double m, double takes_up) {
  const double beyond = m - 0.5 * takes_up; // E / K - (1 - m)
  return 1 + beyond * beyond / (m * (1 - m));
}

/// The parameter m at which the elastica takes up `takes_up` of its arc, 0 < takes_up <= 1.
double parameter(double takes_up) {
  // A fit good to 2e-4, which two of Newton's steps bring to the last digits; four are the most it can take.
  double m = takes_up * (1 - takes_up * (0.1285 + takes_up * (0.0163 + takes_up * 0.029)));
  for (int step = 0; step < 4; ++step) {
    const double found = complete_integrals(m).takes_up;
    const double change = (takes_up - found) / slope_of_take_up(m, found);
    m += change;
    if (std::abs(change) < 1e-9 * m) break; // squared by the next step: beyond the last digit
  }
  return m;
}

/// Incomplete integrals at sin phi = 1 / (k sqrt 2), where the elastica stands upright, divided by sin phi. There
/// k^2 sin^2 phi is 1/2, so that they are R_F and R_D of cos^2 phi, 1/2 and 1.
struct Upright {
  double first;  ///< F / sin phi = R_F
  double second; ///< E / sin phi = R_F - R_D / 6
};

Upright upright_integrals(double cosine_squared) {
  const double first = first_form(cosine_squared, 0.5, 1);
  return {first, first - second_form(cosine_squared, 0.5, 1) / 6};
}

/// What is free between neighbouring folds at the touch, (2 x_K - x_s) / K in arcs of one stitch, and its slope over k.
struct Clearance {
  double value;
  double slope;
};

Clearance clearance(double k) {
  const double m = k * k;
  const double rest = 1 - m;
  const Complete complete = complete_integrals(m);
  const double K = complete.first;
  const double ratio = 1 - 0.5 * complete.takes_up; // E / K
  const double sine = std::min(1.0, 1 / (k * std::numbers::sqrt2));
  const double cosine_squared = std::max(0.0, 1 - 1 / (2 * m));
  const Upright upright = upright_integrals(cosine_squared);
  const double F = sine * upright.first;
  const double E = sine * upright.second;
  const double widest = 2 * E - F; // x_s

  // Upright, x_s does not change with phi, so only k moves it (delta there is 1 / sqrt 2).
  const double slope_F = E / (k * rest) - F / k - k * sine * std::sqrt(cosine_squared) * std::numbers::sqrt2 / rest;
  const double slope_widest = 2 * (E - F) / k - slope_F;
  const double slope_K = K * (ratio - rest) / (k * rest);
  const double slope_take_up = slope_of_take_up(m, complete.takes_up) * 2 * k;
  return {2 * (1 - complete.takes_up) - widest / K, -2 * slope_take_up - slope_widest / K + widest * slope_K / (K * K)};
}

/// The modulus at which folds touch, for 0 <= ratio <= thickest_folding.
double touching_modulus(double ratio) {
  constexpr double upright_at_the_foot = 1 / std::numbers::sqrt2; // at thickest_folding
  constexpr double touching_at_nothing = 0.85509240772038269;     // at 0; the figure only bounds the search
  double low = upright_at_the_foot;
  double high = touching_at_nothing + 1e-12;
  // A fit good to 1e-3. The clearance falls with k; its slope is steep at `low`, like the root of k - low, hence the
  // bracket.
  double k = 0.8549 - ratio * (0.2259 + ratio * (0.2681 + ratio * (-0.5935 + ratio * 1.0257)));
  for (int step = 0; step < 60; ++step) {
    k = k > low && k < high ? k : 0.5 * (low + high);
    const Clearance at = clearance(k);
    const double excess = at.value - ratio;
    (excess > 0 ? low : high) = k;
    const double change = excess / at.slope;
    k -= change;
    // The order of convergence is at least 3/2, so the error left is below 1e-13.
    if (std::abs(change) < 1e-9) break;
  }
  return std::clamp(k, upright_at_the_foot, touching_at_nothing);
}

} // namespace

double elastica_modulus(double fullness) {
  return fullness > 1 ? std::sqrt(parameter((fullness - 1) / fullness)) : 0;
}

double elastica_height(double modulus) {
  return modulus / first_form(0, 1 - modulus * modulus, 1);
}

double touching_fullness(double ratio) {
  if (ratio > thickest_folding) return std::max(1.0, 2 / (3 * ratio));
  const double k = touching_modulus(ratio);
  return 1 / (1 - complete_integrals(k * k).takes_up);
}

Ridge Ridges::reckoned(double fullness, double stitch, double thickness) {
  // Folds that touch grow wider than their feet first, at k = 1 / sqrt 2, a fullness of 2.18844.
  constexpr double never_touching = 2.1884;
  const double ratio = thickness / stitch;
  if (fullness <= never_touching && ratio <= thickest_folding)
    return {stitch * elastica_height(elastica_modulus(fullness)), false, 0};
  if (!last_touch_ || last_touch_->ratio != ratio) last_touch_ = {ratio, touching_fullness(ratio)};
  const double touch = last_touch_->fullness;
  const bool press = fullness > touch;
  return {stitch * elastica_height(elastica_modulus(press ? touch : fullness)), press, press ? touch : 0};
}

Ridge Ridges::of(double fullness, double stitch, double thickness) {
  const std::array asked{fullness, stitch, thickness};
  if (!last_ || last_->asked != asked) last_ = {asked, reckoned(fullness, stitch, thickness)};
  return last_->ridge;
}

Ridge ridge(double fullness, double stitch, double thickness) {
  return Ridges().of(fullness, stitch, thickness);
}

} // namespace gatherwright::cloth
