// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/drawing/drawing.hpp"
#include "cli/machine/answer.hpp"
#include "cli/press/pdf.hpp"
#include "cli/report/shown_marks.hpp"
#include "cli/request.hpp"
#include "gatherwright/job.hpp"
#include "gatherwright/outcome.hpp"
#include "gatherwright/plan.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// The files a command line asks for beside its answer.
namespace gatherwright::cli {

/// A kind of file: the ending of its name, and how it is made.
struct OutputForm {
  std::string_view ending;
  paper::PdfOutcome (*make)(const Job &job, const Plan &plan, paper::PaperSize size, report::Pins pins);
  /// What there must be to make it of.
  enum class Of { anything, joins, layouts };
  Of of = Of::joins;
};

struct Outputs {
  struct File {
    const OutputForm *form = nullptr;
    std::string path;
  };
  std::vector<File> files;
  paper::PaperSize paper = paper::PaperSize::a4;
  report::Pins pins = report::Pins::needed;
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
