// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cmath>

namespace gatherwright::optimum {

/// A number of 113 binary digits, twice those of a double and a few more; where the machine has none, the widest that
/// it has.
#ifdef __SIZEOF_FLOAT128__
__extension__ typedef __float128 Wide; // NOLINT(modernize-use-using): no other spelling is without a warning
#else
using Wide = long double;
#endif

inline Wide absolute(Wide value) {
  return value < 0 ? -value : value;
}

/// 0 below the least double. Newton's method doubles the digits of a double's root twice.
inline Wide square_root(Wide value) {
  Wide root = std::sqrt(static_cast<double>(value));
  if (!(root > 0)) return 0;
  root = (root + value / root) / 2;
  return (root + value / root) / 2;
}

} // namespace gatherwright::optimum
