// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/job/reading.hpp"
#include "gatherwright/bounds.hpp"
#include "gatherwright/quantity.hpp"

#include <array>
#include <optional>
#include <span>
#include <utility>

/// Readers of single values. Each returns nothing where it told a fault.
namespace gatherwright::cli {

/// Whether 0 will do. Negative lengths never do.
enum class Least { at_least_0, above_0 };

/// A text of a quantity that has no unit of its own: without a letter or a mark for feet or inches.
bool has_no_unit(std::string_view text);

/// A line break or another control character, which no name or title may have.
bool has_control_character(std::string_view text);

/// Tells that a value is of the wrong kind. `expected` goes on from "expected ".
void refuse_kind(Reading &reading, const Value &value, std::string expected);

/// A list of so many values; false where it told that this is none.
bool is_list_of(Reading &reading, const Value &value, int count, std::string_view expected);

std::optional<std::string> to_text(Reading &reading, const Value &value);
/// A text that is not empty.
std::optional<std::string> to_name(Reading &reading, const Value &value);

std::optional<bool> to_truth(Reading &reading, const Value &value);

/// A number within a range, ends included; `such_as` is an example for who wrote something else.
std::optional<double> to_number(Reading &reading, const Value &value, double least, double most,
                                std::string_view such_as);

/// A whole number from 1.
std::optional<int> to_whole(Reading &reading, const Value &value, int most);

/// Quantities.
std::optional<Length> to_length(Reading &reading, const Value &value, Least least);
std::optional<std::array<Length, 2>> to_two_lengths(Reading &reading, const Value &value, Least least);
std::optional<Weight> to_weight(Reading &reading, const Value &value);

/// Something counted along a length, "18 / cm": how many to a millimetre.
std::optional<double> to_count(Reading &reading, const Value &value);

/// A quantity or a formula over the names of the job.
std::optional<Formula> to_formula(Reading &reading, const Value &value);

/// What a formula comes to; nothing where a name in it is itself at fault, or where it told a fault at `value`.
std::optional<Affine> come_to(Reading &reading, const Value &value, const Formula &formula);

/// A length or a formula of what is fixed; tells where it hangs on a length that is to be found, and which.
std::optional<Formula> to_fixed(Reading &reading, const Value &value, Least least);
std::optional<std::array<Formula, 2>> to_two_fixed(Reading &reading, const Value &value, Least least);

/// Tells where a formula hangs on a length that is to be found, and which, or comes to what cannot be a length.
void judge_fixed(Reading &reading, const Value &value, const Formula &formula, Least least);

/// Whether a length is within bounds; tells where it is not.
bool is_length(Reading &reading, const Value &value, Length length, Least least);

/// Tells where a formula that is fixed comes to what cannot be a length.
void judge_length(Reading &reading, const Value &value, const Formula &formula, Least least);

/// The one of a few words that another was most likely meant to be.
std::optional<std::string_view> nearest_of(std::string_view word, std::span<const std::string_view> words);

/// One of a few words; the nearest is offered for another.
std::optional<std::size_t> to_word(Reading &reading, const Value &value, std::span<const std::string_view> words);

/// A unit of length, by its name: any of them, or one that a job may be in (nail and ell are not).
enum class Units { any, of_a_job };
std::optional<Unit> to_unit(Reading &reading, const Value &value, Units units);

/// The word's meaning, from a table of words and meanings.
template <class Meaning, std::size_t count> std::optional<Meaning>
to_choice(Reading &reading, const Value &value, const std::array<std::pair<std::string_view, Meaning>, count> &table) {
  std::array<std::string_view, count> words;
  for (std::size_t i = 0; i < count; ++i)
    words[i] = table[i].first;
  const auto found = to_word(reading, value, words);
  return found ? std::optional<Meaning>(table[*found].second) : std::nullopt;
}

/// A length in the job's unit, for a fault: "3.5 cm".
std::string in_unit(const Reading &reading, Length length);

/// A length as it stands in the job, a number with the job's unit.
std::string as_written(const Reading &reading, const Value &length);

/// The double nearest to a number as written; one too small to be a double is 0.
double number_of(const Value &number);

} // namespace gatherwright::cli
