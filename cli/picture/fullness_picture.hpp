// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/drawing/drawing.hpp"
#include "gatherwright/job.hpp"
#include "gatherwright/plan.hpp"

#include <optional>
#include <vector>

namespace gatherwright::paper {

/// Fullness at one place of the band.
struct LocalFullness {
  double band = 0;
  double fullness = 1;
};

/// The fullness along each segment, from the slope between the profile's stations; of a plan without a profile, each
/// segment's mean at its ends. Places rise; two at one place are a leap.
std::vector<std::vector<LocalFullness>> local_fullness(const JoinPlan &planned);

/// A curve of fullness along the band against the limits' zone, `width` millimetres wide, with the place where it is
/// fullest marked; none where all is plain. The label says in words what it shows. The join must be one that
/// `can_be_drawn`.
std::optional<Page> fullness_picture(const Join &asked, const JoinPlan &planned, double width);

} // namespace gatherwright::paper
