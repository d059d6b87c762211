// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace gatherwright::cli {

/// Writes a file whole or not at all: beside its place first, then moved into it, so that a reader sees the old file or
/// the new one, and a program that is killed leaves no part of it. A symbolic link is followed; what is no regular file
/// (a device, a pipe) is written straight. Nothing is left behind where it fails. Returns why it cannot be written.
std::optional<std::string> write_whole_file(const std::string &path, std::string_view text);

} // namespace gatherwright::cli
