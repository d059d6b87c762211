// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/by_weight.hpp"

#include <catch2/catch.hpp>
#include <gsl/gsl_interp.h>

#include <array>
#include <cmath>
#include <memory>

using namespace gatherwright;
using namespace gatherwright::cloth;

namespace {

// The table as the method states it (common practice, no source; the tie to weights our model).
constexpr std::size_t rows = 7;
constexpr std::array<double, rows> grams{40, 80, 120, 165, 220, 300, 400};
constexpr std::array<double, rows> least{1.35, 1.28, 1.22, 1.18, 1.15, 1.12, 1.10};
constexpr std::array<double, rows> ideal{3.00, 2.60, 2.30, 2.10, 1.80, 1.60, 1.50};
constexpr std::array<double, rows> most{4.00, 3.50, 3.00, 2.70, 2.25, 2.00, 1.90};
constexpr std::array<double, rows> ease_most{1.02, 1.05, 1.07, 1.08, 1.08, 1.09, 1.10};

/// GSL's own Steffen interpolation of a column over the logarithm of the weight.
class Column {
public:
  explicit Column(const std::array<double, rows> &values)
      : values_(values), curve_(gsl_interp_alloc(gsl_interp_steffen, rows), &gsl_interp_free) {
    for (std::size_t i = 0; i < rows; ++i)
      logs_[i] = std::log(grams[i]);
    gsl_interp_init(curve_.get(), logs_.data(), values_.data(), rows);
  }

  double at(double weight) const {
    return gsl_interp_eval(curve_.get(), logs_.data(), values_.data(), std::log(weight), nullptr);
  }

private:
  std::array<double, rows> values_;
  std::array<double, rows> logs_{};
  std::unique_ptr<gsl_interp, decltype(&gsl_interp_free)> curve_;
};

// Four operations of magnitudes up to 10 on values up to 4: some 16 units in the last place of 4.
constexpr double agreement = 2e-14;

} // namespace

TEST_CASE("the table over weights is met exactly at its rows") {
  for (std::size_t i = 0; i < rows; ++i) {
    const ByWeight found = by_weight(Weight{grams[i]});
    CHECK(found.least == least[i]);
    CHECK(found.ideal == ideal[i]);
    CHECK(found.most == most[i]);
    CHECK(found.ease_most == ease_most[i]);
  }
}

TEST_CASE("limits between the rows are those of GSL's Steffen interpolation in the logarithm of the weight") {
  const Column columns[] = {Column(least), Column(ideal), Column(most), Column(ease_most)};
  for (int i = 1; i < 3600; ++i) {
    const double weight = 40 + 0.1 * i;
    const ByWeight found = by_weight(Weight{weight});
    REQUIRE(std::abs(found.least - columns[0].at(weight)) < agreement);
    REQUIRE(std::abs(found.ideal - columns[1].at(weight)) < agreement);
    REQUIRE(std::abs(found.most - columns[2].at(weight)) < agreement);
    REQUIRE(std::abs(found.ease_most - columns[3].at(weight)) < agreement);
  }
}

TEST_CASE("beyond the table the limits stay as at its ends") {
  for (const double weight : {1e-300, 5.0, 39.999}) {
    CHECK(by_weight(Weight{weight}).most == 4.0);
    CHECK(by_weight(Weight{weight}).ease_most == 1.02);
  }
  for (const double weight : {400.001, 900.0, 1e300}) {
    CHECK(by_weight(Weight{weight}).most == 1.90);
    CHECK(by_weight(Weight{weight}).ease_most == 1.10);
  }
}

TEST_CASE("a heavier cloth never takes more fullness, nor less ease") {
  ByWeight lighter = by_weight(Weight{40});
  for (int i = 1; i <= 3600; ++i) {
    const ByWeight heavier = by_weight(Weight{40 + 0.1 * i});
    // Rounding alone may turn a level curve by a unit in the last place.
    REQUIRE(heavier.least <= lighter.least + 1e-15);
    REQUIRE(heavier.ideal <= lighter.ideal + 1e-15);
    REQUIRE(heavier.most <= lighter.most + 1e-15);
    REQUIRE(heavier.ease_most >= lighter.ease_most - 1e-15);
    lighter = heavier;
  }
}
