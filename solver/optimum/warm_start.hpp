// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/optimum/problem.hpp"
#include "solver/optimum/row_name.hpp"

#include <span>
#include <vector>

namespace gatherwright::optimum {

/// Inequalities that bind levels of wishes: each has a multiplier clearly above 0 in its level.
struct Binding {
  struct Row {
    int level = 0; ///< of wishes
    RowName name;
  };
  std::vector<Row> rows; ///< of one level after another
};

/// The answer of a problem that differs from the one at hand only a little, in bounds or by an equality: the search
/// begins there. Whatever it is, the answer is the optimum; the nearer it is, the sooner that is found.
struct WarmStart {
  std::span<const double> x;
  const Binding &binding;
};

} // namespace gatherwright::optimum
