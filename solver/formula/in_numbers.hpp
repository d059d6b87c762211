// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/formula.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <span>
#include <vector>

namespace gatherwright::formula {

/// As in_numbers(), of more than one step.
template <class NumberOf>
[[gnu::noinline]] std::optional<double> several_in_numbers(std::span<const Formula::Step> steps, NumberOf number_of) {
  using Code = Formula::Code;
  constexpr std::size_t deep = 16; // each value that waits has a step of its own, and all but one an operator
  std::array<double, deep> at_hand;
  std::vector<double> more;
  if (steps.size() >= 2 * deep) more.resize(steps.size());
  double *end = more.empty() ? at_hand.data() : more.data(); // of the values that wait
  for (const Formula::Step &step : steps) {
    switch (step.code) {
    case Code::number:
    case Code::length:
      *end++ = step.value;
      break;
    case Code::symbol: {
      const std::optional<double> named = number_of(step.symbol);
      if (!named) return std::nullopt;
      *end++ = *named;
      break;
    }
    case Code::negate:
      end[-1] = -end[-1];
      break;
    case Code::add:
      --end;
      end[-1] += *end;
      break;
    case Code::subtract:
      --end;
      end[-1] -= *end;
      break;
    case Code::multiply:
      --end;
      end[-1] *= *end;
      break;
    case Code::divide:
      --end;
      end[-1] /= *end;
      break;
    case Code::least:
      --end;
      end[-1] = std::min(end[-1], *end);
      break;
    case Code::most:
      --end;
      end[-1] = std::max(end[-1], *end);
      break;
    }
    if (!std::isfinite(end[-1])) return std::nullopt;
  }
  return end[-1] + 0.0; // no negative 0
}

/// What the steps of a formula come to in plain numbers, every one of them finite; nothing where one is not, or a
/// symbol has no number. `number_of`: the number of a symbol, if it has one.
template <class NumberOf> std::optional<double> in_numbers(std::span<const Formula::Step> steps, NumberOf number_of) {
  if (steps.size() > 1) return several_in_numbers(steps, number_of);
  const Formula::Step &only = steps.front();
  const std::optional<double> value = only.code == Formula::Code::symbol ? number_of(only.symbol) : only.value;
  return value && std::isfinite(*value) ? std::optional(*value + 0.0) : std::nullopt;
}

} // namespace gatherwright::formula
