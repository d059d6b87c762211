// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/plan.hpp"

#include <string>

/// How much cloth is asked for in a shop.
namespace gatherwright::words {

/// An amount that is a whole count of the step the cloth is sold in: "2.5 m", with as many decimals as say it exactly;
/// where the job's unit is in, ft or yd and the step is whole eighths of a yard, "2 3/8 yd".
std::string amount(double mm, Length sold_by, Unit unit);

/// What to buy for a lay.
std::string to_buy(const ClothPlan &cloth, Unit unit);

/// A share as a whole percentage, no more than it is: "93 %".
std::string percent(double share);

} // namespace gatherwright::words
