// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/plan.hpp"

#include <vector>

namespace gatherwright::tests {

/// Everything that depends on measures, every bit of it: what a plan's text rounds away too.
inline std::vector<double> numbers_of(const Plan &plan) {
  std::vector<double> numbers;
  for (const LengthPlan &length : plan.lengths)
    for (const double number :
         {length.is.value_or(-1), length.found ? length.found->exact : -1,
          length.room ? length.room->low.value_or(-1) : -2, length.room ? length.room->high.value_or(-1) : -2})
      numbers.push_back(number);
  for (const JoinPlan &join : plan.joins) {
    for (const SegmentPlan &segment : join.segments)
      for (const double number : {segment.from, segment.long_from, segment.long_length, segment.band, segment.fullness,
                                  segment.fullest, segment.slackest, segment.gathers ? segment.gathers->ridge : -1})
        numbers.push_back(number);
    for (const Mark &mark : join.marks)
      for (const MarkPlace *place : {&mark.long_edge, &mark.band}) {
        numbers.push_back(place->exact);
        numbers.push_back(place->tape);
      }
  }
  if (plan.certificate)
    for (const double number :
         {plan.certificate->feasibility, plan.certificate->stationarity, plan.certificate->complementarity})
      numbers.push_back(number);
  return numbers;
}

} // namespace gatherwright::tests
