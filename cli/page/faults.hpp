// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/job/read_job.hpp"
#include "cli/page/exchange.hpp"
#include "cli/report/json_text.hpp"
#include "gatherwright/refusal.hpp"

#include <string>
#include <vector>

/// Faults of a job's text, as the page is told of them.
namespace gatherwright::page {

/// Why there is no plan of a job, by line.
std::vector<cli::InputFault> placed_faults(const cli::ReadJob &read, const Refusals &refusals);

/// "faults": [ { "line", "pointer", "what", "instead" } ], as a member of what is open.
void write_faults(report::JsonText &json, const std::vector<cli::InputFault> &faults);

/// { "faults": [ { "line", "pointer", "what", "instead" } ] }
std::string faults_json(const std::vector<cli::InputFault> &faults);

/// The same, as what is answered to a job that cannot be planned.
Reply faults_told(const std::vector<cli::InputFault> &faults);

} // namespace gatherwright::page
