// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/formula/wording.hpp"

#include "gatherwright/nearest.hpp"
#include "solver/quantity/measure.hpp"
#include "solver/quantity/number.hpp"
#include "solver/quantity/units.hpp"
#include "solver/text/script.hpp"

#include <algorithm>
#include <array>

namespace gatherwright::formula {
namespace {

using namespace quantity;

constexpr std::size_t names_shown = 6;
constexpr std::size_t words_joined = 5;

std::string_view text_of(std::string_view text, const Operand &operand) {
  return text.substr(operand.begin, operand.end - operand.begin);
}

std::string_view without_brackets(std::string_view text) {
  while (text.size() > 1 && text.front() == '(')
    text = trimmed(text.substr(1, text.size() - 2));
  return text;
}

std::string_view word_at(std::string_view text, std::size_t at) {
  return text.substr(at, past_word(text, at) - at);
}

std::string what_it_is(int dimension) {
  if (dimension == 0) return "a pure number";
  if (dimension == 1) return "a length";
  if (dimension == 2) return "an area";
  if (dimension == 3) return "a volume";
  return dimension < 0 ? "something divided by a length" : "a product of too many lengths";
}

// Words from `begin` on that a single name was likely meant to be, joined by underscores, where such a name is known.
std::optional<Fault> split_name(std::string_view text, std::size_t begin, const Terms &terms) {
  std::size_t end = past_word(text, begin);
  std::string joined(text.substr(begin, end - begin));
  for (std::size_t words = 2; words <= words_joined; ++words) {
    std::size_t next = past_spaces(text, end);
    if (const Character sign = character_at(text, next); is_dash(sign.code))
      next = past_spaces(text, next + sign.bytes);
    const std::size_t next_end = past_word(text, next);
    if (next_end == next || next_end - begin > 256) return std::nullopt;
    joined += '_';
    joined += text.substr(next, next_end - next);
    end = next_end;
    if (terms.find(joined) >= 0)
      return Fault{quoted(text.substr(begin, end - begin)) + ": a name has no spaces or dashes",
                   "write " + excerpt(joined)};
  }
  return std::nullopt;
}

std::string known_names(std::span<const std::string> known) {
  if (known.empty()) return "no names are known";
  std::string list = "known are " + excerpt(known.front());
  for (std::size_t k = 1; k < std::min(known.size(), names_shown); ++k)
    list += ", " + excerpt(known[k]);
  if (known.size() > names_shown) list += " and others";
  return list;
}

struct Correction {
  char32_t code;
  std::string_view what;
  std::string_view instead;
};

constexpr std::array<Correction, 27> corrections{{{0xD7, " is no operator here", "write *"},
                                                  {0xB7, " is no operator here", "write *"},
                                                  {0x2217, " is no operator here", "write *"},
                                                  {0x22C5, " is no operator here", "write *"},
                                                  {0xF7, " is no operator here", "write /"},
                                                  {0x2044, " stands only in a fraction", "write /"},
                                                  {0x2215, " is no operator here", "write /"},
                                                  {':', " is no operator here", "write /"},
                                                  {'^', ": there are no powers", "write a product"},
                                                  {0xB2, ": there are no powers", "write a product"},
                                                  {0xB3, ": there are no powers", "write a product"},
                                                  {'%', ": there are no percentages", "write 0.05 * for 5 %"},
                                                  {'[', " is no bracket here", "write ("},
                                                  {'{', " is no bracket here", "write ("},
                                                  {']', " is no bracket here", "write )"},
                                                  {'}', " is no bracket here", "write )"},
                                                  {';', " parts nothing here", "write a comma between two arguments"},
                                                  {'<', ": a comparison stands only in a rule", "write one formula"},
                                                  {'>', ": a comparison stands only in a rule", "write one formula"},
                                                  {'=', ": a comparison stands only in a rule", "write one formula"},
                                                  {0x2264, ": a comparison stands only in a rule", "write one formula"},
                                                  {0x2265, ": a comparison stands only in a rule", "write one formula"},
                                                  {'_', ": a name begins with a letter", "put a letter before it"},
                                                  {'\'', ": feet follow a number", "write such as 5' or 5 ft"},
                                                  {'"', ": inches follow a number", "write such as 10 in"},
                                                  {0x2032, ": feet follow a number", "write such as 5' or 5 ft"},
                                                  {0x2033, ": inches follow a number", "write such as 10 in"}}};

} // namespace

Fault not_a_length(std::string_view text, const Operand &operand, Unit bare) {
  const std::string shown = excerpt(operand.figure ? without_brackets(text_of(text, operand)) : text_of(text, operand));
  if (const auto dashed = hyphenated(text, operand.begin))
    if (dashed->end == operand.end || (operand.figure && dashed->has_unit)) return dashed->fault;
  if (operand.figure) return {shown + " has no unit", "write " + shown + ' ' + std::string(name(bare))};
  std::string instead = "every term must be a length";
  if (operand.dimension > 1) instead += ": divide by a length";
  return {shown + " is " + what_it_is(operand.dimension), instead};
}

Fault unlike(std::string_view text, const Operand &left, const Operand &right, Unit bare) {
  if (left.dimension == 1) return not_a_length(text, right, bare);
  if (right.dimension == 1) return not_a_length(text, left, bare);
  return {excerpt(text_of(text, left)) + " is " + what_it_is(left.dimension) + " and " + excerpt(text_of(text, right)) +
              " is " + what_it_is(right.dimension),
          "both must be lengths"};
}

Fault unknown_name(std::string_view text, std::size_t begin, std::size_t end, std::size_t name_before,
                   const Terms &terms) {
  const std::string_view word = text.substr(begin, end - begin);
  if (auto fault = split_name(text, begin, terms)) return *fault;
  if (auto fault = split_name(text, name_before, terms)) return *fault;
  if (character_at(text, past_spaces(text, end)).code == '(')
    return {quoted(word) + " is no function", "there are min(a, b) and max(a, b)"};
  if (word == "cloth_width") return {"cloth_width is not known", "give the cloth its width"};
  const std::string what = quoted(word) + " is not known";
  if (const auto unit = unit_misnamed(word))
    return {excerpt(word) + " is no unit, and no name that is known", "write such as 1 " + std::string(name(*unit))};
  if (const auto meant = nearest(word, terms.known)) return {what, "write " + excerpt(*meant)};
  return {what, known_names(terms.known)};
}

Fault side_by_side(std::string_view text, std::size_t begin, std::size_t end, std::size_t at, const Terms &terms) {
  const std::string_view before = text.substr(begin, end - begin);
  const std::string_view word = word_at(text, at);
  const bool after_name = past_word(before, 0) == before.size();
  if (unit_named(word) || (terms.find(word) < 0 && unit_misnamed(word))) {
    if (after_name && before != "pi") return {excerpt(before) + " is a length already", "leave out " + excerpt(word)};
    return {excerpt(word) + " follows no number", "write a unit directly behind its number"};
  }
  if (after_name && !word.empty()) {
    if (auto fault = split_name(text, begin, terms)) return *fault;
    return {"an operator is missing between " + excerpt(before) + " and " + excerpt(word),
            "write " + excerpt(std::string(before) + '_' + std::string(word)) + " if it is one name"};
  }
  const std::string after = excerpt(word.empty() ? text.substr(at, past_digits(text, at + 1) - at) : word);
  const std::string what = "an operator is missing between " + excerpt(before) + " and " + after;
  if (before == ")" || word.empty()) return {what, "put + - * or / between them"};
  return {what, "write " + excerpt(before) + " * " + after};
}

Fault unit_alone(std::string_view unit) {
  return {std::string(unit) + " has no number before it", "write such as 1 " + std::string(unit)};
}

Fault stray_sign(std::string_view text, std::size_t at) {
  const Character sign = character_at(text, at);
  const std::string shown = quoted(text.substr(at, sign.bytes));
  if (is_dash(sign.code)) return {shown + " is no minus sign", "write -"};
  const auto *found = std::find_if(corrections.begin(), corrections.end(),
                                   [&](const Correction &correction) { return correction.code == sign.code; });
  if (found != corrections.end()) return {shown + std::string(found->what), std::string(found->instead)};
  return {shown + " means nothing here", "a formula has + - * /, brackets, names and quantities"};
}

Fault stray_comma(std::string_view text, std::size_t at) {
  if (past_spaces(text, at + 1) == text.size())
    return {quoted(text) + ": a comma at the end", "write " + excerpt(trimmed(text.substr(0, at)))};
  return {quoted(text) + ": a comma stands only between the two of min and max", "write a point for decimals"};
}

} // namespace gatherwright::formula
