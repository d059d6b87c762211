// SPDX-License-Identifier: GPL-3.0-or-later
#include "cast/file_names.hpp"

#include "job/fault_list.hpp"
#include "words/names.hpp"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <new>

#include <utf8proc.h>

namespace gatherwright::cli::cast {

namespace {

constexpr std::size_t longest_file_name = 255;

/// Names of devices, whatever follows a point: Microsoft, "Naming Files, Paths, and Namespaces".
bool is_of_device(std::string_view name) {
  static constexpr std::array<std::string_view, 4> alone{"con", "prn", "aux", "nul"};
  static constexpr std::array<std::string_view, 2> numbered{"com", "lpt"};
  const std::string small = folded(name.substr(0, name.find('.')));
  const std::string_view stem = std::string_view(small).substr(0, small.find_last_not_of(' ') + 1);
  if (std::find(alone.begin(), alone.end(), stem) != alone.end()) return true;
  return stem.size() == 4 && stem[3] >= '0' && stem[3] <= '9' &&
         std::find(numbered.begin(), numbered.end(), stem.substr(0, 3)) != numbered.end();
}

} // namespace

std::optional<Fault> fault_of_name(std::string_view name) {
  if (name.empty()) return Fault{"the wearer has no name", "write one, for the plan's file"};
  if (name == "." || name == "..") return Fault{quoted(name) + " cannot be a file's name", "write the wearer's name"};
  if (const std::size_t at = name.find_first_of("/\\"); at != std::string_view::npos)
    return Fault{quoted(name) + " has a " + name[at] + ", which cannot be in a file's name", "write a - in its place"};
  if (words::printable(name) != name)
    return Fault{quoted(words::printable(name)) + " has a character that cannot be seen", "take it out"};
  if (is_of_device(name))
    return Fault{quoted(name) + " is the name of a device on some systems, and no file can have it",
                 "write more of the name"};
  if (name.size() > longest_file_name - longest_suffix)
    return Fault{quoted(name) + " is too long for a file's name", "write at most 239 bytes"};
  return std::nullopt;
}

std::string folded(std::string_view name) {
  if (std::all_of(name.begin(), name.end(), [](char c) { return static_cast<unsigned char>(c) < 0x80; })) {
    std::string small(name);
    for (char &c : small)
      if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    return small;
  }
  utf8proc_uint8_t *result = nullptr;
  const auto flags = static_cast<utf8proc_option_t>(UTF8PROC_CASEFOLD | UTF8PROC_STABLE | UTF8PROC_COMPOSE);
  const utf8proc_ssize_t length = utf8proc_map(reinterpret_cast<const utf8proc_uint8_t *>(name.data()),
                                               static_cast<utf8proc_ssize_t>(name.size()), &result, flags);
  if (length == UTF8PROC_ERROR_NOMEM) throw std::bad_alloc();
  if (length < 0) return std::string(name);
  std::string small(reinterpret_cast<const char *>(result), static_cast<std::size_t>(length));
  std::free(result);
  return small;
}

} // namespace gatherwright::cli::cast
