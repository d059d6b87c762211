// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/layout/reach.hpp"

#include <algorithm>
#include <iterator>

namespace gatherwright::layout {

namespace {

constexpr std::size_t most_work = 20'000'000;

/// The sums with one more of the sizes, or without.
std::vector<Ticks> with_one(const std::vector<Ticks> &sums, const Reach::Item &item, Ticks greatest) {
  std::vector<Ticks> all = sums;
  std::vector<Ticks> more;
  for (const Ticks size : {item.size, item.or_else}) {
    if (size == 0) continue;
    std::vector<Ticks> raised;
    for (const Ticks sum : sums) {
      if (sum + size > greatest) break;
      raised.push_back(sum + size);
    }
    more.clear();
    std::set_union(all.begin(), all.end(), raised.begin(), raised.end(), std::back_inserter(more));
    all.swap(more);
  }
  return all;
}

} // namespace

Reach::Reach(const std::vector<Item> &items, Ticks greatest, std::size_t most) : greatest_(greatest), sums_{0} {
  std::size_t work = 0;
  for (const Item &item : items)
    for (int copy = 0; copy < item.count; ++copy) {
      std::vector<Ticks> more = with_one(sums_, item, greatest);
      const bool settled = more.size() == sums_.size();
      sums_.swap(more);
      if (settled) break; // another copy adds nothing either
      work += sums_.size();
      if (sums_.size() > most || work > most_work) {
        complete_ = false;
        return;
      }
    }
}

Ticks Reach::most_within(Ticks limit) const {
  if (!complete_) return limit;
  return *std::prev(std::upper_bound(sums_.begin(), sums_.end(), limit));
}

Ticks Reach::least_from(Ticks limit) const {
  if (!complete_) return limit;
  const auto at = std::lower_bound(sums_.begin(), sums_.end(), limit);
  return at == sums_.end() ? greatest_ + 1 : *at;
}

} // namespace gatherwright::layout
