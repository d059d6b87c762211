// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/optimum/wishes_at_once.hpp"

#include "solver/optimum/reduced_rows.hpp"

#include <algorithm>

namespace gatherwright::optimum {

namespace {

/// The greatest coefficient in the wishes of blocks, over the greatest in those of shared unknowns alone.
constexpr double share_of_blocks = 0.1;

bool is_of_block(const Problem &problem, std::span<const Term> row) {
  return std::any_of(row.begin(), row.end(), [&](const Term &term) { return term.column < problem.shared_begin(); });
}

} // namespace

Rows wishes_at_once(const Problem &problem) {
  double of_blocks = 0;
  double of_shared = 0;
  for (const Rows &wishes : problem.wishes)
    for (int i = 0; i < wishes.size(); ++i) {
      double &most = is_of_block(problem, wishes.row(i)) ? of_blocks : of_shared;
      most = std::max(most, largest(wishes.row(i)));
    }
  const double weight = of_blocks > 0 && of_shared > 0 ? share_of_blocks * of_shared / of_blocks : 1;
  Rows all;
  std::vector<Term> row;
  for (const Rows &wishes : problem.wishes)
    for (int i = 0; i < wishes.size(); ++i) {
      row.assign(wishes.row(i).begin(), wishes.row(i).end());
      const double by = is_of_block(problem, row) ? weight : 1;
      for (Term &term : row)
        term.value *= by;
      all.add(row, by * wishes.bound[i]);
    }
  return all;
}

} // namespace gatherwright::optimum
