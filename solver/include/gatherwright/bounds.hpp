// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/quantity.hpp"

#include <cstddef>
#include <optional>

/// What the figures of a job lie within, whether it was read or made by a program.
namespace gatherwright {

namespace bounds {

/// No edge is this long, and none this short: beyond these the counts of stitches would not be whole numbers of ints.
inline constexpr Length longest_length{1e8};   ///< 100 km
inline constexpr Length shortest_length{1e-6}; ///< a nanometre; shorter counts as 0

/// Shorter, and the counts of stitches would not be whole numbers of ints.
inline constexpr Length shortest_stitch{0.1};

inline constexpr Weight heaviest{1e6};    ///< a sheet of lead a hand thick; as `read_weight` has it
inline constexpr int most_threads = 1000; ///< taken up, or passed, by one stitch; at least 1
inline constexpr int most_rows = 1000;    ///< of gathering thread; at least 1

inline constexpr int most_made = 1'000'000;  ///< of one join; at least 1
inline constexpr int most_parts = 1'000'000; ///< of pin marks, at least 1; planning has the last word
inline constexpr double oldest = 150;        ///< years; at least 0
inline constexpr double full_turn = 360;     ///< degrees of grain, either way

inline constexpr double most_fullness = 1000; ///< of a maker's own limit; at least 1
inline constexpr double least_share = 1e-6;
inline constexpr double most_share = 1e6;
inline constexpr double least_extra = 1e-6; ///< of a shape's point, relative, where it is not 0
inline constexpr double most_extra = 1e6;
inline constexpr double least_gap = 1e-9; ///< between two fractions of a shape: the slope between them is a number

/// Found lengths that the formulas of a job may name, each as often as it is named or stands in what is named: what is
/// worked out of them has to be kept.
inline constexpr std::size_t most_terms = 4'000'000;

/// Bytes of a join's name, once for each of its segments, in all joins: what is wrong with a segment names its join,
/// and of a few long names and many segments that would be gigabytes.
inline constexpr std::size_t most_told = 20'000'000;

/// Measures, lengths, rules, joins, segments, points, pieces and parts of their sides together.
inline constexpr int most_things = 1'000'000;
inline constexpr std::size_t most_text = 10'000'000; ///< bytes of names and paths; steps of formulas

inline constexpr int most_cut = 10'000;       ///< of one piece, at least 1; and of all pieces together
inline constexpr double most_shrinkage = 0.5; ///< a share: it is below

} // namespace bounds

/// Whether a length is one that cloth can have: not below 0 nor above the longest and, where `above_0`, not 0. The
/// value told is in `unit`.
///   1. A length of cloth is a number from 0 to the longest, or from the shortest on where it must be above 0.
std::optional<Fault> fault_of_length(Length length, bool above_0, Unit unit);

} // namespace gatherwright
