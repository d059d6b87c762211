// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/optimum/householder.hpp"
#include "solver/optimum/problem.hpp"
#include "solver/optimum/reduced_rows.hpp"
#include "solver/optimum/row_name.hpp"
#include "solver/optimum/work.hpp"

#include <span>
#include <utility>
#include <vector>

namespace gatherwright::optimum {

/// x = point + T y: the unknowns as functions of those still free, block by block. Rows are held (made equalities) in
/// stages. The local unknowns of each block are eliminated by pivoted QR; what is left of the rows stands on shared
/// unknowns alone. Of these, a row with one open unknown fixes it, the others are kept as equalities.
class Reduction {
public:
  void count_into(Work *work) { count_.into(work); }

  enum class Hold {
    at_bound, ///< row x = bound
    at_point  ///< row x = what it is at the point
  };

  /// False: there is no room for its blocks, and nothing has begun.
  [[nodiscard]] bool begin(const Problem &problem);

  /// Begins where `held` stands, which has held rows at their bounds: rows that this problem has too, at bounds of its
  /// own. The answer is the same, to the bit, as if they were held anew.
  void begin(const Problem &problem, const Reduction &held);

  /// Holds rows from now on. False: it was too much work, and not all are held.
  bool hold(std::span<const RowName> rows, Hold at);

  const Layout &layout() const { return layout_; }

  /// Appends rows over the reduced unknowns: all of them, or those that no level holds yet, whose numbers are appended
  /// to `which`.
  void append(const Rows &rows, ReducedRows &into);
  void append_open(const Rows &rows, std::span<const int> held_by, ReducedRows &into, std::vector<int> &which);

  /// Appends the equalities that are kept, with their bounds relative to the point. Returns how many.
  int append_held(ReducedRows &into) const;

  /// Moves the point by T y.
  void move(std::span<const double> y);

  /// T y, and row `unknown` of T.
  void displacement(std::span<const double> y, std::span<double> by) const;
  void row_of(int unknown, std::span<double> row) const;

  std::span<const double> point() const { return point_; }

  /// Whether a row held or appended was nearly parallel to those held before it.
  bool met_nearly_parallel() const { return nearly_parallel_; }

  /// What the multipliers of held rows must be for `gradient` = sum of multiplier * row over all held rows, when those
  /// of the equalities kept are known. `gradient` (unknowns long) is changed: what is left of it, rounding alone where
  /// the point is optimal.
  void multipliers(std::span<const double> of_held, std::span<double> gradient, Multipliers &into);

private:
  struct BlockMap {
    int begin = 0; ///< first unknown
    int size = 0;
    int locals = 0;           ///< reduced
    std::vector<double> map;  ///< size x (locals + touched), row by row
    std::vector<int> touched; ///< shared unknowns still open, ascending
    std::vector<double> most; ///< greatest absolute value in each row of the map
    int width() const { return locals + static_cast<int>(touched.size()); }
  };
  /// One block's part of a stage.
  struct StageBlock {
    int block = 0;
    int first_row = 0;          ///< into Stage::rows
    int first_left = 0;         ///< into left_: rows - rank of them
    PivotedQr qr;               ///< of the rows, each scaled to length 1, over the block's locals before
    std::vector<double> shrink; ///< 1 / length of each row
    std::vector<double> entry;  ///< T of the block before, its locals alone: size x locals, row by row
  };
  struct Stage {
    std::vector<RowName> rows; ///< grouped by block, shared-only rows last
    int first_block = 0;       ///< into stage_blocks_
    int end_block = 0;
    int first_left = 0; ///< into left_
    int first_shared_left = 0;
    int end_left = 0;
    int first_fix = 0; ///< into fixes_
    int end_fix = 0;
  };
  /// A shared unknown that a row left over fixes, and what moves with it.
  struct Fix {
    int left = 0;
    int shared = 0;
    double value = 0; ///< its coefficient in the row
    int first_term = 0;
    int end_term = 0; ///< into fix_terms_: unknowns and how far they move
  };
  enum class Fate : char { kept, fixes };
  /// Where a shared unknown stands in a row left over.
  struct LeftTerm {
    int row = 0;
    double value = 0;
  };

  template <class Take> void for_each_local(std::span<const double> y, Take take) const;
  int block_of(std::span<const Term> row) const;
  [[gnu::always_inline]] void append_shared(std::span<const Term> row, double bound, ReducedRows::Pen &pen) const;
  void append(std::span<const Term> row, double bound, ReducedRows &into);
  void append_of_block(std::span<const Term> row, int block, double bound, ReducedRows &into);
  void find_touched(const Rows &rows);
  void lay_out();
  void order(std::span<const RowName> rows, std::vector<RowName> &ordered);
  bool hold_block(int block, int first_row, int end_row);
  void keep_shared_rows(int first_row);
  void substitute(const StageBlock &own);
  void fix_single_ones();
  void move_to_bounds(const Stage &stage);
  void move_fixed(const Stage &stage);
  int only_open_term(int left) const;
  void fix(int left, int term);
  void close_fixed();
  void find_touching();
  void find_left_of_shared();
  void give(const RowName &name, double multiplier, std::span<double> gradient, Multipliers &into) const;
  void settle_left(int left, double multiplier, double sign);

  const Problem *problem_ = nullptr;
  mutable bool nearly_parallel_ = false;
  std::vector<int> block_of_unknown_; ///< -1: shared
  std::vector<BlockMap> maps_;
  std::vector<int> place_; ///< of each shared unknown among those open; -1: fixed
  std::vector<int> open_;  ///< shared unknowns still open
  std::vector<double> point_;
  Layout layout_;
  // Stages and their parts are kept from problem to problem for their room; so many of them are in use.
  std::vector<Stage> stages_;
  std::vector<StageBlock> stage_blocks_;
  int stages_used_ = 0;
  int stage_blocks_used_ = 0;
  ReducedRows left_; ///< rows left over on shared unknowns (columns: as the problem numbers them, from the first)
  std::vector<Fate> fate_;
  std::vector<Fix> fixes_;
  std::vector<Term> fix_terms_;
  std::int64_t held_entries_ = 0; ///< of the blocks' equalities
  WorkCounter count_;
  // Room to work in.
  std::vector<std::pair<int, int>> order_;     ///< block, index
  std::vector<int> touching_start_, touching_; ///< of each shared unknown: the blocks that touch it
  std::vector<int> left_start_;
  std::vector<LeftTerm> left_of_; ///< of each shared unknown: where it stands in the rows left over
  std::vector<int> next_place_;
  ReducedRows reduced_;
  std::vector<double> wide_, border_, rests_, bounds_, solved_, next_, right_, left_multiplier_, shared_multiplied_;
};

} // namespace gatherwright::optimum
