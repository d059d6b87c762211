// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/optimum/dense.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <random>
#include <vector>

using namespace gatherwright;

namespace {

std::vector<double> numbers(std::size_t count, std::mt19937_64 &random) {
  std::vector<double> made(count);
  for (double &each : made)
    each = std::ldexp(static_cast<double>(random() % 2000001) - 1000000, static_cast<int>(random() % 40) - 20);
  return made;
}

} // namespace

TEST_CASE("sums in any order are the exact sum but for their own rounding") {
  std::mt19937_64 random(1);
  for (std::size_t count = 0; count < 40; ++count) {
    const std::vector<double> a = numbers(count, random);
    const std::vector<double> b = numbers(count, random);
    long double exact = 0;
    double size = 0;
    for (std::size_t i = 0; i < count; ++i) {
      exact += static_cast<long double>(a[i]) * b[i];
      size += std::abs(a[i] * b[i]);
    }
    // Each product and each sum is rounded once, by half a unit of what it is no larger than.
    const double rounding = static_cast<double>(count + 1) * std::numeric_limits<double>::epsilon() * size;
    for (const double sum : {optimum::dot(a, b), optimum::dot_in_fours(a.data(), b.data(), count),
                             optimum::dot_in_pairs(a.data(), b.data(), count)})
      CHECK(std::abs(static_cast<double>(sum - exact)) <= rounding);
  }
}

TEST_CASE("sums are in the order that is told") {
  // 2^60 swallows 1 where they meet, and only there.
  const double huge = std::ldexp(1, 60);
  const std::vector<double> ones(8, 1);
  const std::vector<double> apart_by_four{huge, 1, 0, 0, -huge, 1, 0, 0};
  CHECK(optimum::dot(apart_by_four, ones) == 1);
  CHECK(optimum::dot_in_fours(apart_by_four.data(), ones.data(), 8) == 2);
  CHECK(optimum::dot_in_pairs(apart_by_four.data(), ones.data(), 8) == 2);
  const std::vector<double> apart_by_two{huge, 1, -huge, 1, 0, 0, 0, 0};
  CHECK(optimum::dot_in_pairs(apart_by_two.data(), ones.data(), 8) == 2);
  CHECK(optimum::dot_in_fours(apart_by_two.data(), ones.data(), 8) == 0);
  const std::vector<double> left_over{0, 0, huge, 1, 0, 0, -huge, 0, 1};
  const std::vector<double> nine(9, 1);
  CHECK(optimum::dot_in_fours(left_over.data(), nine.data(), 9) == 2);
}

TEST_CASE("what is done number by number has the bits of a plain loop, whatever the count") {
  std::mt19937_64 random(2);
  for (std::size_t count = 0; count < 20; ++count) {
    std::vector<double> to = numbers(count, random);
    const std::vector<double> from = numbers(count, random);
    std::vector<double> plain = to;
    for (std::size_t i = 0; i < count; ++i)
      plain[i] -= 0.3 * from[i];
    optimum::add_times(to, from, -0.3);
    CHECK(to == plain);

    std::vector<double> upper = numbers(count + 1, random);
    std::vector<double> lower = numbers(count, random);
    std::vector<double> moved = upper;
    std::vector<double> turned = lower;
    for (std::size_t i = 0; i < count; ++i) {
      moved[i] = 0.6 * upper[i + 1] + 0.8 * lower[i];
      turned[i] = 0.6 * lower[i] - 0.8 * upper[i + 1];
    }
    std::vector<double> in_place(upper.begin() + 1, upper.end());
    std::vector<double> other = lower;
    const optimum::Rotation<double> turn{0.6, 0.8};
    optimum::rotate<1>(turn, upper.data() + 1, lower.data(), count);
    CHECK(std::vector<double>(upper.begin(), upper.end() - 1) == std::vector<double>(moved.begin(), moved.end() - 1));
    CHECK(lower == turned);
    optimum::rotate(turn, in_place.data(), other.data(), count);
    CHECK(in_place == std::vector<double>(moved.begin(), moved.end() - 1));
    CHECK(other == turned);
  }
}

TEST_CASE("a rotation keeps the length of what it turns, also where squares overflow or vanish") {
  for (const double size : {1.0, 1e-200, 1e200}) {
    double a = 3 * size;
    const optimum::Rotation<double> turn = optimum::rotation_onto(a, -4 * size);
    CHECK(a == Approx(5 * size).epsilon(1e-15));
    CHECK(turn.cosine == Approx(0.6).epsilon(1e-15));
    CHECK(turn.sine == Approx(-0.8).epsilon(1e-15));
  }
}
