// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/optimum/problem.hpp"

namespace gatherwright::optimum {

/// Which of a problem's rows: level 0's equalities and inequalities, the limits, or the wishes of one level.
struct RowName {
  enum class Set { equal, at_least, limits, wishes };
  Set set = Set::equal;
  int level = 0; ///< of wishes
  int row = 0;
};

inline const Rows &rows_of(const Problem &problem, const RowName &name) {
  switch (name.set) {
  case RowName::Set::equal:
    return problem.equal;
  case RowName::Set::at_least:
    return problem.at_least;
  case RowName::Set::limits:
    return problem.limits;
  case RowName::Set::wishes:
    break;
  }
  return problem.wishes[name.level];
}

} // namespace gatherwright::optimum
