// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/optimum/block_elimination.hpp"
#include "solver/optimum/reused.hpp"

#include <span>

namespace gatherwright::optimum {

/// Eliminations of blocks, those of one stage after another. The first of them may be another's, which are looked at
/// there: it must not be altered as long as they are.
class BlockEliminations {
public:
  void begin() { begin_after(nullptr); }
  void begin(const BlockEliminations &first) { begin_after(&first); }

  int size() const { return of_others() + own_.size(); }
  BlockElimination &add() { return own_.add(); }
  /// Those of one stage.
  std::span<const BlockElimination> from_to(int first, int end) const {
    return first_ && end <= of_others() ? first_->from_to(first, end)
                                        : own_.from_to(first - of_others(), end - of_others());
  }

private:
  void begin_after(const BlockEliminations *first) {
    first_ = first;
    own_.clear();
  }
  int of_others() const { return first_ ? first_->size() : 0; }

  const BlockEliminations *first_ = nullptr;
  Reused<BlockElimination> own_;
};

} // namespace gatherwright::optimum
