// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

namespace gatherwright::press {

/// A PDF with what the drawing library leaves out: the language, the title in
/// the window, printing at its own size; and with no dates, its identifier made
/// from its content.
std::string finished(const std::string &pdf);

} // namespace gatherwright::press
