// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/optimum/freedom.hpp"
#include "solver/optimum/problem.hpp"
#include "solver/optimum/reduced_rows.hpp"
#include "solver/optimum/work.hpp"

#include <span>
#include <vector>

namespace gatherwright::optimum {

/// What is left of held rows on shared unknowns alone, in columns that count these from the first. Each row either
/// fixes one of them, the only open one that it had a term of, or is kept as an equality, and knows what it misses at
/// the point. No unknown is fixed by two.
class LeftRows {
public:
  /// A row that fixes a shared unknown.
  struct Fix {
    int left = 0;
    int shared = 0;
    double value = 0; ///< its coefficient in the row
    int first_term = 0;
    int end_term = 0;
  };

  /// None, of a problem with so many shared unknowns.
  void begin(int shared);
  void begin(const LeftRows &from);

  int size() const { return rows_.size(); }
  std::size_t terms() const { return rows_.all_terms().size(); }
  std::span<const Term> terms_of(int left) const { return rows_.view(left).terms; }
  bool is_kept(int left) const { return kept_[left] != 0; }

  /// A pen for one more row of so many terms, which is kept when it is taken.
  ReducedRows::Pen pen(std::size_t more_terms) { return rows_.pen(1, more_terms); }
  void take(ReducedRows::Pen &pen, double norm);

  /// What a row misses at the point.
  void set_rest(int left, double rest) { rows_[left].rest = rest; }

  /// Lets every row with one open term fix it, until none has only one. Returns the unknowns that were fixed; to the
  /// freedom that is known, they are still open.
  std::span<const int> fix_single_ones(const Freedom &freedom, const WorkCounter &count);

  int fixes() const { return static_cast<int>(fixes_.size()); }
  const Fix &fix(int i) const { return fixes_[i]; }
  /// Unknowns that move with the one that is fixed, itself among them, and how far.
  std::span<const Term> moved_by(const Fix &fix) const {
    return std::span(fix_terms_).subspan(fix.first_term, fix.end_term - fix.first_term);
  }

  /// Moves the unknowns of some fixes to where they are fixed, and the point with them.
  void move_fixed(int first_fix, int end_fix, Freedom &freedom, const WorkCounter &count);

  /// What rows miss when the open unknowns move by y.
  void move(std::span<const double> y, const OpenUnknowns &open);

  /// Appends those that are kept over the open unknowns. Returns how many.
  int append_kept(const OpenUnknowns &open, ReducedRows &into) const;

private:
  /// Where a shared unknown stands in a row.
  struct Place {
    int row = 0;
    double value = 0;
  };

  int only_open_term(int left) const;
  void add_fix(int left, const Term &term, const Freedom &freedom, const WorkCounter &count);
  void find_touching(const BlockMaps &maps);
  void find_places(const WorkCounter &count);

  ReducedRows rows_;
  std::vector<char> kept_;  ///< of each row: 0 where it fixes an unknown
  std::vector<char> fixed_; ///< of each shared unknown: 1 where some row fixes it
  std::vector<Fix> fixes_;
  std::vector<Term> fix_terms_;
  // Room to work in, filled anew for each use.
  std::vector<int> touching_start_, touching_; ///< of each shared unknown: the blocks that touch it
  std::vector<int> places_start_;
  std::vector<Place> places_; ///< of each shared unknown: where it stands in the rows
  std::vector<int> next_, newly_fixed_;
};

} // namespace gatherwright::optimum
