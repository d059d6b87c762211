// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/page/text/edit.hpp"

#include "cli/page/text/members.hpp"
#include "cli/page/text/scan.hpp"
#include "cli/page/text/way.hpp"

#include <algorithm>

namespace gatherwright::page {

using cli::Value;

std::string edited(std::string_view text, const std::vector<Edit> &edits) {
  std::string result;
  std::size_t at = 0;
  for (const Edit &edit : edits) {
    result += text.substr(at, edit.begin - at);
    result += edit.text;
    at = edit.end;
  }
  result += text.substr(at);
  return result;
}

std::string indentation_step(const Source &source) {
  for (const Value &child : source.document.children(source.document.root())) {
    const std::size_t begin = source.at(child).key;
    const std::size_t before = before_blanks(source.text, begin);
    if (before == begin || before == 0 || !is_line_end(source.text[before - 1])) continue;
    return std::string(source.text.substr(before, begin - before));
  }
  return "  ";
}

namespace {

/// Whether nothing but blanks and line ends stands in a list or an object.
bool is_blank_within(std::string_view text, const Extent &extent) {
  return text.substr(0, extent.end - 1).find_first_not_of(" \t\r\n", extent.begin + 1) == std::string_view::npos;
}

std::string indentation_of(const Source &source, const Member &member) {
  const std::string_view text = source.text;
  return std::string(text.substr(*member.line, past_blanks(text, *member.line) - *member.line));
}

bool has_line(const Source &source, const Extent &extent) {
  return source.text.substr(extent.begin, extent.end - extent.begin).find_first_of("\r\n") != std::string_view::npos;
}

/// Whether what is put in among others begins a line: as its neighbour does.
bool goes_on_own_line(const std::vector<Member> &members, std::size_t place) {
  if (place == 0) return members.front().line.has_value();
  const Member &before = members[place - 1];
  if (place < members.size()) return before.next_line.has_value();
  return before.line || before.line_remark;
}

std::string with_first(const Source &source, const Value &container, const Room &room, std::string_view member) {
  const Extent &extent = source.at(container);
  const std::string_view text = source.text;
  const std::size_t close = extent.end - 1;
  const std::string own(member);
  const std::string outer(indentation_at(text, room.own_line && has_line(source, extent) ? close : extent.begin));
  if (is_blank_within(text, extent)) {
    const std::string spaced = container.kind == Value::Kind::object ? " " + own + " " : own;
    const std::string lines = room.line_end + room.indentation + own + room.line_end + outer;
    return edited(text, {{extent.begin + 1, close, room.own_line ? lines : spaced}});
  }
  // Behind the remarks that stand there.
  const std::size_t last = text.find_last_not_of(" \t\r\n", close - 1) + 1;
  if (!room.own_line) return edited(text, {{last, last, " " + own}});
  const std::string end = past_blanks(text, last) == close ? room.line_end + outer : "";
  return edited(text, {{last, last, room.line_end + room.indentation + own + end}});
}

} // namespace

Room room_at(const Source &source, const Value &container, int place, bool own_lines) {
  const std::vector<Member> members = members_of(source, container);
  const Extent &extent = source.at(container);
  Room room{std::string(indentation_at(source.text, extent.begin)), false, false, indentation_step(source),
            std::string(line_end_of(source.text))};
  if (members.empty()) {
    room.own_line = has_line(source, extent) || (own_lines && begins_line(source.text, extent.key));
    if (room.own_line) room.indentation += room.step;
    return room;
  }
  const auto at = static_cast<std::size_t>(place);
  room.own_line = goes_on_own_line(members, at);
  if (!room.own_line) return room;
  const Member &near = members[at == 0 ? 0 : at - 1];
  const Value *neighbour =
      container.kind == Value::Kind::list ? member_at(source, container, at == 0 ? 0 : place - 1) : nullptr;
  room.lines_within = neighbour && is_container(*neighbour) && has_line(source, source.at(*neighbour));
  if (near.next_line) { // lines may end in more than one way
    const std::size_t end = past_blanks(source.text, near.end);
    room.line_end = source.text.substr(end, *near.next_line - end);
  }
  if (near.line)
    room.indentation = indentation_of(source, near);
  else if (at < members.size() && members[at].line)
    room.indentation = indentation_of(source, members[at]);
  else
    room.indentation += room.step;
  return room;
}

std::string with_member(const Source &source, const Value &container, int place, const Room &room,
                        std::string_view member) {
  const std::vector<Member> members = members_of(source, container);
  if (members.empty()) return with_first(source, container, room, member);
  const std::string_view text = source.text;
  const auto at = static_cast<std::size_t>(place);
  const std::string own(member);
  if (at == 0) {
    const Member &next = members.front();
    if (room.own_line) return edited(text, {{*next.line, *next.line, room.indentation + own + "," + room.line_end}});
    return edited(text, {{next.begin, next.begin, own + ", "}});
  }
  const Member &before = members[at - 1];
  const std::string line = room.line_end + room.indentation + own;
  const std::size_t line_end = before.next_line ? past_blanks(text, before.end) : before.end;
  if (at < members.size()) {
    if (room.own_line) return edited(text, {{line_end, line_end, line + ","}});
    const Member &next = members[at];
    return edited(
        text, {{next.begin, next.begin, own + "," + std::string(text.substr(before.end, next.begin - before.end))}});
  }
  if (!room.own_line) return edited(text, {{before.end, before.end, ", " + own}});
  return edited(text, {{before.value_end, before.value_end, ","}, {line_end, line_end, line}});
}

std::string without_member(const Source &source, const Value &container, int place) {
  const std::vector<Member> members = members_of(source, container);
  const std::string_view text = source.text;
  const auto at = static_cast<std::size_t>(place);
  const Member &member = members[at];
  const bool last = at + 1 == members.size();
  const Extent &extent = source.at(container);
  std::vector<Edit> edits;
  if (last && at > 0) edits.push_back({*members[at - 1].comma, *members[at - 1].comma + 1});
  Edit own{member.begin, member.end};
  if (member.line && member.next_line) {
    own = {*member.line, *member.next_line};
  } else if (member.next_line || (last && !member.line)) {
    own.begin = before_blanks(text, member.begin);
  } else if (!last) {
    own.end = members[at + 1].begin;
  } else if (at > 0 && !members[at - 1].line_remark && members[at - 1].next_line == member.line) {
    own.begin = members[at - 1].end;
  }
  edits.push_back(own);
  if (members.size() == 1 &&
      text.substr(0, member.begin).find_first_not_of(" \t\r\n", extent.begin + 1) == std::string_view::npos &&
      text.substr(0, extent.end - 1).find_first_not_of(" \t\r\n", member.end) == std::string_view::npos)
    edits = {{extent.begin + 1, extent.end - 1}};
  return edited(text, edits);
}

namespace {

/// A member and its remarks, as it is written at another place.
class Moved {
public:
  Moved(const Source &source, const Member &member)
      : text_(source.text), member_(member), line_end_(line_end_of(source.text)),
        indentation_(member.line ? indentation_of(source, member)
                                 : std::string(indentation_at(source.text, member.begin))) {}

  /// In the place of another, the last or not.
  std::string in_place_of(const Member &slot, bool last) const {
    const std::size_t value = member_.value_end;
    const std::size_t tail = member_.comma.value_or(member_.end);
    const std::size_t post = member_.comma ? *member_.comma + 1 : member_.end;
    const std::string between(text_.substr(value, tail - value));
    const std::string after(text_.substr(post, member_.end - post));
    std::string written(text_.substr(member_.begin, value - member_.begin));
    if (begins_line() && !slot.line) written.insert(0, line_end_ + indentation_);
    if (last)
      written += between + after;
    else if (member_.comma && after.empty())
      written += between + ",";
    else if (slot.next_line || member_.line_remark)
      written += member_.comma ? between + "," + after : "," + between;
    else
      written += between + after + ",";
    if (member_.line_remark && !slot.next_line) written += line_end_ + indentation_;
    return written;
  }

private:
  /// A remark stands on the line above.
  bool begins_line() const {
    return comment_begins(text_, member_.begin) && member_.line &&
           text_.substr(member_.begin, member_.value_end - member_.begin).find_first_of("\r\n") !=
               std::string_view::npos;
  }

  std::string_view text_;
  const Member &member_;
  std::string line_end_;
  std::string indentation_;
};

} // namespace

std::string with_member_moved(const Source &source, const Value &container, int from, int to) {
  const std::vector<Member> members = members_of(source, container);
  std::vector<int> order(members.size());
  for (std::size_t i = 0; i < order.size(); ++i)
    order[i] = static_cast<int>(i);
  order.erase(order.begin() + from);
  order.insert(order.begin() + to, from);
  std::vector<Edit> edits;
  for (int slot = std::min(from, to); slot <= std::max(from, to); ++slot) {
    const auto at = static_cast<std::size_t>(slot);
    const Member &member = members[static_cast<std::size_t>(order[at])];
    edits.push_back(
        {members[at].begin, members[at].end, Moved(source, member).in_place_of(members[at], at + 1 == members.size())});
  }
  return edited(source.text, edits);
}

} // namespace gatherwright::page
