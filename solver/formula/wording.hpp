// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/formula/expression.hpp"

#include <cstddef>

/// The faults of a formula: what is said of each, and what is offered instead.
namespace gatherwright::formula {

/// A piece of the text and the power of length it is: 0 a pure number, 1 a length, 2 an area.
struct Operand {
  int dimension = 0;
  std::size_t begin = 0;
  std::size_t end = 0;
  bool figure = false; ///< a number as written, no unit, maybe with a sign
  bool zero = false;   ///< written as 0
};

/// Something that should be a length and is none.
Fault not_a_length(std::string_view text, const Operand &operand, Unit bare);

/// Two that must be alike, as the terms of a sum, and are not.
Fault unlike(std::string_view text, const Operand &left, const Operand &right, Unit bare);

/// The name at `begin` to `end`, which is not known. `name_before`: where the last name before it begins, or `begin`.
Fault unknown_name(std::string_view text, std::size_t begin, std::size_t end, std::size_t name_before,
                   const Terms &terms);

/// What begins at `at` follows the token from `begin` to `end` with no operator between them.
Fault side_by_side(std::string_view text, std::size_t begin, std::size_t end, std::size_t at, const Terms &terms);

/// A unit by itself.
Fault unit_alone(std::string_view unit);

/// A sign that has no meaning in a formula, at `at`.
Fault stray_sign(std::string_view text, std::size_t at);

/// A comma that parts nothing, at `at`.
Fault stray_comma(std::string_view text, std::size_t at);

} // namespace gatherwright::formula
