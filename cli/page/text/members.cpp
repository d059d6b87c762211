// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/page/text/members.hpp"

#include "cli/page/text/scan.hpp"

#include <algorithm>

namespace gatherwright::page {

using cli::Value;

std::size_t above(std::string_view text, std::size_t from, std::size_t to, bool goes_before) {
  std::size_t block = to;   // of remarks line by line; `to`: none
  std::size_t on_line = to; // the first of the line at hand, likewise
  bool first_line = goes_before;
  for (std::size_t at = from; at < to;) {
    if (is_line_end(text[at])) {
      if (first_line || on_line == to)
        block = to;
      else
        block = std::min(block, on_line);
      on_line = to;
      first_line = false;
      at = past_line_end(text, at);
    } else if (comment_begins(text, at)) {
      on_line = std::min(on_line, at);
      at = past_comment(text, at);
    } else {
      ++at;
    }
  }
  return std::min(block, on_line);
}

Behind behind(std::string_view text, std::size_t from, std::size_t to) {
  Behind found{from, false, false};
  for (std::size_t at = from; at < to && !found.line_ends;) {
    if (is_line_end(text[at])) {
      found.line_ends = true;
    } else if (comment_begins(text, at)) {
      found.line_remark = text[at + 1] == '/';
      found.end = at = past_comment(text, at);
    } else {
      ++at;
    }
  }
  return found;
}

std::size_t past_opening(std::string_view text, std::size_t begin, std::size_t close) {
  const Behind opened = behind(text, begin + 1, close);
  return opened.line_ends ? opened.end : begin + 1;
}

namespace {

/// Where a member's line begins, and the one behind it.
void find_lines(std::string_view text, Member &member) {
  const std::size_t before = before_blanks(text, member.begin);
  if (before > 0 && is_line_end(text[before - 1])) member.line = before;
  const std::size_t after = past_blanks(text, member.end);
  if (after < text.size() && is_line_end(text[after])) member.next_line = past_line_end(text, after);
}

/// A member that is not the last: its comma, and what is behind it before the next one.
void end_before(std::string_view text, std::size_t next, Member &member) {
  member.comma = past_gap(text, member.value_end);
  const Behind remarks = behind(text, *member.comma + 1, next);
  member.end = remarks.line_ends ? remarks.end : *member.comma + 1;
  member.line_remark = remarks.line_ends && remarks.line_remark;
}

} // namespace

std::vector<Member> members_of(const Source &source, const Value &container) {
  const std::string_view text = source.text;
  const std::size_t close = source.at(container).end - 1;
  std::size_t gap = source.at(container).begin + 1;
  std::vector<Member> members;
  for (const Value &child : source.document.children(container)) {
    const Extent &extent = source.at(child);
    if (!members.empty()) {
      end_before(text, extent.key, members.back());
      gap = *members.back().comma + 1;
    }
    Member &member = members.emplace_back();
    member.begin = above(text, gap, extent.key);
    member.value_end = extent.end;
  }
  if (!members.empty()) {
    Member &last = members.back();
    const Behind remarks = behind(text, last.value_end, close);
    last.end = remarks.end;
    last.line_remark = remarks.line_remark;
  }
  for (Member &member : members)
    find_lines(text, member);
  return members;
}

} // namespace gatherwright::page
