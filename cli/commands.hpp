// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/command_line.hpp"
#include "cli/machine/answer.hpp"
#include "cli/report/ink.hpp"
#include "cli/report/say.hpp"

#include "cli/job/read_job.hpp"
#include "gatherwright/job.hpp"
#include "gatherwright/plan.hpp"

#include <functional>
#include <string>
#include <string_view>
#include <variant>

namespace gatherwright::cli {

struct Outputs;

/// What a command may need to know of where its answer goes.
struct Surroundings {
  bool terminal = false;                           ///< standard output is one that shows colours
  bool no_color = false;                           ///< NO_COLOR is set and not empty
  std::function<void(std::string_view)> tell = {}; ///< writes to a terminal on standard error at once; else none
  /// Takes the beginning of an answer too long to be held, which the rest follows; where there is none all is held.
  report::Say say = {};
};

/// Carries out a command line, without the program's own name. What it has to say is returned; only the files it asks
/// for are written, and what `tell` and `say` take.
Answer run(std::span<const std::string> arguments, const Surroundings &surroundings);

/// A job file as read, or what to answer where it cannot be read or has faults.
std::variant<ReadJob, Answer> read_file(const std::string &file);
/// The same of a job that can also be planned as it is.
std::variant<ReadJob, Answer> planned_file(const std::string &file);

Answer plan_command(const Asked &asked, const report::Ink &ink, const Surroundings &surroundings);
Answer join_command(const Asked &asked, const report::Ink &ink, const Surroundings &surroundings);
Answer cast_command(const Asked &asked, const Surroundings &surroundings);
Answer limits_command(const Asked &asked);
Answer start_command(const Asked &asked);

/// What `plan` and `join` both answer with, as --json and --profile ask, and the files they write: before the answer,
/// which a fault of theirs takes the place of.
PlanSettings settings_asked(const Asked &asked);
Answer planned(const Job &job, const Plan &plan, const Asked &asked, const Outputs &outputs, const report::Ink &ink,
               const Surroundings &surroundings);

} // namespace gatherwright::cli
