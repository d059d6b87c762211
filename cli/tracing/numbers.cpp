// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/tracing/numbers.hpp"

#include <charconv>
#include <cmath>
#include <utility>

namespace gatherwright::tracing {

namespace {

bool is_blank(char c) {
  return c == ' ' || c == '\t' || c == '\n' || c == '\r' || c == '\f';
}

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

/// How much of it is a number: a sign, figures with a point, an exponent; 0 where it is none.
std::size_t length_of_number(std::string_view text) {
  std::size_t at = 0;
  const auto is = [&](std::size_t i, std::string_view one_of) {
    return i < text.size() && one_of.find(text[i]) != std::string_view::npos;
  };
  const auto figures = [&](std::size_t from) {
    std::size_t to = from;
    while (to < text.size() && is_digit(text[to]))
      ++to;
    return to - from;
  };
  if (is(at, "+-")) ++at;
  const std::size_t whole = figures(at);
  at += whole;
  std::size_t broken = 0;
  if (is(at, ".")) {
    broken = figures(at + 1);
    if (whole + broken > 0) at += 1 + broken;
  }
  if (whole + broken == 0) return 0;
  if (is(at, "eE")) {
    const std::size_t sign = is(at + 1, "+-") ? 1 : 0;
    if (const std::size_t power = figures(at + 1 + sign); power > 0) at += 1 + sign + power;
  }
  return at;
}

} // namespace

void Numbers::skip_blanks() {
  while (!at_end() && is_blank(text_[at_]))
    ++at_;
}

std::optional<double> Numbers::next() {
  const std::size_t length = length_of_number(rest());
  if (length == 0) return std::nullopt;
  const char *const begin = text_.data() + at_ + (text_[at_] == '+' ? 1 : 0); // from_chars takes no plus
  double value = 0;
  const auto read = std::from_chars(begin, text_.data() + at_ + length, value);
  if (read.ec != std::errc{} || !std::isfinite(value)) return std::nullopt;
  at_ += length;
  skip_blanks();
  if (!at_end() && text_[at_] == ',') {
    const std::size_t comma = at_;
    ++at_;
    skip_blanks();
    if (length_of_number(rest()) == 0) at_ = comma; // it parts nothing
  }
  return value;
}

bool Numbers::pass(char wanted) {
  if (at_end() || text_[at_] != wanted) return false;
  ++at_;
  skip_blanks();
  return true;
}

std::string_view Numbers::word() {
  const std::size_t from = at_;
  while (!at_end() && is_letter(text_[at_]))
    ++at_;
  const std::string_view found = text_.substr(from, at_ - from);
  skip_blanks();
  return found;
}

std::optional<std::vector<double>> numbers_of(std::string_view text) {
  Numbers numbers(text);
  std::vector<double> found;
  while (!numbers.at_end()) {
    const auto number = numbers.next();
    if (!number) return std::nullopt;
    found.push_back(*number);
  }
  return found;
}

std::optional<Measure> measure_of(std::string_view text) {
  // As SVG 1.1 and CSS 2 have them.
  static constexpr std::pair<std::string_view, double> units[] = {{"px", 1},  {"mm", 96 / 25.4}, {"cm", 960 / 25.4},
                                                                  {"in", 96}, {"pt", 96.0 / 72}, {"pc", 16}};
  Numbers numbers(text);
  const std::size_t begins = numbers.at();
  const std::size_t length = length_of_number(text.substr(begins));
  const auto number = numbers.next();
  if (!number) return std::nullopt;
  if (numbers.at_end()) return Measure{*number, false};
  if (numbers.at() != begins + length) return std::nullopt; // a unit follows at once
  const std::string_view unit = numbers.word();
  if (!numbers.at_end()) return std::nullopt;
  for (const auto &[name, px] : units)
    if (name == unit) return Measure{*number * px, true};
  return std::nullopt;
}

} // namespace gatherwright::tracing
