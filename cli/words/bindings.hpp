// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/plan.hpp"

#include <optional>
#include <string>

/// What ends a room.
namespace gatherwright::words {

/// In a sentence, and what of the job it is of. Ids by which that is looked up stand for themselves.
struct Bound {
  std::string says;
  std::optional<RuleId> rule = std::nullopt;
  std::optional<JoinId> join = std::nullopt;
  std::optional<int> segment = std::nullopt; ///< of the join
  std::optional<LengthId> length = std::nullopt;
  std::optional<PieceId> piece = std::nullopt;
  std::optional<ClothId> cloth = std::nullopt;
};

/// `job`: with names as they are to be read.
Bound binding(const Job &job, const Binding &binding);

} // namespace gatherwright::words
