// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/cast/file_names.hpp"

#include "cli/job/fault_list.hpp"
#include "cli/words/quoted.hpp"
#include "gatherwright/text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstdint>
#include <cstdlib>
#include <new>

#include <utf8proc.h>

namespace gatherwright::cli::cast {

namespace {

constexpr std::size_t longest_file_name = 255;

/// Names of devices, whatever follows a point: Microsoft, "Naming Files, Paths, and Namespaces". The three raised
/// figures are those of its older sets of characters, and count as figures there.
bool is_of_device(std::string_view name) {
  static constexpr std::array<std::string_view, 6> alone{"con", "prn", "aux", "nul", "conin$", "conout$"};
  static constexpr std::array<std::string_view, 2> numbered{"com", "lpt"};
  static constexpr std::array<std::string_view, 3> raised{"\u00b9", "\u00b2", "\u00b3"};
  const std::string small = folded(name.substr(0, name.find('.')));
  const std::string_view stem = std::string_view(small).substr(0, small.find_last_not_of(' ') + 1);
  if (std::find(alone.begin(), alone.end(), stem) != alone.end()) return true;
  if (std::find(numbered.begin(), numbered.end(), stem.substr(0, 3)) == numbered.end()) return false;
  const std::string_view number = stem.substr(3);
  return (number.size() == 1 && number[0] >= '0' && number[0] <= '9') ||
         std::find(raised.begin(), raised.end(), number) != raised.end();
}

/// Blank, though Unicode does not count them among what may be left unseen: fillers of Braille, of music and of the
/// small Khitan script, and the marks round a note between the lines.
constexpr std::array<char32_t, 6> blank{0x2800, 0x1d159, 0x16fe4, 0xfff9, 0xfffa, 0xfffb};

/// Whether nothing shows of a character, or it does not exist. What Unicode calls default ignorable are zero-width
/// characters, the soft hyphen, fillers, tags, selectors of variants and what turns the direction.
bool is_unseen(char32_t code) {
  const utf8proc_property_t &property = *utf8proc_get_property(static_cast<utf8proc_int32_t>(code));
  switch (property.category) {
  case UTF8PROC_CATEGORY_CC:
  case UTF8PROC_CATEGORY_ZL:
  case UTF8PROC_CATEGORY_ZP:
  case UTF8PROC_CATEGORY_CN:
    return true;
  default:
    return property.ignorable || std::find(blank.begin(), blank.end(), code) != blank.end();
  }
}

/// A text with some of its characters written otherwise. `otherwise`: a character's code to what stands for it, or to
/// nothing where it stays.
template <class Otherwise> std::string rewritten(std::string_view text, Otherwise otherwise) {
  std::string out;
  for (std::size_t at = 0; at < text.size();) {
    const Character character = character_at(text, at);
    const std::optional<std::string> other = otherwise(character.code);
    out += other ? std::string_view(*other) : text.substr(at, character.bytes);
    at += character.bytes;
  }
  return out;
}

/// With what cannot be seen written as its number.
std::string shown(std::string_view name) {
  return rewritten(name, [](char32_t code) {
    return is_unseen(code) ? std::optional(fmt::format("\\u{:04x}", static_cast<std::uint32_t>(code))) : std::nullopt;
  });
}

/// Spaces of every kind as the plain one: they look alike.
std::string with_plain_spaces(std::string_view name) {
  return rewritten(name, [](char32_t code) {
    const bool space = utf8proc_category(static_cast<utf8proc_int32_t>(code)) == UTF8PROC_CATEGORY_ZS;
    return space ? std::optional(std::string(" ")) : std::nullopt;
  });
}

} // namespace

std::optional<Fault> fault_of_name(std::string_view name) {
  if (name.empty()) return Fault{"the wearer has no name", "write one, for the plan's file"};
  if (name == "." || name == "..")
    return Fault{cli::quoted(name) + " cannot be a file's name", "write the wearer's name"};
  if (const std::size_t at = name.find_first_of("/\\:*?\"<>|"); at != std::string_view::npos)
    return Fault{cli::quoted(name) + " has a " + name[at] + ", which cannot be in a file's name",
                 "write a - in its place"};
  if (const std::string seen = shown(name); seen != name)
    return Fault{cli::quoted(seen) + " has a character that cannot be seen", "take it out"};
  if (const std::string plain = with_plain_spaces(name); plain.front() == ' ' || plain.back() == ' ')
    return Fault{cli::quoted(name) + " has a space before or after it that cannot be seen", "take it out"};
  if (is_of_device(name))
    return Fault{cli::quoted(name) + " is the name of a device on some systems, and no file can have it",
                 "write more of the name"};
  if (name.size() > longest_file_name - longest_suffix)
    return Fault{cli::quoted(name) + " is too long for a file's name", "write at most 239 bytes"};
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
  return with_plain_spaces(small);
}

} // namespace gatherwright::cli::cast
