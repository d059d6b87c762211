// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/machine/answer.hpp"
#include "cli/paper/forms.hpp"
#include "cli/request.hpp"
#include "gatherwright/job.hpp"
#include "gatherwright/outcome.hpp"
#include "gatherwright/plan.hpp"

#include <optional>
#include <string>
#include <vector>

/// The files a command line asks for beside its answer.
namespace gatherwright::cli {

struct Outputs {
  struct File {
    const paper::Form *form = nullptr;
    std::string path;
  };
  std::vector<File> files;
  paper::Wanted wanted;
};

/// What is asked for, or every fault in it as a line. `job`: the path of the job, which no output may overwrite; empty
/// where there is none. `layout`: where layouts go, if they are asked for.
Outcome<Outputs, std::vector<std::string>> outputs_of(const OutputsAsked &asked, const std::string &job,
                                                      const std::optional<std::string> &layout = std::nullopt);

/// Why nothing of a job will be laid, as a line, whatever comes of its lengths: it has no pieces, or none whose cloth
/// has a width.
std::optional<std::string> nothing_to_lay(const Job &job);

/// Makes every file before it writes the first. The answer as it stands, with what there is to say of the files; or,
/// where one cannot be made or written, a fault of the machine. Files written before that stay, and the fault names
/// them.
Answer with_files(Answer answer, const Job &job, const Plan &plan, const Outputs &outputs);

} // namespace gatherwright::cli
