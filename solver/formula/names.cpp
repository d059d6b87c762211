// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/formula/expression.hpp"
#include "solver/quantity/measure.hpp"
#include "solver/text/script.hpp"

namespace gatherwright {
namespace {

using namespace quantity;

Fault reserved(std::string_view word) {
  const std::string shown(word);
  const std::string instead = "choose another name, such as " + shown + "_1";
  if (unit_named(word)) return {shown + " is a unit", instead};
  if (word == "pi") return {"pi is the number", instead};
  if (word == "cloth_width") return {"cloth_width is the width of the cloth", instead};
  return {shown + " is a function of formulas", instead};
}

// The text with one underscore for each run of what no name may hold.
std::string underscored(std::string_view text) {
  std::string name;
  bool gap = false;
  for (std::size_t at = 0; at < text.size();) {
    const Character sign = character_at(text, at);
    const bool fits = continues_name(sign.code);
    if (fits && gap && !name.empty() && name.back() != '_') name += '_';
    if (fits) name += text.substr(at, sign.bytes);
    gap = !fits;
    at += sign.bytes;
  }
  return name;
}

Fault no_name(std::string_view text, std::size_t at) {
  const Character sign = character_at(text, at);
  std::string what = quoted(text) + ": a name is a letter, then letters, digits and _";
  if (is_space(sign.code)) what = quoted(text) + ": a name has no spaces";
  if (at == 0 && (is_digit(sign.code) || sign.code == '_')) what = quoted(text) + ": a name begins with a letter";
  const std::string right = underscored(text);
  if (past_word(right, 0) != right.size() || right.empty()) return {what, "write a letter first"};
  if (formula::is_reserved(right) || right == "cloth_width") return {what, ""};
  return {what, "write " + excerpt(right)};
}

} // namespace

std::optional<Fault> check_name(std::string_view text) {
  if (!is_utf8(text)) return Fault{std::string(not_text), std::string(save_as_text)};
  if (text.empty()) return Fault{"a name is empty", "write a letter, then letters, digits and _"};
  const std::size_t end = past_word(text, 0);
  if (end != text.size()) return no_name(text, end);
  if (formula::is_reserved(text) || text == "cloth_width") return reserved(text);
  return std::nullopt;
}

} // namespace gatherwright
