// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/page/text/laid_out.hpp"

#include "cli/page/text/scan.hpp"

#include <algorithm>
#include <optional>
#include <utility>

namespace gatherwright::page {

using cli::Value;

namespace {

constexpr std::size_t longest_line = 100;

class Layout {
public:
  Layout(const Source &source, const Room &room) : source_(source), room_(room) {}

  std::string lines(const Value &value, const std::string &indentation, bool however_short = false) const {
    auto whole = one_line(value, longest_line - std::min(longest_line, indentation.size()));
    if (whole && !(however_short && has_members(value))) return *std::move(whole);
    const std::string inner = indentation + room_.step;
    std::string text;
    for (const Value &child : source_.document.children(value)) {
      text += (text.empty() ? "" : ",") + room_.line_end + inner;
      text += key_of(child) + lines(child, inner);
    }
    return opening(value) + text + room_.line_end + indentation + closing(value);
  }

  /// Nothing where a list or an object would be longer than that.
  std::optional<std::string> one_line(const Value &value, std::size_t longest) const {
    std::string text;
    append(value, text, longest);
    return has_members(value) && text.size() > longest ? std::nullopt : std::optional(std::move(text));
  }

private:
  bool has_members(const Value &value) const {
    return is_container(value) && !source_.document.children(value).empty();
  }
  static bool is_container(const Value &value) {
    return value.kind == Value::Kind::object || value.kind == Value::Kind::list;
  }
  static std::string opening(const Value &value) { return value.kind == Value::Kind::object ? "{" : "["; }
  static std::string closing(const Value &value) { return value.kind == Value::Kind::object ? "}" : "]"; }

  /// Its key with the colon; nothing in a list.
  std::string key_of(const Value &value) const {
    const Extent &extent = source_.at(value);
    if (extent.key == extent.begin) return {};
    return std::string(source_.text.substr(extent.key, past_quotes(source_.text, extent.key) - extent.key)) + ": ";
  }

  /// Breaks off once it is longer than that.
  void append(const Value &value, std::string &text, std::size_t longest) const {
    if (!has_members(value)) {
      text += source_.written(value);
      return;
    }
    const char *const spacing = value.kind == Value::Kind::object ? " " : "";
    text += opening(value) + spacing;
    bool first = true;
    for (const Value &child : source_.document.children(value)) {
      if (!first) text += ", ";
      first = false;
      text += key_of(child);
      append(child, text, longest);
      if (text.size() > longest) return;
    }
    text += spacing + closing(value);
  }

  const Source &source_;
  const Room &room_;
};

/// Whether nothing stands between its tokens.
bool is_tight(const Source &source) {
  const std::string_view text = source.written(source.document.root());
  for (std::size_t at = 0; at < text.size();) {
    if (is_blank(text[at]) || is_line_end(text[at]) || text[at] == '/') return false;
    at = text[at] == '"' ? past_quotes(text, at) : at + 1;
  }
  return true;
}

} // namespace

std::string laid_out(const Source &value, const Room &room) {
  const Value &root = value.document.root();
  if (!is_tight(value)) return std::string(value.written(root));
  const Layout layout(value, room);
  return room.own_line ? layout.lines(root, room.indentation, room.lines_within)
                       : *layout.one_line(root, std::string::npos);
}

} // namespace gatherwright::page
