// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "optimum/active_set.hpp"
#include "optimum/arrow_factor.hpp"
#include "optimum/problem.hpp"

#include <vector>

namespace gatherwright::optimum {

/// Which of a problem's rows: level 0's equalities and inequalities, the limits, or the wishes of one level.
struct RowName {
  enum class Set { equal, at_least, limits, wishes };
  Set set = Set::equal;
  int level = 0; ///< of wishes
  int row = 0;
};

const Rows &rows_of(const Problem &problem, const RowName &name);

/// Rows over the reduced unknowns. Block rows have the layout's columns of their block, others columns of their own.
struct ReducedRows {
  std::vector<double> values;
  std::vector<int> value_start{0};
  std::vector<int> columns;
  std::vector<int> column_start{0};
  std::vector<int> block;   ///< -1: shared unknowns only
  std::vector<double> rest; ///< bound - row * point
  std::vector<double> norm; ///< of the row before it was reduced: the measure of what is nothing in it

  int size() const { return static_cast<int>(rest.size()); }
  void clear();
  RowView view(int i, const Layout &layout) const;
};

/// x = point + T y: the unknowns as functions of those still free, block by block. Rows are held (made equalities) in
/// stages; the local unknowns of each block are eliminated by pivoted QR, and what is left of the rows on the shared
/// unknowns is kept as equalities on those.
class Reduction {
public:
  void begin(const Problem &problem);

  /// Holds rows from now on: row x = bound, or, where `bounds` is empty, row x = its value at the point.
  void hold(std::span<const RowName> rows, std::span<const double> bounds = {});

  const Layout &layout() const { return layout_; }

  /// Appends a row over the reduced unknowns.
  void reduce(std::span<const Term> row, double bound, ReducedRows &into) const;

  /// Held equalities on the shared unknowns, with their bounds relative to the point.
  const ReducedRows &held() const { return held_; }

  /// T y: how far a step of the reduced unknowns moves each unknown.
  void displacement(std::span<const double> y, std::vector<double> &by) const;

  /// Moves the point by T y.
  void move(std::span<const double> y);

  std::span<const double> point() const { return point_; }

  /// What the multipliers of held rows must be for `gradient` = sum of multiplier * row over all held rows, when those
  /// of `held()` are known. `gradient` (unknowns long) is changed: what is left of it, rounding alone where the point
  /// is optimal.
  void multipliers(std::span<const double> of_held, std::span<double> gradient, Multipliers &into) const;

private:
  struct StageBlock {
    int block = 0;
    int rows = 0;
    int locals = 0; ///< before
    int rank = 0;
    int first_row = 0;         ///< into Stage::rows
    int first_held = 0;        ///< into held_, rows - rank of them
    std::vector<double> qr;    ///< rows x locals, column by column: Householder vectors below R
    std::vector<double> scale; ///< of each Householder vector
    std::vector<int> pivots;
    std::vector<double> entry; ///< T of the block before, size x locals, row by row
  };
  struct Stage {
    std::vector<RowName> rows; ///< grouped by block, shared-only rows last
    std::vector<StageBlock> blocks;
    int shared_rows = 0; ///< how many of `rows`, at the end
    int first_shared_held = 0;
  };
  struct BlockMap {
    int begin = 0; ///< first unknown
    int size = 0;
    int locals = 0;          ///< reduced
    std::vector<double> map; ///< size x (locals + touched), row by row
  };

  int block_of(std::span<const Term> row) const;
  void find_touched(const Rows &rows);
  void lay_out();
  void hold_block(Stage &stage, int block, int first_row, int rows, const ReducedRows &reduced);
  void substitute(const StageBlock &stage, std::span<const double> touched_part, std::span<const double> bounds);

  const Problem *problem_ = nullptr;
  std::vector<int> block_of_unknown_; ///< -1: shared
  std::vector<BlockMap> maps_;
  std::vector<std::vector<int>> touched_; ///< per block: shared unknowns, ascending
  std::vector<double> point_;
  std::vector<double> moved_by_; ///< scratch
  std::vector<Stage> stages_;
  ReducedRows held_;
  Layout layout_;
};

} // namespace gatherwright::optimum
