// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/machine/open_file.hpp"

#include <optional>
#include <string>
#include <string_view>

namespace gatherwright::cli {

/// Writes a file whole or not at all: beside its place first, then moved into it, so that a reader sees the old file or
/// the new one, and a program that is killed leaves no part of it. A symbolic link is followed; what is no regular file
/// (a device, a pipe) is written straight. A file that is replaced hands on its mode, and its owner and group as far as
/// the system allows. Nothing is left behind where it fails. Returns why it cannot be written.
std::optional<std::string> write_whole_file(const std::string &path, std::string_view text);

/// The same where nothing may be there yet: whatever is, a link that leads nowhere too, keeps the file from being
/// written.
std::optional<std::string> write_new_file(const std::string &path, std::string_view text);

/// Whether a file's name is one that `write_whole_file` or `WholeFile` gave to a file on its way into place: what is
/// left of a program that was killed, where the file system has no files without a name.
bool is_left_over(std::string_view name);

/// A file written piece by piece, in order, that takes its place as a whole once it is committed; nothing is left of
/// one that is not. What is there is replaced: of a file the mode is kept, a symbolic link is not followed. Each
/// returns why it cannot be done; nothing follows a failure.
class WholeFile {
public:
  explicit WholeFile(std::string path);
  ~WholeFile();
  WholeFile(const WholeFile &) = delete;
  WholeFile &operator=(const WholeFile &) = delete;

  std::optional<std::string> append(std::string_view text);
  std::optional<std::string> commit();

private:
  std::optional<std::string> write_pending();

  std::string path_;
  std::string beside_; ///< its name until it is committed; empty where it has none
  std::string pending_;
  std::optional<std::string> failed_;
  OpenFile file_;
};

} // namespace gatherwright::cli
