// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/page/text/length_written.hpp"

#include "cli/job/values.hpp"
#include "cli/words/figures.hpp"

#include <cmath>
#include <optional>

namespace gatherwright::page {

namespace {

bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

/// The first unit that is named: the one that a length is told in.
std::optional<Unit> unit_in(std::string_view text) {
  for (std::size_t at = 0; at < text.size(); ++at) {
    const std::string_view rest = text.substr(at);
    if (rest.starts_with("'") || rest.starts_with("’") || rest.starts_with("′")) return Unit::ft;
    if (rest.starts_with("\"") || rest.starts_with("”") || rest.starts_with("″")) return Unit::in;
    if (!is_letter(text[at]) || (at > 0 && is_letter(text[at - 1]))) continue;
    std::size_t end = at;
    while (end < text.size() && is_letter(text[end]))
      ++end;
    if (const auto unit = unit_named(text.substr(at, end - at))) return unit;
  }
  return std::nullopt;
}

bool reads_as(std::string_view text, double mm, Unit unit) {
  const auto length = read_length(text, unit);
  return length && std::fabs(length->mm - mm) <= 1e-9 * (1 + mm);
}

/// A nail or an ell is told in sixteenths, as no tape has them.
std::string in_sixteenths(double mm, Unit unit) {
  const Tape sixteenths{Unit::in, Length{millimetres(Unit::in) / 16}};
  return reading(Length{mm / millimetres(unit) * millimetres(Unit::in)}, sixteenths) + " " + std::string(name(unit));
}

std::string in_unit(double mm, Unit unit, Length step) {
  return may_be_of_a_job(unit) ? named_reading(Length{mm}, {unit, step}) : in_sixteenths(mm, unit);
}

} // namespace

std::string number_written(double mm, Unit unit) {
  constexpr int most_places = 12;
  std::string text;
  for (int places = 0; places <= most_places; ++places) {
    text = words::trimmed(mm / millimetres(unit), places);
    if (reads_as(text, mm, unit)) break;
  }
  return text;
}

std::string length_written(double mm, const Tape &tape, std::string_view before) {
  const bool bare = !before.empty() && cli::has_no_unit(before);
  if (bare) {
    if (const std::string text = reading(Length{mm}, tape); reads_as(text, mm, tape.unit)) return text;
    return number_written(mm, tape.unit);
  }
  for (const Unit unit : {unit_in(before).value_or(tape.unit), tape.unit})
    if (std::string text = in_unit(mm, unit, tape.step); reads_as(text, mm, tape.unit)) return text;
  return number_written(mm, tape.unit) + " " + std::string(name(tape.unit));
}

} // namespace gatherwright::page
