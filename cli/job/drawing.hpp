// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/job/fields.hpp"

#include <string>

namespace gatherwright::cli {

/// An edge of `{ "drawing": "cap.svg", "id": "cap" }` as path data in millimetres; nothing where it told a fault. Its
/// file is read and taken apart once in a job.
std::optional<std::string> to_path_of_drawing(Reading &reading, const Fields &fields, const Value &drawing);

} // namespace gatherwright::cli
