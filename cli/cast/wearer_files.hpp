// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/drawing/drawing.hpp"
#include "gatherwright/job.hpp"
#include "gatherwright/outcome.hpp"
#include "gatherwright/plan.hpp"

#include <array>
#include <string>
#include <string_view>
#include <vector>

/// What a cast writes for each wearer.
namespace gatherwright::cli::cast {

/// One file: the wearer's name and `suffix` are its name.
struct WearerFile {
  std::string_view suffix; ///< one of `suffixes`
  std::string bytes;
};

/// All that a wearer's file may end in, each no longer than `longest_suffix` of file_names.hpp. A file of a folder that
/// ends so is taken for some wearer's.
inline constexpr std::array<std::string_view, 3> suffixes{".json", ".strips.pdf", ".sheet.html"};

/// What is written beside the plan.
struct OnPaper {
  bool strips = false;
  bool sheet = false;
  paper::PaperSize size = paper::PaperSize::a4;
};

/// What the plan of a wearer must be asked for, so that its files can be made.
PlanSettings settings_for(const OnPaper &wanted);

/// The files of one wearer, or why one cannot be made. `job` is the wearer's, with the wearer's measures, and `plan` is
/// of it; what is on paper has the wearer's name in its title. Where the rules conflict there are no strips.
Outcome<std::vector<WearerFile>> files_of(const Job &job, const Plan &plan, std::string_view wearer,
                                          const OnPaper &wanted);

} // namespace gatherwright::cli::cast
