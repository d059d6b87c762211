// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/report/json_text.hpp"

#include "gatherwright/text.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

namespace gatherwright::report {

namespace {

/// Bytes that are escaped, and those with which a character begins that may be one that turns the direction.
constexpr auto looked_at = [] {
  std::array<bool, 256> bytes{};
  std::fill_n(bytes.begin(), 0x20, true);
  for (const unsigned char byte : {'"', '\\', '\x7f', '\xd8', '\xe2'})
    bytes[byte] = true;
  return bytes;
}();

bool is_looked_at(char c) {
  return looked_at[static_cast<unsigned char>(c)];
}

/// Marks, embeddings, overrides and isolates: what stands after them would be shown elsewhere than where it is.
bool turns_direction(char32_t code) {
  return code == 0x61c || code == 0x200e || code == 0x200f || (code >= 0x202a && code <= 0x202e) ||
         (code >= 0x2066 && code <= 0x2069);
}

void append_by_number(std::string &out, char32_t code) {
  constexpr std::string_view digits = "0123456789abcdef";
  out += "\\u";
  for (const unsigned place : {12U, 8U, 4U, 0U})
    out += digits[code >> place & 15U];
}

using Digits = std::array<char, 32>;

/// A quick way for the numbers that a plan has most of, those of a few decimals, as a tape gives them; none for others.
/// A double that is the nearest to a decimal of 15 digits or fewer is so to no other such decimal, hence this is the
/// shortest, the same as std::to_chars writes between 0.001 and 100000.
char *write_short_decimal(double value, Digits &digits) {
  constexpr int scale = 10000;
  const double size = std::fabs(value);
  if (!(size == 0.0 || (size >= 0.001 && size < 100000.0))) return nullptr;
  const auto scaled = std::llround(size * scale);
  if (static_cast<double>(scaled) / scale != size) return nullptr;
  char *end = digits.data();
  if (value < 0.0) *end++ = '-';
  end = std::to_chars(end, digits.data() + digits.size(), scaled / scale).ptr;
  *end++ = '.';
  auto part = static_cast<int>(scaled % scale);
  int place = scale;
  do {
    place /= 10;
    *end++ = static_cast<char>('0' + part / place);
    part %= place;
  } while (part > 0);
  return end;
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
  out_ += opening;
}

void JsonText::close() {
  const Level level = levels_.back();
  levels_.pop_back();
  if (!level.empty && !level.one_line) new_line();
  if (!level.empty && level.one_line && level.close == '}') out_ += ' ';
  out_ += level.close;
  say_if_long(out_, say_);
}

void JsonText::new_line() {
  out_ += '\n';
  out_.append(2 * levels_.size(), ' ');
}

void JsonText::separate() {
  if (levels_.empty()) return;
  Level &level = levels_.back();
  if (!level.empty) out_ += ',';
  if (!level.one_line)
    new_line();
  else if (!level.empty || level.close == '}')
    out_ += ' ';
  level.empty = false;
}

void JsonText::before_value() {
  if (!after_key_) separate();
  after_key_ = false;
}

void JsonText::key(std::string_view name) {
  separate();
  quoted(name);
  out_ += ": ";
  after_key_ = true;
}

void JsonText::quoted(std::string_view value) {
  out_ += '"';
  for (std::size_t at = 0;;) {
    const auto found = std::find_if(value.begin() + static_cast<std::ptrdiff_t>(at), value.end(), is_looked_at);
    const auto end = static_cast<std::size_t>(found - value.begin());
    out_ += value.substr(at, end - at);
    if (found == value.end()) break;
    const Character character = character_at(value, end);
    if (*found == '"' || *found == '\\')
      (out_ += '\\') += *found;
    else if (character.valid && (character.bytes == 1 || turns_direction(character.code)))
      append_by_number(out_, character.code);
    else
      out_ += value.substr(end, character.bytes);
    at = end + character.bytes;
  }
  out_ += '"';
}

void JsonText::text(std::string_view value) {
  before_value();
  quoted(value);
}

void JsonText::number(double value) {
  if (!std::isfinite(value)) return null();
  before_value();
  Digits digits;
  if (const char *const end = write_short_decimal(value, digits)) {
    out_.append(digits.data(), end - digits.data());
    return;
  }
  // Adding 0 turns a negative zero into a plain one.
  const auto end = std::to_chars(digits.data(), digits.data() + digits.size(), value + 0.0).ptr;
  const std::string_view written(digits.data(), static_cast<std::size_t>(end - digits.data()));
  out_ += written;
  if (written.find_first_of(".e") == std::string_view::npos) out_ += ".0";
}

void JsonText::integer(long long value) {
  before_value();
  out_ += std::to_string(value);
}

void JsonText::truth(bool value) {
  before_value();
  out_ += value ? "true" : "false";
}

void JsonText::json(std::string_view value) {
  before_value();
  out_ += value;
}
void JsonText::null() {
  before_value();
  out_ += "null";
}

void JsonText::text_field(std::string_view name, std::string_view value) {
  key(name);
  text(value);
}

void JsonText::number_field(std::string_view name, double value) {
  if (!std::isfinite(value)) return;
  key(name);
  number(value);
}

void JsonText::integer_field(std::string_view name, long long value) {
  key(name);
  integer(value);
}

void JsonText::truth_field(std::string_view name, bool value) {
  key(name);
  truth(value);
}

std::string JsonText::take() {
  out_ += '\n';
  return std::move(out_);
}

} // namespace gatherwright::report
