// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/press/pdf.hpp"
#include "cli/report/shown_marks.hpp"

#include "gatherwright/job.hpp"
#include "gatherwright/plan.hpp"

#include <string>

/// One sheet to pin to the wall: the verdict and what to do about it, what to cut, and for each join its picture, a
/// curve of its fullness, the marks and how to run the gathers; then notes and cautions. The plan must be of the job
/// and should have been asked for its profile, without which the curve has each stretch's mean. The same job and plan
/// give the same bytes.
namespace gatherwright::paper {

/// One HTML file that asks for nothing else: no script, no font, no picture from outside. It is well-formed XML too.
std::string sheet_html(const Job &job, const Plan &plan, report::Pins pins = report::Pins::needed);

/// The same on upright pages.
PdfOutcome sheet_pdf(const Job &job, const Plan &plan, PaperSize size, report::Pins pins = report::Pins::needed);

} // namespace gatherwright::paper
