// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <map>
#include <optional>
#include <string>
#include <string_view>

namespace gatherwright::page {

/// What a page has of the sheet: digests by the names of fragments.
using Have = std::map<std::string, std::string, std::less<>>;

/// What pictures are drawn for: a desk or a hand.
enum class Width { wide, narrow };

/// The answer to a text that was changed, as JSON: its faults, or none and the plan; the job's values and remarks as
/// written, where the text is JSON; and of the sheet those fragments whole whose digest the page has not, or no sheet
/// where there is no width. The same text gives the same bytes.
std::string plan_answer(std::string_view text, std::optional<Width> width, const Have &have = {});

} // namespace gatherwright::page
