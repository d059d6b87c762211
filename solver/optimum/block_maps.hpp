// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/optimum/echelon.hpp"
#include "solver/optimum/open_unknowns.hpp"
#include "solver/optimum/problem.hpp"
#include "solver/optimum/work.hpp"

#include <span>
#include <vector>

namespace gatherwright::optimum {

/// The part of T that belongs to one block.
struct BlockMap {
  int begin = 0; ///< first unknown
  int size = 0;
  int locals = 0;           ///< reduced: what of the block itself is still free
  std::vector<double> map;  ///< size x (locals + touched), row by row
  std::vector<int> touched; ///< shared unknowns still open, ascending
  std::vector<double> most; ///< of each row of the map: the greatest absolute value that it ever had

  int width() const { return locals + static_cast<int>(touched.size()); }
  const double *row(int i) const { return map.data() + static_cast<std::size_t>(i) * width(); }
  /// Which column a shared unknown has; -1: none.
  int column_of(int shared) const;
  /// Which of the locals an unknown of the block itself is; -1: none. What rows decided are pivots among the locals,
  /// and those that are left stay what they were.
  int local_of(int i) const;
  /// Whether nothing has been taken out of the locals: each unknown is its own, and moves with nothing else.
  bool is_whole() const { return locals == size; }
  /// Calls take(local, along) for the locals that an unknown of the block moves with, ascending.
  template <class Take> void for_each_local(int i, Take take) const {
    if (is_whole()) return take(i, 1.0);
    const double *of_unknown = row(i);
    for (int c = 0; c < locals; ++c)
      if (of_unknown[c] != 0) take(c, of_unknown[c]);
  }
};

/// How far an unknown moves with the local that a row decides.
struct BlockMove {
  int unknown = 0;
  int place = 0; ///< of the row
  double along = 0;
};

/// How the unknowns of every block move with what is free: with the block's own reduced unknowns, its locals, and with
/// the open shared unknowns that rows of the block have terms of. Nothing else moves them.
class BlockMaps {
public:
  /// Every unknown is free. False: there is no room for that.
  [[nodiscard]] bool begin(const Problem &problem, const WorkCounter &count);

  bool empty() const { return maps_.empty(); }
  int size() const { return static_cast<int>(maps_.size()); }
  const BlockMap &operator[](int block) const { return maps_[block]; }
  std::span<const BlockMap> all() const { return maps_; }

  /// -1: the unknown is shared, or all of the row's are. Where there are no blocks, nothing is to be asked of unknowns.
  int block_of(int unknown) const { return block_of_unknown_[unknown]; }
  int block_of(std::span<const Term> row) const;

  /// Takes what rows over the block's locals decide, in echelon form, out of its locals: they follow from the others
  /// and from the shared unknowns it touches, in whose columns the rows have `border` (one number a row each). `moves`:
  /// how its unknowns move with those that are decided, by unknown.
  void substitute(int block, const Echelon &rows, std::span<const BlockMove> moves, std::span<const double> border,
                  const WorkCounter &count);

  /// Takes out the columns of shared unknowns that are no longer open.
  void close(const OpenUnknowns &open);

private:
  void find_touched(const Rows &rows, int shared_begin);

  std::vector<int> block_of_unknown_;
  std::vector<BlockMap> maps_;
  std::vector<double> solved_, next_; ///< room to work in
};

} // namespace gatherwright::optimum
