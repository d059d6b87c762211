// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/page/utf8.hpp"

#include "gatherwright/text.hpp"

namespace gatherwright::page {

std::string as_utf8(std::string_view text) {
  if (is_utf8(text)) return std::string(text);
  std::string sound;
  for (std::size_t at = 0; at < text.size();) {
    const Character character = character_at(text, at);
    sound += character.valid ? text.substr(at, character.bytes) : "\xEF\xBF\xBD";
    at += character.bytes;
  }
  return sound;
}

void text_or_null(report::JsonText &json, report::Key name, const std::optional<std::string> &value) {
  json.key(name);
  if (value)
    json.text(*value);
  else
    json.null();
}

} // namespace gatherwright::page
