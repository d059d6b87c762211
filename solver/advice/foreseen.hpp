// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/job.hpp"
#include "solver/allot/scheme.hpp"

#include <cstdint>
#include <span>
#include <vector>

namespace gatherwright::advice {

/// What can be told of a job's joins without planning it: each by itself, in closed form.
class Foreseen {
public:
  /// `planned`: of the job's lengths, where they are about. `drawn` as of allot::scheme(). All must outlive this.
  Foreseen(const Job &job, std::span<const double> planned, std::span<const allot::DrawnLengths> drawn);

  /// Whether a join of the job, worked as is said here, is past its limits whatever the lengths to be found come to
  /// within their ranges. True is certain, by a margin that leaves the plan nothing to round. False says nothing: a
  /// join that hangs on several lengths to be found, or is eased along a drawn edge, or is in no proportion to what it
  /// hangs on, is not looked at, nor are rules, pieces and other joins.
  bool is_past_limits(JoinId at, const Join &worked) const;

private:
  const Job &job_;
  std::span<const double> planned_;
  std::span<const allot::DrawnLengths> drawn_;
  std::vector<Affine> symbols_;
};

/// What looking at a join takes, in steps.
std::int64_t steps_to_foresee(const Join &join);

} // namespace gatherwright::advice
