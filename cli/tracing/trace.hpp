// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/tracing/xml.hpp"

#include <string>
#include <string_view>

namespace gatherwright::tracing {

/// The line of that id as path data in millimetres, y downwards, from the upper left of the drawing's paper. Faults:
/// there is no such line (the ids of all lines are told, the nearest first), or two; what is wrong with the line, the
/// drawing's size or a transform; each with its line in the file.
Outcome<std::string, DrawingFault> traced(const Elements &elements, std::string_view id);

/// The ids of a drawing's lines, those nearest to `id` first, for a fault: "the ids there are: cap, armhole".
std::string ids_told(const Elements &elements, std::string_view id);

} // namespace gatherwright::tracing
