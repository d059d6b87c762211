// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/layout/acceptance.hpp"
#include "solver/layout/bound.hpp"
#include "solver/layout/lay.hpp"
#include "solver/layout/strip.hpp"
#include "solver/layout/tree.hpp"

#include <optional>
#include <vector>

namespace gatherwright::layout {

/// A strip to be filled: what is known of it so far, and what may still be done. Nothing has been set aside that can
/// be.
class Task {
public:
  Task(const Strip &strip, const Budget &budget);

  /// Looks for the shortest layout. There is one afterwards.
  void shorten();
  /// Looks for a layout of a length or less and no more.
  void fit(Ticks length);

  Ticks bound() const { return bound_; }
  const Bounds &bounds() const { return bounds_; }
  const std::optional<Tree> &layout() const { return best_; }

private:
  void work();
  bool done() const { return bound_ > limit_; }
  void keep(std::optional<Tree> tree);
  void raise(Ticks bound);
  void search(Ticks length, std::int64_t steps);
  void search_with(Acceptance &acceptance, Ticks length, std::int64_t steps);
  void search_down(std::int64_t steps);
  void prove();
  bool raise_by(const Strip &part, const Bounds &bounds, Allowance &allowance);
  std::vector<Strip> parts() const;

  const Strip &strip_;
  Allowance setting_up_;
  Bounds bounds_;
  Ticks bound_ = 0;
  Ticks limit_ = 0; ///< the longest layout that is of use; the work is done where the bound is above it
  bool shortest_ = true;
  Allowance proving_;
  Allowance searching_;
  Acceptance exact_first_; ///< what fits exactly always goes before others, which is best where little is left over
  Acceptance in_turn_;
  std::optional<Tree> best_;
};

} // namespace gatherwright::layout
