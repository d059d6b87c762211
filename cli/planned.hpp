// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/commands.hpp"
#include "cli/job/read_job.hpp"
#include "gatherwright/job.hpp"
#include "gatherwright/outcome.hpp"
#include "gatherwright/plan.hpp"

#include <string>

/// What the commands that plan have between them.
namespace gatherwright::cli {

struct Outputs;

/// A job file as read, or what to answer where it cannot be read or has faults.
Outcome<ReadJob, Answer> read_file(const std::string &file);
/// The same of a job that can also be planned as it is.
Outcome<ReadJob, Answer> planned_file(const std::string &file);

/// What to answer where there is no plan of a job file.
Answer refused(const std::string &file, const ReadJob &job, const Refusals &refusals);

/// What a plan must be asked for, so that it can be answered as `asked`.
PlanSettings settings_for(const OutputsAsked &asked);

/// The answer of `plan` and `join`, as --json and --profile ask, and the files they write: before the answer, which a
/// fault of theirs takes the place of.
Answer planned(const Job &job, const Plan &plan, const OutputsAsked &asked, const Outputs &outputs, const Voice &voice);

} // namespace gatherwright::cli
