// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/plan.hpp"
#include "solver/advice/dependence.hpp"
#include "solver/advice/line.hpp"
#include "solver/optimum/work.hpp"

#include <span>
#include <utility>
#include <vector>

namespace gatherwright::advice {

/// Which of a row of things are meant.
struct Slice {
  std::size_t first = 0;
  std::size_t count = 0;

  template <class Thing> std::span<const Thing> of(const std::vector<Thing> &row) const {
    return std::span(row).subspan(first, count);
  }
};

/// A formula over the job's symbols as they are planned: its terms where it is affine in the named lengths, all of them
/// at once. What is given no formula is always 0.
struct ReadFormula {
  const Formula *formula = nullptr;
  double at = 0;
  bool is_affine = false; ///< else only in some of them, if in any
  Slice terms;
  Slice symbols; ///< that it names, ascending
};

/// How a planned job's figures change with one of its lengths, one length after another: what derives from it moves
/// too. Work is counted.
class Slopes {
public:
  Slopes(const Job &job, const Plan &plan, optimum::Work &work);

  /// Of a formula of the job, to be asked about for any length, while nothing moves.
  ReadFormula read(const Formula *formula);

  /// Moves the length that a dependence begins with; false where something that derives from it is not in proportion.
  bool follow(const Dependence &on_it);
  /// Nothing moves any more.
  void stay(const Dependence &on_it);

  /// Of a named length.
  Line operator[](LengthId at) const { return {planned(at), slope_[job_.symbol_of(at)]}; }
  double planned(LengthId at) const { return planned_[job_.symbol_of(at)]; }

  /// Whether the formula names anything that moves.
  bool moves(const ReadFormula &formula) const {
    if (formula.symbols.count > 0) return moves_any(formula.symbols.of(symbols_));
    count_look();
    return false;
  }
  /// The formula as a function of the length that moves; false where it is not in proportion.
  bool line_of(const ReadFormula &formula, Line &line) const {
    line = {formula.at, 0};
    if (!formula.formula) return true;
    if (!formula.is_affine) return work_out(*formula.formula, line);
    if (formula.terms.count > 0)
      add_slopes(formula.terms.of(terms_), line);
    else
      count_look();
    return true;
  }

  /// What a formula comes to with the length that moves at a value; nothing where that is a fault.
  std::optional<double> value_at(double value, const Formula &formula, const Dependence &on_it) const;

private:
  static constexpr int each_look = 5; ///< in steps

  void count_look() const { work_.add(each_look); }
  void want_by_length();
  bool moves_any(std::span<const int> symbols) const;
  bool work_out(const Formula &formula, Line &line) const;
  bool is_longer(std::size_t count) const;
  void add_slopes(std::span<const std::pair<int, double>> terms, Line &line) const;

  const Job &job_;
  optimum::Work &work_;
  std::vector<double> planned_;   ///< per symbol
  std::vector<double> slope_;     ///< per symbol, by the length that moves
  std::vector<int> moved_;        ///< symbols whose slope is not 0, ascending; none while they are being found
  std::vector<Affine> named_;     ///< per symbol: itself where it is a length, else its value
  std::vector<Affine> by_length_; ///< per symbol: as a function of the length that moves; only where that is wanted
  std::vector<ReadFormula> length_is_;
  std::vector<std::pair<int, double>> terms_; ///< of all formulas
  std::vector<int> symbols_;                  ///< likewise
};

} // namespace gatherwright::advice
