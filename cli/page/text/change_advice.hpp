// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/machine/beside.hpp"
#include "cli/page/text/source.hpp"
#include "gatherwright/plan.hpp"

namespace gatherwright::page {

/// The job with what a remedy of its plan says, by its number, or what a saving of cloth says; see change.hpp.
Outcome<std::string, Faults> with_remedy(std::string_view text, int number, const cli::Beside &beside = {});
Outcome<std::string, Faults> with_saving(std::string_view text, int number, const cli::Beside &beside = {});

/// The text of a job with a change that its plan's advice has tried.
Outcome<std::string, Faults> with_advice(std::string_view text, const Job &job, const gatherwright::Change &change);

/// The text of a job with a length as it saves cloth: one to be found aims there.
Outcome<std::string, Faults> with_advice(std::string_view text, const Job &job, const Saving &saving);

} // namespace gatherwright::page
