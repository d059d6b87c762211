// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/drawing/drawing.hpp"
#include "cli/press/press.hpp"
#include "cli/report/shown_marks.hpp"
#include "gatherwright/job.hpp"
#include "gatherwright/plan.hpp"

#include <optional>
#include <span>
#include <string_view>
#include <vector>

/// What can be had of a plan on paper, and in which forms.
namespace gatherwright::paper {

/// How a file is wanted.
struct Wanted {
  PaperSize size = PaperSize::a4;
  report::Pins pins = report::Pins::needed;
  std::optional<std::vector<JoinId>> joins = std::nullopt; ///< of strips: these alone; left out: all
};

/// A kind of file: the ending of its name, and how it is made.
struct Form {
  std::string_view ending; ///< ".pdf"
  PdfOutcome (*make)(const Job &job, const Plan &plan, const Wanted &wanted);
  /// What there must be to make it of.
  enum class Of { anything, joins, layouts };
  Of of = Of::joins;
};

std::span<const Form> strips_forms();
std::span<const Form> sheet_forms();
std::span<const Form> layout_forms();

/// Why there is nothing of the plan to make a file of, if there is not: "no piece goes into its cloth".
std::optional<std::string_view> why_not_made(const Form &form, const Plan &plan);

/// Why nothing of a job will be laid, whatever comes of its lengths: it has no pieces, or none whose cloth has a width.
std::optional<Fault> nothing_to_lay(const Job &job);

} // namespace gatherwright::paper
