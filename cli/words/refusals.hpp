// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/job.hpp"
#include "gatherwright/refusal.hpp"

/// Why there is no plan, and what would be right, in the words of a job.
namespace gatherwright::words {

Fault refusal(const Job &job, const Refusal &refusal);

} // namespace gatherwright::words
