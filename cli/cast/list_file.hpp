// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/cast/csv.hpp"
#include "cli/machine/open_file.hpp"

#include <optional>
#include <string>

namespace gatherwright::cli::cast {

/// A list of wearers as a file that is read more than once, each time from its start.
class ListFile {
public:
  explicit ListFile(const std::string &path);

  /// Why it cannot be read, or could not be read on.
  const std::optional<std::string> &cannot() const { return cannot_; }
  /// False of a pipe or a terminal, which can be read only once.
  bool regular() const { return regular_; }

  /// Its bytes from the start; the end is also where it could not be read on. It must outlive them.
  ReadBytes from_start();

private:
  OpenFile file_;
  bool regular_ = false;
  std::optional<std::string> cannot_;
};

} // namespace gatherwright::cli::cast
