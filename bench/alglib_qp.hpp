// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "bench/qpgen2.hpp"

#include <span>
#include <vector>

namespace gatherwright::bench {

/// ALGLIB's interior point solvers of quadratic programmes, for dense and for sparse matrices.
class AlglibQp {
public:
  enum class Form { dense, sparse };
  explicit AlglibQp(Form form) : form_(form) {}

  /// The solution to as many digits as the solver can give, or nothing where it found none.
  std::span<const double> solve(const DenseProgramme &programme);

private:
  Form form_;
  std::vector<double> solution_;
};

} // namespace gatherwright::bench
