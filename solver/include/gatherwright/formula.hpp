// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/quantity.hpp"

#include <functional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace gatherwright {

/// A formula over named lengths, as written and as a postfix program. Symbols are indices given by whoever parses.
struct Formula {
  enum class Code { number, length, symbol, add, subtract, multiply, divide, negate, least, most };
  struct Step {
    Code code;
    double value = 0; ///< of a pure number; of a length, in millimetres
    int symbol = -1;  ///< of a symbol
  };
  std::vector<Step> steps; ///< empty: no formula
  std::string written;     ///< the text as it stood in the job; a bare JSON number has its unit added
};

/// constant + sum of coefficient * symbol: what a formula comes to once the fixed symbols have values.
/// Millimetres. Terms are sorted by symbol, none twice, no coefficient 0.
struct Affine {
  double constant = 0;
  std::vector<std::pair<int, double>> terms;

  bool fixed() const { return terms.empty(); }
};

/// Finds the index of a name, or -1. Names are compared code point by code point.
using NameIndex = std::function<int(std::string_view)>;

/// True where `text` is a letter followed by letters, digits and "_" (Unicode letters too) and no unit, `min`, `max`,
/// `pi` or `cloth_width`; else the fault says what it is.
Outcome<bool> check_name(std::string_view text);

/// A quantity or a formula: + - * /, brackets, names, quantities, pure numbers, pi, min(a, b), max(a, b).
/// A text that is one bare number is a length in `bare`; within a longer formula a number has no unit.
/// Checks all that can be seen without values: grammar, names, that every term is a length.
/// `known` lists the names that may be offered for one that is not found.
Outcome<Formula> parse_formula(std::string_view text, Unit bare, const NameIndex &find,
                               std::span<const std::string> known);

/// A formula that is one length, written as `written`.
Formula fixed_formula(Length length, std::string written);

enum class Relation { at_most, at_least, equal };

struct Comparison {
  Formula left;
  Relation relation = Relation::at_most;
  Formula right;
};

/// "2 * sleeve <= 150 cm": two formulas and one of <= >= =. `<`, `>`, `==` and chains are faults with a hint.
Outcome<Comparison> parse_comparison(std::string_view text, Unit bare, const NameIndex &find,
                                     std::span<const std::string> known);

/// Every symbol that the formula names, ascending, once each.
std::vector<int> symbols_of(const Formula &formula);

/// The formula's value, with `values[s]` standing for symbol s (fixed, or affine in free symbols).
/// Faults: a product or quotient of two things that are free, min or max of something free, division by nothing,
/// a value that is not finite.
Outcome<Affine> evaluate(const Formula &formula, std::span<const Affine> values);

/// An order in which every item comes after those it needs (`needs[i]`: items that i needs, indices of `needs`), the
/// earliest first where there is a choice. Where there is none, cycles: first item, ..., first item again, starting at
/// the lowest index of it; with the items of all of them taken out, an order would exist.
struct DependencyOrder {
  std::vector<int> order; ///< without the items on a cycle and those that need one, where there are cycles
  std::vector<std::vector<int>> cycles; ///< each as a -> b -> ... -> a; no item in two of them; ascending
};
DependencyOrder dependency_order(std::span<const std::vector<int>> needs);

} // namespace gatherwright
