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
  bool cloth_known = true;  ///< nothing of it is at fault by which the cloth that pieces are cut from is known
};
ReadFabric to_fabric(Reading &reading, const Value &value);

/// Whether something is left of the width between the selvedges, where the width is known; tells at `fabric`'s key that
/// leaves nothing. `own`: what is written there; `whole`: with what is taken over.
bool leaves_a_width(Reading &reading, const Value &fabric, const GivenFabric &own, const GivenFabric &whole);

/// Whether the whole, with what is taken over from the job (nothing, for the job's own), gives one stitch, is seen to
/// as well.
GivenGathering to_gathering(Reading &reading, const Value &value, const GivenGathering &jobs);

/// The names must have been read.
std::optional<PinMarks> to_pin_marks(Reading &reading, const Value &value);

Tolerance to_tolerance(Reading &reading, const Value &value);

} // namespace gatherwright::cli
