// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/optimum/block_maps.hpp"
#include "solver/optimum/open_unknowns.hpp"
#include "solver/optimum/problem.hpp"
#include "solver/optimum/reduced_rows.hpp"
#include "solver/optimum/work.hpp"

#include <span>
#include <vector>

namespace gatherwright::optimum {

/// x = point + T y: every unknown is what it is at the point, and moves with the reduced unknowns y, which lie as the
/// layout says: the open shared unknowns themselves, then the locals of each block, which its map moves with.
class Freedom {
public:
  /// Every unknown is free, and 0 at the point. False: there is no room for the blocks' maps.
  [[nodiscard]] bool begin(const Problem &problem, const WorkCounter &count);

  /// As free as `from`, with every unknown 0 at the point.
  void begin(const Freedom &from);

  const Layout &layout() const { return layout_; }
  const OpenUnknowns &open() const { return open_; }
  const BlockMaps &maps() const { return maps_; }
  int shared_begin() const { return shared_begin_; }
  std::span<const double> point() const { return point_; }
  /// Whether every unknown is shared and open.
  bool all_is_shared_and_open() const { return maps_.empty() && open_.size() == static_cast<int>(point_.size()); }

  /// Appends rows a x against bounds as rows over y, with what is missing at the point: of one row, of all, or of those
  /// named. Returns whether what is free leaves so little of one of them that it is nearly parallel to what is not.
  [[nodiscard]] bool append(std::span<const Term> row, double bound, ReducedRows &into, const WorkCounter &count);
  [[nodiscard]] bool append(const Rows &rows, ReducedRows &into, const WorkCounter &count);
  [[nodiscard]] bool append(const Rows &rows, std::span<const int> which, ReducedRows &into, const WorkCounter &count);

  /// Moves the point by T y.
  void move(std::span<const double> y, const WorkCounter &count);
  void move_unknown(int unknown, double by) { point_[unknown] += by; }

  /// T y, and row `unknown` of T.
  void displacement(std::span<const double> y, std::span<double> by, const WorkCounter &count) const;
  void row_of(int unknown, std::span<double> row) const;

  /// The y that takes every unknown that is itself a reduced one to where it is at x: where x holds all that is held,
  /// the others are then there too.
  void towards(std::span<const double> x, std::span<double> y) const;

  /// Takes away what rows of a block decide (see BlockMaps::substitute), and shared unknowns that are fixed. The layout
  /// is what it was until `lay_out`.
  void substitute(int block, const Echelon &rows, std::span<const BlockMove> moves, std::span<const double> border,
                  const WorkCounter &count) {
    maps_.substitute(block, rows, moves, border, count);
  }
  void fix(std::span<const int> shared) {
    open_.fix(shared);
    maps_.close(open_);
  }
  void lay_out();

private:
  template <class Take> void for_each_local(std::span<const double> y, const WorkCounter &count, Take take) const;
  void append_whole(const Rows &rows, ReducedRows &into) const;
  bool append_shared(std::span<const Term> row, double bound, ReducedRows::Pen &pen) const;
  bool put(const double *coefficients, double times, double numbers, int block, ReducedRows::Pen &pen) const;
  bool append_of_block(std::span<const Term> row, int block, double bound, ReducedRows &into, const WorkCounter &count);

  int shared_begin_ = 0;
  OpenUnknowns open_;
  BlockMaps maps_;
  Layout layout_;
  std::vector<double> point_;
  std::vector<double> wide_; ///< room to work in: a row over a block's columns
};

} // namespace gatherwright::optimum
