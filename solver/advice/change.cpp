// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/advice/change.hpp"

#include "solver/advice/dependence.hpp"
#include "solver/job/worth.hpp"
#include "solver/plan/planner.hpp"

#include <algorithm>
#include <utility>
#include <variant>

namespace gatherwright::advice {

Job with_length(const Job &job, const allot::Subject &subject, double planned, double to) {
  Job changed = job;
  Formula formula = Formula::of({to}, "");
  if (const auto *edge = std::get_if<EdgeAt>(&subject)) {
    Join &join = changed.joins[edge->join.at];
    (edge->edge == WhichEdge::band ? join.band : join.long_edge).is = std::move(formula);
    return changed;
  }
  NamedLength &length = changed.lengths[std::get<LengthId>(subject).at];
  if (auto *free = std::get_if<FreeLength>(&length.is))
    (to < planned ? free->from : free->to) = std::move(formula);
  else
    length.is = std::move(formula);
  return changed;
}

Job with_lengths_held(const Job &job, const Plan &plan) {
  Job held = job;
  for (std::size_t i = 0; i < held.lengths.size(); ++i)
    if (held.lengths[i].free()) held.lengths[i].is = Formula::of({*plan.lengths[i].is}, "");
  for (std::size_t j = 0; j < held.joins.size(); ++j) {
    if (!held.joins[j].long_edge.drawn()) continue;
    for (std::size_t s = 0; s < held.joins[j].segments.size(); ++s) {
      Segment &segment = held.joins[j].segments[s];
      if (segment.kind == Kind::ease && !segment.limits.most)
        segment.limits.most = plan.joins[j].segments[s].limits.most;
    }
  }
  return held;
}

Job with_edges_swapped(const Job &job, JoinId join) {
  Job changed = job;
  std::swap(changed.joins[join.at].long_edge, changed.joins[join.at].band);
  return changed;
}

std::optional<DrawnEdges> with_drawn_swapped(const Job &job, const DrawnEdges &edges, JoinId join) {
  constexpr std::size_t most_pieces =
      10'000; // of shear along what becomes the long edge: few drawn bands have a hundred
  const auto any = [&](auto is) { return std::any_of(job[join].segments.begin(), job[join].segments.end(), is); };
  if (!job[join].band.drawn() && any([](const Segment &s) { return std::holds_alternative<AlongGrain>(s.spread); }))
    return std::nullopt;
  DrawnEdges swapped = edges;
  if (edges.empty()) return swapped;
  DrawnSides &sides = swapped[join.at];
  std::swap(sides.long_edge, sides.band);
  std::size_t left = most_pieces;
  if (sides.long_edge && any([](const Segment &s) { return s.kind == Kind::ease; }) &&
      !sides.long_edge->expect_shear(left))
    return std::nullopt;
  return swapped;
}

Job with_stock(const Job &job, ClothId at, std::optional<Length> stock) {
  Job changed = job;
  const Cloths cloths = cloths_of(job);
  for (std::size_t p = 0; p < job.pieces.size(); ++p)
    if (cloths.of_piece[p] == at.at)
      changed.pieces[p].fabric.stock = stock ? std::optional(Stock{*stock, ""}) : std::nullopt;
  return changed;
}

Join with_weight(Join join, Weight weight) {
  if (!join.own_weight) join.fabric.weight = weight;
  return join;
}

Job with_weight(const Job &job, Weight weight) {
  Job changed = job;
  changed.fabric.weight = weight;
  for (Join &join : changed.joins)
    join = with_weight(std::move(join), weight);
  return changed;
}

double stitch_step(Unit unit) {
  return is_imperial(unit) ? millimetres(Unit::in) / 16 : 0.5;
}

Join with_stitch(Join join, Length stitch) {
  join.gathering.stitch = stitch;
  join.gathering.threads.reset();
  join.gathering.on_face = false;
  return join;
}

Join with_kind(Join join, int segment, Kind kind) {
  Segment &made = join.segments[segment];
  made.kind = kind;
  made.limits = {};
  if (!may_be_spread(kind)) made.spread = Even{};
  // A plain stretch given by its cloth keeps its place on the band, and takes what cloth it can.
  if (kind == Kind::ease && !made.band) std::swap(made.band, made.long_edge);
  return join;
}

std::int64_t steps_to_plan(const Job &job) {
  constexpr int each_plan = 10'000;
  constexpr int each_length = 300;
  constexpr int each_rule = 1000;
  constexpr int each_join = 3000;
  constexpr int each_segment = 1500;
  constexpr int each_part = 500;
  std::size_t segments = 0;
  for (const Join &join : job.joins)
    segments += join.segments.size();
  std::int64_t parts = 0;
  for (const Piece &piece : job.pieces)
    parts += 1 + parts_of(piece);
  return each_plan + each_part * parts +
         static_cast<std::int64_t>(each_length * job.lengths.size() + each_rule * job.rules.size() +
                                   each_join * job.joins.size() + each_segment * segments);
}

std::optional<PlanOutcome> outcome_again(const Job &job, const DrawnEdges &edges, optimum::Work &work,
                                         bool limits_missed) {
  work.add(steps_to_plan(job));
  if (work.spent()) return std::nullopt;
  const std::vector<PlacedFault> faults = faults_of_values(job);
  if (!faults.empty()) return Refusals(faults.begin(), faults.end());
  return plan_numbers(job, edges, {.verdicts_only = true, .limits_missed = limits_missed, .work = &work});
}

std::optional<Plan> planned_again(const Job &job, const DrawnEdges &edges, optimum::Work &work, bool limits_missed) {
  std::optional<PlanOutcome> outcome = outcome_again(job, edges, work, limits_missed);
  if (!outcome || !*outcome) return std::nullopt;
  return **std::move(outcome);
}

bool mended(const Plan &plan, std::optional<JoinId> join) {
  if (!join) return plan.verdict == Verdict::within_limits;
  return plan.verdict != Verdict::rules_conflict && plan.joins[join->at].verdict == Verdict::within_limits;
}

} // namespace gatherwright::advice
