// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/json_text.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

namespace gatherwright::report {

namespace {

constexpr auto escaped = [] {
  std::array<bool, 256> bytes{};
  std::fill_n(bytes.begin(), 0x20, true);
  for (const unsigned char byte : {'"', '\\', '\x7f'})
    bytes[byte] = true;
  return bytes;
}();

bool is_escaped(char c) {
  return escaped[static_cast<unsigned char>(c)];
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
  constexpr std::string_view digits = "0123456789abcdef";
  out_ += '"';
  for (auto at = value.begin();;) {
    const auto end = std::find_if(at, value.end(), is_escaped);
    out_.append(at, end);
    if (end == value.end()) break;
    const auto byte = static_cast<unsigned char>(*end);
    if (*end == '"' || *end == '\\')
      (out_ += '\\') += *end;
    else
      ((out_ += "\\u00") += digits[byte >> 4]) += digits[byte & 15];
    at = end + 1;
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
