// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/job/syntax.hpp"
#include "cli/words/quoted.hpp"
#include "gatherwright/text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>

namespace gatherwright::cli {

namespace {

using namespace std::literals;

constexpr std::string_view in_quotes = "a length with a unit or a fraction stands in double quotes: \"24 3/4 in\"";
constexpr std::string_view inch_mark = "write an inch mark within a text as \\\", or write in: \"24 3/4 in\"";

bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_' || static_cast<unsigned char>(c) >= 0x80;
}
bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

/// The text that could not be read, and the way it is read here: byte by byte from an offset.
class Broken {
public:
  explicit Broken(std::string_view text) : text_(text) {}

  bool ends(std::size_t at) const { return at >= text_.size(); }
  char operator[](std::size_t at) const { return at < text_.size() ? text_[at] : '\0'; }

  InputFault fault(std::size_t at, std::string what, std::string_view instead) const {
    return {line_at(text_, std::min(at, text_.size())), "", {std::move(what), std::string(instead)}};
  }

  /// Past spaces and comments. A comment that is not closed is stopped at.
  std::size_t skip(std::size_t at) const {
    while (!ends(at)) {
      const std::string_view rest = text_.substr(at);
      if (rest.starts_with("//")) {
        at = std::min(text_.size(), text_.find_first_of("\r\n", at));
      } else if (rest.starts_with("/*")) {
        const std::size_t close = text_.find("*/", at + 2);
        if (close == std::string_view::npos) return at;
        at = close + 2;
      } else if (" \t\r\n"sv.find(rest.front()) != std::string_view::npos) {
        ++at;
      } else {
        return at;
      }
    }
    return text_.size();
  }

  /// The letters, digits and signs that stand together from here on.
  std::string_view word(std::size_t at) const {
    std::size_t end = at;
    while (!ends(end) &&
           (is_letter(text_[end]) || is_digit(text_[end]) || "+-."sv.find(text_[end]) != std::string_view::npos))
      ++end;
    return text_.substr(at, end - at);
  }

  std::string_view text() const { return text_; }

private:
  std::string_view text_;
};

constexpr std::size_t longest_shown = 40; ///< of a text

/// The one character at an offset, however many bytes it has; of a text that begins there, what it says.
std::string character(const Broken &text, std::size_t at) {
  if (text[at] == '"') {
    const std::size_t end = text.text().find_first_of("\"\\\n", at + 1);
    if (end == std::string_view::npos || text[end] != '"' || end - at > longest_shown) return "a quotation mark";
    return quoted(text.text().substr(at + 1, end - at - 1));
  }
  return quoted(text.text().substr(at, character_at(text.text(), at).bytes));
}

std::string closing(const Halt &halt) {
  return halt.in_object ? "}" : "]";
}

InputFault early_end(const Broken &text, const Halt &halt) {
  const std::size_t last = text.text().find_last_not_of(" \t\r\n");
  return text.fault(last, "the file ends before what was opened on line " + std::to_string(halt.opened) + " is closed",
                    "write the missing " + closing(halt));
}

/// The code unit that four hexadecimal digits at an offset give.
std::optional<unsigned> code_unit(const Broken &text, std::size_t at) {
  const std::string_view digits = text.text().substr(std::min(at, text.text().size()), 4);
  unsigned value = 0;
  const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), value, 16);
  if (error != std::errc() || end != digits.data() + 4) return std::nullopt;
  return value;
}

/// The length of the \u escape at an offset, with the second half of a pair; 0 where it names no character.
std::size_t escape_length(const Broken &text, std::size_t at) {
  const auto unit = code_unit(text, at + 2);
  if (!unit || (*unit >= 0xdc00 && *unit <= 0xdfff)) return 0;
  if (*unit < 0xd800 || *unit > 0xdbff) return 6;
  const auto second = text[at + 6] == '\\' && text[at + 7] == 'u' ? code_unit(text, at + 8) : std::nullopt;
  return second && *second >= 0xdc00 && *second <= 0xdfff ? 12 : 0;
}

/// The bytes of a curly quotation mark, or of one that other languages write; 0 of anything else.
std::size_t curly_quote(std::string_view text) {
  constexpr std::array<std::string_view, 10> marks{"\u201c", "\u201d", "\u201e", "\u201f", "\u2018",
                                                   "\u2019", "\u201a", "\u201b", "\u00ab", "\u00bb"};
  for (const std::string_view mark : marks)
    if (text.starts_with(mark)) return mark.size();
  return 0;
}

bool has_curly_quote(std::string_view text) {
  for (std::size_t at = 0; at < text.size(); ++at)
    if (curly_quote(text.substr(at)) > 0) return true;
  return false;
}

/// A text that begins at `at` with a curly quotation mark: shown as far as the next one on its line.
InputFault curly_fault(const Broken &text, std::size_t at) {
  constexpr std::string_view straight = "write straight ones";
  const std::size_t begin = at + curly_quote(text.text().substr(at));
  std::size_t end = begin;
  while (!text.ends(end) && text[end] != '\n' && text[end] != '"' && curly_quote(text.text().substr(end)) == 0)
    ++end;
  const std::string_view within = text.text().substr(begin, end - begin);
  if (curly_quote(text.text().substr(std::min(end, text.text().size()))) == 0 || within.empty() ||
      within.size() > longest_shown)
    return text.fault(at, "there are curly quotes here", straight);
  return text.fault(at, fmt::format("{} stands in curly quotes", within), fmt::format("{}: \"{}\"", straight, within));
}

InputFault open_comment(const Broken &text, std::size_t at) {
  return text.fault(at, "a comment that begins with /* is not closed", "end it with */");
}

/// What is wrong within a text that opens at `at`.
InputFault text_fault(const Broken &text, std::size_t at) {
  std::size_t i = at + 1;
  while (!text.ends(i) && text[i] != '\n' && text[i] != '\r' && text[i] != '"') {
    const char c = text[i];
    if (c == '\t') return text.fault(i, "there is a tab within a text", "write a space");
    if (static_cast<unsigned char>(c) < 0x20)
      return text.fault(i, "there is a control character within a text", "leave it out");
    if (c != '\\') {
      ++i;
    } else if (text[i + 1] == 'u') {
      const std::size_t length = escape_length(text, i);
      if (length == 0) return text.fault(i, "this \\u escape names no character", "write the character itself");
      i += length;
    } else if (!text.ends(i + 1) && "\"\\/bfnrt"sv.find(text[i + 1]) != std::string_view::npos) {
      i += 2;
    } else {
      return text.fault(i, "a backslash stands alone in a text",
                        "write \\\\ for a backslash and \\\" for a double quote");
    }
  }
  if (has_curly_quote(text.text().substr(at, i - at)))
    return text.fault(at, "a text begins with a straight quote and ends in a curly one", "end it with a straight one");
  return text.fault(at, "a text is not closed on its line", "end it with a double quote");
}

InputFault number_fault(const Broken &text, std::size_t at) {
  const std::string written(text.word(at));
  const std::size_t digit = written.find_first_of("0123456789");
  if (written.front() == '.' || written.starts_with("-."))
    return text.fault(at, quoted(written) + " begins with a point", "write a 0 before it");
  if (written.front() == '+') return text.fault(at, quoted(written) + " begins with +", "leave the + out");
  if (digit == std::string::npos) return text.fault(at, quoted(written) + " is no number", "write digits");
  if (std::any_of(written.begin(), written.end(), is_letter) && written.find_first_of("eE") == std::string::npos)
    return text.fault(at, quoted(written) + " is no number", in_quotes);
  return text.fault(at, quoted(written) + " is no number", "write digits, with a point before the decimals: 2.5");
}

InputFault word_fault(const Broken &text, std::size_t at) {
  const std::string written(text.word(at));
  std::string lower = written;
  for (char &c : lower)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  const bool yes = lower == "true" || lower == "yes" || lower == "on";
  const bool no = lower == "false" || lower == "no" || lower == "off";
  if (yes || no) return text.fault(at, quoted(written) + " is not known here", yes ? "write true" : "write false");
  return text.fault(at, quoted(written) + " stands here without quotes",
                    "a text stands in double quotes: " + quoted(written));
}

/// A value was due at `at`.
InputFault value_fault(const Broken &text, const Halt &halt, std::size_t at) {
  if (text.ends(at)) return early_end(text, halt);
  if (text.text().substr(at).starts_with("/*")) return open_comment(text, at);
  if (curly_quote(text.text().substr(at)) > 0) return curly_fault(text, at);
  const char c = text[at];
  if (c == '"') return text_fault(text, at);
  if (c == '\'') return text.fault(at, "a text stands in single quotes", "write double quotes");
  if (c == '}' || c == ']' || c == ',' || c == ':')
    return text.fault(at, "a value is missing before " + character(text, at),
                      "write it, or leave out what asks for it");
  if (is_digit(c) || c == '-' || c == '+' || c == '.') return number_fault(text, at);
  if (is_letter(c)) return word_fault(text, at);
  return text.fault(at, character(text, at) + " cannot stand here", "a text stands in double quotes");
}

/// The name of a key was due at `at`.
InputFault key_fault(const Broken &text, const Halt &halt, std::size_t at) {
  if (text.ends(at)) return early_end(text, halt);
  if (text.text().substr(at).starts_with("/*")) return open_comment(text, at);
  if (curly_quote(text.text().substr(at)) > 0) return curly_fault(text, at);
  const char c = text[at];
  if (c == '"') return text_fault(text, at);
  if (c == '\'') return text.fault(at, "a key stands in single quotes", "write double quotes");
  if (is_letter(c) || is_digit(c)) {
    const std::string key(text.word(at));
    return text.fault(at, "the key " + quoted(key) + " stands without quotes", "keys stand in double quotes");
  }
  return text.fault(at, character(text, at) + " stands where a key is due", "keys stand in double quotes");
}

bool ends_like_a_measure(std::string_view text) {
  return !text.empty() &&
         (is_digit(text.back()) || text.back() == '\'' || static_cast<unsigned char>(text.back()) >= 0x80);
}

/// After a whole value neither a comma nor the end of what it stands in.
InputFault unseparated(const Broken &text, const Halt &halt, std::size_t at) {
  const char c = text[at];
  if (halt.value == Value::Kind::number && halt.value_text.size() > 1 && halt.value_text[0] == '0' &&
      is_digit(halt.value_text[1]))
    return text.fault(at, quoted(halt.value_text) + " begins with a 0 too many", "leave it out");
  if (c == '}' || c == ']')
    return text.fault(at, character(text, at) + " closes what was opened with " + (halt.in_object ? "{" : "["),
                      "write " + closing(halt));
  const bool same_line = line_at(text.text(), halt.offset) == line_at(text.text(), at);
  if (halt.value == Value::Kind::text && same_line && has_curly_quote(halt.value_text))
    return text.fault(at, "there is a curly quote within " + quoted(clipped(halt.value_text, longest_shown)),
                      "write a straight one where the text ends");
  if (halt.value == Value::Kind::text && same_line &&
      (at == halt.offset ? c == '"' : ends_like_a_measure(halt.value_text)))
    return text.fault(
        at, quoted(halt.value_text) + " is followed by " + (c == '"' ? "another double quote" : character(text, at)),
        inch_mark);
  if (halt.value == Value::Kind::number && same_line) {
    const std::string_view number = halt.value_text;
    if (c != '"' && c != '{' && c != '[')
      return text.fault(at, quoted(number) + " is followed by " + character(text, at), in_quotes);
  }
  if (c == '"' || c == '{' || c == '[' || c == '-' || is_digit(c) || is_letter(c))
    return text.fault(at, "a comma is missing before " + character(text, at), "write one after what stands before it");
  return text.fault(at, character(text, at) + " cannot stand here", "write a comma or " + closing(halt));
}

/// A number that is written with a decimal comma, in an object, where a key would follow a comma.
bool is_decimal_comma(const Broken &text, const Halt &halt, std::size_t at) {
  return halt.in_object && halt.value == Value::Kind::number && at == halt.offset && is_digit(text[at + 1]) &&
         halt.value_text.find_first_of(".eE") == std::string_view::npos;
}

InputFault decimal_comma(const Broken &text, const Halt &halt, std::size_t at) {
  std::size_t end = at + 1;
  while (is_digit(text[end]))
    ++end;
  const std::string whole(halt.value_text);
  const std::string decimals(text.text().substr(at + 1, end - at - 1));
  return text.fault(at, whole + "," + decimals + " has a comma before its decimals",
                    "write a point: " + whole + "." + decimals);
}

InputFault after_value(const Broken &text, const Halt &halt, std::size_t at) {
  if (text.ends(at)) return early_end(text, halt);
  if (text[at] != ',') return unseparated(text, halt, at);
  if (is_decimal_comma(text, halt, at)) return decimal_comma(text, halt, at);
  const std::size_t next = text.skip(at + 1);
  if (text[next] == '}' || text[next] == ']')
    return text.fault(at, "there is a trailing comma before " + character(text, next), "leave the comma out");
  if (text[next] == ',') return text.fault(next, "there are two commas", "leave one out");
  return halt.in_object ? key_fault(text, halt, next) : value_fault(text, halt, next);
}

InputFault after_key(const Broken &text, const Halt &halt, std::size_t at) {
  if (text.ends(at)) return early_end(text, halt);
  if (text[at] == ':') return value_fault(text, halt, text.skip(at + 1));
  return text.fault(at, "a colon is missing after the key " + quoted(halt.value_text), "write \"key\": value");
}

} // namespace

int line_at(std::string_view text, std::size_t offset) {
  return 1 + static_cast<int>(std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(offset), '\n'));
}

std::size_t first_bad_byte(std::string_view text) {
  const auto is_plain = [](char byte) { return byte > 0; }; // of ASCII, as most of every text is
  for (std::size_t at = 0; at < text.size();) {
    if (is_plain(text[at])) {
      ++at;
      continue;
    }
    const Character character = character_at(text, at);
    if (!character.valid || character.code == 0) return at;
    at += character.bytes;
  }
  return text.size();
}

InputFault syntax_fault(std::string_view text, const Halt &halt) {
  const Broken broken(text);
  const std::size_t at = broken.skip(halt.offset);
  if (text.substr(at).starts_with("/*")) return open_comment(broken, at);
  switch (halt.after) {
  case Halt::After::nothing:
    if (broken.ends(at))
      return broken.fault(at, "the file holds nothing", "gatherwright start writes a job to begin with");
    return value_fault(broken, halt, at);
  case Halt::After::opening:
    return halt.in_object ? key_fault(broken, halt, at) : value_fault(broken, halt, at);
  case Halt::After::key:
    return after_key(broken, halt, at);
  case Halt::After::value:
    return after_value(broken, halt, at);
  case Halt::After::everything:
    break;
  }
  return broken.fault(at, character(broken, at) + " stands after the end of the job", "leave out what follows it");
}

} // namespace gatherwright::cli
