// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/plan.hpp"
#include "solver/advice/dependence.hpp"
#include "solver/advice/line.hpp"
#include "solver/optimum/work.hpp"

#include <array>
#include <optional>
#include <vector>

namespace gatherwright::advice {

/// What set an end of a room as it was reckoned, and where.
struct KeptEnd {
  Kept by;
  double at = 0;
};
using KeptEnds = std::array<std::optional<KeptEnd>, 2>;

/// How far each length of a planned job can move by itself, the rest as planned and all that derives from it moving
/// too, with the verdict within limits. Nothing for a length where there is no such value, or where something depends
/// on it otherwise than in proportion. `kept`: of each length with a room, what set its ends. What is done is counted
/// into `work`. False: that is spent, and the rest of the lengths have no room.
bool give_rooms(const Job &job, Plan &plan, const Dependents &dependents, optimum::Work &work,
                std::vector<KeptEnds> &kept);

} // namespace gatherwright::advice
