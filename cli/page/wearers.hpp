// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/machine/beside.hpp"
#include "cli/page/body.hpp"
#include "cli/page/exchange.hpp"

namespace gatherwright::page {

/// The list is planned for this many wearers at most, and for this long.
inline constexpr int most_wearers_shown = 1000;
inline constexpr int most_seconds_of_wearers = 20;

/// Everybody's plan, of { "text", "list" }, the list as `cast` takes it: { "faults", "rows": [ { "wearer", "verdict",
/// "reason", "lengths": by their names, as read off the tape } ], "not_planned": how many there was no time for }. A
/// wearer of whom there is no plan has a verdict of null, and a length that is not known is null. Throws BadBody.
Reply wearers_told(const Body &body, const cli::Beside &beside);

} // namespace gatherwright::page
