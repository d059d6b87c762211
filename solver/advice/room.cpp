// SPDX-License-Identifier: GPL-3.0-or-later
#include "advice/room.hpp"

#include "advice/dependence.hpp"
#include "optimum/range.hpp"

#include <algorithm>

namespace gatherwright::advice {

namespace {

/// What a length does not touch must be within limits as it is: no value of the length mends it.
bool rest_holds(const Plan &plan, const Dependence &of_length) {
  for (std::size_t j = 0; j < plan.joins.size(); ++j)
    if (plan.joins[j].verdict != Verdict::within_limits &&
        !std::binary_search(of_length.joins.begin(), of_length.joins.end(), static_cast<int>(j)))
      return false;
  for (std::size_t r = 0; r < plan.rules.size(); ++r)
    if (!plan.rules[r].holds &&
        !std::binary_search(of_length.rules.begin(), of_length.rules.end(), static_cast<int>(r)))
      return false;
  return true;
}

} // namespace

void give_rooms(const Job &job, Plan &plan, std::span<const allot::DrawnLengths> drawn, std::span<const double> bias) {
  std::vector<double> planned;
  for (const LengthPlan &length : plan.lengths)
    planned.push_back(length.is);
  const std::vector<Dependence> all = dependences(job);
  optimum::Ranges ranges;
  for (std::size_t i = 0; i < plan.lengths.size(); ++i) {
    if (!rest_holds(plan, all[i])) continue;
    allot::Question question;
    question.subject.length = static_cast<int>(i);
    question.planned = planned;
    question.joins = all[i].joins;
    const auto asked = allot::scheme(job, question, drawn, bias);
    if (!asked) continue;
    const optimum::Range found = ranges.range(asked->scheme.problem, asked->column);
    if (found.empty) continue;
    plan.lengths[i].room = Interval{found.low, found.high};
  }
}

} // namespace gatherwright::advice
