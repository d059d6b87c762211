// SPDX-License-Identifier: GPL-3.0-or-later
#include "advice/dependence.hpp"

namespace gatherwright::advice {

namespace {

using Set = std::vector<char>; ///< of lengths

/// The lengths that a formula stands on, directly or through others.
void add(Set &set, const Job &job, const Formula &formula, const std::vector<Set> &behind) {
  for (const Formula::Step &step : formula.steps) {
    if (step.code != Formula::Code::symbol) continue;
    const int length = step.symbol - static_cast<int>(job.measures.size());
    if (length < 0 || length >= static_cast<int>(job.lengths.size())) continue;
    set[length] = 1;
    for (std::size_t i = 0; i < set.size(); ++i)
      set[i] = set[i] || behind[length][i];
  }
}

} // namespace

std::vector<Dependence> dependences(const Job &job) {
  const std::size_t lengths = job.lengths.size();
  std::vector<Set> behind(lengths, Set(lengths, 0));
  for (const int length : job.length_order)
    if (!job.lengths[length].free) add(behind[length], job, job.lengths[length].is, behind);
  std::vector<Dependence> found(lengths);
  Set set(lengths);
  for (std::size_t j = 0; j < job.joins.size(); ++j) {
    set.assign(lengths, 0);
    const Join &join = job.joins[j];
    add(set, job, join.long_edge.length, behind);
    add(set, job, join.band.length, behind);
    for (const Segment &segment : join.segments) {
      add(set, job, segment.long_edge, behind);
      add(set, job, segment.band, behind);
    }
    for (std::size_t i = 0; i < lengths; ++i)
      if (set[i]) found[i].joins.push_back(static_cast<int>(j));
  }
  for (std::size_t r = 0; r < job.rules.size(); ++r) {
    set.assign(lengths, 0);
    add(set, job, job.rules[r].holds.left, behind);
    add(set, job, job.rules[r].holds.right, behind);
    for (std::size_t i = 0; i < lengths; ++i)
      if (set[i]) found[i].rules.push_back(static_cast<int>(r));
  }
  return found;
}

} // namespace gatherwright::advice
