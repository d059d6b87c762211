// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/job.hpp"
#include "gatherwright/plan.hpp"
#include "gatherwright/told.hpp"

#include <string>

/// What is wrong and what would mend it, as sentences. What is told must be of the job.
namespace gatherwright::words {

/// Why a join or a rule is not within limits, with the value measured and the limit.
std::string finding(const Job &job, const Finding &finding);

/// A single change that would mend it.
std::string remedy(const Job &job, const Remedy &remedy);

/// A length that would save cloth, and how much.
std::string saving(const Job &job, const Saving &saving);

/// What a remedy changes: "swap", the name of a length, "JOIN: long edge", "JOIN: band", "cloth weight", "cloth
/// length", "stitch" or "kind".
std::string remedy_change(const Job &job, const Remedy &remedy);

/// The value a remedy asks for, with its unit; of a kind, its name; of edges that change places, "swapped".
std::string remedy_value(const Job &job, const Remedy &remedy);

/// A condition of a conflict by its name in the plan, figures as written in the job: "sleeve from 80 cm",
/// "neck into collar / left back: band 11 cm".
std::string condition(const Job &job, const Condition &condition);

/// "These cannot all hold: ...; they are 6 cm apart."
std::string conflict(const Job &job, const Conflict &conflict);

} // namespace gatherwright::words
