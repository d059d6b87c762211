// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/cast/check_list.hpp"
#include "cli/cast/progress.hpp"
#include "cli/cast/wearer_files.hpp"
#include "cli/machine/answer.hpp"

#include <optional>
#include <string>

/// One job, everybody's measures.
namespace gatherwright::cli::cast {

/// A drawing of all pieces laid together.
struct LayoutFile {
  std::string path;
  bool as_svg = false; ///< else as PDF
};

struct CastAsked {
  std::string list;
  std::string folder;
  int threads = 1;
  bool resume = false;
  OnPaper paper; ///< for each wearer
  std::optional<LayoutFile> layout = std::nullopt;
};

/// Plans the job for every wearer of the list and writes the plans and the tables into the folder. The answer is
/// the summary, or all faults of the list. With a fault, nothing is left of what was written; where something cannot be
/// written, whole files are, and the cast can be resumed. The same bytes come out whatever the number of threads.
Answer run_cast(const NamedJob &job, const CastAsked &asked, const Tell &tell);

} // namespace gatherwright::cli::cast
