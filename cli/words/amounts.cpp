// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/words/amounts.hpp"

#include "cli/words/figures.hpp"

#include <fmt/format.h>

#include <cmath>
#include <numeric>
#include <optional>

namespace gatherwright::words {

namespace {

constexpr double eighth_yard = millimetres(Unit::yd) / 8;

/// How many eighths of a yard a length is; nothing where it is no whole count, but for rounding, or too many to count.
std::optional<long long> eighths_of_a_yard(double mm) {
  constexpr double countable = 1e12;
  const double eighths = std::round(mm / eighth_yard);
  if (eighths > countable || std::fabs(mm / eighth_yard - eighths) > 1e-9 * std::fmax(1, eighths)) return std::nullopt;
  return static_cast<long long>(eighths);
}

std::string yards(long long eighths) {
  const long long whole = eighths / 8;
  const long long rest = eighths % 8;
  if (rest == 0) return fmt::format("{} yd", whole);
  const long long common = std::gcd(rest, 8LL);
  return fmt::format("{}{}/{} yd", whole > 0 ? fmt::format("{} ", whole) : "", rest / common, 8 / common);
}

} // namespace

std::string amount(double mm, Length sold_by, Unit unit) {
  constexpr int most_places = 9; // a millionth of a millimetre: any step that has an exact decimal is one of these
  if (is_imperial(unit) && eighths_of_a_yard(sold_by.mm))
    if (const auto eighths = eighths_of_a_yard(mm)) return yards(*eighths);
  return trimmed(mm / millimetres(Unit::m), most_places) + " m";
}

std::string to_buy(const ClothPlan &cloth, Unit unit) {
  return amount(cloth.buy_by_step, cloth.cloth.sold_by, unit);
}

std::string percent(double share) {
  return decimals(std::floor(100 * share + 1e-6), 0) + " %";
}

} // namespace gatherwright::words
