// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <cmath>
#include <cstddef>

/// Gauss-Kronrod quadrature of 7 and 15 nodes on [0, 1].
namespace gatherwright::edge {

/// Nodes and weights of QUADPACK's qk15 (Piessens, de Doncker-Kapenga, Ueberhuber & Kahaner, 1983), moved from [-1, 1].
struct Kronrod {
  static constexpr std::size_t count = 15;
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
    for (std::size_t i = 0; i < count; ++i) {
      const std::size_t k = i < 8 ? i : 14 - i;
      node[i] = i < 8 ? 0.5 * (1 - x[k]) : 0.5 * (1 + x[k]);
      weight[i] = 0.5 * w[k];
      gauss[i] = k % 2 == 1 ? 0.5 * g[k / 2] : 0.0;
    }
  }
};

inline constexpr Kronrod kronrod{};

struct Estimate {
  double value = 0;      ///< by 15 nodes
  double difference = 0; ///< from that by 7
};

/// Whether an estimate has settled. For smooth integrands the error of 15 nodes is about that of 7 to the power 23/14
/// (the ratio of their orders): a relative difference of 1e-7 leaves 3e-12. `negligible` is an absolute error that does
/// no harm.
inline bool settled(const Estimate &estimate, double negligible) {
  return estimate.difference <= 1e-7 * std::abs(estimate.value) || estimate.difference <= negligible;
}

} // namespace gatherwright::edge
