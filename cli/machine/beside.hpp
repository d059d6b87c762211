// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/machine/input_file.hpp"
#include "gatherwright/outcome.hpp"

#include <functional>
#include <string>

namespace gatherwright::cli {

/// Reads a file of the folder in which another stands, by its plain name; empty where there is no such folder.
using Beside = std::function<Outcome<std::string, CannotRead>(const std::string &name)>;

/// Files beside the one that `path` leads to, no links among them; nothing beside standard input, "-". Reading stops
/// once there is more than `most` bytes, and the text is then longer.
Beside files_beside(const std::string &path, std::size_t most);

} // namespace gatherwright::cli
