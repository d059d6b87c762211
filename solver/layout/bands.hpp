// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/layout/strip.hpp"
#include "solver/layout/tree.hpp"

namespace gatherwright::layout {

/// A layout of hundreds of rectangles, band by band: each is as long as the longest that is left, which opens it, and
/// what else goes into it is looked for among some that are drawn by lot, larger ones before smaller. What fits a band
/// that is so found as often again as there are copies of all of it is repeated. The last few are laid as a strip of
/// their own.
Tree lay_in_bands(const Strip &strip, Allowance &allowance);

} // namespace gatherwright::layout
