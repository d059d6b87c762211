// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/optimum/row_name.hpp"

#include <vector>

namespace gatherwright::optimum {

/// Rows that began to be held at once. Each block's were eliminated by themselves; what was left of them, and then the
/// rows of shared unknowns alone, one for one, stand among the rows left; some of all that are left then fixed
/// unknowns.
struct Stage {
  std::vector<RowName> rows; ///< grouped by block, those without a block last
  int first_block = 0;       ///< its blocks' eliminations
  int end_block = 0;
  int first_left = 0; ///< its rows left
  int first_shared_left = 0;
  int end_left = 0;
  int first_fix = 0; ///< its fixes
  int end_fix = 0;

  int shared_rows() const { return end_left - first_shared_left; }
  int first_shared_row() const { return static_cast<int>(rows.size()) - shared_rows(); }
};

} // namespace gatherwright::optimum
