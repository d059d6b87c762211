// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <span>
#include <vector>

/// Marks put on a tape: each to the step below or above its exact place so that the gaps come out best.
namespace gatherwright::mark {

/// A place this near to a tape step, in steps, is on it.
inline constexpr double on_step = 1e-6;

/// `places`: exact places along one edge, rising, in steps of the tape (not millimetres), the first 0.
/// Open edge: the last is the edge's end and stays exact, as the first does; `length` is that place.
/// Closed edge (a ring): `length` is the edge's length in steps and the last gap leads from the last place back to the
/// start. `mirrored`: choose among the roundings that mirror themselves, mark i and its partner from the other end
/// adding up to the length, a middle mark going to the lower step beside the middle where that is a half step. The
/// places are the same from both ends within 1e-9 of the edge; on an edge that is no whole number of steps `mirrored`
/// asks for what cannot be and is not heeded. Returns tape places in steps: whole numbers, but for an open edge's own
/// end. Never falling; |result - place| < 1. The sum of squared errors of all gaps is least; ties to the smaller sum of
/// squared errors of position, then to the lower at the first mark that differs. Sums that differ by no more than the
/// doubt in the places (1e-9 of a step, or the rounding of long edges where that is more) are a tie, so
/// that 5.499999999999987 is treated as the half step that was meant. Time and memory O(marks).
std::vector<double> to_tape(std::span<const double> places, double length, bool closed, bool mirrored);

} // namespace gatherwright::mark
