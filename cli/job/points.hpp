// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/job/reading.hpp"
#include "gatherwright/through_points.hpp"

#include <optional>

namespace gatherwright::cli {

/// An edge of `{ "points": [["0 cm", "0 cm"], { "at": ["3 cm", "5.2 cm"], "corner": true }, ...] }`; nothing where it
/// told a fault. `closed`: the last point is joined with the first.
std::optional<LineThrough> to_line_through(Reading &reading, const Value &points, bool closed);

} // namespace gatherwright::cli
