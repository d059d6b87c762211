// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/plan.hpp"
#include "solver/allot/scheme.hpp"

#include <span>
#include <vector>

namespace gatherwright::tests {

/// What every length of a plan is, where all are known.
inline std::vector<double> lengths_of(const Plan &plan) {
  std::vector<double> lengths;
  for (const LengthPlan &length : plan.lengths)
    lengths.push_back(length.is.value());
  return lengths;
}

inline std::vector<JoinId> joins_of(const Job &job) {
  std::vector<JoinId> joins;
  for (int join = 0; join < static_cast<int>(job.joins.size()); ++join)
    joins.emplace_back(join);
  return joins;
}

/// Which values a subject may take where everything free may move, it itself out of its range.
inline allot::Question free_question(const allot::Subject &subject, std::span<const double> planned,
                                     std::span<const JoinId> joins) {
  return {.subject = subject, .planned = planned, .others_held = false, .within_range = false, .joins = joins};
}

} // namespace gatherwright::tests
