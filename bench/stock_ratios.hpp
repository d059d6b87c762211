// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

namespace gatherwright::bench {

/// Lengths chosen within the cloth there is: the example with a twentieth less cloth than it takes, over the same
/// without; and the seconds of one processor that three free lengths of fourteen pieces take where cloth is tightest.
void stock_ratios(const std::string &text);

} // namespace gatherwright::bench
