// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/layout/strip.hpp"

#include <vector>

namespace gatherwright::layout {

/// Sums that sizes can make, each taken so many times at most, up to a greatest.
class Reach {
public:
  /// A size of 0 is no size.
  struct Item {
    Ticks size = 0;
    Ticks or_else = 0; ///< what each copy may be instead
    int count = 1;
  };
  /// Where there are more than `most` sums, nothing is said of them: every number counts as one.
  Reach(const std::vector<Item> &items, Ticks greatest, std::size_t most);

  bool complete() const { return complete_; }
  Ticks most_within(Ticks limit) const; ///< limit >= 0, no more than the greatest
  Ticks least_from(Ticks limit) const;  ///< greatest + 1 where there is none
  const std::vector<Ticks> &sums() const { return sums_; }

private:
  bool complete_ = true;
  Ticks greatest_;
  std::vector<Ticks> sums_; ///< ascending, 0 among them
};

} // namespace gatherwright::layout
