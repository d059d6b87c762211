// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/machine/beside.hpp"

#include <functional>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>

namespace gatherwright::page {

/// What a page has of the sheet: digests by the names of fragments.
using Have = std::map<std::string, std::string, std::less<>>;

/// What pictures are drawn for: a desk or a hand.
enum class Width { wide, narrow };

/// What is to be told of a text.
struct PlanAsked {
  std::optional<Width> width = std::nullopt; ///< of the sheet's pictures; none: no sheet
  Have have = {};
  cli::Beside beside = {}; ///< where its drawings are
  bool held = false; ///< a slide that is not let go yet: what would save cloth is not looked for, and profiles not told
  /// Names of the fragments that are in view: of the others those that the page has are left as they are. None: all are
  /// told. While a slide is held and no layout is in view, none is made.
  std::optional<std::set<std::string, std::less<>>> seen = std::nullopt;
  bool text_told = false; ///< the answer begins with the text itself: the page has not seen it yet
};

/// The answer to a text that was changed, as JSON: its faults, or none and the plan; the job's values and remarks as
/// written, where the text is JSON; and of the sheet those fragments whole whose digest the page has not. The same
/// text gives the same bytes.
std::string plan_answer(std::string_view text, const PlanAsked &asked);

} // namespace gatherwright::page
