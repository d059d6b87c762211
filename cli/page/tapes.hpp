// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/report/json_text.hpp"
#include "gatherwright/plan.hpp"

namespace gatherwright::page {

/// Of each length whose size is known the tape that its slider is drawn as, by name. In steps of the job's tape:
/// "ends", the first and the last; "pin", what is asked for; "is", what it comes to, to the nearest; "room", each end
/// rounded to the side that holds, null where nothing ends it; absent where nothing is known of it. "reads": those
/// places, each as it is read off the tape. "says": the room in words, absent with it. The tape runs from what is asked
/// as least to what is asked as most, else from half to one and a half times the value; `plan` must be of `job`.
void write_tapes(report::JsonText &json, const Job &job, const Plan &plan);

/// Of each rule whose sides are known, by its place in the job: { "rule", "says": "37 cm, at least 28 cm wanted" }.
void write_rules(report::JsonText &json, const Job &job, const Plan &plan);

} // namespace gatherwright::page
