// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/outcome.hpp"

#include <cstddef>
#include <string>

namespace gatherwright::cli {

/// Why something could not be read, for a line of its own.
struct CannotRead {
  std::string why;
};

/// The text of a file; of standard input where the path is "-". Reading stops once there is more than `most` bytes, so
/// that an endless input ends; the text is then longer than `most`.
Outcome<std::string, CannotRead> read_input(const std::string &path, std::size_t most);

/// The same of a regular file by its path alone: a symbolic link is not followed, and nothing else is waited for.
Outcome<std::string, CannotRead> read_file_itself(const std::string &path, std::size_t most);

} // namespace gatherwright::cli
