// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/plan.hpp"
#include "solver/advice/dependence.hpp"
#include "solver/optimum/work.hpp"

namespace gatherwright::advice {

/// Narrows the rooms of lengths whose pieces are cut from a cloth of which there is only so much: each end that lies
/// beyond what comes out of it becomes the last step of the tape that does, and is bound by it. Where pieces take more
/// than there is, a length that cannot mend that has no room. Where some pieces grow with a length and others shrink,
/// a room ends where nothing further was looked at. Layouts are counted into `work` by their rectangles; once that is
/// spent, lengths in question have no room, which is said: false.
bool keep_within_stock(const Job &job, Plan &plan, const Dependents &dependents, optimum::Work &work);

} // namespace gatherwright::advice
