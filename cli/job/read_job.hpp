// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/job/document.hpp"
#include "cli/job/fault_list.hpp"
#include "cli/machine/beside.hpp"
#include "gatherwright/job.hpp"
#include "gatherwright/outcome.hpp"
#include "gatherwright/refusal.hpp"

#include <memory>
#include <span>
#include <string_view>
#include <vector>

namespace gatherwright::cli {

struct ReadJob {
  Job job;
  std::shared_ptr<const Document> document; ///< that it was read from
};

/// Reads a job file's text: the job, or every fault in it by line (the first `FaultList::most` found). A fault is told
/// where it is written, and what only follows from it is not. The text is not needed afterwards. `beside`: where the
/// drawings are that it names.
Outcome<ReadJob, std::vector<InputFault>> read_job(std::string_view text, const Beside &beside = {});

/// The same of a text that was read to its end, with the faults that were found until then. The text must live as long
/// as the document.
Outcome<ReadJob, std::vector<InputFault>> read_job(std::shared_ptr<const Document> document, FaultList faults,
                                                   const Beside &beside = {});

/// Why there is no plan of a job, with lines and pointers: those of the part, where that is written, else of what it
/// would be part of.
std::vector<InputFault> placed(const ReadJob &read, std::span<const Refusal> refusals);

} // namespace gatherwright::cli
