// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

namespace gatherwright::page {

/// Whether there is a screen that a browser can be opened on.
bool has_display();

/// Has the desktop open an address in the browser that it has; it goes on by itself. False where there is no xdg-open.
bool open_in_browser(const std::string &address);

} // namespace gatherwright::page
