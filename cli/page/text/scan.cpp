// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/page/text/scan.hpp"

#include <algorithm>

namespace gatherwright::page {

std::size_t past_comment(std::string_view text, std::size_t at) {
  if (text[at + 1] == '/') {
    while (at < text.size() && !is_line_end(text[at]))
      ++at;
    return at;
  }
  const std::size_t close = text.find("*/", at + 2);
  return close == std::string_view::npos ? text.size() : close + 2;
}

std::size_t past_line_end(std::string_view text, std::size_t at) {
  return text.substr(at).starts_with("\r\n") ? at + 2 : at + 1;
}

std::size_t past_quotes(std::string_view text, std::size_t at) {
  for (++at; at < text.size() && text[at] != '"'; ++at)
    if (text[at] == '\\') ++at;
  return std::min(text.size(), at + 1);
}

std::size_t past_blanks(std::string_view text, std::size_t at) {
  while (at < text.size() && is_blank(text[at]))
    ++at;
  return at;
}

std::size_t past_gap(std::string_view text, std::size_t at) {
  while (at < text.size()) {
    if (is_blank(text[at]) || is_line_end(text[at]))
      ++at;
    else if (comment_begins(text, at))
      at = past_comment(text, at);
    else
      break;
  }
  return at;
}

std::size_t before_blanks(std::string_view text, std::size_t at) {
  while (at > 0 && is_blank(text[at - 1]))
    --at;
  return at;
}

bool begins_line(std::string_view text, std::size_t at) {
  const std::size_t before = before_blanks(text, at);
  return before == 0 || is_line_end(text[before - 1]);
}

std::string_view line_end_of(std::string_view text) {
  const std::size_t first = text.find_first_of("\r\n");
  if (first == std::string_view::npos) return "\n";
  return text.substr(first, past_line_end(text, first) - first);
}

std::string_view indentation_at(std::string_view text, std::size_t at) {
  std::size_t begin = at;
  while (begin > 0 && !is_line_end(text[begin - 1]))
    --begin;
  return text.substr(begin, std::min(at, past_blanks(text, begin)) - begin);
}

} // namespace gatherwright::page
