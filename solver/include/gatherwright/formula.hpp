// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/quantity.hpp"

#include <functional>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace gatherwright {

/// A formula over named lengths, as written and as a postfix program, which leaves one value. Symbols are indices given
/// by whoever parses. None is empty or malformed.
///   1. A formula of which nothing is said is a length of 0.
///   2. Steps that are no program are refused.
class Formula {
public:
  enum class Code { number, length, symbol, add, subtract, multiply, divide, negate, least, most };
  struct Step {
    Code code;
    double value = 0; ///< of a pure number; of a length, in millimetres
    int symbol = -1;  ///< of a symbol
  };

  Formula() : Formula({{Code::length}}, "0 mm") {}

  /// One length, written in millimetres.
  Formula(Length length);

  /// One length, written as `written`.
  static Formula of(Length length, std::string written);

  /// One symbol by itself, at least 0, written as `written`.
  static Formula of_symbol(int symbol, std::string written);

  /// The program `steps` if it is one: every code is one of those above, every operator finds its operands, one value
  /// is left, no symbol is below 0, and every figure is finite. Nothing else.
  static std::optional<Formula> of_steps(std::vector<Step> steps, std::string written);

  std::span<const Step> steps() const { return steps_; }

  /// The text as it stood in the job; a bare JSON number has its unit added.
  const std::string &written() const { return written_; }

  /// The same, told in other words: a name cut short.
  Formula written_as(std::string written) const { return {steps_, std::move(written)}; }

private:
  Formula(std::vector<Step> steps, std::string written) : steps_(std::move(steps)), written_(std::move(written)) {}

  std::vector<Step> steps_;
  std::string written_;
};

/// constant + sum of coefficient * symbol: what a formula comes to once the fixed symbols have values.
/// Millimetres.
///   3. Terms are sorted, merged and dropped where they cancel.
struct Affine {
  double constant = 0;
  std::vector<std::pair<int, double>> terms;

  bool fixed() const { return terms.empty(); }
};

/// Finds the index of a name, or -1. Names are compared code point by code point.
using NameIndex = std::function<int(std::string_view)>;

/// Nothing where `text` is a letter followed by letters, digits and "_" (Unicode letters too) and no unit, `min`,
/// `max`, `pi` or `cloth_width`; else the fault says what it is.
///   4. Names are letters, digits and underscores, and no word that formulas know.
std::optional<Fault> check_name(std::string_view text);

/// A quantity or a formula: + - * /, brackets, names, quantities, pure numbers, pi, min(a, b), max(a, b).
/// A text that is one bare number is a length in `bare`; within a longer formula a number has no unit.
/// Checks all that can be seen without values: grammar, names, that every term is a length.
/// `known` lists the names that may be offered for one that is not found.
///   5. A lone quantity or bare number is a formula.
///   6. Every term must be a length.
Outcome<Formula> parse_formula(std::string_view text, Unit bare, const NameIndex &find,
                               std::span<const std::string> known);

enum class Relation { at_most, at_least, equal };

struct Comparison {
  Formula left;
  Relation relation = Relation::at_most;
  Formula right;
};

/// "2 * sleeve <= 150 cm". `<`, `>`, `==` and chains are faults with a hint.
///   7. A rule is two formulas and one comparison.
Outcome<Comparison> parse_comparison(std::string_view text, Unit bare, const NameIndex &find,
                                     std::span<const std::string> known);

/// Every symbol that the formula names.
///   8. The symbols of a formula are told once each, in ascending order.
std::vector<int> symbols_of(const Formula &formula);

/// The formula's value, with `values[s]` standing for symbol s (fixed, or affine in free symbols).
/// Faults: a product or quotient of two things that are free, min or max of something free, division by nothing,
/// a value that is not finite, more in it than can be worked out.
///   9. An affine formula is the line through its numeric values.
///   10. What is not in proportion to the free lengths is a fault.
///   11. A value that is not finite is a fault.
Outcome<Affine> evaluate(const Formula &formula, std::span<const Affine> values);

/// An order of items (`needs[i]`: items that i needs, indices of `needs`); where there is none, cycles: first item,
/// ..., first item again.
///   12. Items come after what they need, the earliest first where there is a choice.
///   13. A cycle is told once, from its lowest item.
///   14. With the items of all cycles taken out, there is an order.
struct DependencyOrder {
  std::vector<int> order; ///< without the items on a cycle and those that need one, where there are cycles
  std::vector<std::vector<int>> cycles; ///< each as a -> b -> ... -> a; no item in two of them; ascending
};
DependencyOrder dependency_order(std::span<const std::vector<int>> needs);

} // namespace gatherwright
