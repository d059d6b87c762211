// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/job.hpp"
#include "gatherwright/plan.hpp"

#include <string>

/// What a maker should know that is no fault, and what a wearer should be kept from.
namespace gatherwright::words {

std::string note(const Job &job, const Plan &plan, const Note &note);

std::string caution(const Job &job, const Plan &plan, Caution caution);

/// Pins set in everything the plan makes.
long long pins_in_all(const Job &job, const Plan &plan);

} // namespace gatherwright::words
