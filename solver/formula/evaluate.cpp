// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/formula.hpp"

#include "solver/text/script.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

namespace gatherwright {
namespace {

using Code = Formula::Code;

// A value at work. Sums of names are long where any formula is, so terms are added at the end, and put in order and
// merged only where it matters.
struct Held {
  Affine value;
  bool in_order = true;
};

// Values that wait for their operator. Few formulas nest more than `at_hand` deep; those that do pay for memory. Values
// stay where they are, and their room with them: what is popped may be used until the next is pushed.
class Stack {
public:
  void push(double constant, std::span<const std::pair<int, double>> terms) {
    if (size_ >= at_hand && size_ - at_hand == far_.size()) far_.emplace_back();
    ++size_;
    Held &held = top();
    held.value.constant = constant;
    held.value.terms.assign(terms.begin(), terms.end());
    held.in_order = true;
  }
  Held &top() { return size_ <= at_hand ? near_[size_ - 1] : far_[size_ - 1 - at_hand]; }
  Held &pop() {
    Held &last = top();
    --size_;
    return last;
  }

private:
  static constexpr std::size_t at_hand = 8;
  std::array<Held, at_hand> near_;
  std::vector<Held> far_;
  std::size_t size_ = 0;
};

using Terms = std::vector<std::pair<int, double>>;

bool finite(std::span<const std::pair<int, double>> terms) {
  return std::all_of(terms.begin(), terms.end(), [](const auto &term) { return std::isfinite(term.second); });
}

// Terms sorted, none twice, none 0; those of one symbol are added as they came. False: one is not finite.
bool settle(Held &held) {
  Terms &terms = held.value.terms;
  if (terms.empty()) return std::isfinite(held.value.constant);
  if (!held.in_order) {
    std::stable_sort(terms.begin(), terms.end(), [](const auto &a, const auto &b) { return a.first < b.first; });
    auto last = terms.begin();
    for (auto next = last + 1; next != terms.end(); ++next) {
      // What has cancelled is gone: what comes after it begins anew.
      if (next->first == last->first)
        last->second = last->second == 0 ? next->second : last->second + next->second;
      else
        *++last = *next;
    }
    terms.erase(last + 1, terms.end());
    held.in_order = true;
  }
  std::erase_if(terms, [](const auto &term) { return term.second == 0; });
  return std::isfinite(held.value.constant) && finite(terms);
}

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

// left += sign * right, which is in order and is used up.
void add(Held &left, Affine &right, double sign) {
  left.value.constant += sign * right.constant;
  if (right.fixed()) return;
  for (auto &term : right.terms)
    term.second *= sign;
  Terms &terms = left.value.terms;
  if (terms.empty()) {
    std::swap(terms, right.terms);
    return;
  }
  left.in_order = left.in_order && terms.back().first < right.terms.front().first;
  terms.insert(terms.end(), right.terms.begin(), right.terms.end());
}

// As it is written, unless that is not said.
std::string told(const Formula &formula) {
  return formula.written().empty() ? "the formula" : quantity::excerpt(formula.written());
}

Fault not_finite(const Formula &formula) {
  return {told(formula) + " comes to no finite length", "check its figures"};
}

// Of numbers alone; nothing for what is no operator of two.
std::optional<double> applied(Code code, double left, double right) {
  switch (code) {
  case Code::add:
    return left + right;
  case Code::subtract:
    return left - right;
  case Code::multiply:
    return left * right;
  case Code::divide:
    return left / right;
  case Code::least:
    return std::min(left, right);
  case Code::most:
    return std::max(left, right);
  default:
    return std::nullopt;
  }
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

// Applies an operator of two to `held`, and uses up `right`; but for sums, both are in order.
std::optional<Hindrance> apply(Code code, Held &held, Affine &right) {
  Affine &left = held.value;
  switch (code) {
  case Code::add:
    add(held, right, 1);
    return std::nullopt;
  case Code::subtract:
    add(held, right, -1);
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
    left.constant = *applied(code, left.constant, right.constant);
    return std::nullopt;
  }
}

// Terms that may be handled in working out one formula: far more than any that is meant has, and a tenth of a second's
// work.
constexpr std::size_t most_handled = 4'000'000;

Fault too_long(const Formula &formula) {
  return {told(formula) + " has more in it than can be worked out", "write it with fewer lengths that are to be found"};
}

// What a formula comes to whose names are all fixed, by the same operations in the same order; nothing where one is
// not, or anything is amiss: then the long way tells what.
std::optional<double> fixed_value(const Formula &formula, std::span<const Affine> values) {
  constexpr std::size_t deep = 16;
  std::array<double, deep> waiting;
  std::size_t size = 0;
  for (const Formula::Step &step : formula.steps()) {
    if (size == deep) return std::nullopt;
    double value = step.value;
    if (step.code == Code::symbol) {
      const Affine &named = values[static_cast<std::size_t>(step.symbol)];
      if (!named.fixed()) return std::nullopt;
      value = named.constant;
    } else if (step.code == Code::negate) {
      value = -waiting[--size];
    } else if (step.code != Code::number && step.code != Code::length) {
      size -= 2;
      const auto of_two = applied(step.code, waiting[size], waiting[size + 1]);
      if (!of_two) return std::nullopt;
      value = *of_two;
    }
    if (!std::isfinite(value)) return std::nullopt;
    waiting[size++] = value;
  }
  return waiting[0] + 0.0; // no negative 0
}

bool is_sum(Code code) {
  return code == Code::add || code == Code::subtract;
}

} // namespace

std::vector<int> symbols_of(const Formula &formula) {
  std::vector<int> symbols;
  for (const Formula::Step &step : formula.steps())
    if (step.code == Code::symbol) symbols.push_back(step.symbol);
  std::sort(symbols.begin(), symbols.end());
  symbols.erase(std::unique(symbols.begin(), symbols.end()), symbols.end());
  return symbols;
}

Outcome<Affine> evaluate(const Formula &formula, std::span<const Affine> values) {
  if (const auto fixed = fixed_value(formula, values)) return Affine{*fixed, {}};
  Stack stack;
  std::size_t handled = 0;
  for (const Formula::Step &step : formula.steps()) {
    if (step.code == Code::number || step.code == Code::length) {
      stack.push(step.value, {});
      continue;
    }
    if (step.code == Code::symbol) {
      const Affine &value = values[static_cast<std::size_t>(step.symbol)];
      handled += value.terms.size();
      stack.push(value.constant, value.terms);
      continue;
    }
    if (step.code == Code::negate) {
      handled += stack.top().value.terms.size();
      scale(stack.top().value, -1);
      continue;
    }
    Held &last = stack.pop();
    Held &left = stack.top();
    handled += last.value.terms.size();
    // Checked at every step, since a quotient can hide an overflow.
    bool sound = settle(last);
    if (!is_sum(step.code)) {
      handled += left.value.terms.size();
      sound = settle(left) && sound;
    }
    if (!sound) return not_finite(formula);
    if (handled > most_handled) return too_long(formula);
    if (const auto hindrance = apply(step.code, left, last.value))
      return Fault{told(formula) + ' ' + std::string(hindrance->what), std::string(hindrance->instead)};
    if (!std::isfinite(left.value.constant)) return not_finite(formula);
  }
  Held &result = stack.top();
  if (!settle(result)) return not_finite(formula);
  result.value.constant += 0.0; // no negative 0
  return std::move(result.value);
}

} // namespace gatherwright
