// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/job.hpp"

#include <vector>

namespace gatherwright {

/// Each formula of a length in turn: what it is, or its range and the figure that it is aimed at.
template <class Visit> void visit_formulas(const NamedLength &length, Visit visit) {
  if (const Formula *is = length.fixed()) return visit(*is);
  const FreeLength &free = *length.free();
  if (free.from) visit(*free.from);
  if (free.to) visit(*free.to);
  if (const Formula *figure = free.figure()) visit(*figure);
}

/// The job's lengths as `dependency_order` has them: each after those that its formulas name, and where they go round
/// in rings, these.
///   1. Lengths come after those that they name, and a ring of them is told from its first.
DependencyOrder dependencies_of_lengths(const Job &job);

/// The job's lengths, each after those that its formulas name, the earliest first where there is a choice; without
/// those that go round in a ring and those that need one.
std::vector<int> order_of_lengths(const Job &job);

} // namespace gatherwright
