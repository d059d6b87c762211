// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

namespace gatherwright::bench {

/// What a plan that is not within limits costs beside one that is, since changes that might mend it are tried: a wearer
/// whose neck is 6 cm wider over one whom the job fits, both from the job prepared; and forty joins too full by far
/// over ten, each with a length to be found of its own, and sharing nine: of these two the greater. `text`: the example
/// without pieces.
void advice_ratios(const std::string &text);

} // namespace gatherwright::bench
