// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <cmath>
#include <cstddef>

/// Quadrature on [0, 1]: Gauss-Kronrod of 7 and 15 nodes, and Gauss of 5.
namespace gatherwright::edge {

/// Nodes and weights of QUADPACK's qk15 (Piessens, de Doncker-Kapenga, Ueberhuber & Kahaner, 1983), moved from [-1, 1].
struct Kronrod {
  static constexpr std::size_t count = 16; ///< the last of no weight, so that nodes are taken two or four at a time
  std::array<double, count> node{};
  std::array<double, count> weight{};
  std::array<double, count> gauss{}; ///< weights of the 7 nodes within, 0 elsewhere

  constexpr Kronrod() {
    constexpr std::array<double, 8> x{0.991455371120812639206854697526329, 0.949107912342758524526189684047851,
                                      0.864864423359769072789712788640926, 0.741531185599394439863864773280788,
                                      0.586087235467691130294144691693241, 0.405845151377397166906606412076961,
                                      0.207784955007898467600689403773245, 0.0};
    constexpr std::array<double, 8> w{0.022935322010529224963732008058970, 0.063092092629978553290700663189204,
                                      0.104790010322250183839876322541518, 0.140653259715525918745189590510238,
                                      0.169004726639267902826583426598550, 0.190350578064785409913256402421014,
                                      0.204432940075298892414161999234649, 0.209482141084727828012999174891714};
    constexpr std::array<double, 4> g{0.129484966168869693270611432679082, 0.279705391489276667901467771423780,
                                      0.381830050505118944950369775488975, 0.417959183673469387755102040816327};
    for (std::size_t i = 0; i < 15; ++i) {
      const std::size_t k = i < 8 ? i : 14 - i;
      node[i] = i < 8 ? 0.5 * (1 - x[k]) : 0.5 * (1 + x[k]);
      weight[i] = 0.5 * w[k];
      gauss[i] = k % 2 == 1 ? 0.5 * g[k / 2] : 0.0;
    }
  }
};

inline constexpr Kronrod kronrod{};

/// For short steps, a tenth of a stretch over which 15 nodes suffice: the integrand is smooth on 8 times its width, and
/// the error of 5 nodes below 1e-13 of it.
struct ShortStep {
  static constexpr std::size_t count = 5;
  static constexpr std::array<double, count> node{0.046910077030668004, 0.230765344947158454, 0.5, 0.769234655052841546,
                                                  0.953089922969331996};
  static constexpr std::array<double, count> weight{0.118463442528094544, 0.239314335249683234, 0.284444444444444444,
                                                    0.239314335249683234, 0.118463442528094544};
};

struct Estimate {
  double value = 0;      ///< by 15 nodes
  double difference = 0; ///< from that by 7
};

/// Sums in a fixed order, by four accumulators.
inline Estimate estimate(const std::array<double, Kronrod::count> &values) {
  std::array<double, 4> fine{}, coarse{};
  for (std::size_t i = 0; i < Kronrod::count; i += 4) {
    for (std::size_t k = 0; k < 4; ++k) {
      fine[k] += kronrod.weight[i + k] * values[i + k];
      coarse[k] += kronrod.gauss[i + k] * values[i + k];
    }
  }
  const double value = (fine[0] + fine[1]) + (fine[2] + fine[3]);
  return {value, std::abs(value - ((coarse[0] + coarse[1]) + (coarse[2] + coarse[3])))};
}

/// Whether an estimate has settled. For smooth integrands the error of 15 nodes is about that of 7 to the power 23/14
/// (the ratio of their orders): a relative difference of 1e-7 leaves 3e-12. `negligible` is an absolute error that does
/// no harm.
inline bool settled(const Estimate &estimate, double negligible) {
  return estimate.difference <= 1e-7 * std::abs(estimate.value) || estimate.difference <= negligible;
}

} // namespace gatherwright::edge
