// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/layout/strip.hpp"

#include <vector>

namespace gatherwright::layout {

/// Bars of the rectangles that lines of a length must meet all of.
struct BarDemand {
  struct Row {
    Ticks size = 0; ///< no more than the length of a line
    double total = 0;
    int count = 1; ///< on one line
  };
  /// A share of a row's demand may be met in another row instead: so much less here, so much more there.
  struct Turn {
    int from = 0;
    int to = 0;
    double less = 0;
    double more = 0;
  };
  Ticks length = 0;
  std::vector<Row> rows;
  std::vector<Turn> turns;
};

/// Prices of rows, >= 0, whose bars on one line are worth about 1 at most, and all of them together about as much as
/// may be: the multipliers of the least number of lines that meet the demand, as a linear programme over what may lie
/// on a line, of which those come in that pay (Gilmore and Gomory, Operations Research 9 (1961) 849-859).
std::vector<double> bar_prices(const BarDemand &demand, Allowance &allowance);

} // namespace gatherwright::layout
