// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>

/// Elements of an HTML page that is well-formed XML too, so that any reader of either can check it.
namespace gatherwright::paper {

/// Writes elements one within another. Names and attributes are the writer's own and stand as they are; every text is
/// escaped.
class Html {
public:
  /// `<NAME ATTRIBUTES>`, on a line of its own.
  Html &open(std::string_view name, std::string_view attributes = {});
  Html &close(std::string_view name);

  /// A whole element with a text on one line.
  Html &element(std::string_view name, std::string_view text, std::string_view attributes = {});

  /// What is already markup.
  Html &markup(std::string_view markup);

  std::string take() { return std::move(out_); }

private:
  std::string out_;
};

/// ` NAME="VALUE"`, the value escaped.
std::string attribute(std::string_view name, std::string_view value);

} // namespace gatherwright::paper
