// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/layout/aside.hpp"

#include <algorithm>
#include <numeric>

namespace gatherwright::layout {

Aside set_aside(const Strip &strip) {
  // From the widest on: whichever can be set aside at all, the widest can too.
  std::vector<std::size_t> order(strip.kinds.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return strip.kinds[a].least_across() > strip.kinds[b].least_across();
  });
  Aside aside;
  std::size_t taken = 0;
  for (; taken < order.size(); ++taken) {
    const Kind &widest = strip.kinds[order[taken]];
    const bool last = taken + 1 == order.size() && widest.count == 1;
    if (!last && widest.least_across() + strip.kinds[order.back()].least_across() <= strip.width) break;
    aside.kinds.push_back(order[taken]);
    aside.along += widest.count * widest.least_along();
  }
  std::vector<std::size_t> rest(order.begin() + static_cast<std::ptrdiff_t>(taken), order.end());
  std::sort(rest.begin(), rest.end());
  aside.rest.width = strip.width;
  for (const std::size_t kind : rest) {
    aside.rest.kinds.push_back(strip.kinds[kind]);
    aside.kind_of.push_back(static_cast<int>(kind));
  }
  return aside;
}

} // namespace gatherwright::layout
