// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/quantity.hpp"

#include "solver/quantity/measure.hpp"
#include "solver/quantity/number.hpp"
#include "solver/quantity/units.hpp"
#include "solver/text/script.hpp"

#include <algorithm>
#include <array>
#include <variant>

namespace gatherwright {
namespace {

using namespace quantity;

// 28.349523125 g to the square of 0.9144 m.
constexpr Ratio ounce_per_square_yard{5669904625, 167225472};
constexpr Ratio gram_per_square_metre{1, 1};

// Grams to the square metre; a sheet of lead a hand thick weighs as much.
constexpr double heaviest = 1e6;

struct WeightUnit {
  std::string_view written;
  Ratio grams;
};
constexpr std::array<WeightUnit, 5> weight_units{{{"g/m2", gram_per_square_metre},
                                                  {"g/m\u00B2", gram_per_square_metre},
                                                  {"gsm", gram_per_square_metre},
                                                  {"oz/yd2", ounce_per_square_yard},
                                                  {"oz/yd\u00B2", ounce_per_square_yard}}};

// "g / m2" as "g/m2".
std::string closed_up(std::string_view text) {
  const std::size_t slash = text.find('/');
  if (slash == std::string_view::npos) return std::string(text);
  return std::string(trimmed(text.substr(0, slash))) + '/' + std::string(trimmed(text.substr(slash + 1)));
}

bool begins_like_any(std::string_view text, std::initializer_list<std::string_view> beginnings) {
  return std::any_of(beginnings.begin(), beginnings.end(),
                     [text](std::string_view beginning) { return text.substr(0, beginning.size()) == beginning; });
}

// The unit that was meant: one by the ounce or one by the gram, empty where it is neither.
std::string_view weight_unit_meant(std::string_view unit) {
  std::string folded(unit.substr(0, 16));
  for (char &letter : folded)
    if (letter >= 'A' && letter <= 'Z') letter = static_cast<char>(letter - 'A' + 'a');
  if (begins_like_any(folded, {"oz", "ounce", "osy"})) return "oz/yd2";
  if (begins_like_any(folded, {"g", "gr", "gram"})) return "g/m2";
  return "";
}

Fault no_weight_unit(std::string_view text, std::string_view number, std::string_view unit) {
  if (unit.empty()) return {quoted(text) + " has no unit", "write " + excerpt(number) + " g/m2"};
  const std::string_view meant = weight_unit_meant(unit);
  if (meant == "oz/yd2")
    return {quoted(text) + ": cloth is weighed by the square yard", "write " + excerpt(number) + " oz/yd2"};
  const std::string what = quoted(text) + ": " + excerpt(unit) + " is no weight of cloth";
  if (meant.empty()) return {what, "write " + excerpt(number) + " g/m2 or oz/yd2, whichever it is"};
  return {what, "write " + excerpt(number) + ' ' + std::string(meant)};
}

// A number at the head of the text and what stands behind it, both without spaces round them.
struct Counted {
  Number number;
  std::string_view figures;
  std::string_view rest;
};

Outcome<Counted> counted(std::string_view text, std::string_view example) {
  if (text.empty()) return Fault{"nothing is written here", "write " + std::string(example)};
  const Character first = character_at(text, 0);
  if (is_dash(first.code) && number_begins(text, past_spaces(text, first.bytes)))
    return Fault{quoted(text) + " is negative", "write " + std::string(example)};
  if (!number_begins(text, 0))
    return Fault{quoted(text) + " does not begin with a number", "write " + std::string(example)};
  const auto scanned = scan_number(text, 0);
  if (!scanned) return told(scanned.fault(), text, ' ' + excerpt(trimmed(text.substr(scanned.fault().end))));
  return Counted{scanned->number, trimmed(text.substr(0, scanned->end)), trimmed(text.substr(scanned->end))};
}

// "8 per in" and "8 in" say how many to what; so does "8 / inches". In "8 / 2 cm" the slash was taken for a fraction's.
Fault no_count(std::string_view text, const Counted &found) {
  const std::string_view rest = found.rest;
  const bool fraction = found.figures.find('/') != std::string_view::npos;
  const std::string count = fraction ? decimal_text(found.number.value) : std::string(found.figures);
  const std::size_t slash = rest.substr(0, 1) == "/" ? 1 : 0;
  const std::size_t begin = past_spaces(rest, slash);
  std::string_view word = rest.substr(begin, past_word(rest, begin) - begin);
  if (slash == 0 && (word == "per" || word == "to" || word == "a" || word == "an")) {
    const std::size_t next = past_spaces(rest, begin + word.size());
    word = rest.substr(next, past_word(rest, next) - next);
  }
  std::optional<Unit> unit = unit_named(word);
  if (!unit) unit = unit_meant(word);
  const std::string right = excerpt(count) + " / " + std::string(unit ? name(*unit) : "in");
  if (slash == 1 && !word.empty() && !unit_named(word))
    return {quoted(text) + ": " + excerpt(word) + " is no unit", "write " + right};
  return {quoted(text) + " does not say how many to a length", "write " + right};
}

} // namespace

Outcome<Weight> read_weight(std::string_view text) {
  if (!is_utf8(text)) return Fault{std::string(not_text), std::string(save_as_text)};
  text = trimmed(text);
  const Outcome<Counted> found = counted(text, "a weight such as 150 g/m2");
  if (!found) return found.fault();
  const std::string unit = closed_up(found->rest.substr(0, 64));
  const auto *named = std::find_if(weight_units.begin(), weight_units.end(),
                                   [&](const WeightUnit &weight) { return weight.written == unit; });
  if (named == weight_units.end() || found->rest.size() > 64) return no_weight_unit(text, found->figures, found->rest);
  const double grams = product(found->number, named->grams).value;
  if (!(grams > 0)) return Fault{quoted(text) + ": cloth weighs something", "write a weight above 0"};
  if (grams > heaviest) return Fault{quoted(text) + ": no cloth is so heavy", "check the figure and the unit"};
  return Weight{grams};
}

Outcome<double> read_count(std::string_view text) {
  if (!is_utf8(text)) return Fault{std::string(not_text), std::string(save_as_text)};
  text = trimmed(text);
  const Outcome<Counted> found = counted(text, "how many to a length, such as 8 / in or 3 / cm");
  if (!found) return found.fault();
  if (found->rest.substr(0, 1) != "/") return no_count(text, *found);
  const std::optional<Unit> unit = unit_named(trimmed(found->rest.substr(1)));
  if (!unit) return no_count(text, *found);
  if (!(found->number.value > 0)) return Fault{quoted(text) + " counts nothing", "write a number above 0"};
  const Ratio length = exact_millimetres(*unit);
  const double count = product(found->number, {length.denominator, length.numerator}).value;
  if (!(count >= 1 / largest))
    return Fault{quoted(text) + ": less than one in 1000 km", "check the figure and the unit"};
  return count;
}

} // namespace gatherwright
