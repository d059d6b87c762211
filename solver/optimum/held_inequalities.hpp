// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/optimum/problem.hpp"
#include "solver/optimum/row_name.hpp"

#include <span>
#include <vector>

namespace gatherwright::optimum {

/// Who holds which inequality: of each row of at_least and of the limits, the level that made an equality of it, once
/// and for good; -1: none has.
class HeldInequalities {
public:
  void begin(const Problem &problem) {
    at_least_.assign(problem.at_least.size(), -1);
    limits_.assign(problem.limits.size(), -1);
    any_ = false;
  }

  void hold(const RowName &row, int level) {
    (row.set == RowName::Set::at_least ? at_least_ : limits_)[row.row] = level;
    any_ = true;
  }

  bool any() const { return any_; }
  std::span<const int> at_least() const { return at_least_; }
  std::span<const int> limits() const { return limits_; }

private:
  std::vector<int> at_least_;
  std::vector<int> limits_;
  bool any_ = false;
};

} // namespace gatherwright::optimum
