// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/command_line.hpp"

#include <string>

namespace gatherwright::cli {

/// Help on one command, or on the program where there is none. No line is wider than 80 columns.
std::string help(const CommandForm *command);

/// "gatherwright 1.2.3", and on a line below it the libraries it was built with and their versions.
std::string version();

} // namespace gatherwright::cli
