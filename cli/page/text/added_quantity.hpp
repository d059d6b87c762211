// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/unit.hpp"

#include <cstddef>
#include <optional>
#include <string_view>

namespace gatherwright::page {

/// A quantity that is added to the rest of a formula, or taken from it: the 5 cm of "wrist + 5 cm".
struct AddedQuantity {
  std::size_t sign = 0; ///< where its + or - stands; where it begins, of one that has none before it
  std::size_t begin = 0;
  std::size_t end = 0;
  bool signed_before = false; ///< a + or - stands before it
  bool between = false;       ///< and a term before that
  double mm = 0;              ///< below 0 where it is taken away
};

/// The one of a formula that reads; nothing where there is none, or more than one, outside all brackets.
std::optional<AddedQuantity> added_quantity(std::string_view formula, Unit bare);

} // namespace gatherwright::page
