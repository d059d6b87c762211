// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/report/shown_marks.hpp"
#include "gatherwright/job.hpp"
#include "gatherwright/plan.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// What a plan says of the whole job, sentence by sentence and without layout, for the text report and for paper alike.
/// The plan must be of the job.
namespace gatherwright::report {

/// What a verdict means to a maker: "mark, pin and sew as below". No full stop.
std::string_view meaning(Verdict verdict);

/// "All lengths are between seams; allowances come on top."
inline constexpr std::string_view between_seams = "All lengths are between seams; allowances come on top.";

/// "~ is between two marks of the tape.", said where any mark is.
inline constexpr std::string_view between_marks = "~ is between two marks of the tape.";
bool off_tape(const Job &job, const Plan &plan);

/// That, and on what condition the rooms of lengths hold, where there are any.
std::string of_all_lengths(const Plan &plan);

/// How well a plan within limits lies within them: the lesser of its joins'.
std::optional<Standing> standing(const Plan &plan);

/// Whether a join would be within limits with its edges swapped, and its marks as it is are of no use.
bool is_wrong_way_round(const Plan &plan, int join);
inline constexpr std::string_view no_marks_so =
    "Its marks are left out: with its edges the other way round they lie elsewhere.";

/// The conflict, then what is beyond its limits.
std::vector<std::string> what_is_wrong(const Job &job, const Plan &plan);

/// What would mend it, the one first that asks the least, and the heading that stands over it.
std::vector<std::string> what_would_do(const Job &job, const Plan &plan);
std::string_view what_would_do_heading(const Plan &plan);

/// How far a length alone may move, each end rounded to the side that holds: "anything from 45 cm to 60 cm will do".
/// Empty where nothing is known of it.
std::string room(const Job &job, const LengthPlan &planned);

/// The same for a table under `room_heading`: "45 cm to 60 cm".
std::string room_brief(const Job &job, const LengthPlan &planned);
inline constexpr std::string_view room_heading = "will do";

struct RuleSaid {
  bool holds = true;
  std::string says;   ///< "the hand goes through: 37 cm, at least 28 cm wanted."
  std::string sides;  ///< "37 cm, at least 28 cm wanted"
  std::size_t at = 0; ///< the rule's place in the job
};
std::vector<RuleSaid> rules_said(const Job &job, const Plan &plan);

/// What is said of several places is said once; what stands in the table of marks told for these pins is left out.
std::vector<std::string> notes_said(const Job &job, const Plan &plan, Pins pins);

/// What stands right under the verdict: a child is in danger.
std::vector<std::string> first_cautions_said(const Job &job, const Plan &plan);

/// All other cautions.
std::vector<std::string> cautions_said(const Job &job, const Plan &plan);

} // namespace gatherwright::report
