// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/formula.hpp"

#include "quantity/script.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

namespace gatherwright {
namespace {

using Code = Formula::Code;

// Values that wait for their operator. Few formulas nest more than `at_hand` deep; those that do pay for memory.
class Stack {
public:
  void push(Affine value) {
    if (size_ < at_hand)
      near_[size_] = std::move(value);
    else
      far_.push_back(std::move(value));
    ++size_;
  }

  Affine pop() {
    --size_;
    if (size_ < at_hand) return std::move(near_[size_]);
    Affine value = std::move(far_.back());
    far_.pop_back();
    return value;
  }

private:
  static constexpr std::size_t at_hand = 8;
  std::array<Affine, at_hand> near_;
  std::vector<Affine> far_;
  std::size_t size_ = 0;
};

void scale(Affine &value, double factor) {
  value.constant *= factor;
  for (auto &term : value.terms)
    term.second *= factor;
}

void divide(Affine &value, double divisor) {
  value.constant /= divisor;
  for (auto &term : value.terms)
    term.second /= divisor;
}

void drop_zeros(Affine &value) {
  std::erase_if(value.terms, [](const auto &term) { return term.second == 0; });
}

// left += sign * right, the terms merged in order.
void add(Affine &left, Affine right, double sign) {
  left.constant += sign * right.constant;
  if (right.fixed()) return;
  scale(right, sign);
  if (left.fixed()) {
    left.terms = std::move(right.terms);
    return;
  }
  std::vector<std::pair<int, double>> merged;
  merged.reserve(left.terms.size() + right.terms.size());
  auto a = left.terms.begin();
  auto b = right.terms.begin();
  while (a != left.terms.end() && b != right.terms.end()) {
    if (a->first == b->first) {
      merged.emplace_back(a->first, a->second + b->second);
      ++a, ++b;
    } else {
      merged.push_back(a->first < b->first ? *a++ : *b++);
    }
  }
  merged.insert(merged.end(), a, left.terms.end());
  merged.insert(merged.end(), b, right.terms.end());
  left.terms = std::move(merged);
}

bool finite(const Affine &value) {
  return std::isfinite(value.constant) && std::all_of(value.terms.begin(), value.terms.end(),
                                                      [](const auto &term) { return std::isfinite(term.second); });
}

Fault not_finite(const Formula &formula) {
  return {quantity::excerpt(formula.written) + " comes to no finite length", "check its figures"};
}

// What an operator cannot do, to follow the formula's own words.
struct Hindrance {
  std::string_view what;
  std::string_view instead;
};

constexpr Hindrance free_product{"is not in proportion to its free lengths: it multiplies them", "fix one of them"};
constexpr Hindrance free_divisor{"is not in proportion to its free lengths: it divides by one",
                                 "fix what it divides by"};
constexpr Hindrance free_choice{"takes min or max of a free length", "take it of fixed lengths"};
constexpr Hindrance nothing_to_divide_by{"divides by 0", "divide by something else"};

// Applies an operator of two to `left`.
std::optional<Hindrance> apply(Code code, Affine &left, Affine right) {
  switch (code) {
  case Code::add:
    add(left, std::move(right), 1);
    return std::nullopt;
  case Code::subtract:
    add(left, std::move(right), -1);
    return std::nullopt;
  case Code::multiply:
    if (!left.fixed() && !right.fixed()) return free_product;
    if (left.fixed()) std::swap(left, right);
    scale(left, right.constant);
    return std::nullopt;
  case Code::divide:
    if (!right.fixed()) return free_divisor;
    if (right.constant == 0) return nothing_to_divide_by;
    divide(left, right.constant);
    return std::nullopt;
  default:
    if (!left.fixed() || !right.fixed()) return free_choice;
    left.constant =
        code == Code::least ? std::min(left.constant, right.constant) : std::max(left.constant, right.constant);
    return std::nullopt;
  }
}

} // namespace

std::vector<int> symbols_of(const Formula &formula) {
  std::vector<int> symbols;
  for (const Formula::Step &step : formula.steps)
    if (step.code == Code::symbol) symbols.push_back(step.symbol);
  std::sort(symbols.begin(), symbols.end());
  symbols.erase(std::unique(symbols.begin(), symbols.end()), symbols.end());
  return symbols;
}

Outcome<Affine> evaluate(const Formula &formula, std::span<const Affine> values) {
  if (formula.steps.empty()) return Fault{"nothing is written here", "write a length such as 62 cm"};
  Stack stack;
  for (const Formula::Step &step : formula.steps) {
    if (step.code == Code::number || step.code == Code::length) {
      stack.push({step.value, {}});
      continue;
    }
    if (step.code == Code::symbol) {
      stack.push(values[static_cast<std::size_t>(step.symbol)]);
      continue;
    }
    Affine last = stack.pop();
    if (step.code == Code::negate) {
      scale(last, -1);
      stack.push(std::move(last));
      continue;
    }
    Affine left = stack.pop();
    if (const auto hindrance = apply(step.code, left, std::move(last)))
      return Fault{quantity::excerpt(formula.written) + ' ' + std::string(hindrance->what),
                   std::string(hindrance->instead)};
    drop_zeros(left);
    // Checked at every step, since a quotient can hide an overflow.
    if (!finite(left)) return not_finite(formula);
    stack.push(std::move(left));
  }
  Affine result = stack.pop();
  if (!finite(result)) return not_finite(formula);
  result.constant += 0.0; // no negative 0
  return result;
}

} // namespace gatherwright
