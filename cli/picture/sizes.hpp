// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

/// What pictures of edges and pieces have in common, in millimetres of the page.
namespace gatherwright::paper {

inline constexpr double heading_size = 3.4;
inline constexpr double label_size = 2.9;
inline constexpr double closest_pins = 1.5; ///< circles of pins; those nearer than this are left to the table

} // namespace gatherwright::paper
