// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/report/json_text.hpp"

#include "gatherwright/text.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <cstdint>
#include <cstring>

namespace gatherwright::report {

namespace {

/// Marks, embeddings, overrides and isolates: what stands after them would be shown elsewhere than where it is.
bool turns_direction(char32_t code) {
  return code == 0x61c || code == 0x200e || code == 0x200f || (code >= 0x202a && code <= 0x202e) ||
         (code >= 0x2066 && code <= 0x2069);
}

/// What a character takes that is written by its number.
constexpr std::size_t by_number = 6;

char *write_by_number(char32_t code, char *end) {
  constexpr std::string_view digits = "0123456789abcdef";
  *end++ = '\\';
  *end++ = 'u';
  for (const unsigned place : {12U, 8U, 4U, 0U})
    *end++ = digits[code >> place & 15U];
  return end;
}

/// So many bytes of a text are looked at together.
constexpr std::size_t at_once = 8;

/// Whether that many bytes are all ASCII and none of them is escaped. What is added to each byte carries into its
/// highest bit, which one of ASCII has not, where the byte is not the one looked for, or no control character.
bool is_plain(const char *bytes) {
  std::uint64_t word = 0;
  std::memcpy(&word, bytes, at_once);
  constexpr std::uint64_t each = 0x0101010101010101;
  constexpr std::uint64_t highest = 0x80 * each;
  const auto without = [&](unsigned char byte) { return (word ^ (byte * each)) + 0x7f * each; };
  const std::uint64_t from_space = word + (0x80 - ' ') * each;
  return (word & highest) == 0 && (from_space & without('"') & without('\\') & without('\x7f') & highest) == highest;
}

/// More than any number takes.
constexpr std::size_t longest_number = 32;

/// The digits of 0 to 99, two each.
constexpr auto pairs = [] {
  std::array<char, 200> digits{};
  for (int i = 0; i < 100; ++i) {
    digits[2 * i] = static_cast<char>('0' + i / 10);
    digits[2 * i + 1] = static_cast<char>('0' + i % 10);
  }
  return digits;
}();

/// Four decimals and no more than are needed, at least one.
char *write_decimals(unsigned part, char *end) {
  end = std::copy_n(&pairs[2 * (part / 100)], 2, end);
  end = std::copy_n(&pairs[2 * (part % 100)], 2, end);
  constexpr int most = 3; // the first stays
  for (int i = 0; i < most && end[-1] == '0'; ++i)
    --end;
  return end;
}

/// A quick way for the numbers that a plan has most of, those of a few decimals, as a tape gives them; none for others.
/// A double that is the nearest to a decimal of 15 digits or fewer is so to no other such decimal, hence this is the
/// shortest, the same as std::to_chars writes between 0.001 and 100000.
char *write_short_decimal(double value, char *end) {
  constexpr unsigned scale = 10000;
  const double size = std::fabs(value);
  if (!(size == 0.0 || (size >= 0.001 && size < 100000.0))) return nullptr;
  const auto scaled = static_cast<unsigned>(size * scale + 0.5); // whether it is the nearest is seen next
  if (static_cast<double>(scaled) / scale != size) return nullptr;
  if (value < 0.0) *end++ = '-';
  constexpr int most_whole = 5; // digits
  end = std::to_chars(end, end + most_whole, scaled / scale).ptr;
  *end++ = '.';
  return write_decimals(scaled % scale, end);
}

char *write_number(double value, char *begin) {
  if (char *const end = write_short_decimal(value, begin)) return end;
  // Adding 0 turns a negative zero into a plain one.
  char *const end = std::to_chars(begin, begin + longest_number - 2, value + 0.0).ptr;
  const bool whole = std::none_of(begin, end, [](char c) { return c == '.' || c == 'e'; });
  return whole ? std::copy_n(".0", 2, end) : end;
}

} // namespace

void JsonText::open_object(Lay lay) {
  open('{', '}', lay);
}
void JsonText::open_array(Lay lay) {
  open('[', ']', lay);
}

void JsonText::open(char opening, char closing, Lay lay) {
  before_value();
  const bool within_line = !levels_.empty() && levels_.back().one_line;
  levels_.push_back({closing, within_line || lay == Lay::one_line, true});
  out_.byte(opening);
}

void JsonText::close() {
  const Level level = levels_.back();
  levels_.pop_back();
  char *end = out_.room(between());
  if (!level.empty && !level.one_line) end = new_line(end);
  if (!level.empty && level.one_line && level.close == '}') *end++ = ' ';
  *end++ = level.close;
  out_.end_at(end);
  say_if_long(out_, say_);
}

/// Into room for two spaces a level and one byte more.
char *JsonText::new_line(char *end) const {
  *end++ = '\n';
  return std::fill_n(end, 2 * levels_.size(), ' ');
}

/// Writes what stands before a key, or a value that has none.
char *JsonText::separated(char *end) {
  if (levels_.empty()) return end;
  Level &level = levels_.back();
  if (!level.empty) *end++ = ',';
  if (!level.one_line)
    end = new_line(end);
  else if (!level.empty || level.close == '}')
    *end++ = ' ';
  level.empty = false;
  return end;
}

void JsonText::before_value() {
  if (!after_key_) out_.end_at(separated(out_.room(between())));
  after_key_ = false;
}

void JsonText::key(const Key &name) {
  char *const end = separated(out_.room(between() + Key::room));
  after_key_ = true;
  if (name.is_plain()) return out_.end_at(name.write(end));
  out_.end_at(end);
  quoted(name.name());
  out_.append(": ");
}

void JsonText::quoted(std::string_view value) {
  char *end = out_.room(value.size() + 2);
  *end++ = '"';
  std::size_t at = 0;
  for (; at + at_once <= value.size() && is_plain(value.data() + at); at += at_once)
    end = std::copy_n(value.data() + at, at_once, end);
  for (; at < value.size() && !is_looked_at(value[at]); ++at)
    *end++ = value[at];
  out_.end_at(end);
  if (at < value.size()) escape(value, at);
  out_.byte('"');
}

/// The rest of a text, from its first byte that is looked at.
void JsonText::escape(std::string_view value, std::size_t at) {
  while (at < value.size()) {
    const Character character = character_at(value, at);
    const char first = value[at];
    char *end = out_.room(by_number);
    if (first == '"' || first == '\\')
      end = std::copy_n(std::array{'\\', first}.begin(), 2, end);
    else if (is_looked_at(first) && character.valid && (character.bytes == 1 || turns_direction(character.code)))
      end = write_by_number(character.code, end);
    else
      end = std::copy_n(value.begin() + static_cast<std::ptrdiff_t>(at), character.bytes, end);
    out_.end_at(end);
    at += character.bytes;
  }
}

void JsonText::text(std::string_view value) {
  before_value();
  quoted(value);
}

void JsonText::number(double value) {
  if (!std::isfinite(value)) return null();
  before_value();
  out_.end_at(write_number(value, out_.room(longest_number)));
}

void JsonText::integer(long long value) {
  before_value();
  char *const begin = out_.room(longest_number);
  out_.end_at(std::to_chars(begin, begin + longest_number, value).ptr);
}

void JsonText::truth(bool value) {
  before_value();
  out_.append(value ? "true" : "false");
}

void JsonText::json(std::string_view value) {
  before_value();
  out_.append(value);
}
void JsonText::null() {
  before_value();
  out_.append("null");
}

void JsonText::text_field(const Key &name, std::string_view value) {
  key(name);
  text(value);
}

void JsonText::number_field(const Key &name, double value) {
  if (!std::isfinite(value)) return;
  key(name);
  number(value);
}

void JsonText::integer_field(const Key &name, long long value) {
  key(name);
  integer(value);
}

void JsonText::truth_field(const Key &name, bool value) {
  key(name);
  truth(value);
}

std::string JsonText::take() {
  out_.byte('\n');
  return std::string(std::string_view(out_));
}

} // namespace gatherwright::report
