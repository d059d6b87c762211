// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/sheet/html_blocks.hpp"

/// The parts of a worksheet as HTML, one by one, in their order. The plan must be of the job, with short names.
namespace gatherwright::paper {

/// With the cautions that stand right under it.
void verdict(Html &html, const Sheet &sheet);

/// Under its heading, whether there is anything to cut or not: sizes of pieces, lengths, edges and rules.
void sizes_to_cut(Html &html, const Sheet &sheet);
bool has_anything_to_cut(const Sheet &sheet);

/// What a join's parts are called and drawn from.
struct JoinShown {
  const Job &job;
  const Plan &plan;
  const JoinSheet &sheet;
  Widths widths;

  const Join &asked() const { return job.joins.at(sheet.join); }
  const JoinPlan &planned() const { return plan.joins.at(sheet.join); }
};

/// The heading, with `id`, and what is to be said.
void join_words(Html &html, const JoinSheet &join, std::string_view id);
/// Each of these may have nothing to write.
void join_figure(Html &html, const JoinShown &join);
void as_drawn(Html &html, const JoinShown &join);
void curve(Html &html, const JoinShown &join);
void marks(Html &html, const JoinSheet &join);
void working(Html &html, const JoinSheet &join);

} // namespace gatherwright::paper
