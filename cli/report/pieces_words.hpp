// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/report/table.hpp"
#include "gatherwright/job.hpp"
#include "gatherwright/plan.hpp"

#include <string>
#include <vector>

/// What is cut and from how much cloth, sentence by sentence and without layout, for the text report and for paper
/// alike. The plan must be of the job.
namespace gatherwright::report {

/// Of each of the job's lengths, whether it is by itself how wide or how long some piece is, and so told with the
/// pieces.
std::vector<bool> are_sizes_of_pieces(const Job &job, const Plan &plan);

/// What stands over the table: "Cut sizes, with 1 cm of allowance on every side; along is down the selvedge."
std::string of_all_sizes(const Job &job, const Plan &plan);

/// A row a piece: how many, across and along, and the allowances where they are not the same for all. What is too long
/// for a row goes on in the next.
Table sizes(const Job &job, const Plan &plan);

/// The lengths that are sizes of pieces and were chosen, or may be others, with what will do; empty where there are
/// none: "Between seams, and what else will do: sleeve 52 cm, chosen (45 cm to 60 cm)."
std::string sizes_between_seams(const Job &job, const Plan &plan);

/// What to do with the second of pairs that are not marked alike; empty where there are none.
std::string others_of_pairs(const Job &job, const Plan &plan);

/// How much of a cloth to buy, how much of it the pieces take, and whether less would do; where it is not the plan's
/// only one, for which pieces.
std::string cloth_said(const Job &job, const ClothPlan &cloth, bool alone);

/// What a lay leaves of the cloth there is: "12 cm are left".
std::string stock_said(const Job &job, const StockPlan &stock);

/// The second half of that: "The pieces take 231.4 cm of it, 93 % used; nothing shorter is possible."
std::string lay_said(const Job &job, const ClothPlan &cloth);

/// A cloth by its name, cut short where it is longer than anyone reads, or "the cloth".
std::string cloth_called_short(Cloth cloth);

std::string_view savings_heading(const Plan &plan);

/// The lengths that would save the most cloth, each alone.
std::vector<std::string> savings_said(const Job &job, const Plan &plan);

/// The pieces that are too wide for their cloth; empty where none is.
std::string not_laid(const Job &job, const Plan &plan);

} // namespace gatherwright::report
