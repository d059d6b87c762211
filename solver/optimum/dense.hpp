// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <span>

/// What is done with dense numbers, once each. Loops are written out two or four at a time, so that compilers make
/// vectors of them without being allowed to alter the order of a sum: each product and sum is rounded by itself, in the
/// order that stands here. (Eigen's sums are in an order that depends on how wide the machine's vectors are.)
///
/// There are three orders of a sum. Whoever changes which is used where changes the last digits of answers.
namespace gatherwright::optimum {

/// One after another.
template <class Number> Number dot(const Number *a, const Number *b, std::size_t count) {
  Number sum = 0;
  for (std::size_t i = 0; i < count; ++i)
    sum += a[i] * b[i];
  return sum;
}

template <class Values, class Others> auto dot(const Values &a, const Others &b) {
  return dot(a.data(), b.data(), a.size());
}

/// Four sums side by side, what is left over added to the first: the first two, the last two, both.
[[gnu::always_inline]] inline double dot_in_fours(const double *a, const double *b, std::size_t count) {
  double s0 = 0;
  double s1 = 0;
  double s2 = 0;
  double s3 = 0;
  std::size_t i = 0;
  for (; i + 4 <= count; i += 4) {
    s0 += a[i] * b[i];
    s1 += a[i + 1] * b[i + 1];
    s2 += a[i + 2] * b[i + 2];
    s3 += a[i + 3] * b[i + 3];
  }
  for (; i < count; ++i)
    s0 += a[i] * b[i];
  return (s0 + s1) + (s2 + s3);
}

/// Two pairs of sums side by side: pair is added to pair, one more pair to that where four are not left, the two sums
/// of it to each other, and then what is left over.
[[gnu::always_inline]] inline double dot_in_pairs(const double *a, const double *b, std::size_t count) {
  if (count < 2) return count == 0 ? 0 : a[0] * b[0];
  double even = a[0] * b[0];
  double odd = a[1] * b[1];
  std::size_t i = 2;
  if (count >= 4) {
    double next_even = a[2] * b[2];
    double next_odd = a[3] * b[3];
    for (i = 4; i + 4 <= count; i += 4) {
      even += a[i] * b[i];
      odd += a[i + 1] * b[i + 1];
      next_even += a[i + 2] * b[i + 2];
      next_odd += a[i + 3] * b[i + 3];
    }
    even += next_even;
    odd += next_odd;
    if (i + 2 <= count) {
      even += a[i] * b[i];
      odd += a[i + 1] * b[i + 1];
      i += 2;
    }
  }
  double sum = even + odd;
  for (; i < count; ++i)
    sum += a[i] * b[i];
  return sum;
}

/// to += factor * from; they do not overlap.
template <class Number> [[gnu::always_inline]] inline void
add_times(Number *__restrict to, const Number *__restrict from, Number factor, std::size_t count) {
  std::size_t i = 0;
  for (; i + 4 <= count; i += 4) {
    const Number t0 = to[i] + factor * from[i];
    const Number t1 = to[i + 1] + factor * from[i + 1];
    const Number t2 = to[i + 2] + factor * from[i + 2];
    const Number t3 = to[i + 3] + factor * from[i + 3];
    to[i] = t0;
    to[i + 1] = t1;
    to[i + 2] = t2;
    to[i + 3] = t3;
  }
  for (; i < count; ++i)
    to[i] += factor * from[i];
}

/// to -= first_factor * first, and then to -= second_factor * second; none overlaps another.
[[gnu::always_inline]] inline void take_both(double *__restrict to, double first_factor, const double *__restrict first,
                                             double second_factor, const double *__restrict second, std::size_t count) {
  std::size_t i = 0;
  for (; i + 2 <= count; i += 2) {
    const double t0 = to[i] - first_factor * first[i];
    const double t1 = to[i + 1] - first_factor * first[i + 1];
    to[i] = t0 - second_factor * second[i];
    to[i + 1] = t1 - second_factor * second[i + 1];
  }
  if (i < count) to[i] = (to[i] - first_factor * first[i]) - second_factor * second[i];
}

template <class To, class From, class Number> void add_times(To &&to, const From &from, Number factor) {
  add_times(to.data(), from.data(), factor, to.size());
}

/// Greatest absolute value; 0 of none.
inline double largest(std::span<const double> values) {
  double even = 0;
  double odd = 0;
  const double *at = values.data();
  const double *const end = at + values.size();
  for (; end - at >= 2; at += 2) {
    even = std::max(even, std::abs(at[0]));
    odd = std::max(odd, std::abs(at[1]));
  }
  if (at != end) even = std::max(even, std::abs(*at));
  return std::max(even, odd);
}

/// A plane rotation (Givens).
template <class Number> struct Rotation {
  Number cosine = 1;
  Number sine = 0;
};

/// The length of (a, b). Squares that overflow or lose digits are a matter for hypot, which takes five times as long.
inline double length_of(double a, double b) {
  const double square = a * a + b * b;
  return square > 1e-280 && square < 1e280 ? std::sqrt(square) : std::hypot(a, b);
}

/// The rotation that turns (a, b) into (r, 0); `a` becomes r.
inline Rotation<double> rotation_onto(double &a, double b) {
  const double r = length_of(a, b);
  const Rotation<double> turn{a / r, b / r};
  a = r;
  return turn;
}

/// Rotates two rows that do not overlap; the upper one moves so many places to the left.
template <int places = 0, class Number> [[gnu::always_inline]] inline void
rotate(const Rotation<Number> &turn, Number *__restrict upper, Number *__restrict lower, std::size_t count) {
  const Number cosine = turn.cosine;
  const Number sine = turn.sine;
  Number *to = upper - places;
  std::size_t i = 0;
  for (; i + 2 <= count; i += 2) {
    const Number u0 = upper[i];
    const Number u1 = upper[i + 1];
    const Number l0 = lower[i];
    const Number l1 = lower[i + 1];
    to[i] = cosine * u0 + sine * l0;
    to[i + 1] = cosine * u1 + sine * l1;
    lower[i] = cosine * l0 - sine * u0;
    lower[i + 1] = cosine * l1 - sine * u1;
  }
  for (; i < count; ++i) {
    const Number u = upper[i];
    const Number l = lower[i];
    to[i] = cosine * u + sine * l;
    lower[i] = cosine * l - sine * u;
  }
}

} // namespace gatherwright::optimum
