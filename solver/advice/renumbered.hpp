// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/plan.hpp"

#include <span>

namespace gatherwright::advice {

/// Which of a whole job's joins, rules and pieces those of a part of it are; lengths are the same in both.
struct Numbers {
  std::span<const int> joins;
  std::span<const int> rules;
  std::span<const int> pieces;
};

/// What is told of a part of a job, told of the whole. Of cloths nothing is said of a part.
Condition renumbered(Condition condition, const Numbers &numbers);
Finding renumbered(Finding finding, const Numbers &numbers);
Refusal renumbered(Refusal refusal, const Numbers &numbers);

} // namespace gatherwright::advice
