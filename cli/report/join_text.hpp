// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "report/ink.hpp"

#include "gatherwright/job.hpp"
#include "gatherwright/plan.hpp"

#include <string>

namespace gatherwright::report {

/// One join: what is sewn to what, how full each stretch is, the marks, how to run the gathers. Lines end in a line
/// feed.
std::string join_text(const Job &job, const Plan &plan, int join, const Ink &ink);

} // namespace gatherwright::report
