// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/quantity/measure.hpp"

#include "solver/quantity/units.hpp"
#include "solver/text/script.hpp"

#include <cmath>
#include <utility>
#include <variant>

namespace gatherwright::quantity {
namespace {

// A number and its unit, or a number alone.
struct Part {
  NumberText number;
  std::optional<Unit> unit;
  std::size_t begin = 0;
  std::size_t end = 0;
};

bool is_foot_mark(char32_t code) {
  return code == '\'' || code == 0x2019 || code == 0x2032;
}

bool is_inch_mark(char32_t code) {
  return code == '"' || code == 0x201D || code == 0x2033;
}

// What stands where a unit may: `end` is 0 where it is nothing that could be one.
struct UnitText {
  std::optional<Unit> unit;
  std::size_t end = 0;
  bool word = false;
};

UnitText unit_text_at(std::string_view text, std::size_t at) {
  const std::size_t begin = past_spaces(text, at);
  const Character sign = character_at(text, begin);
  if (is_inch_mark(sign.code)) return {Unit::in, begin + sign.bytes, false};
  if (is_foot_mark(sign.code)) {
    // Two foot marks are an inch mark, which JSON would want escaped.
    const std::size_t next = begin + sign.bytes;
    const Character second = character_at(text, next);
    if (is_foot_mark(second.code)) return {Unit::in, next + second.bytes, false};
    return {Unit::ft, next, false};
  }
  const std::size_t end = past_word(text, begin);
  if (end == begin) return {};
  return {unit_named(text.substr(begin, end - begin)), end, true};
}

std::string_view word_before(std::string_view text, std::size_t end, std::size_t at) {
  return trimmed(text.substr(at, end - at));
}

// The unit behind a number as it should be written, with a space before it; empty where there is none.
std::string unit_tail(std::string_view text, std::size_t at) {
  const UnitText found = unit_text_at(text, at);
  if (found.end == 0) return "";
  if (found.unit) return ' ' + std::string(name(*found.unit));
  const auto meant = unit_meant(word_before(text, found.end, at));
  return meant ? ' ' + std::string(name(*meant)) : "";
}

Fault misspelt_unit(std::string_view text, const Part &part, std::size_t end) {
  const std::string_view word = word_before(text, end, part.number.end);
  const std::string number = excerpt(trimmed(text.substr(part.begin, part.number.end - part.begin)));
  Fault fault{quoted(text.substr(part.begin, end - part.begin)) + ": " + excerpt(word) + " is no unit", ""};
  if (const auto meant = unit_meant(word))
    fault.instead = "write " + number + ' ' + std::string(name(*meant));
  else
    fault.instead = "write " + number + " and one of " + unit_list();
  return fault;
}

// "24 in." with a point behind the unit.
std::optional<Fault> pointed_unit(std::string_view text, const Part &part) {
  if (part.end >= text.size() || text[part.end] != '.' || past_digits(text, part.end + 1) != part.end + 1)
    return std::nullopt;
  return Fault{quoted(text.substr(part.begin, part.end + 1 - part.begin)) + ": a unit has no point",
               "write " + excerpt(text.substr(part.begin, part.end - part.begin))};
}

using ScannedNumber = Outcome<NumberText, Miswritten>;

ScannedNumber number_at(std::string_view text, std::size_t at, const LengthRules &rules) {
  NumberRules number_rules{!rules.after_division, !rules.comma_separates};
  ScannedNumber scanned = scan_number(text, at, number_rules);
  if (!scanned || !scanned->ratio || !rules.in_formula) return scanned;
  const UnitText unit = unit_text_at(text, scanned->end);
  if (unit.unit || (unit.end != 0 && !rules.is_name(word_before(text, unit.end, scanned->end)))) return scanned;
  number_rules.fraction = false;
  return scan_number(text, at, number_rules);
}

Outcome<Part> part_at(std::string_view text, std::size_t at, const LengthRules &rules) {
  const ScannedNumber scanned = number_at(text, at, rules);
  if (!scanned) {
    const Miswritten &number = scanned.fault();
    const UnitText unit = unit_text_at(text, number.end);
    const std::size_t end = unit.end == 0 ? number.end : unit.end;
    return told(number, text.substr(at, end - at), unit_tail(text, number.end));
  }
  Part part{*scanned, std::nullopt, at, scanned->end};
  const UnitText unit = unit_text_at(text, part.end);
  if (unit.end == 0) return part;
  if (!unit.unit) {
    if (rules.is_name && rules.is_name(word_before(text, unit.end, part.end))) return part;
    return misspelt_unit(text, part, unit.end);
  }
  part.unit = unit.unit;
  part.end = unit.end;
  if (unit.word)
    if (auto fault = pointed_unit(text, part)) return *fault;
  return part;
}

Number millimetres_of(const Part &part) {
  return product(part.number.number, exact_millimetres(*part.unit));
}

bool may_be_strung(Unit unit) {
  return unit == Unit::in || inches_strung_to(unit);
}

std::string_view text_of(std::string_view text, const Part &part) {
  return text.substr(part.begin, part.end - part.begin);
}

// A sum of two parts that may not be strung, in the first one's unit, where it is a short decimal.
std::string as_one(const Part &first, const Part &second) {
  const Ratio unit = exact_millimetres(*first.unit);
  const Number both = product(sum(millimetres_of(first), millimetres_of(second)), {unit.denominator, unit.numerator});
  const std::string figures = decimal_text(both.value);
  if (figures.size() > 9) return "write it in one unit";
  return "write " + figures + ' ' + std::string(name(*first.unit));
}

Fault second_without_unit(std::string_view text, const Part &first, const Part &second) {
  const std::string both = quoted(text.substr(first.begin, second.end - first.begin));
  const std::string figures = excerpt(text_of(text, second));
  if (first.number.whole && second.number.number.value < 1 && !second.number.whole)
    return {both + ": the fraction stands before the unit",
            "write " + excerpt(text.substr(first.begin, first.number.end - first.begin)) + ' ' + figures + ' ' +
                std::string(name(*first.unit))};
  const bool inches = inches_strung_to(*first.unit).has_value();
  return {both + ": " + figures + " has no unit",
          inches ? "write " + excerpt(text_of(text, first)) + ' ' + figures + " in" : "write it in one unit"};
}

// The fault of two numbers side by side, of which the first has no unit.
Fault two_numbers(std::string_view text, const Part &first, const Part &second) {
  const std::string both = quoted(text.substr(first.begin, second.end - first.begin));
  const std::string_view thousands = text_of(text, first);
  const std::string_view rest = text.substr(second.begin, second.number.end - second.begin);
  if (first.number.whole && second.number.whole && thousands.size() <= 3 && rest.size() == 3)
    return {both + ": a space within a number",
            "write " + std::string(thousands) + std::string(rest) + unit_tail(text, second.number.end)};
  return {both + ": two numbers side by side", "write one number and its unit, such as 62 cm or 24 3/4 in"};
}

// Whether `second` may follow `last` in a string of yards, feet and inches that began with `first`; if not, why.
std::optional<Fault> unstrung(std::string_view text, const Part &first, const Part &last, const Part &second) {
  if (!second.unit) return second_without_unit(text, last, second);
  const std::string both = quoted(text.substr(first.begin, second.end - first.begin));
  if (!may_be_strung(*last.unit) || !may_be_strung(*second.unit))
    return Fault{both + ": only yards, feet and inches may be strung together", as_one(last, second)};
  if (*last.unit == *second.unit)
    return Fault{both + ": " + std::string(name(*last.unit)) + " comes twice", as_one(last, second)};
  if (millimetres(*last.unit) < millimetres(*second.unit))
    return Fault{both + ": the larger unit comes first",
                 "write " + excerpt(text_of(text, second)) + ' ' + excerpt(text_of(text, last))};
  return std::nullopt;
}

bool is_fraction_at(std::string_view text, std::size_t at) {
  if (!number_begins(text, at)) return false;
  const ScannedNumber fraction = scan_number(text, at);
  return fraction && !fraction->whole && fraction->number.value < 1 && text[at] != '.' &&
         text.substr(at, fraction->end - at).find('.') == std::string_view::npos;
}

} // namespace

Fault told(const Miswritten &number, std::string_view text, std::string_view tail) {
  Fault fault{quoted(text) + ": " + number.reason, "check the figures"};
  if (number.right.empty()) return fault;
  fault.instead = "write " + excerpt(number.right) + std::string(tail);
  if (!number.or_right.empty()) fault.instead += ", or " + excerpt(number.or_right) + std::string(tail);
  return fault;
}

Outcome<LengthText> scan_length(std::string_view text, std::size_t at, const LengthRules &rules) {
  const Outcome<Part> first = part_at(text, at, rules);
  if (!first) return first.fault();
  Part last = *first;
  Number total = first->unit ? millimetres_of(*first) : first->number.number;
  for (std::size_t next = past_spaces(text, last.end); number_begins(text, next); next = past_spaces(text, last.end)) {
    LengthRules within = rules;
    within.after_division = false;
    const Outcome<Part> second = part_at(text, next, within);
    if (!second) return second.fault();
    if (!first->unit) return two_numbers(text, *first, *second);
    if (auto fault = unstrung(text, *first, last, *second)) return *fault;
    total = sum(total, millimetres_of(*second));
    last = *second;
  }
  if (total.value > largest)
    return Fault{quoted(text.substr(at, last.end - at)) + ": longer than 1000 km", "check the figures and the unit"};
  return LengthText{total, first->unit.has_value(), first->number.whole && !first->unit, last.end};
}

std::optional<Hyphenated> hyphenated(std::string_view text, std::size_t at) {
  const std::size_t whole = past_digits(text, at);
  const Character dash = character_at(text, whole);
  const std::size_t fraction = whole + dash.bytes;
  if (whole == at || !is_dash(dash.code) || !is_fraction_at(text, fraction)) return std::nullopt;
  const NumberText found = *scan_number(text, fraction);
  const UnitText unit = unit_text_at(text, found.end);
  const std::size_t end = unit.end == 0 ? found.end : unit.end;
  Fault fault{quoted(text.substr(at, end - at)) + ": a dash before the fraction",
              "write " + excerpt(text.substr(at, whole - at)) + ' ' +
                  excerpt(text.substr(fraction, found.end - fraction)) + unit_tail(text, found.end)};
  return Hyphenated{std::move(fault), unit.unit.has_value(), end};
}

std::optional<Fault> negative(std::string_view text, Unit bare) {
  const Character sign = character_at(text, 0);
  if (!is_dash(sign.code)) return std::nullopt;
  const std::string_view rest = text.substr(past_spaces(text, sign.bytes));
  if (!number_begins(rest, 0) || !read_length(rest, bare)) return std::nullopt;
  return Fault{quoted(text) + ": a length cannot be negative", "write " + excerpt(rest)};
}

} // namespace gatherwright::quantity

namespace gatherwright {
namespace {

using namespace quantity;

// What stands behind a length and may not.
Fault trailing(std::string_view text, std::size_t end) {
  const std::size_t rest = past_spaces(text, end);
  const std::string length = excerpt(trimmed(text.substr(0, end)));
  const Character sign = character_at(text, rest);
  if (sign.code == ',' && past_spaces(text, rest + 1) == text.size())
    return {quoted(text) + ": a comma at the end", "write " + length};
  if (sign.code == '+' || sign.code == '*' || sign.code == '/' || sign.code == '(' || is_dash(sign.code))
    return {quoted(text) + " is more than one quantity", "write one, such as " + length};
  return {quoted(text) + ": nothing may follow " + length, "write " + length};
}

Fault no_number(std::string_view text, Unit bare) {
  const Character sign = character_at(text, 0);
  const std::string_view rest = text.substr(past_spaces(text, sign.bytes));
  if ((sign.code == '+' || is_dash(sign.code)) && number_begins(rest, 0)) {
    const Outcome<Length> unsigned_length = read_length(rest, bare);
    if (!unsigned_length) return unsigned_length.fault();
    return {quoted(text) + ": a length has no sign", "write " + excerpt(rest)};
  }
  return {quoted(text) + " is no quantity", "write a number and its unit, such as 62 cm or 24 3/4 in"};
}

} // namespace

Outcome<Length> read_length(std::string_view text, Unit bare) {
  if (!is_utf8(text)) return Fault{std::string(not_text), std::string(save_as_text)};
  text = trimmed(text);
  if (text.empty()) return Fault{"nothing is written here", "write a number and its unit, such as 62 cm"};
  if (!number_begins(text, 0)) {
    if (auto fault = negative(text, bare)) return *fault;
    return no_number(text, bare);
  }
  const Outcome<LengthText> found = scan_length(text, 0);
  if (!found) return found.fault();
  if (past_spaces(text, found->end) != text.size()) {
    if (auto dashed = hyphenated(text, 0); dashed && past_spaces(text, dashed->end) == text.size())
      return dashed->fault;
    return trailing(text, found->end);
  }
  const Number length = found->has_unit ? found->number : product(found->number, exact_millimetres(bare));
  if (length.value > largest) return Fault{quoted(text) + ": longer than 1000 km", "check the figure and the unit"};
  return Length{length.value};
}

Outcome<Length> length_of(double number, Unit unit) {
  // The shortest decimal is what was written in all but name, so 0.57 m is 570 mm as "0.57 m" is.
  if (!(number >= 0)) return Fault{"a length cannot be negative", "write 0 or more"};
  const double mm =
      number > largest ? number : product(decimal(decimal_text(std::abs(number))), exact_millimetres(unit)).value;
  if (!(mm <= largest)) return Fault{"longer than 1000 km", "check the figure and the unit"};
  return Length{mm};
}

} // namespace gatherwright
