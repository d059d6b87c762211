// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/tracing/xml.hpp"

#include <string>
#include <string_view>

namespace gatherwright::tracing {

/// Whether an element is a line: path, line, polyline, polygon, rect, circle or ellipse.
bool is_line(const Element &element);

/// The path data that such an element stands for, in its own units, by SVG 1.1 (chapters 8 and 9); a circle and an
/// ellipse begin at the right, as SVG 2 has it, and go clockwise. Path data itself is as it is written.
Outcome<std::string, DrawingFault> shape_of(const Element &element);

} // namespace gatherwright::tracing
