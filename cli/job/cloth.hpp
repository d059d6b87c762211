// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/job/own.hpp"
#include "cli/job/reading.hpp"

/// Readers of what a job says of its cloth, its gathering and its marks. What is at fault is left out of what they
/// return.
namespace gatherwright::cli {

struct ReadFabric {
  GivenFabric given;
  bool width_meant = false; ///< a width is written, though it may be a faulty one
};
ReadFabric to_fabric(Reading &reading, const Value &value);

/// Whether the whole, with what is taken over from the job (nothing, for the job's own), gives one stitch, is seen to
/// as well.
GivenGathering to_gathering(Reading &reading, const Value &value, const GivenGathering &jobs);

/// The names must have been read.
std::optional<PinMarks> to_pin_marks(Reading &reading, const Value &value);

Tolerance to_tolerance(Reading &reading, const Value &value);

} // namespace gatherwright::cli
