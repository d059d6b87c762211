// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <cmath>
#include <cstddef>

/// Gauss-Legendre quadrature on [0, 1], of speeds: square roots of functions that are analytic but for the roots of
/// what stands under them. How far off those lie says beforehand how good a rule is.
namespace gatherwright::edge {

/// Nodes and weights from Abramowitz & Stegun, Handbook of Mathematical Functions, table 25.4, moved from [-1, 1].
template <std::size_t nodes> struct Gauss {
  static constexpr std::size_t count = nodes;
  std::array<double, nodes> node{};
  std::array<double, nodes> weight{};

  /// `x` and `w` of the upper half of [-1, 1], the middle first.
  constexpr Gauss(const std::array<double, (nodes + 1) / 2> &x, const std::array<double, (nodes + 1) / 2> &w) {
    for (std::size_t i = 0; i < (nodes + 1) / 2; ++i) {
      node[nodes / 2 + i] = 0.5 + 0.5 * x[i];
      node[(nodes - 1) / 2 - i] = 0.5 - 0.5 * x[i];
      weight[nodes / 2 + i] = weight[(nodes - 1) / 2 - i] = 0.5 * w[i];
    }
  }
};

inline constexpr Gauss<12> gauss({0.125233408511469, 0.367831498998180, 0.587317954286617, 0.769902674194305,
                                  0.904117256370475, 0.981560634246719},
                                 {0.249147045813403, 0.233492536538355, 0.203167426723066, 0.160078328543346,
                                  0.106939325995318, 0.047175336386512});

/// For steps of at most a tenth of a stretch for which 12 nodes do.
inline constexpr Gauss<5> short_gauss({0.0, 0.538469310105683, 0.906179845938664},
                                      {0.568888888888889, 0.478628670499366, 0.236926885056189});

/// Whether a root at (real, imaginary), seen where the stretch is [0, 1], is so far off that 12 nodes give the integral
/// within 1e-11 of it: it lies outside the ellipse about the stretch whose half-axes add up to `clear` half-lengths. A
/// branch like a square root then leaves an error of about clear^-24 * 24^-1.5 (Trefethen, Approximation Theory and
/// Approximation Practice, ch. 8 and 19). On a tenth of the stretch, with clear 11 and 5 nodes, it is smaller still.
inline bool clear_of(double real, double imaginary) {
  constexpr double clear = 2.5;
  constexpr double across = 0.5 * (clear + 1 / clear), up = 0.5 * (clear - 1 / clear);
  const double x = (2 * real - 1) / across, y = 2 * imaginary / up;
  return !(x * x + y * y < 1);
}

/// Sum of weight * value, in a fixed order by four accumulators.
inline double sum(const Gauss<12> &rule, const std::array<double, 12> &values) {
  std::array<double, 4> sums{};
  for (std::size_t i = 0; i < 12; i += 4) {
    for (std::size_t k = 0; k < 4; ++k)
      sums[k] += rule.weight[i + k] * values[i + k];
  }
  return (sums[0] + sums[1]) + (sums[2] + sums[3]);
}

inline double sum(const Gauss<5> &rule, const std::array<double, 5> &values) {
  double total = 0;
  for (std::size_t i = 0; i < 5; ++i)
    total += rule.weight[i] * values[i];
  return total;
}

} // namespace gatherwright::edge
