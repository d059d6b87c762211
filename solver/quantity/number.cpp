// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/quantity/number.hpp"

#include "solver/text/script.hpp"

#include <array>
#include <charconv>
#include <cmath>
#include <numeric>
#include <optional>

namespace gatherwright::quantity {
namespace {

__extension__ using Wide = unsigned __int128;

// 19 digits always fit 64 bits.
constexpr std::size_t most_digits = 19;

// A numerator or denominator of more digits is above `largest`.
constexpr std::size_t most_whole_digits = 10;

// n / d to the nearest double. Up to 2^53 both are doubles and one division rounds once. Beyond, the quotient is found
// to at least 62 bits with a last bit that says whether anything is left, so that the rounding to 53 is again the only
// one.
double quotient(Ratio ratio) {
  constexpr std::uint64_t doubles_hold = std::uint64_t{1} << 53;
  const auto [n, d] = ratio;
  if (n <= doubles_hold && d <= doubles_hold) return static_cast<double>(n) / static_cast<double>(d);
  const int n_shift = __builtin_clzll(n);
  const int d_shift = __builtin_clzll(d);
  const Wide raised = static_cast<Wide>(n << n_shift) << 63;
  const std::uint64_t divisor = d << d_shift;
  const auto bits = static_cast<std::uint64_t>(raised / divisor);
  const std::uint64_t left_over = raised % divisor == 0 ? 0 : 1;
  return std::ldexp(static_cast<double>(bits | left_over), d_shift - n_shift - 63);
}

Number rounded(double value) {
  return {value, {0, 0}};
}

bool is_exact(const Number &number) {
  return number.ratio.denominator != 0;
}

std::optional<std::uint64_t> times(std::uint64_t a, std::uint64_t b) {
  std::uint64_t result = 0;
  if (__builtin_mul_overflow(a, b, &result)) return std::nullopt;
  return result;
}

std::uint64_t power_of_ten(std::size_t exponent) {
  std::uint64_t power = 1;
  for (std::size_t k = 0; k < exponent; ++k)
    power *= 10;
  return power;
}

std::uint64_t whole_number(std::string_view digits) {
  std::uint64_t value = 0;
  for (const char digit : digits)
    value = value * 10 + static_cast<std::uint64_t>(digit - '0');
  return value;
}

std::string_view without_leading_zeros(std::string_view digits) {
  while (!digits.empty() && digits.front() == '0')
    digits.remove_prefix(1);
  return digits;
}

Ratio vulgar_fraction(char32_t code) {
  constexpr std::array<Ratio, 3> from_bc{{{1, 4}, {1, 2}, {3, 4}}};
  constexpr std::array<Ratio, 15> from_2150{{{1, 7},
                                             {1, 9},
                                             {1, 10},
                                             {1, 3},
                                             {2, 3},
                                             {1, 5},
                                             {2, 5},
                                             {3, 5},
                                             {4, 5},
                                             {1, 6},
                                             {5, 6},
                                             {1, 8},
                                             {3, 8},
                                             {5, 8},
                                             {7, 8}}};
  if (code >= 0xBC && code <= 0xBE) return from_bc[code - 0xBC];
  if (code >= 0x2150 && code <= 0x215E) return from_2150[code - 0x2150];
  return {0, 0};
}

bool is_vulgar_fraction(char32_t code) {
  return vulgar_fraction(code).denominator != 0;
}

bool is_fraction_slash(char32_t code) {
  return code == 0x2044;
}

Ratio lowest(Ratio ratio) {
  const std::uint64_t common = std::gcd(ratio.numerator, ratio.denominator);
  return {ratio.numerator / common, ratio.denominator / common};
}

// The vulgar fraction ½ is 1/2: {1, 2}; 3/4 likewise, with any spaces round the slash.
struct FractionText {
  std::string_view numerator;
  std::string_view denominator;
  std::size_t end = 0;
};

std::optional<FractionText> fraction_at(std::string_view text, std::size_t at, bool plain_slash) {
  const std::size_t numerator_end = past_digits(text, at);
  if (numerator_end == at) return std::nullopt;
  std::size_t slash = past_spaces(text, numerator_end);
  const Character sign = character_at(text, slash);
  if (!is_fraction_slash(sign.code) && !(plain_slash && sign.code == '/')) return std::nullopt;
  const std::size_t denominator = past_spaces(text, slash + sign.bytes);
  const std::size_t end = past_digits(text, denominator);
  if (end == denominator || (end < text.size() && text[end] == '.')) return std::nullopt;
  return FractionText{text.substr(at, numerator_end - at), text.substr(denominator, end - denominator), end};
}

using Scanned = Outcome<NumberText, Miswritten>;

Scanned too_large(std::size_t end) {
  return Miswritten{end, "a number above 1000000000", "", ""};
}

// A whole number (empty: 0) and a fraction of digits.
Scanned mixed(std::string_view whole, const FractionText &fraction) {
  const std::string_view n = without_leading_zeros(fraction.numerator);
  const std::string_view d = without_leading_zeros(fraction.denominator);
  whole = without_leading_zeros(whole);
  if (d.empty()) return Miswritten{fraction.end, "a fraction of no parts", "", ""};
  if (n.size() >= most_whole_digits || d.size() >= most_whole_digits || whole.size() >= most_whole_digits)
    return too_large(fraction.end);
  const std::uint64_t parts = whole_number(d);
  NumberText found;
  found.number = exact({whole_number(whole) * parts + whole_number(n), parts});
  found.end = fraction.end;
  return found;
}

// The decimal that begins at `at`: digits, a point, digits; either may be missing.
std::size_t past_decimal(std::string_view text, std::size_t at) {
  const std::size_t whole = past_digits(text, at);
  return whole < text.size() && text[whole] == '.' ? past_digits(text, whole + 1) : whole;
}

// What may not follow a number without a space: an exponent, a second point, a decimal comma.
std::optional<Miswritten> exponent_at(std::string_view text, std::size_t begin, std::size_t at) {
  std::size_t digits = at + 1;
  if (at >= text.size() || (text[at] != 'e' && text[at] != 'E')) return std::nullopt;
  if (digits < text.size() && (text[digits] == '-' || text[digits] == '+')) ++digits;
  const std::size_t end = past_digits(text, digits);
  if (end == digits) return std::nullopt;
  Miswritten fault{end, "no exponents here", "", ""};
  double value = 0;
  const auto read = std::from_chars(text.data() + begin, text.data() + end, value);
  if (read.ec == std::errc() && value <= largest && (value == 0 || value >= 1e-6)) fault.right = decimal_text(value);
  return fault;
}

std::optional<Miswritten> comma_at(std::string_view text, std::size_t begin, std::size_t at) {
  if (at >= text.size() || text[at] != ',') return std::nullopt;
  const std::size_t end = past_digits(text, at + 1);
  if (end == at + 1) return std::nullopt;
  const std::string before(text.substr(begin, at - begin));
  const std::string after(text.substr(at + 1, end - at - 1));
  if (after.size() == 3 && before.find('.') == std::string::npos && past_decimal(text, end) > end + 1)
    return Miswritten{past_decimal(text, end), "a comma for thousands",
                      before + after + std::string(text.substr(end, past_decimal(text, end) - end)), ""};
  if (before.find('.') != std::string::npos || (end < text.size() && (text[end] == ',' || text[end] == '.')))
    return Miswritten{end, "more than one decimal point or comma", "", ""};
  Miswritten fault{end, "a decimal comma", before + '.' + after, ""};
  if (after.size() == 3 && before.size() <= 3 && before[0] != '0') fault.or_right = before + after;
  return fault;
}

std::optional<Miswritten> point_at(std::string_view text, std::size_t begin, std::size_t at) {
  if (at > begin && text[at - 1] == '.')
    return Miswritten{at, "a point with no figure after it", std::string(text.substr(begin, at - 1 - begin)), ""};
  if (at < text.size() && text[at] == '.')
    return Miswritten{past_digits(text, at + 1), "more than one decimal point", "", ""};
  return std::nullopt;
}

Scanned decimal_at(std::string_view text, std::size_t at, NumberRules rules) {
  const std::size_t end = past_decimal(text, at);
  if (auto fault = point_at(text, at, end)) return *fault;
  if (auto fault = exponent_at(text, at, end)) return *fault;
  if (rules.decimal_comma)
    if (auto fault = comma_at(text, at, end)) return *fault;
  NumberText found;
  found.number = decimal(text.substr(at, end - at));
  found.end = end;
  found.whole = past_digits(text, at) == end;
  if (found.number.value > largest) return too_large(end);
  return found;
}

// 24 3/4 and 24¾, once 24 has been read; nothing where no fraction follows.
std::optional<Scanned> fraction_after(std::string_view text, std::size_t begin, std::size_t end) {
  const std::size_t next = past_spaces(text, end);
  const std::string_view whole = text.substr(begin, end - begin);
  const Character sign = character_at(text, next);
  if (is_vulgar_fraction(sign.code)) {
    NumberText found;
    found.number = sum(decimal(whole), exact(vulgar_fraction(sign.code)));
    found.end = next + sign.bytes;
    return found;
  }
  if (next == end) return std::nullopt;
  if (const auto fraction = fraction_at(text, next, true)) return mixed(whole, *fraction);
  return std::nullopt;
}

} // namespace

Number exact(Ratio ratio) {
  const Ratio in_lowest = lowest(ratio);
  return {quotient(in_lowest), in_lowest};
}

Number sum(const Number &a, const Number &b) {
  if (!is_exact(a) || !is_exact(b)) return rounded(a.value + b.value);
  const std::uint64_t common = std::gcd(a.ratio.denominator, b.ratio.denominator);
  const auto left = times(a.ratio.numerator, b.ratio.denominator / common);
  const auto right = times(b.ratio.numerator, a.ratio.denominator / common);
  const auto denominator = times(a.ratio.denominator, b.ratio.denominator / common);
  std::uint64_t numerator = 0;
  if (!left || !right || !denominator || __builtin_add_overflow(*left, *right, &numerator))
    return rounded(a.value + b.value);
  return exact({numerator, *denominator});
}

Number product(const Number &a, Ratio by) {
  by = lowest(by);
  if (!is_exact(a)) return rounded(a.value * quotient(by));
  const Ratio left = lowest({a.ratio.numerator, by.denominator});
  const Ratio right = lowest({by.numerator, a.ratio.denominator});
  const auto numerator = times(left.numerator, right.numerator);
  const auto denominator = times(left.denominator, right.denominator);
  if (!numerator || !denominator) return rounded(a.value * quotient(by));
  return exact({*numerator, *denominator});
}

std::string decimal_text(double value) {
  std::array<char, 400> digits{}; // the longest are subnormal: a sign, "0.", 323 zeros and 17 figures
  const auto end = std::to_chars(digits.data(), digits.data() + digits.size(), value, std::chars_format::fixed).ptr;
  return {digits.data(), end};
}

Number decimal(std::string_view digits) {
  const std::size_t point = digits.find('.');
  const std::string_view whole = without_leading_zeros(digits.substr(0, point));
  std::string_view places = point == std::string_view::npos ? std::string_view() : digits.substr(point + 1);
  while (!places.empty() && places.back() == '0')
    places.remove_suffix(1);
  if (whole.size() > most_whole_digits) return rounded(2 * largest);
  if (whole.size() + places.size() <= most_digits) {
    const std::uint64_t scale = power_of_ten(places.size());
    return exact({whole_number(whole) * scale + whole_number(places), scale});
  }
  double value = 0; // stays 0 where the digits are below the smallest double
  std::from_chars(digits.data(), digits.data() + digits.size(), value, std::chars_format::fixed);
  return rounded(value);
}

bool number_begins(std::string_view text, std::size_t at) {
  const Character sign = character_at(text, at);
  if (sign.code == '.') return is_digit(character_at(text, at + 1).code);
  return is_digit(sign.code) || is_vulgar_fraction(sign.code);
}

Outcome<NumberText, Miswritten> scan_number(std::string_view text, std::size_t at, NumberRules rules) {
  const Character first = character_at(text, at);
  if (is_vulgar_fraction(first.code)) {
    NumberText found;
    found.number = exact(vulgar_fraction(first.code));
    found.end = at + first.bytes;
    return found;
  }
  if (const auto fraction = fraction_at(text, at, rules.fraction)) {
    Scanned scanned = mixed("", *fraction);
    if (scanned) scanned->ratio = true;
    return scanned;
  }
  Scanned scanned = decimal_at(text, at, rules);
  if (!scanned || !scanned->whole) return scanned;
  if (auto with_fraction = fraction_after(text, at, scanned->end)) return *with_fraction;
  return scanned;
}

} // namespace gatherwright::quantity
