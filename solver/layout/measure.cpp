// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/layout/measure.hpp"

#include <algorithm>

namespace gatherwright::layout {

namespace {

constexpr Ticks table_up_to = 1 << 14;
constexpr std::size_t most_sums = 20'000;
/// Products and sums of whole numbers in double precision are off by less than this share of them.
constexpr double off = 1e-12;

} // namespace

Taken::Taken(const std::vector<Worth> &choices, Ticks length) : choices_(choices), length_(length) {
  whole_ = static_cast<double>(price_within(choices_, length));
  if (length > table_up_to) {
    bucket_ = length / table_up_to + 1;
    for (Ticks begin = 0; begin <= length; begin += bucket_) {
      const auto behind = std::upper_bound(choices_.begin(), choices_.end(), begin,
                                           [](Ticks limit, const Worth &choice) { return limit < choice.size; });
      buckets_.push_back(static_cast<int>(behind - choices_.begin()) - 1);
    }
    return;
  }
  table_.resize(static_cast<std::size_t>(length) + 1);
  std::size_t at = 0;
  for (Ticks rest = 0; rest <= length; ++rest) {
    while (at + 1 < choices_.size() && choices_[at + 1].size <= rest)
      ++at;
    table_[static_cast<std::size_t>(length - rest)] = whole_ - static_cast<double>(choices_[at].price);
  }
}

double Taken::looked_up(Ticks rest) const {
  auto at = static_cast<std::size_t>(buckets_[static_cast<std::size_t>(rest / bucket_)]);
  while (at + 1 < choices_.size() && choices_[at + 1].size <= rest)
    ++at;
  return whole_ - static_cast<double>(choices_[at].price);
}

std::optional<Measure> measure(const Strip &strip, const Prices &prices, Run run, Ticks length) {
  const Ticks line = run == Run::across ? strip.width : length;
  const Ticks lines = run == Run::across ? length : strip.width;
  const std::vector<Worth> choices = worth(bars_of(strip, prices, run), line, most_sums);
  if (choices.empty()) return std::nullopt;
  Measure measure{run, Taken(choices, line), {}, 0, 0, 0};
  for (std::size_t i = 0; i < strip.kinds.size(); ++i) {
    Kind single = strip.kinds[i];
    single.count = 1;
    const Product worth = price_of_all({strip.width, {single}}, {{prices.straight[i]}, {prices.turned[i]}}, run);
    measure.of_kind.push_back(static_cast<double>(worth));
  }
  const double most = measure.taken.whole() * static_cast<double>(lines);
  measure.all = static_cast<double>(price_of_all(strip, prices, run));
  measure.rounding = most * off;
  measure.allowed = most - measure.all + measure.rounding;
  return measure;
}

Prices sizes_as_prices(const Strip &strip, Run run) {
  const bool across = run == Run::across;
  Prices prices;
  for (const Kind &kind : strip.kinds) {
    prices.straight.push_back(across ? kind.across : kind.along);
    prices.turned.push_back(!kind.may_turn ? 0 : across ? kind.along : kind.across);
  }
  return prices;
}

} // namespace gatherwright::layout
