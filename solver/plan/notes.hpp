// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/plan.hpp"

#include <vector>

namespace gatherwright {

/// Notes on the job and its plan, in a fixed order: of the cloth, of each join in turn, of the lengths, of the rules.
std::vector<Note> notes_of(const Job &job, const Plan &plan);

/// Cautions that apply to the plan.
std::vector<Caution> cautions_of(const Job &job, const Plan &plan);

} // namespace gatherwright
