// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/report/json_text.hpp"
#include "gatherwright/plan.hpp"

namespace gatherwright::page {

/// Of each length that was found what the job asks for, as the sliders show it: { "from", "to", "aim" } by name, those
/// that are figures, in the job's unit.
void write_asked(report::JsonText &json, const Job &job, const Plan &plan);

} // namespace gatherwright::page
