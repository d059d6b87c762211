// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/plan.hpp"
#include "solver/allot/scheme.hpp"
#include "solver/optimum/work.hpp"
#include "solver/plan/drawn.hpp"

#include <cstdint>
#include <optional>

/// A job with one thing changed, planned again.
namespace gatherwright::advice {

/// The job with a subject's length set: a fixed length or an edge is that long; of a free one the end of its range that
/// lies between it and `to` is moved there.
Job with_length(const Job &job, const allot::Subject &subject, double planned, double to);

/// The job with every length that was found held where it is as cut. The plan is of no conflict. What can be eased in
/// on a drawn edge stays as it was planned: it goes by where figures of the job put the stretch, which lengths that are
/// held are not.
Job with_lengths_held(const Job &job, const Plan &plan);

/// A join's long edge in the place of its band, and the reverse.
Job with_edges_swapped(const Job &job, JoinId join);

/// Likewise of what is drawn of the job, made ready for what is then eased along it. Nothing where the edges then could
/// not be worked so: a spread by the grain wants a long edge that is drawn.
std::optional<DrawnEdges> with_drawn_swapped(const Job &job, const DrawnEdges &edges, JoinId join);

/// A job with another amount of a cloth in stock; nothing: as much as it takes.
Job with_stock(const Job &job, ClothId at, std::optional<Length> stock);

Job with_weight(const Job &job, Weight weight);

/// A join in cloth of that weight, unless its own is written.
Join with_weight(Join join, Weight weight);
Join with_stitch(Join join, Length stitch);

/// A stretch worked otherwise. Limits that were for the other kind go, and so does a spread that the new one cannot
/// have.
Join with_kind(Join join, int segment, Kind kind);

/// Stitches are tried up to this; longer ones gather unevenly (common practice, no source).
inline constexpr double longest_stitch = 12.0;

/// By half millimetres, or by sixteenths in a job in inches, so that they can be read off its ruler.
double stitch_step(Unit unit);

/// What planning a job takes beside what the optimum counts, in steps: reading its formulas, laying it out.
std::int64_t steps_to_plan(const Job &job);

/// How a changed job turns out, its drawn edges as they were: the verdicts of its joins and rules, or nothing where the
/// job would be refused or the work is spent, into which what is done is counted. `limits_missed`: see
/// PlannerSettings.
std::optional<Plan> planned_again(const Job &job, const DrawnEdges &edges, optimum::Work &work,
                                  bool limits_missed = false);

/// The same, with what is found wrong and why the job would be refused; nothing where the work is spent.
std::optional<PlanOutcome> outcome_again(const Job &job, const DrawnEdges &edges, optimum::Work &work,
                                         bool limits_missed = false);

/// Within limits as a whole, or as far as one join goes.
bool mended(const Plan &plan, std::optional<JoinId> join = std::nullopt);

} // namespace gatherwright::advice
