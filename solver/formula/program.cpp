// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/formula.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

namespace gatherwright {

namespace {

using Code = Formula::Code;

/// How many values a step takes from those before it; each leaves one.
int operands_of(Code code) {
  switch (code) {
  case Code::number:
  case Code::length:
  case Code::symbol:
    return 0;
  case Code::negate:
    return 1;
  default:
    return 2;
  }
}

bool is_sound(const Formula::Step &step) {
  if (step.code < Code::number || step.code > Code::most) return false;
  if (step.code == Code::symbol) return step.symbol >= 0;
  return std::isfinite(step.value);
}

/// A number as short as it can be read back.
std::string shortest(double number) {
  std::array<char, 32> text{};
  const auto end = std::to_chars(text.data(), text.data() + text.size(), number).ptr;
  return {text.data(), end};
}

} // namespace

Formula::Formula(Length length) : Formula({{Code::length, length.mm, -1}}, shortest(length.mm) + " mm") {}

Formula Formula::of(Length length, std::string written) {
  return {{{Code::length, length.mm, -1}}, std::move(written)};
}

Formula Formula::of_symbol(int symbol, std::string written) {
  return {{{Code::symbol, 0, symbol}}, std::move(written)};
}

std::optional<Formula> Formula::of_steps(std::vector<Step> steps, std::string written) {
  std::size_t left = 0;
  for (const Step &step : steps) {
    const auto operands = static_cast<std::size_t>(operands_of(step.code));
    if (!is_sound(step) || left < operands) return std::nullopt;
    left += 1 - operands;
  }
  if (left != 1) return std::nullopt;
  return Formula(std::move(steps), std::move(written));
}

} // namespace gatherwright
