// SPDX-License-Identifier: GPL-3.0-or-later
#include "cast/wearer_files.hpp"

#include "report/plan_json.hpp"

namespace gatherwright::cli::cast {

std::vector<WearerFile> files_of(const Job &job, const Plan &plan) {
  std::vector<WearerFile> files;
  files.push_back({".json", report::plan_json(job, plan)});
  return files;
}

} // namespace gatherwright::cli::cast
