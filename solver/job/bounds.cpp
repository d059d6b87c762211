// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/bounds.hpp"

#include "solver/job/parts.hpp"

#include <array>
#include <charconv>
#include <cmath>
#include <string>

namespace gatherwright {

namespace {

std::string in_unit(Length length, Unit unit) {
  std::array<char, 32> digits{};
  const auto end = std::to_chars(digits.data(), digits.data() + digits.size(), length.mm / millimetres(unit),
                                 std::chars_format::general, 6)
                       .ptr;
  return std::string(digits.data(), end) + " " + std::string(name(unit));
}

} // namespace

std::optional<Fault> fault_of_length(Length length, bool above_0, Unit unit) {
  if (job::is_length_of_cloth(length, above_0)) return std::nullopt;
  if (std::isnan(length.mm)) return Fault{"this is no number", "write the length of a piece of cloth"};
  if (length > bounds::longest_length)
    return Fault{"this comes to more than 100 km", "write the length of a piece of cloth"};
  if (length.mm < 0) return Fault{"this comes to " + in_unit(length, unit), "a length is never below 0"};
  return Fault{"this comes to 0", "a length above 0 is needed here"};
}

} // namespace gatherwright
