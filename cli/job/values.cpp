// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/job/values.hpp"

#include "cli/words/quoted.hpp"
#include "gatherwright/nearest.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <utility>

namespace gatherwright::cli {

namespace {

constexpr std::string_view such_a_length = "a length such as \"52 cm\"";

std::string_view kind_of(const Value &value) {
  switch (value.kind) {
  case Value::Kind::null:
    return "null";
  case Value::Kind::boolean:
    return value.truth ? "true" : "false";
  case Value::Kind::number:
    return "a number";
  case Value::Kind::text:
    return "a text";
  case Value::Kind::list:
    return "a list";
  case Value::Kind::object:
    break;
  }
  return "an object";
}

std::optional<Length> bare_length(Reading &reading, const Value &number) {
  reading.bare_lengths = true;
  auto length = length_of(number_of(number), reading.unit);
  if (length) return *length;
  reading.fault(number, length.fault());
  return std::nullopt;
}

std::string shortest_form(double number) {
  return fmt::format("{}", number + 0.0);
}

} // namespace

bool has_control_character(std::string_view text) {
  for (std::size_t i = 0; i < text.size(); ++i) {
    const auto byte = static_cast<unsigned char>(text[i]);
    if (byte < 0x20 || byte == 0x7f) return true;
    if (byte == 0xc2 && i + 1 < text.size() && static_cast<unsigned char>(text[i + 1]) < 0xa0) return true; // C1
  }
  return false;
}

// Of what quantities may hold, ’ ” ′ ″ all begin with these two bytes.
bool has_no_unit(std::string_view text) {
  return text.find("\xE2\x80") == std::string_view::npos && std::none_of(text.begin(), text.end(), [](char c) {
           return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '\'' || c == '"';
         });
}

bool is_length(Reading &reading, const Value &value, Length length, Least least) {
  auto fault = fault_of_length(length, least == Least::above_0, reading.unit);
  if (!fault) return true;
  reading.fault(value, *std::move(fault));
  return false;
}

double number_of(const Value &number) {
  double value = 0; // stays 0 where the number is too small; one too large was refused when the file was read
  std::from_chars(number.text.data(), number.text.data() + number.text.size(), value);
  return value;
}

std::string in_unit(const Reading &reading, Length length) {
  return fmt::format("{:.6g} {}", length.mm / millimetres(reading.unit), name(reading.unit));
}

void refuse_kind(Reading &reading, const Value &value, std::string expected) {
  reading.fault(value, {"found " + std::string(kind_of(value)), "expected " + std::move(expected)});
}

bool is_list_of(Reading &reading, const Value &value, int count, std::string_view expected) {
  if (value.kind == Value::Kind::list) {
    const int found = reading.document.count(value);
    if (found == count) return true;
    reading.fault(value, {fmt::format("found a list of {}", found), "expected " + std::string(expected)});
  } else {
    refuse_kind(reading, value, std::string(expected));
  }
  return false;
}

std::optional<std::string> to_text(Reading &reading, const Value &value) {
  if (value.kind != Value::Kind::text) {
    refuse_kind(reading, value, "a text in double quotes");
  } else if (has_control_character(value.text)) {
    reading.fault(value,
                  {"there is a line break or control character in " + quoted(value.text), "write it on one line"});
  } else {
    return std::string(value.text);
  }
  return std::nullopt;
}

std::optional<std::string> to_name(Reading &reading, const Value &value) {
  auto text = to_text(reading, value);
  if (!text || !text->empty()) return text;
  reading.fault(value, {"the name is empty", "write one"});
  return std::nullopt;
}

std::optional<bool> to_truth(Reading &reading, const Value &value) {
  if (value.kind == Value::Kind::boolean) return value.truth;
  refuse_kind(reading, value, "true or false, without quotes");
  return std::nullopt;
}

std::optional<double> to_number(Reading &reading, const Value &value, double least, double most,
                                std::string_view such_as) {
  if (value.kind != Value::Kind::number) {
    refuse_kind(reading, value, "a number such as " + std::string(such_as) + ", without quotes");
    return std::nullopt;
  }
  const double number = number_of(value);
  if (number >= least && number <= most) return number + 0.0;
  reading.fault(value, {std::string(value.text) + (number < least ? " is too small" : " is too large"),
                        fmt::format("write a number from {} to {}", least, most)});
  return std::nullopt;
}

std::optional<int> to_whole(Reading &reading, const Value &value, int most) {
  if (value.kind != Value::Kind::number) {
    refuse_kind(reading, value, "a whole number such as 2, without quotes");
    return std::nullopt;
  }
  const double number = number_of(value);
  if (number >= 1 && number <= most && number == std::floor(number)) return static_cast<int>(number);
  reading.fault(value, {std::string(clipped(value.text, 40)) + (number < 1      ? " is too few"
                                                                : number > most ? " is too many"
                                                                                : " is not whole"),
                        fmt::format("write a whole number from 1 to {}", most)});
  return std::nullopt;
}

std::optional<Length> to_length(Reading &reading, const Value &value, Least least) {
  std::optional<Length> length;
  if (value.kind == Value::Kind::number) {
    length = bare_length(reading, value);
  } else if (value.kind == Value::Kind::text) {
    auto read = read_length(value.text, reading.unit);
    if (read)
      length = *read;
    else
      reading.fault(value, read.fault());
    if (read && has_no_unit(value.text)) reading.bare_lengths = true;
  } else {
    refuse_kind(reading, value, std::string(such_a_length));
  }
  if (!length || !is_length(reading, value, *length, least)) return std::nullopt;
  return Length{length->mm + 0.0}; // -0 becomes 0
}

std::string as_written(const Reading &reading, const Value &length) {
  if (length.kind != Value::Kind::number) return std::string(length.text);
  return shortest_form(number_of(length)) + " " + std::string(name(reading.unit));
}

std::optional<std::array<Length, 2>> to_two_lengths(Reading &reading, const Value &value, Least least) {
  if (!is_list_of(reading, value, 2, "a list of two lengths such as [\"1 cm\", \"1 cm\"]")) return std::nullopt;
  std::array<Length, 2> lengths;
  bool whole = true;
  for (const Value &each : reading.document.children(value)) {
    const auto length = to_length(reading, each, least);
    if (length) lengths[static_cast<std::size_t>(each.place)] = *length;
    whole = whole && length;
  }
  return whole ? std::optional(lengths) : std::nullopt;
}

std::optional<Weight> to_weight(Reading &reading, const Value &value) {
  if (value.kind == Value::Kind::number) {
    reading.fault(value, {"a weight has a unit", fmt::format("write \"{} g/m2\" or \"{} oz/yd2\"",
                                                             clipped(value.text, 40), clipped(value.text, 40))});
  } else if (value.kind != Value::Kind::text) {
    refuse_kind(reading, value, "a weight such as \"165 g/m2\"");
  } else if (auto weight = read_weight(value.text); weight) {
    return *weight;
  } else {
    reading.fault(value, weight.fault());
  }
  return std::nullopt;
}

std::optional<double> to_count(Reading &reading, const Value &value) {
  if (value.kind == Value::Kind::number) {
    reading.fault(value,
                  {"a count says along which length",
                   fmt::format("write \"{} / cm\" or \"{} / in\"", clipped(value.text, 40), clipped(value.text, 40))});
  } else if (value.kind != Value::Kind::text) {
    refuse_kind(reading, value, "a count such as \"18 / cm\"");
  } else if (auto count = read_count(value.text); count) {
    return *count;
  } else {
    reading.fault(value, count.fault());
  }
  return std::nullopt;
}

std::optional<Formula> to_formula(Reading &reading, const Value &value) {
  if (value.kind == Value::Kind::number) {
    const auto length = bare_length(reading, value);
    if (!length) return std::nullopt;
    return Formula::of(*length, as_written(reading, value));
  }
  if (value.kind != Value::Kind::text) {
    refuse_kind(reading, value, fmt::format("{} or a formula such as \"wrist + 5 cm\"", such_a_length));
    return std::nullopt;
  }
  auto formula = parse_formula(value.text, reading.unit, reading.names.find, reading.names.offered);
  if (!formula) {
    reading.fault(value, formula.fault());
    return std::nullopt;
  }
  if (formula->steps().size() == 1 && formula->steps().front().code == Formula::Code::length && has_no_unit(value.text))
    reading.bare_lengths = true;
  return *std::move(formula);
}

std::optional<Affine> come_to(Reading &reading, const Value &value, const Formula &formula) {
  Names &names = reading.names;
  for (const int symbol : symbols_of(formula)) {
    if (symbol == names.cloth_width && names.cloth_width_left_out) {
      reading.fault(value, {"cloth_width is not known", "give the \"width\" of the cloth in \"fabric\""});
      return std::nullopt;
    }
    if (!names.known[static_cast<std::size_t>(symbol)]) return std::nullopt;
    names.terms += names.values[static_cast<std::size_t>(symbol)].terms.size();
  }
  if (names.terms > bounds::most_terms) {
    // Told once: what comes after it only follows.
    if (!std::exchange(names.too_many_terms, true))
      reading.fault(value, {"up to here the formulas name lengths that are to be found more than 4,000,000 times",
                            "a job names some hundred"});
    return std::nullopt;
  }
  auto value_of_formula = evaluate(formula, names.values);
  if (value_of_formula) return *std::move(value_of_formula);
  reading.fault(value, value_of_formula.fault());
  return std::nullopt;
}

void judge_length(Reading &reading, const Value &value, const Formula &formula, Least least) {
  const auto length = come_to(reading, value, formula);
  if (length && length->fixed()) is_length(reading, value, Length{length->constant}, least);
}

void judge_fixed(Reading &reading, const Value &value, const Formula &formula, Least least) {
  const auto length = come_to(reading, value, formula);
  if (!length) return;
  if (length->fixed()) {
    is_length(reading, value, Length{length->constant}, least);
    return;
  }
  const int symbol = length->terms.front().first;
  const auto &symbols = reading.names.symbols;
  const auto found =
      std::find_if(symbols.begin(), symbols.end(), [&](const auto &named) { return named.second == symbol; });
  const std::string name = found == symbols.end() ? "a length" : quoted(found->first);
  reading.fault(value,
                {"this hangs on " + name + ", which is to be found", "write a length or a formula of fixed ones"});
}

std::optional<Formula> to_fixed(Reading &reading, const Value &value, Least least) {
  auto formula = to_formula(reading, value);
  if (formula) judge_fixed(reading, value, *formula, least);
  return formula;
}

std::optional<std::array<Formula, 2>> to_two_fixed(Reading &reading, const Value &value, Least least) {
  if (!is_list_of(reading, value, 2, "a list of two lengths such as [\"1 cm\", \"1 cm\"]")) return std::nullopt;
  std::array<Formula, 2> formulas;
  for (const Value &each : reading.document.children(value))
    formulas[static_cast<std::size_t>(each.place)] = to_fixed(reading, each, least).value_or(Formula());
  return formulas;
}

std::optional<std::string_view> nearest_of(std::string_view word, std::span<const std::string_view> words) {
  const std::vector<std::string> known(words.begin(), words.end());
  const auto found = nearest(word, known);
  if (!found) return std::nullopt;
  return *std::find(words.begin(), words.end(), *found);
}

std::optional<std::size_t> to_word(Reading &reading, const Value &value, std::span<const std::string_view> words) {
  const auto found = value.kind == Value::Kind::text ? std::find(words.begin(), words.end(), value.text) : words.end();
  if (found != words.end()) return static_cast<std::size_t>(found - words.begin());
  std::string all;
  for (const std::string_view word : words)
    all += (all.empty() ? "" : ", ") + quoted(word);
  if (value.kind != Value::Kind::text) {
    refuse_kind(reading, value, "one of " + all);
    return std::nullopt;
  }
  const auto meant = nearest_of(value.text, words);
  reading.fault(value,
                {quoted(value.text) + " is not known here", meant ? "write " + quoted(*meant) : "write one of " + all});
  return std::nullopt;
}

std::optional<Unit> to_unit(Reading &reading, const Value &value, Units units) {
  std::vector<Unit> allowed(all_units.begin(), all_units.end());
  if (units == Units::of_a_job) std::erase_if(allowed, [](Unit unit) { return !may_be_of_a_job(unit); });
  const bool named = value.kind != Value::Kind::text || unit_named(value.text);
  const auto misnamed = named ? std::nullopt : unit_misnamed(value.text);
  if (misnamed && std::find(allowed.begin(), allowed.end(), *misnamed) != allowed.end()) {
    reading.fault(value, {quoted(value.text) + " is no unit", "write " + quoted(name(*misnamed))});
    return std::nullopt;
  }
  std::array<std::string_view, all_units.size()> names;
  std::transform(allowed.begin(), allowed.end(), names.begin(), [](Unit unit) { return name(unit); });
  const auto found = to_word(reading, value, std::span(names).first(allowed.size()));
  return found ? std::optional(allowed[*found]) : std::nullopt;
}

} // namespace gatherwright::cli
