// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/layout/bound.hpp"

#include "solver/layout/bars.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace gatherwright::layout {

namespace {

constexpr std::size_t most_sums = 20'000;
/// Kinds whose bars differ less than others are priced as one where there are more.
constexpr std::size_t most_rows = 120;
/// What prices are tried as parts of: multipliers are often simple fractions. The greatest bounds the lists of choices.
constexpr std::array<int, 27> whole_parts{1,  2,  3,  4,  5,  6,  7,  8,  9,  10, 12,  14,  15,  16,
                                          18, 20, 21, 24, 28, 30, 36, 40, 48, 60, 120, 840, 5040};

Ticks total_along(const Strip &strip) {
  Ticks sum = 0;
  for (const Kind &kind : strip.kinds)
    sum += kind.count * (kind.may_turn ? std::max(kind.across, kind.along) : kind.along);
  return sum;
}

Ticks tallest(const Strip &strip) {
  Ticks most = 0;
  for (const Kind &kind : strip.kinds)
    most = std::max(most, kind.least_along());
  return most;
}

Ticks size_of(const Kind &kind, bool turned, Run run) {
  return (run == Run::across) == turned ? kind.along : kind.across;
}

/// The rows of a demand, and of each kind the row that its bar counts in, straight and turned.
struct Rows {
  BarDemand demand;
  std::vector<int> straight;
  std::vector<int> turned;
};

/// Bars of about one size are one row, of the least size among them.
std::vector<Ticks> row_sizes(const Strip &strip, Run run, Ticks length) {
  std::vector<Ticks> sizes;
  for (const Kind &kind : strip.kinds)
    for (const bool turned : {false, true})
      if (const Ticks size = size_of(kind, turned, run); (!turned || kind.may_turn) && size <= length)
        sizes.push_back(size);
  std::sort(sizes.begin(), sizes.end());
  sizes.erase(std::unique(sizes.begin(), sizes.end()), sizes.end());
  if (sizes.size() <= most_rows) return sizes;
  std::vector<Ticks> grouped;
  for (std::size_t i = 0; i < most_rows; ++i)
    grouped.push_back(sizes[i * sizes.size() / most_rows]);
  return grouped;
}

Rows rows_of(const Strip &strip, Run run, Ticks length) {
  Rows rows;
  rows.demand.length = length;
  for (const Ticks size : row_sizes(strip, run, length))
    rows.demand.rows.push_back({size, 0, 0});
  const auto row_of = [&](Ticks size) {
    if (size > length) return -1;
    const auto behind = std::upper_bound(rows.demand.rows.begin(), rows.demand.rows.end(), size,
                                         [](Ticks limit, const BarDemand::Row &row) { return limit < row.size; });
    return static_cast<int>(behind - rows.demand.rows.begin()) - 1;
  };
  for (const Kind &kind : strip.kinds) {
    const int straight = row_of(size_of(kind, false, run));
    const int turned = kind.may_turn ? row_of(size_of(kind, true, run)) : -1;
    rows.straight.push_back(straight);
    rows.turned.push_back(turned);
    const int first = straight >= 0 ? straight : turned;
    const double less = static_cast<double>(size_of(kind, straight < 0, run == Run::across ? Run::along : Run::across));
    rows.demand.rows[first].total += less * kind.count;
    for (const int row : {straight, turned})
      if (row >= 0) rows.demand.rows[row].count += kind.count;
    if (straight >= 0 && turned >= 0)
      rows.demand.turns.push_back(
          {straight, turned, less,
           static_cast<double>(size_of(kind, true, run == Run::across ? Run::along : Run::across))});
  }
  std::erase_if(rows.demand.turns, [](const BarDemand::Turn &turn) { return turn.from == turn.to; });
  return rows;
}

/// A bar that is longer than a line may cost what it likes.
constexpr std::int64_t beyond = 1 << 20;

Prices whole(const Strip &strip, const Rows &rows, const std::vector<double> &price, int parts) {
  Prices prices;
  const auto of = [&](int row) {
    return row < 0 ? beyond : static_cast<std::int64_t>(std::floor(std::min(price[row], 2.0) * parts + 1e-6));
  };
  for (std::size_t i = 0; i < strip.kinds.size(); ++i) {
    prices.straight.push_back(of(rows.straight[i]));
    prices.turned.push_back(strip.kinds[i].may_turn ? of(rows.turned[i]) : 0);
  }
  return prices;
}

/// Lists of choices are no longer than this, so that all of them together are made in bounded work.
std::size_t longest_list(const std::vector<Bar> &bars) {
  return std::clamp<std::size_t>(20'000'000 / (bars.size() + 1), 100, 4 * most_sums);
}

/// The whole prices at which all are worth the most lines.
Prices best_prices(const Strip &strip, Run run, Ticks length, Allowance &allowance) {
  const Rows rows = rows_of(strip, run, length);
  const std::vector<double> price = bar_prices(rows.demand, allowance);
  Prices best;
  double most = 0;
  for (const int parts : whole_parts) {
    const Prices prices = whole(strip, rows, price, parts);
    const std::vector<Bar> bars = bars_of(strip, prices, run);
    const std::vector<Worth> choices = worth(bars, length, longest_list(bars));
    if (choices.empty() || choices.back().price == 0) continue;
    const double lines =
        static_cast<double>(price_of_all(strip, prices, run)) / static_cast<double>(choices.back().price);
    if (lines <= most * (1 + 1e-9)) continue;
    most = lines;
    best = prices;
  }
  return best;
}

Prices widths_as_prices(const Strip &strip) {
  Prices prices;
  for (const Kind &kind : strip.kinds) {
    prices.straight.push_back(kind.across);
    prices.turned.push_back(kind.may_turn ? kind.along : 0);
  }
  return prices;
}

} // namespace

Reach reach_along(const Strip &strip, Ticks greatest) {
  std::vector<Reach::Item> items;
  for (const Kind &kind : strip.kinds)
    items.push_back({kind.along, kind.may_turn ? kind.across : 0, kind.count});
  return {items, greatest, most_sums};
}

Reach reach_across(const Strip &strip) {
  std::vector<Reach::Item> items;
  for (const Kind &kind : strip.kinds)
    items.push_back({kind.across, kind.may_turn ? kind.along : 0, kind.count});
  return {items, strip.width, most_sums};
}

std::vector<Bar> bars_of(const Strip &strip, const Prices &prices, Run run) {
  std::vector<Bar> bars;
  for (std::size_t i = 0; i < strip.kinds.size(); ++i) {
    const Kind &kind = strip.kinds[i];
    bars.push_back({size_of(kind, false, run), prices.straight[i], kind.count});
    if (kind.may_turn) bars.push_back({size_of(kind, true, run), prices.turned[i], kind.count});
  }
  return bars;
}

Product price_of_all(const Strip &strip, const Prices &prices, Run run) {
  const Run other = run == Run::across ? Run::along : Run::across;
  Product sum = 0;
  for (std::size_t i = 0; i < strip.kinds.size(); ++i) {
    const Kind &kind = strip.kinds[i];
    Product price = Product{size_of(kind, false, other)} * prices.straight[i];
    if (kind.may_turn) price = std::min(price, Product{size_of(kind, true, other)} * prices.turned[i]);
    sum += price * kind.count;
  }
  return sum;
}

Bounds::Bounds(const Strip &strip, Allowance &allowance)
    : lengths_(reach_along(strip, total_along(strip))), least_(tallest(strip)) {
  best_.least = least_;
  if (strip.kinds.empty()) return;
  consider(strip, Certificate::Kind::bars_across, widths_as_prices(strip));
  across_ = best_prices(strip, Run::across, strip.width, allowance);
  if (!across_.straight.empty()) consider(strip, Certificate::Kind::bars_across, across_);
  bars_along(strip, allowance);
}

void Bounds::consider(const Strip &strip, Certificate::Kind kind, const Prices &prices) {
  const std::vector<Bar> bars = bars_of(strip, prices, Run::across);
  const std::vector<Worth> choices = worth(bars, strip.width, longest_list(bars));
  if (choices.empty() && &prices == &across_) return;
  const std::int64_t line = choices.empty() ? strip.width : choices.back().price; // too many: of widths themselves
  const Product all = price_of_all(strip, prices, Run::across);
  const Ticks lines = static_cast<Ticks>((all + line - 1) / line);
  const Ticks least = lengths_.least_from(lines);
  if (least <= best_.least) return;
  best_ = {kind, prices, least};
  least_ = std::max(least_, least);
}

void Bounds::bars_along(const Strip &strip, Allowance &allowance) {
  for (int round = 0; round < 12; ++round) {
    const Prices prices = best_prices(strip, Run::along, least_, allowance);
    if (prices.straight.empty()) return;
    along_ = prices;
    const std::vector<Bar> bars = bars_of(strip, prices, Run::along);
    const std::vector<Worth> choices = worth(bars, least_, longest_list(bars));
    if (choices.empty()) return;
    if (price_of_all(strip, prices, Run::along) <= Product{strip.width} * choices.back().price) return;
    least_ = lengths_.least_from(least_ + 1);
    best_ = {Certificate::Kind::bars_along, prices, least_};
  }
}

} // namespace gatherwright::layout
