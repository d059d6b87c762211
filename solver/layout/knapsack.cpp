// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/layout/knapsack.hpp"

#include <algorithm>

namespace gatherwright::layout {

namespace {

/// A choice, and how it came about: from which of the list before, with how many more of the bar at hand.
struct Step {
  Ticks size = 0;
  std::int64_t price = 0;
  int from = 0;
  int taken = 0;
};

/// Of two lists, each going up in size and price, what no smaller choice is worth as much as.
template <class Choice> std::vector<Choice> best_of(const std::vector<Choice> &a, const std::vector<Choice> &b) {
  std::vector<Choice> kept;
  kept.reserve(a.size() + b.size());
  std::size_t i = 0;
  std::size_t j = 0;
  while (i < a.size() || j < b.size()) {
    const bool first =
        j == b.size() ||
        (i < a.size() && (a[i].size < b[j].size || (a[i].size == b[j].size && a[i].price >= b[j].price)));
    const Choice &next = first ? a[i++] : b[j++];
    if (kept.empty() || next.price > kept.back().price) kept.push_back(next);
  }
  return kept;
}

template <class Choice>
std::vector<Choice> raised(const std::vector<Choice> &choices, const Bar &bar, int take, Ticks length) {
  std::vector<Choice> more;
  for (const Choice &choice : choices) {
    if (choice.size + take * bar.size > length) break;
    more.push_back(choice);
    more.back().size += take * bar.size;
    more.back().price += take * bar.price;
  }
  return more;
}

constexpr std::size_t longest_list = 1000;

double price_of_unit(const Bar &bar) {
  return static_cast<double>(bar.price) / static_cast<double>(bar.size);
}

/// What a list has after all bars so far, at each stage, the bars in order of price for their size. Choices are left
/// out that cannot become better than the best that is known, whatever follows.
class Stages {
public:
  Stages(const std::vector<Bar> &bars, Ticks length, Allowance &allowance)
      : bars_(bars), length_(length), allowance_(allowance) {
    for (std::size_t i = 0; i < bars.size(); ++i)
      if (bars[i].price > 0 && bars[i].size <= length) order_.push_back(i);
    std::stable_sort(order_.begin(), order_.end(),
                     [&](std::size_t a, std::size_t b) { return price_of_unit(bars[a]) > price_of_unit(bars[b]); });
  }

  std::vector<int> choose() {
    stages_.push_back({{0, 0, 0, 0}});
    known_ = greedy(0, 0);
    for (std::size_t stage = 0; stage < order_.size(); ++stage)
      advance(stage);
    return taken();
  }

private:
  std::int64_t greedy(std::size_t stage, Ticks size) const {
    std::int64_t price = 0;
    for (; stage < order_.size(); ++stage) {
      const Bar &bar = bars_[order_[stage]];
      const Ticks take = std::min<Ticks>(bar.count, (length_ - size) / bar.size);
      size += take * bar.size;
      price += take * bar.price;
    }
    return price;
  }

  void advance(std::size_t stage) {
    const Bar &bar = bars_[order_[stage]];
    std::vector<Step> list = stages_.back();
    for (std::size_t i = 0; i < list.size(); ++i)
      list[i] = {list[i].size, list[i].price, static_cast<int>(i), 0};
    const std::vector<Step> none = list;
    const Ticks most = std::min<Ticks>(bar.count, length_ / bar.size);
    for (Ticks take = 1; take <= most && allowance_.spend(static_cast<std::int64_t>(list.size())); ++take) {
      std::vector<Step> more = raised(none, bar, static_cast<int>(take), length_);
      for (Step &step : more)
        step.taken = static_cast<int>(take);
      list = best_of(list, more);
    }
    const double next = stage + 1 < order_.size() ? price_of_unit(bars_[order_[stage + 1]]) : 0;
    known_ = std::max(known_, list.back().price + greedy(stage + 1, list.back().size));
    const Step dearest = list.back();
    std::erase_if(list, [&](const Step &step) {
      return static_cast<double>(step.price) + next * static_cast<double>(length_ - step.size) * (1 + 1e-12) <
             static_cast<double>(known_);
    });
    if (list.empty()) list.push_back(dearest); // what is known is in none of the lists, which were cut short
    if (list.size() > longest_list) thin(list);
    stages_.push_back(std::move(list));
  }

  /// Keeps every second, and the dearest.
  static void thin(std::vector<Step> &list) {
    std::size_t kept = 0;
    for (std::size_t i = (list.size() - 1) % 2; i < list.size(); i += 2)
      list[kept++] = list[i];
    list.resize(kept);
  }

  std::vector<int> taken() const {
    std::vector<int> of(bars_.size());
    if (stages_.back().empty()) return of;
    std::size_t at = stages_.back().size() - 1;
    for (std::size_t stage = order_.size(); stage-- > 0;) {
      const Step &step = stages_[stage + 1][at];
      of[order_[stage]] = step.taken;
      at = static_cast<std::size_t>(step.from);
    }
    return of;
  }

  const std::vector<Bar> &bars_;
  Ticks length_;
  Allowance &allowance_;
  std::vector<std::size_t> order_;
  std::vector<std::vector<Step>> stages_;
  std::int64_t known_ = 0;
};

} // namespace

std::vector<Worth> worth(const std::vector<Bar> &bars, Ticks length, std::size_t most) {
  std::vector<Worth> choices{{0, 0}};
  for (const Bar &bar : bars) {
    if (bar.price == 0 || bar.size > length) continue;
    Ticks left = std::min<Ticks>(bar.count, length / bar.size);
    for (Ticks take = 1; left > 0; left -= take, take = std::min(2 * take, left)) {
      choices = best_of(choices, raised(choices, bar, static_cast<int>(take), length));
      if (choices.size() > most) return {};
    }
  }
  return choices;
}

std::int64_t price_within(const std::vector<Worth> &choices, Ticks length) {
  const auto behind = std::upper_bound(choices.begin(), choices.end(), length,
                                       [](Ticks limit, const Worth &choice) { return limit < choice.size; });
  return std::prev(behind)->price;
}

std::vector<int> dearest(const std::vector<Bar> &bars, Ticks length, Allowance &allowance) {
  return Stages(bars, length, allowance).choose();
}

} // namespace gatherwright::layout
