// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/formula.hpp"

#include "solver/formula/evaluate.hpp"
#include "solver/formula/in_numbers.hpp"
#include "solver/text/script.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

namespace gatherwright {
namespace {

using Code = Formula::Code;

using Term = std::pair<int, double>;
using TermList = std::vector<Term>;

// A value that waits for its operator: its terms stand from the `first` on to where those of the next begin.
struct Held {
  double constant;
  std::size_t first;
  bool in_order; ///< terms ascend by their symbols, none twice
};

// Values that wait, the terms of all of them in one row behind what stands there, so that those of a sum stand already
// as they come. Sums of names are long where any formula is, so what is added is put in order and merged only where it
// matters. Few formulas nest more than `at_hand` deep; those that do pay for memory.
class Stack {
public:
  Stack(std::size_t steps, TermList &terms) : terms_(terms) {
    if (steps >= 2 * at_hand) far_.resize(steps);
    values_ = far_.empty() ? near_.data() : far_.data();
  }

  Stack(const Stack &) = delete;
  Stack &operator=(const Stack &) = delete;

  void push(double constant, std::span<const Term> terms) {
    constexpr std::size_t few = 4; // names that most formulas have at most
    if (!terms.empty() && terms_.capacity() == 0) terms_.reserve(std::max(few, terms.size()));
    values_[size_++] = {constant, terms_.size(), true};
    for (const Term &term : terms)
      terms_.push_back(term);
  }
  void pop() { --size_; }

  // The last value, and that before it.
  Held &right() { return values_[size_ - 1]; }
  Held &left() { return values_[size_ - 2]; }
  std::span<Term> right_terms() { return std::span(terms_).subspan(right().first); }
  std::span<Term> left_terms() { return std::span(terms_).subspan(left().first, right().first - left().first); }

  // Sorts the terms of a value, adds those of one symbol as they came, and drops those that are 0. False: one is not
  // finite.
  bool settle_right() {
    if (right().first == terms_.size()) return std::isfinite(right().constant);
    terms_.resize(right().first + settled(right(), right_terms()));
    return all_finite(right(), right_terms());
  }
  bool settle_left() {
    if (left().first == right().first) return std::isfinite(left().constant);
    const auto from = static_cast<std::ptrdiff_t>(left().first + settled(left(), left_terms()));
    terms_.erase(terms_.begin() + from, terms_.begin() + static_cast<std::ptrdiff_t>(right().first));
    right().first = static_cast<std::size_t>(from);
    return all_finite(left(), left_terms());
  }

private:
  // How many terms are left of them.
  static std::size_t settled(Held &held, std::span<Term> terms) {
    auto end = terms.end();
    if (!held.in_order) {
      std::stable_sort(terms.begin(), terms.end(), [](const Term &a, const Term &b) { return a.first < b.first; });
      auto last = terms.begin();
      for (auto next = last + 1; next != terms.end(); ++next) {
        // What has cancelled is gone: what comes after it begins anew.
        if (next->first == last->first)
          last->second = last->second == 0 ? next->second : last->second + next->second;
        else
          *++last = *next;
      }
      end = last + 1;
      held.in_order = true;
    }
    end = std::remove_if(terms.begin(), end, [](const Term &term) { return term.second == 0; });
    return static_cast<std::size_t>(end - terms.begin());
  }

  static bool all_finite(const Held &held, std::span<const Term> terms) {
    return std::isfinite(held.constant) &&
           std::all_of(terms.begin(), terms.end(), [](const Term &term) { return std::isfinite(term.second); });
  }

  static constexpr std::size_t at_hand = 8;
  std::array<Held, at_hand> near_;
  std::vector<Held> far_;
  Held *values_;
  std::size_t size_ = 0;
  TermList &terms_;
};

void scale(Held &held, std::span<Term> terms, double factor) {
  held.constant *= factor;
  for (Term &term : terms)
    term.second *= factor;
}

void divide(Held &held, std::span<Term> terms, double divisor) {
  held.constant /= divisor;
  for (Term &term : terms)
    term.second /= divisor;
}

// left += sign * right, which is in order.
void add(Stack &stack, double sign) {
  Held &left = stack.left();
  left.constant += sign * stack.right().constant;
  const std::span<Term> before = stack.left_terms();
  const std::span<Term> added = stack.right_terms();
  if (added.empty()) return;
  for (Term &term : added)
    term.second *= sign;
  left.in_order = before.empty() || (left.in_order && before.back().first < added.front().first);
}

// As it is written, unless that is not said.
std::string told(const Formula &formula) {
  return formula.written().empty() ? "the formula" : quantity::excerpt(formula.written());
}

Fault not_finite(const Formula &formula) {
  return {told(formula) + " comes to no finite length", "check its figures"};
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

// Applies an operator to the last two values, which are in order where it is no sum. Their terms, those of the one
// before those of the other, are then the terms of what comes of it.
std::optional<Hindrance> apply(Code code, Stack &stack) {
  Held &left = stack.left();
  const Held &right = stack.right();
  const bool left_fixed = stack.left_terms().empty();
  const bool right_fixed = stack.right_terms().empty();
  switch (code) {
  case Code::add:
    add(stack, 1);
    return std::nullopt;
  case Code::subtract:
    add(stack, -1);
    return std::nullopt;
  case Code::multiply: {
    if (!left_fixed && !right_fixed) return free_product;
    const double factor = left_fixed ? left.constant : right.constant;
    if (left_fixed) left.constant = right.constant;
    scale(left, left_fixed ? stack.right_terms() : stack.left_terms(), factor);
    return std::nullopt;
  }
  case Code::divide:
    if (!right_fixed) return free_divisor;
    if (right.constant == 0) return nothing_to_divide_by;
    divide(left, stack.left_terms(), right.constant);
    return std::nullopt;
  default:
    if (!left_fixed || !right_fixed) return free_choice;
    left.constant =
        code == Code::least ? std::min(left.constant, right.constant) : std::max(left.constant, right.constant);
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
  return formula::in_numbers(formula.steps(), [values](int symbol) {
    const Affine &named = values[static_cast<std::size_t>(symbol)];
    return named.fixed() ? std::optional(named.constant) : std::nullopt;
  });
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
  Affine value;
  const Outcome<double> constant = formula::evaluate_onto(formula, values, value.terms);
  if (!constant) return constant.fault();
  value.constant = *constant;
  return value;
}

Outcome<double> formula::evaluate_onto(const Formula &formula, std::span<const Affine> values, TermList &terms) {
  if (const auto fixed = fixed_value(formula, values)) return *fixed;
  Stack stack(formula.steps().size(), terms);
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
    handled += stack.right_terms().size();
    if (step.code == Code::negate) {
      scale(stack.right(), stack.right_terms(), -1);
      continue;
    }
    // Checked at every step, since a quotient can hide an overflow.
    bool sound = stack.settle_right();
    if (!is_sum(step.code)) {
      handled += stack.left_terms().size();
      sound = stack.settle_left() && sound;
    }
    if (!sound) return not_finite(formula);
    if (handled > most_handled) return too_long(formula);
    if (const auto hindrance = apply(step.code, stack))
      return Fault{told(formula) + ' ' + std::string(hindrance->what), std::string(hindrance->instead)};
    stack.pop();
    if (!std::isfinite(stack.right().constant)) return not_finite(formula);
  }
  if (!stack.settle_right()) return not_finite(formula);
  return stack.right().constant + 0.0; // no negative 0
}

} // namespace gatherwright
