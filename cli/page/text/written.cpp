// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/page/text/written.hpp"

#include "cli/page/text/members.hpp"
#include "cli/page/text/scan.hpp"
#include "gatherwright/text.hpp"

#include <algorithm>

namespace gatherwright::page {

using cli::Document;
using cli::Value;

namespace {

/// One line of a remark, without what only makes it one.
std::string_view plain(std::string_view line) {
  line = trimmed(line);
  while (line.starts_with('*'))
    line = trimmed(line.substr(1));
  return line;
}

void add(std::string &remark, std::string_view more) {
  if (more.empty()) return;
  if (!remark.empty()) remark += ' ';
  remark += more;
}

/// The words of a comment.
void add_comment(std::string &remark, std::string_view comment) {
  const bool to_line_end = comment.starts_with("//");
  comment.remove_prefix(2);
  if (to_line_end) {
    while (comment.starts_with('/'))
      comment.remove_prefix(1);
    add(remark, trimmed(comment));
    return;
  }
  comment.remove_suffix(2);
  while (!comment.empty()) {
    const std::size_t end = std::min(comment.size(), comment.find_first_of("\r\n"));
    add(remark, plain(comment.substr(0, end)));
    comment.remove_prefix(std::min(comment.size(), end + 1));
  }
}

/// Writes the job and gathers the remarks in one pass.
class WritingPass {
public:
  WritingPass(std::string_view text, const Document &document)
      : text_(text), document_(document), extents_(extents_of(text, document)) {}

  Written run() && {
    written_.job.reserve(text_.size());
    const Value &root = document_.root();
    const Extent &extent = at(root);
    std::string remark;
    add_comments(remark, above(text_, 0, extent.begin, false), extent.begin);
    add_opening(remark, root);
    const Behind after = behind(text_, extent.end, text_.size());
    add_comments(remark, extent.end, after.end);
    keep(remark);
    write(root);
    return std::move(written_);
  }

private:
  const Extent &at(const Value &value) const { return extents_[static_cast<std::size_t>(&value - &document_.root())]; }

  static bool is_container(const Value &value) {
    return value.kind == Value::Kind::object || value.kind == Value::Kind::list;
  }

  void add_comments(std::string &remark, std::size_t from, std::size_t to) const {
    while (from < to) {
      if (!comment_begins(text_, from)) {
        ++from;
        continue;
      }
      const std::size_t end = past_comment(text_, from);
      add_comment(remark, text_.substr(from, end - from));
      from = end;
    }
  }

  void add_opening(std::string &remark, const Value &value) const {
    if (!is_container(value)) return;
    const Extent &extent = at(value);
    add_comments(remark, extent.begin + 1, past_opening(text_, extent.begin, first_in(value)));
  }

  /// Where the first thing in a container begins, or its end.
  std::size_t first_in(const Value &container) const {
    for (const Value &child : document_.children(container))
      return at(child).key;
    return at(container).end - 1;
  }

  void keep(const std::string &remark) {
    if (remark.empty()) return;
    kept_ += pointer_.size() + remark.size();
    if (kept_ <= cli::longest_text) written_.remarks.emplace_back(pointer_, remark);
  }

  void write(const Value &value) {
    const Extent &extent = at(value);
    if (!is_container(value)) {
      written_.job += text_.substr(extent.begin, extent.end - extent.begin);
      return;
    }
    const bool object = value.kind == Value::Kind::object;
    written_.job += object ? '{' : '[';
    write_children(value, object);
    written_.job += object ? '}' : ']';
  }

  void write_children(const Value &container, bool object) {
    std::size_t gap = at(container).begin + 1;
    bool first = true;
    for (const Value &child : document_.children(container)) {
      const Extent &extent = at(child);
      std::string remark;
      add_comments(remark, above(text_, gap, extent.key), extent.key);
      if (object) add_comments(remark, past_quotes(text_, extent.key), extent.begin);
      add_opening(remark, child);
      gap = add_behind(remark, child, container);
      if (child.repeated) continue;
      if (!first) written_.job += ',';
      first = false;
      write_member(child, object, remark);
    }
  }

  void write_member(const Value &child, bool object, const std::string &remark) {
    const std::size_t outer = pointer_.size();
    if (object) {
      const std::size_t key = at(child).key;
      written_.job += text_.substr(key, past_quotes(text_, key) - key);
      written_.job += ':';
      cli::append_step(pointer_, child.key);
    } else {
      pointer_ += '/' + std::to_string(child.place);
    }
    keep(remark);
    write(child);
    pointer_.resize(outer);
  }

  /// Adds what stands behind a member; past its comma.
  std::size_t add_behind(std::string &remark, const Value &member, const Value &container) const {
    const std::size_t end = at(member).end;
    if (member.end == container.end) {
      add_comments(remark, end, behind(text_, end, at(container).end - 1).end);
      return end;
    }
    const std::size_t comma = past_gap(text_, end);
    add_comments(remark, end, comma);
    const Behind after = behind(text_, comma + 1, extents_[static_cast<std::size_t>(member.end)].key);
    if (after.line_ends) add_comments(remark, comma + 1, after.end);
    return comma + 1;
  }

  std::string_view text_;
  const Document &document_;
  std::vector<Extent> extents_;
  Written written_;
  std::string pointer_;
  std::size_t kept_ = 0;
};

} // namespace

Written written(std::string_view text, const Document &document) {
  return WritingPass(text, document).run();
}

} // namespace gatherwright::page
