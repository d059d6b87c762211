// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/job/reading.hpp"
#include "gatherwright/cloth.hpp"

#include <optional>

namespace gatherwright::cli {

/// Reads what the first wash takes: a share, "5 %", along and across. Nothing where it told a fault.
std::optional<Shrinkage> to_shrinkage(Reading &reading, const Value &value);

} // namespace gatherwright::cli
