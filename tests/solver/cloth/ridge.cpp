// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/cloth/ridge.hpp"

#include <catch2/catch.hpp>
#include <gsl/gsl_sf_ellint.h>

#include <array>
#include <cmath>
#include <limits>
#include <numbers>
#include <random>

using namespace gatherwright::cloth;

namespace {

// GSL's elliptic integrals are good to 1e-15 relative; the formulas below lose a digit by cancellation.
constexpr double agreement = 1e-13;

double first(double modulus) {
  return gsl_sf_ellint_Kcomp(modulus, GSL_PREC_DOUBLE);
}
double second(double modulus) {
  return gsl_sf_ellint_Ecomp(modulus, GSL_PREC_DOUBLE);
}

/// (2 x_K - x_s) / K by GSL's incomplete integrals: the ratio of thickness to stitch at which folds touch at this
/// modulus.
double ratio_at_touch(double modulus) {
  const double angle = std::asin(std::min(1.0, 1 / (modulus * std::numbers::sqrt2)));
  const double widest =
      2 * gsl_sf_ellint_E(angle, modulus, GSL_PREC_DOUBLE) - gsl_sf_ellint_F(angle, modulus, GSL_PREC_DOUBLE);
  return (2 * (2 * second(modulus) - first(modulus)) - widest) / first(modulus);
}

struct Strip {
  double span = 0;   ///< hole to hole
  double height = 0; ///< above the holes
  double widest = 0; ///< furthest it goes past its own hole
};

/// The elastica of a modulus by Runge and Kutta's rule on theta'' = -sin theta, one arc between holes, in arcs of one
/// stitch.
Strip drawn(double modulus) {
  constexpr int steps = 4000;
  const double arc = 2 * first(modulus);
  const double h = arc / steps;
  std::array<double, 4> state{2 * std::asin(modulus), 0, 0, 0}; // theta, its slope, x, y
  const auto slope = [](const std::array<double, 4> &at) {
    return std::array<double, 4>{at[1], -std::sin(at[0]), std::cos(at[0]), std::sin(at[0])};
  };
  const auto moved = [](const std::array<double, 4> &at, const std::array<double, 4> &by, double step) {
    std::array<double, 4> to = at;
    for (std::size_t i = 0; i < to.size(); ++i)
      to[i] += step * by[i];
    return to;
  };
  Strip strip;
  for (int step = 0; step < steps; ++step) {
    const auto a = slope(state);
    const auto b = slope(moved(state, a, h / 2));
    const auto c = slope(moved(state, b, h / 2));
    const auto d = slope(moved(state, c, h));
    for (std::size_t i = 0; i < state.size(); ++i)
      state[i] += h / 6 * (a[i] + 2 * b[i] + 2 * c[i] + d[i]);
    strip.height = std::max(strip.height, state[3] / arc);
    strip.widest = std::max(strip.widest, -state[2] / arc);
  }
  strip.span = state[2] / arc;
  return strip;
}

} // namespace

// Digits of an independent 30-digit computation.
TEST_CASE("the elastica has the modulus and height of a 30-digit computation") {
  constexpr struct {
    double fullness;
    double modulus;
    double height;
  } rows[] = {
      {1.05, 0.21755957866770863433, 0.13683892746689556395}, {1.5, 0.56403428644439086185, 0.32704261074839927651},
      {2, 0.68118266652504401584, 0.37330642744520915268},    {2.5, 0.7392103507271742385, 0.38997185124340811619},
      {3, 0.773939574812121855, 0.39720376192652485518},      {4, 0.81344593341174782623, 0.40220464094487431346},
      {6, 0.84897377961926270859, 0.40290129997307695829}};
  for (const auto &row : rows) {
    CHECK(elastica_modulus(row.fullness) == Approx(row.modulus).epsilon(1e-14).margin(0));
    CHECK(elastica_height(row.modulus) == Approx(row.height).epsilon(1e-14).margin(0));
  }
  // Given to 1e-9: the strip stands upright at its holes at k = 1 / sqrt 2.
  CHECK(elastica_modulus(2.1884396152) == Approx(1 / std::numbers::sqrt2).epsilon(1e-10));
  CHECK(elastica_height(1 / std::numbers::sqrt2) == Approx(0.3813798818).epsilon(1e-9));
}

TEST_CASE("the modulus solves the elastica by GSL's elliptic integrals") {
  for (double fullness = 1.0005; fullness < 60; fullness *= 1.003) {
    const double modulus = elastica_modulus(fullness);
    const double spanned = 2 * second(modulus) / first(modulus) - 1;
    REQUIRE(std::abs(spanned - 1 / fullness) < agreement);
    REQUIRE(elastica_height(modulus) == Approx(modulus / first(modulus)).epsilon(agreement));
  }
}

TEST_CASE("a strip bent step by step spans and stands as the elastica does") {
  for (const double fullness : {1.05, 1.5, 2.0, 3.0, 5.0}) {
    const double modulus = elastica_modulus(fullness);
    const Strip strip = drawn(modulus);
    // Runge and Kutta's rule at 4000 steps errs by some 1e-12; the crest falls on a step, since the strip is symmetric.
    CHECK(strip.span == Approx(1 / fullness).epsilon(1e-10));
    CHECK(strip.height == Approx(elastica_height(modulus)).epsilon(1e-10));
  }
}

TEST_CASE("shallow gathers stand two over pi times the root of the extra") {
  for (const double extra : {1e-4, 1e-6, 1e-9, 1e-12}) {
    const double height = ridge(1 + extra, 1, 0.05).height;
    // The next term is some extra / 2 of the first, and 1 + extra keeps the extra to 1e-16.
    CHECK(height == Approx(2 / std::numbers::pi * std::sqrt(extra)).epsilon(extra + 1e-16 / extra));
  }
  CHECK(ridge(1, 4, 0.3).height == 0);
  CHECK(ridge(0.5, 4, 0.3).height == 0);
}

// Digits of an independent 30-digit computation.
TEST_CASE("folds touch at the fullness of a 30-digit computation") {
  constexpr struct {
    double ratio;
    double fullness;
  } rows[] = {{.0001, 6.6046451753186242008}, {.05, 5.5079443078422205473},  {.1, 4.714267394577257096},
              {.15, 4.1131708182204176992},   {.2, 3.6409415544938868381},   {.25, 3.2588060007878215715},
              {.3, 2.9415994245480056868},    {.35, 2.6718727712208473492},  {.4, 2.4361662077189545257},
              {.45, 2.219505074106097331},    {.4569, 2.1886610970662399025}};
  for (const auto &row : rows)
    CHECK(touching_fullness(row.ratio) == Approx(row.fullness).epsilon(1e-12).margin(0));
  // A cloth of no thickness touches itself.
  CHECK(touching_fullness(0) == Approx(6.6072677512).epsilon(1e-10));
  CHECK(elastica_modulus(touching_fullness(0)) == Approx(0.855092407720).epsilon(1e-11));
}

TEST_CASE("the touch solves its equation by GSL's incomplete integrals, and comes sooner for thicker cloth") {
  double before = std::numeric_limits<double>::infinity();
  for (double ratio = 1e-4; ratio < thickest_folding; ratio += 2e-4) {
    const double touch = touching_fullness(ratio);
    REQUIRE(ratio_at_touch(elastica_modulus(touch)) == Approx(ratio).margin(1e-12).epsilon(0));
    REQUIRE(touch < before);
    before = touch;
  }
}

TEST_CASE("at the touch the widest of a strip bent step by step meets its neighbour's, a thickness apart") {
  for (const double ratio : {0.05, 0.2, 0.35}) {
    const double touch = touching_fullness(ratio);
    const Strip strip = drawn(elastica_modulus(touch));
    // Neighbours bend to opposite sides of the seam, so every second fold is a neighbour: free between them is a span,
    // less what both go past their holes. The widest lies between steps: 1 / 4000 of the arc off at the most, squared.
    const double free = strip.span - 2 * strip.widest;
    CHECK(free == Approx(ratio).margin(1e-6));
  }
}

TEST_CASE("thick cloth touches at its closest packing") {
  CHECK(touching_fullness(0.5) == Approx(4 / 3.0).epsilon(1e-15));
  CHECK(touching_fullness(0.66) == Approx(2 / 1.98).epsilon(1e-15));
  CHECK(touching_fullness(0.7) == 1);
  CHECK(touching_fullness(1e300) == 1);
}

TEST_CASE("gathers stand no higher once their folds press on each other") {
  const double touch = touching_fullness(0.3 / 3);
  const Ridge below = ridge(touch * (1 - 1e-9), 3, 0.3);
  const Ridge beyond = ridge(touch + 2, 3, 0.3);
  CHECK_FALSE(below.folds_press);
  CHECK(beyond.folds_press);
  CHECK(beyond.touch == touch);
  CHECK(beyond.height == Approx(below.height).epsilon(1e-8));
  CHECK(ridge(3, 4, 3).folds_press);
  CHECK(ridge(3, 4, 3).height == 0);
}

// Figures of worked plans, computed from the method by a separate program in another language.
TEST_CASE("the ridges of worked plans come out") {
  const double linen = 165 / 500.0;
  CHECK(ridge(2.1081081081081106, 4, linen).height == Approx(1.5131359418778373).epsilon(1e-12));
  CHECK(ridge(1.9269662921348292, 4, linen).height == Approx(1.4771862247691625).epsilon(1e-12));
  CHECK(ridge(2.275563258232235, 4, 120 / 500.0).height == Approx(1.5370623150648371).epsilon(1e-12));
  CHECK(ridge(2.9499999999999993, 2.5, 80 / 500.0).height == Approx(0.9917616709940115).epsilon(1e-12));
  CHECK(ridge(2.5093749999999906, 4, 150 / 500.0).height == Approx(0.0614435722601847 * 25.4).epsilon(1e-12));
  CHECK(ridge(2.761904761904762, 3, 2 / 3.0 * 4 * 34 / 300).height == Approx(1.1833460171350234).epsilon(1e-12));
}

TEST_CASE("ridges of one plan are each what they are alone, whichever came before") {
  std::mt19937_64 random(12);
  Ridges ridges;
  for (int i = 0; i < 2000; ++i) {
    const double fullness = std::uniform_real_distribution<double>(1, 6)(random);
    const double stitch = std::array{2.5, 4.0, 6.0}[random() % 3];
    const double thickness = std::array{0.24, 0.33, 0.8, 2.9}[random() % 4];
    const Ridge alone = ridge(fullness, stitch, thickness);
    for (const Ridge &one : {ridges.of(fullness, stitch, thickness), ridges.of(fullness, stitch, thickness)}) {
      CHECK(one.height == alone.height);
      CHECK(one.folds_press == alone.folds_press);
      CHECK(one.touch == alone.touch);
    }
  }
}
