// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/layout/bars.hpp"

#include "solver/layout/knapsack.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace gatherwright::layout {

namespace {

/// Prices in whole numbers, for choosing.
constexpr double parts = 1 << 20;
constexpr double nothing = 1e-9;

/// The simplex method with the inverse of its basis at hand. Columns are lines, shares turned, and surpluses.
class Programme {
public:
  explicit Programme(const BarDemand &demand) : demand_(demand), size_(demand.rows.size()) {
    inverse_.assign(size_ * size_, 0);
    for (std::size_t i = 0; i < size_; ++i) {
      const BarDemand::Row &row = demand.rows[i];
      const double on_a_line = static_cast<double>(std::min<Ticks>(row.count, demand.length / row.size));
      inverse_[i * size_ + i] = 1 / on_a_line;
      value_.push_back(row.total / on_a_line);
      cost_.push_back(1);
    }
  }

  std::vector<double> prices() const {
    std::vector<double> price(size_);
    for (std::size_t i = 0; i < size_; ++i)
      if (cost_[i] != 0)
        for (std::size_t j = 0; j < size_; ++j)
          price[j] += cost_[i] * inverse_[i * size_ + j];
    return price;
  }

  /// Brings in a column that pays at these prices; false where there is none.
  bool improve(const std::vector<double> &price, Allowance &allowance) {
    std::vector<double> column(size_);
    for (const BarDemand::Turn &turn : demand_.turns)
      if (price[turn.from] * turn.less > price[turn.to] * turn.more * (1 + nothing) + nothing) {
        column[turn.from] += turn.less;
        column[turn.to] -= turn.more;
        return enter(column, 0);
      }
    const auto least = std::min_element(price.begin(), price.end());
    if (*least < -nothing) {
      column[least - price.begin()] = -1;
      return enter(column, 0);
    }
    std::vector<Bar> bars;
    for (std::size_t i = 0; i < size_; ++i)
      bars.push_back(
          {demand_.rows[i].size, std::llround(std::max(0.0, std::min(price[i], 1e6)) * parts), demand_.rows[i].count});
    const std::vector<int> line = dearest(bars, demand_.length, allowance);
    double worth = 0;
    for (std::size_t i = 0; i < size_; ++i) {
      column[i] = line[i];
      worth += line[i] * price[i];
    }
    return worth > 1 + 1e-6 && enter(column, 1);
  }

private:
  bool enter(const std::vector<double> &column, double cost) {
    std::vector<double> change(size_);
    for (std::size_t i = 0; i < size_; ++i)
      for (std::size_t j = 0; j < size_; ++j)
        change[i] += inverse_[i * size_ + j] * column[j];
    std::size_t leaves = size_;
    double step = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < size_; ++i)
      if (change[i] > nothing && value_[i] / change[i] < step) {
        step = value_[i] / change[i];
        leaves = i;
      }
    if (leaves == size_) return false;
    for (std::size_t i = 0; i < size_; ++i)
      if (i != leaves && change[i] != 0) {
        const double share = change[i] / change[leaves];
        for (std::size_t j = 0; j < size_; ++j)
          inverse_[i * size_ + j] -= share * inverse_[leaves * size_ + j];
        value_[i] = std::max(0.0, value_[i] - share * value_[leaves]);
      }
    for (std::size_t j = 0; j < size_; ++j)
      inverse_[leaves * size_ + j] /= change[leaves];
    value_[leaves] = step;
    cost_[leaves] = cost;
    return true;
  }

  const BarDemand &demand_;
  std::size_t size_;
  std::vector<double> inverse_; ///< of the basis, row by row
  std::vector<double> value_;
  std::vector<double> cost_;
};

} // namespace

std::vector<double> bar_prices(const BarDemand &demand, Allowance &allowance) {
  Programme programme(demand);
  const auto rows = static_cast<std::int64_t>(demand.rows.size());
  std::vector<double> price = programme.prices();
  for (std::int64_t round = 0; round < 20 * rows + 20; ++round) {
    if (!allowance.spend(rows * rows) || !programme.improve(price, allowance)) break;
    price = programme.prices();
  }
  for (double &each : price)
    each = std::max(0.0, each);
  return price;
}

} // namespace gatherwright::layout
