// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/machine/beside.hpp"
#include "cli/page/body.hpp"
#include "cli/page/exchange.hpp"

namespace gatherwright::page {

/// Of more nobody is shown.
inline constexpr int most_wearers_shown = 1000;

/// Planning all of a list comes to no more than this: a wearer counts as the square of what the job is made of,
/// lengths, rules and joins with their segments, and where lengths are chosen within the cloth there is as much more.
/// Of an ordinary job that is any list that is shown.
inline constexpr double most_work_of_wearers = 1e7;
inline constexpr double work_of_choosing = 2e5;

/// Everybody's plan, of { "text", "list" }, the list as `cast` takes it: { "faults", "rows": [ { "wearer", "verdict",
/// "reason", "lengths": by their names, as read off the tape } ], "not_planned": how many were too many for a job so
/// large }. A wearer of whom there is no plan has a verdict of null, and a length that is not known is null. Throws
/// BadBody.
Reply wearers_told(const Body &body, const cli::Beside &beside);

} // namespace gatherwright::page
