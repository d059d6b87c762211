// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/layout/strip.hpp"
#include "solver/layout/tree.hpp"

namespace gatherwright::layout {

/// A layout of many rectangles, band by band: each is as long as the longest that is left, which opens it, and is
/// filled with columns. A band that is found as often again as there are copies of all of it is repeated. Then a few
/// bands at a time, those that leave much empty likelier than others, are taken up and laid anew, with other worths of
/// their rectangles, and are kept where they are no longer: as long as the allowance lasts, or until the layout is as
/// short as `enough`.
Tree lay_in_bands(const Strip &strip, Ticks enough, Allowance &allowance);

} // namespace gatherwright::layout
