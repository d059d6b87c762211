// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/job/reading.hpp"
#include "gatherwright/job.hpp"

/// Readers of what a job names: measures of a body, lengths of cloth, and the rules over them.
namespace gatherwright::cli {

/// Reads "measures" and "lengths" (nullptr where a job has none) into the job, and fills the names of the reading,
/// without which no formula can be read. `width` is the cloth's, where it is known.
void read_names(Reading &reading, const Value *measures, const Value *lengths, std::optional<Length> width, Job &job);

/// Reads "rules". The names must have been read.
void read_rules(Reading &reading, const Value &value, Job &job);

} // namespace gatherwright::cli
