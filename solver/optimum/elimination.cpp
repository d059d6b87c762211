// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/optimum/elimination.hpp"

#include <algorithm>

namespace gatherwright::optimum {

namespace {

bool same_terms(std::span<const Term> a, std::span<const Term> b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [](const Term &x, const Term &y) { return x.column == y.column && x.value == y.value; });
}

} // namespace

Elimination::Elimination(const Problem &problem, Work *work)
    : unknowns_(problem.unknowns), block_ends_(problem.block_ends), equal_(problem.equal),
      block_of_unknown_(problem.unknowns, -1) {
  for (int j = 0, first = 0; j < problem.blocks(); first = problem.block_ends[j++])
    std::fill(block_of_unknown_.begin() + first, block_of_unknown_.begin() + problem.block_ends[j], j);
  for (const Rows *rows : {&problem.equal, &problem.at_least, &problem.limits})
    add_touches(*rows);
  for (const Rows &rows : problem.wishes)
    add_touches(rows);
  std::sort(touches_.begin(), touches_.end());
  touches_.erase(std::unique(touches_.begin(), touches_.end()), touches_.end());
  std::vector<RowName> rows(problem.equal.size(), RowName{RowName::Set::equal, 0, 0});
  for (int i = 0; i < problem.equal.size(); ++i)
    rows[i].row = i;
  reduction_.count_into(work);
  done_ = reduction_.begin(problem) && reduction_.hold(rows, Reduction::Hold::at_bound);
  reduction_.count_into(nullptr);
}

int Elimination::block_of(std::span<const Term> row) const {
  for (const Term &term : row)
    if (block_of_unknown_[term.column] >= 0) return block_of_unknown_[term.column];
  return -1;
}

void Elimination::add_touches(const Rows &rows) {
  for (int i = 0; i < rows.size(); ++i)
    if (const int block = block_of(rows.row(i)); block >= 0)
      for (const Term &term : rows.row(i))
        if (block_of_unknown_[term.column] < 0) touches_.emplace_back(block, term.column);
}

bool Elimination::touches_no_more(const Rows &rows, int first_row) const {
  for (int i = first_row; i < rows.size(); ++i)
    if (const int block = block_of(rows.row(i)); block >= 0)
      for (const Term &term : rows.row(i))
        if (block_of_unknown_[term.column] < 0 &&
            !std::binary_search(touches_.begin(), touches_.end(), Touch(block, term.column)))
          return false;
  return true;
}

bool Elimination::suits(const Problem &problem) const {
  if (!done_ || problem.unknowns != unknowns_ || problem.block_ends != block_ends_) return false;
  if (problem.equal.size() < equal_.size()) return false;
  for (int i = 0; i < equal_.size(); ++i)
    if (!same_terms(equal_.row(i), problem.equal.row(i))) return false;
  return touches_no_more(problem.equal, equal_.size()) && touches_no_more(problem.at_least, 0) &&
         touches_no_more(problem.limits, 0) &&
         std::all_of(problem.wishes.begin(), problem.wishes.end(),
                     [this](const Rows &rows) { return touches_no_more(rows, 0); });
}

} // namespace gatherwright::optimum
