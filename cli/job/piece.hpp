// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/job/join.hpp"
#include "cli/job/side.hpp"

namespace gatherwright::cli {

/// Reads "pieces" into the job, whose joins must have been read.
void read_pieces(Reading &reading, const Value &value, const JobWide &wide, Sewable &sewable, Job &job);

} // namespace gatherwright::cli
