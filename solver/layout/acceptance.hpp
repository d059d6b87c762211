// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/layout/fill.hpp"
#include "solver/layout/random.hpp"
#include "solver/layout/strip.hpp"
#include "solver/layout/tree.hpp"

#include <cstdint>
#include <optional>

namespace gatherwright::layout {

/// What of a sequence may be changed besides its order and how pieces are cut off.
struct Changes {
  bool turned = false;  ///< which way is asked first
  bool in_turn = false; ///< whether what fits exactly goes before others
};

/// A sequence with one thing changed.
Sequence changed(Sequence sequence, const Changes &changes, Random &random);

/// Looks for a layout of a length by changing a sequence, again and again: a change is kept where it leaves over no
/// more area than what was kept so many changes before, or than the last (late acceptance: Burke and Bykov, European J.
/// of Operational Research 258 (2017) 70-78).
class Acceptance {
public:
  Acceptance(const Strip &strip, bool in_turn, std::uint64_t seed);

  /// A layout of that length or less, if one is found within the allowance. Goes on from what was found before.
  std::optional<Tree> find(Ticks length, Allowance &allowance);

private:
  const Strip &strip_;
  Filling filling_;
  Random random_;
  Sequence sequence_;
  Changes changes_;
};

} // namespace gatherwright::layout
