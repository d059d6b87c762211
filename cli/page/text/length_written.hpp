// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/quantity.hpp"

#include <string>
#include <string_view>

namespace gatherwright::page {

/// A length as it is written in a job of this tape: in the unit of what stood there before where it reads exactly so,
/// else in the job's. `before` may be empty, or anything that a job may have there; without a unit in it there is none
/// now. Millimetres.
std::string length_written(double mm, const Tape &tape, std::string_view before);

/// The same without a unit, in the job's, as a number.
std::string number_written(double mm, Unit unit);

} // namespace gatherwright::page
