// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/plan.hpp"
#include "solver/advice/dependence.hpp"
#include "solver/formula/figure.hpp"
#include "solver/piece/sizes.hpp"

#include <optional>
#include <vector>

namespace gatherwright::advice {

/// What the figures of a planned job come to while one of its lengths is another and what derives from it moves too.
class Moved {
public:
  /// The plan is of no conflict, and has a value for every length.
  Moved(const Job &job, const Plan &plan);

  /// Puts the length that a dependence begins with at a value; one moved before is back as planned.
  void move(const Dependence &on_it, double value);

  double length(LengthId at) const { return values_[job_.symbol_of(at)]; }

  /// Nothing where the formula has no value.
  std::optional<double> value(const Formula &formula) const { return value_of(formula, values_); }

  /// Of a piece, without where the parts of its sides begin. Nothing where one has no value.
  std::optional<piece::Sizes> sizes(PieceId at) const;

private:
  const Job &job_;
  std::vector<double> planned_; ///< per symbol
  std::vector<double> values_;
  std::vector<int> moved_; ///< symbols
};

} // namespace gatherwright::advice
