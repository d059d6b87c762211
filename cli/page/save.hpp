// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/page/exchange.hpp"
#include "cli/page/job_file.hpp"

namespace gatherwright::page {

/// How the page is told of a save. Saved: { "read", "name" }. Altered: 409 and { "text", "read" } of what is on disk,
/// both null where nothing is. A name that is taken: 409 and { "faults" }; one that is none: { "faults" }. What the
/// system refuses: 500 and a line.
Reply reply_to_save(const SaveOutcome &outcome);

} // namespace gatherwright::page
