// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/plan.hpp"

#include <span>
#include <vector>

namespace gatherwright {

/// Notes on the job and its plan, in a fixed order: of the cloth, of each join in turn, of the lengths, of the rules.
/// `tried`: notes of segments that only a trial can tell, rising by join and segment; each stands with its segment's.
std::vector<Note> notes_of(const Job &job, const Plan &plan, std::span<const Note> tried = {});

/// Cautions that apply to the plan.
std::vector<Caution> cautions_of(const Job &job, const Plan &plan);

} // namespace gatherwright
