// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/job.hpp"

#include <vector>

/// Whether a job made by a program is one.
namespace gatherwright {

/// Every fault of a job that can be seen without drawing its edges or planning it, each in its place: what is not
/// finite or out of bounds (gatherwright/bounds.hpp), what does not go together, names that are empty, no UTF-8 or
/// twice the same, formulas that have no value or come to no length of cloth, lengths that go round in a ring. First
/// those of the job itself, its measures, lengths, rules and joins, then what formulas come to. Empty: the job may be
/// planned, and `plan` says whatever else keeps it from it, such as a path that cannot be drawn.
///   1. All faults of a job are told, and what only follows from one is not.
///   2. A job with more in it than is looked at has that one fault.
///   3. A job that was read has no fault, and the same job with other measures may.
std::vector<PlacedFault> validate(const Job &job);

} // namespace gatherwright
