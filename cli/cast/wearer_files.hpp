// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/job.hpp"
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
inline constexpr std::array<std::string_view, 1> suffixes{".json"};

/// The files of one wearer. `job` is the wearer's, with the wearer's measures, and `plan` is of it.
std::vector<WearerFile> files_of(const Job &job, const Plan &plan);

} // namespace gatherwright::cli::cast
