// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/piece/sizes.hpp"

#include <span>
#include <vector>

namespace gatherwright::piece {

/// How many marks a part gets.
int mark_count(const SidePart &part, const SewnJoin &join);

/// A piece as it is cut, with the marks of its joins on its sides.
PiecePlan plan_of(const Job &job, PieceId piece, const Sizes &sizes, std::span<const SewnJoin> joins);

} // namespace gatherwright::piece
