// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/layout/knapsack.hpp"
#include "solver/layout/layout.hpp"
#include "solver/layout/reach.hpp"
#include "solver/layout/strip.hpp"

#include <vector>

namespace gatherwright::layout {

/// Prices of bars of each kind, straight and turned. See Certificate.
struct Prices {
  std::vector<std::int64_t> straight;
  std::vector<std::int64_t> turned;
};

/// A length that no layout is shorter than, and why.
struct Bound {
  Certificate::Kind kind = Certificate::Kind::tallest;
  Prices prices;
  Ticks least = 0; ///< by these prices, lifted to a reachable sum
};

/// Sums that the kinds' lengths can make, or their widths within the strip's.
Reach reach_along(const Strip &strip, Ticks greatest);
Reach reach_across(const Strip &strip);

/// The best of the bounds by bars across, without and with a linear programme, and by bars along.
class Bounds {
public:
  Bounds(const Strip &strip, Allowance &allowance);

  Ticks least() const { return least_; }           ///< the tallest too
  const Bound &best() const { return best_; }      ///< its certificate
  const Prices &across() const { return across_; } ///< the prices of the programme across; empty: none
  const Prices &along() const { return along_; }
  const Reach &lengths() const { return lengths_; }

private:
  void consider(const Strip &strip, Certificate::Kind kind, const Prices &prices);
  void bars_along(const Strip &strip, Allowance &allowance);

  Reach lengths_;
  Ticks least_ = 0;
  Bound best_;
  Prices across_;
  Prices along_;
};

/// The bars of all kinds at these prices.
std::vector<Bar> bars_of(const Strip &strip, const Prices &prices, Run run);
/// What all bars are worth, what may turn lying as it is cheaper.
__extension__ using Product = __int128;
Product price_of_all(const Strip &strip, const Prices &prices, Run run);

} // namespace gatherwright::layout
