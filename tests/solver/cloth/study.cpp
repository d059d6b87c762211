// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/study.hpp"

#include "gatherwright/limits.hpp"

#include <catch2/catch.hpp>
#include <gsl/gsl_interp.h>

#include <array>
#include <cmath>
#include <memory>
#include <random>

// Every cloth here is invented.

using namespace gatherwright;
using namespace gatherwright::cloth;

namespace {

StudiedCloth of_weight(double grams) {
  StudiedCloth cloth;
  cloth.fabric.weight = Weight{grams};
  return cloth;
}

WeightColumn with_extra(WeightColumn column, double times) {
  for (double &figure : column)
    figure = 1 + (figure - 1) * times;
  return column;
}

/// The sum that the fit makes least, written out from its definition, with a straight line between rows by GSL.
double sum_of_squares(const WeightColumn &now, const WeightColumn &tried, std::span<const StudiedCloth> cloths) {
  WeightColumn logs{};
  WeightColumn moved{};
  double sum = 0;
  for (std::size_t i = 0; i < weight_rows; ++i) {
    logs[i] = std::log(row_grams[i]);
    moved[i] = std::log((tried[i] - 1) / (now[i] - 1));
    sum += moved[i] * moved[i] / (table_spread * table_spread);
  }
  const std::unique_ptr<gsl_interp, decltype(&gsl_interp_free)> line(gsl_interp_alloc(gsl_interp_linear, weight_rows),
                                                                     &gsl_interp_free);
  gsl_interp_init(line.get(), logs.data(), moved.data(), weight_rows);
  const CurveOverWeights curve(now);
  for (const StudiedCloth &cloth : cloths) {
    double mean = 0;
    for (const double figure : cloth.most)
      mean += std::log(figure - 1) / static_cast<double>(cloth.most.size());
    const double factor = thickness_factor(cloth.fabric) * bending_factor(cloth.fabric);
    const Weight weight = *cloth.fabric.weight;
    const double off = mean - std::log((curve.at(weight) - 1) * factor) -
                       gsl_interp_eval(line.get(), logs.data(), moved.data(), std::log(weight.grams), nullptr);
    sum += off * off / (cloth_spread * cloth_spread);
  }
  return sum;
}

std::vector<StudiedCloth> invented(unsigned seed) {
  std::mt19937_64 random(seed);
  std::uniform_real_distribution<double> part(0, 1);
  std::vector<StudiedCloth> cloths;
  for (int i = 0; i < 12; ++i) {
    StudiedCloth cloth = of_weight(40 * std::pow(10, part(random)));
    if (part(random) < 0.5) cloth.fabric.thickness = Length{cloth.fabric.weight->grams / 500 * (0.7 + part(random))};
    if (part(random) < 0.5) cloth.fabric.bending_length = Length{12 + 20 * part(random)};
    for (int person = 0; person < 3; ++person)
      cloth.most.push_back(1.5 + 2 * part(random));
    cloths.push_back(cloth);
  }
  return cloths;
}

} // namespace

TEST_CASE("a study of nothing leaves the table as it is, known as well as it was thought to be") {
  const StudyFit found = fit({});
  for (std::size_t i = 0; i < weight_rows; ++i) {
    CHECK(found.least.rows[i].fitted == Approx(row_least[i]).epsilon(1e-12));
    CHECK(found.ideal.rows[i].fitted == Approx(row_ideal[i]).epsilon(1e-12));
    CHECK(found.most.rows[i].fitted == Approx(row_most[i]).epsilon(1e-12));
    CHECK(found.most.rows[i].spread == Approx((row_most[i] - 1) * table_spread).epsilon(1e-9));
    CHECK(found.near[i] == 0);
  }
  CHECK_FALSE(found.most.between_cloths);
  CHECK_FALSE(found.most.between_people);
  CHECK_FALSE(found.density);
  CHECK_FALSE(found.packing);
}

// At a row's own weight the curve is the row, so that there the answer is in closed form: of two squares with equal
// weights, half the way, known sqrt(1/2) as well.
TEST_CASE("one cloth at the weight of a row moves that row half the way, and no other") {
  StudiedCloth cloth = of_weight(165);
  cloth.most = {1 + 1.7 * 1.44};
  const StudyFit found = fit(std::array{cloth});
  CHECK(found.most.rows[3].fitted == Approx(1 + 1.7 * 1.2).epsilon(1e-9));
  CHECK(found.most.rows[3].spread == Approx(1.7 * 1.2 * table_spread * std::sqrt(0.5)).epsilon(1e-6));
  for (const std::size_t other : {0u, 1u, 2u, 4u, 5u, 6u})
    CHECK(found.most.rows[other].fitted == Approx(row_most[other]).epsilon(1e-9));
  for (const FittedFigure &figure : found.least.rows)
    CHECK(figure.fitted == Approx(figure.now).epsilon(1e-12));
  CHECK(found.near == std::array<int, weight_rows>{0, 0, 0, 1, 0, 0, 0});
  CHECK(found.most.near == found.near);
  CHECK(found.least.near == std::array<int, weight_rows>{});
  CHECK(found.most.cloths == 1);
}

TEST_CASE("many cloths at the rows' weights bring the table to what they say") {
  std::vector<StudiedCloth> cloths;
  for (int i = 0; i < 50; ++i)
    for (std::size_t row = 0; row < weight_rows; ++row) {
      cloths.push_back(of_weight(row_grams[row]));
      cloths.back().ideal = {1 + (row_ideal[row] - 1) * 1.3};
    }
  const StudyFit found = fit(cloths);
  for (std::size_t i = 0; i < weight_rows; ++i) {
    // 50 cloths beside one table: 50 / 51 of the way in the logarithm.
    CHECK(found.ideal.rows[i].fitted == Approx(1 + (row_ideal[i] - 1) * std::pow(1.3, 50 / 51.0)).epsilon(1e-9));
    CHECK(found.near[i] == 50);
  }
  // What is left is a 51st of the way.
  CHECK(*found.ideal.between_cloths == Approx(std::pow(1.3, 1 / 51.0)).margin(1e-3));
}

// The 301 cloths stand against seven priors, which hold the rows back by a few hundredths, most at the ends.
TEST_CASE("cloths of any weight that take 1.2 times the extra raise the curve as a whole") {
  const CurveOverWeights taken(with_extra(row_most, 1.2));
  std::vector<StudiedCloth> cloths;
  for (int i = 0; i <= 300; ++i) {
    cloths.push_back(of_weight(40 * std::pow(10, i / 300.0)));
    cloths.back().most = {taken.at(*cloths.back().fabric.weight)};
  }
  const StudyFit found = fit(cloths);
  for (const FittedFigure &figure : found.most.rows) {
    CHECK((figure.fitted - 1) / (figure.now - 1) == Approx(1.2).epsilon(0.02));
    CHECK(figure.spread < 0.1 * (figure.fitted - 1));
  }
}

TEST_CASE("a cloth that takes what its thickness and stiffness let expect says nothing against the table") {
  StudiedCloth cloth = of_weight(120);
  cloth.fabric.thickness = Length{0.3};
  cloth.fabric.bending_length = Length{25};
  const Limits expected = limits(cloth.fabric, Gathering{}, Kind::gather, {});
  cloth.least = {expected.least};
  cloth.ideal = {expected.ideal};
  cloth.most = {expected.most};
  cloth.tight = packed(cloth.fabric, Gathering{});
  const StudyFit found = fit(std::array{cloth});
  for (const FittedColumn *column : {&found.least, &found.ideal, &found.most})
    for (const FittedFigure &figure : column->rows)
      CHECK(figure.fitted == Approx(figure.now).epsilon(1e-9));
  CHECK(found.density->mean == Approx(400));
  CHECK(found.packing->mean == Approx(1));
  CHECK(found.packing->of == 1);
}

TEST_CASE("no other figures of a column come to a lesser sum of squares") {
  std::mt19937_64 random(7);
  std::normal_distribution<double> step(0, 1);
  for (unsigned seed = 1; seed <= 20; ++seed) {
    const std::vector<StudiedCloth> cloths = invented(seed);
    const StudyFit found = fit(cloths);
    WeightColumn best{};
    for (std::size_t i = 0; i < weight_rows; ++i)
      best[i] = found.most.rows[i].fitted;
    const double least = sum_of_squares(row_most, best, cloths);
    for (int tries = 0; tries < 300; ++tries) {
      WeightColumn other = best;
      const double size = std::pow(10, -1.0 - tries % 4);
      for (double &figure : other)
        figure = 1 + (figure - 1) * std::exp(size * step(random));
      // The sum itself is good to some 1e-14 of it.
      REQUIRE(sum_of_squares(row_most, other, cloths) >= least * (1 - 1e-12));
    }
  }
}

// What would be put into the table is joined by Steffen's curve, the fit by the table's own moved: the two agree
// between rows to less than a tenth of what the figures are known to.
TEST_CASE("the curve through fitted figures is the fitted curve, as nearly as matters") {
  const CurveOverWeights now(row_most);
  for (unsigned seed = 1; seed <= 20; ++seed) {
    const StudyFit found = fit(invented(seed));
    WeightColumn figures{};
    for (std::size_t i = 0; i < weight_rows; ++i)
      figures[i] = found.most.rows[i].fitted;
    const CurveOverWeights through(figures);
    for (std::size_t i = 0; i + 1 < weight_rows; ++i) {
      const double middle = std::sqrt(row_grams[i] * row_grams[i + 1]);
      const auto moved = [&](std::size_t row) { return std::log((figures[row] - 1) / (row_most[row] - 1)); };
      const double fitted = (now.at(Weight{middle}) - 1) * std::exp((moved(i) + moved(i + 1)) / 2);
      CHECK(std::abs(through.at(Weight{middle}) - 1 - fitted) < found.most.rows[i].spread);
    }
  }
}

TEST_CASE("people who differ on a cloth are told apart from cloths that differ") {
  StudiedCloth cloth = of_weight(165);
  cloth.most = {1 + 1.7 * 0.8, 1 + 1.7, 1 + 1.7 / 0.8};
  const StudyFit found = fit(std::array{cloth});
  // Of the logarithms -l, 0, l the standard deviation is l.
  CHECK(*found.most.between_people == Approx(1 / 0.8).epsilon(1e-9));
  CHECK(*found.most.between_cloths == Approx(1).margin(1e-9));
  CHECK(found.most.rows[3].fitted == Approx(row_most[3]).epsilon(1e-9));
}

TEST_CASE("cloths that lie further off than was thought leave the figures less well known") {
  const auto spread_with = [](double off) {
    std::vector<StudiedCloth> cloths;
    for (int i = 0; i < 40; ++i) {
      cloths.push_back(of_weight(165));
      cloths.back().most = {1 + 1.7 * std::exp(i % 2 == 0 ? off : -off)};
    }
    return fit(cloths).most;
  };
  CHECK(*spread_with(0.1).between_cloths == Approx(std::exp(0.1)).epsilon(0.01));
  CHECK(*spread_with(1).between_cloths == Approx(std::exp(1)).epsilon(0.05));
  CHECK(spread_with(1).rows[3].spread > 3 * spread_with(0.1).rows[3].spread);
}

TEST_CASE("thickness and packing are told as factors with their spread") {
  std::vector<StudiedCloth> cloths{of_weight(100), of_weight(200), of_weight(300)};
  cloths[0].fabric.thickness = Length{100 / 400.0};
  cloths[1].fabric.thickness = Length{200 / 484.0};
  cloths[0].tight = 1.1 * packed(cloths[0].fabric, Gathering{});
  cloths[2].tight = 0.9 * packed(cloths[2].fabric, Gathering{});
  const StudyFit found = fit(cloths);
  CHECK(found.density->mean == Approx(std::sqrt(400.0 * 484)));
  CHECK(found.density->spread == Approx(std::exp(std::log(484 / 400.0) / std::sqrt(2))));
  CHECK(found.density->of == 2);
  CHECK(found.packing->mean == Approx(std::sqrt(1.1 * 0.9)));
  CHECK(found.packing->of == 2);
}
