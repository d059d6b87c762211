// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string_view>

namespace gatherwright::paper {

/// The style sheet of the worksheet: brown paper and madder by day, lamplight by night, black on white in print. Texts
/// have a contrast of at least 4.5 to 1 against what they stand on.
extern const std::string_view sheet_style;

/// What a worksheet with pieces has besides.
extern const std::string_view pieces_style;

} // namespace gatherwright::paper
