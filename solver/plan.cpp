// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/plan.hpp"
#include "gatherwright/validate.hpp"

#include "solver/advice/binds.hpp"
#include "solver/advice/budget.hpp"
#include "solver/advice/narrow_rooms.hpp"
#include "solver/advice/remedies.hpp"
#include "solver/advice/room.hpp"
#include "solver/advice/savings.hpp"
#include "solver/advice/sensitivity.hpp"
#include "solver/advice/tried_rooms.hpp"
#include "solver/advice/what_would_do.hpp"
#include "solver/advice/within_stock.hpp"
#include "solver/allot/scheme.hpp"
#include "solver/job/settled.hpp"
#include "solver/optimum/elimination.hpp"
#include "solver/piece/layouts.hpp"
#include "solver/plan/planner.hpp"

#include <optional>
#include <span>
#include <utility>

namespace gatherwright {

struct Prepared::Structure {
  DrawnEdges edges;
  std::optional<optimum::Elimination> start; ///< what must hold of the job, eliminated
  advice::Dependents dependents;

  advice::Known known() const { return {start ? &*start : nullptr, &dependents}; }
};

namespace advice {

namespace {

void note_left_out(Plan &plan, note::LeftOut::What what) {
  plan.notes.push_back(note::LeftOut{what});
}

/// Rooms and what is said of a plan that has joins; false: changes of what is wrong were left out.
bool advise(const Job &job, Plan &plan, const DrawnEdges &edges, const Dependents &dependents, Budget &budget) {
  const bool said = say_what_would_do(job, plan, edges, budget.words);
  std::vector<KeptEnds> kept;
  bool rooms = give_rooms(job, plan, dependents, budget.rooms, kept);
  rooms = rooms && narrow_rooms(job, plan, edges, dependents, budget.rooms);
  rooms = try_rooms(job, plan, edges, dependents, budget.rooms) && rooms;
  rooms = keep_within_stock(job, plan, dependents, budget.stock) && rooms;
  rooms = say_what_binds(job, plan, edges, dependents, kept, budget.rooms) && rooms;
  const bool sensitive = note_sensitive_lengths(job, plan, edges, dependents, budget.sensitivity);
  if (!rooms) note_left_out(plan, note::LeftOut::What::rooms);
  if (!sensitive) note_left_out(plan, note::LeftOut::What::sensitivity);
  return said;
}

/// Rooms, remedies and what is said of a plan.
void give_advice(const Job &job, Plan &plan, const DrawnEdges &edges, const Known &known, Budget &budget) {
  bool all = true;
  if (plan.verdict != Verdict::rules_conflict) {
    std::optional<Dependents> own;
    all = advise(job, plan, edges, known.dependents ? *known.dependents : own.emplace(job), budget);
  }
  all = give_remedies(job, plan, edges, budget.remedies) && all;
  if (!all) note_left_out(plan, note::LeftOut::What::remedies);
}

void lay_pieces(const Job &job, Plan &plan) {
  const WearersPieces pieces = pieces_of(plan);
  piece::Laid laid = piece::lay(job, std::span(&pieces, 1));
  plan.cloth = std::move(laid.cloth);
  plan.notes.insert(plan.notes.end(), laid.not_laid.begin(), laid.not_laid.end());
  const Cloths cloths = cloths_of(job);
  for (const Note &note : plan.notes) {
    const auto *unproved = std::get_if<note::StockUnproved>(&note);
    for (ClothPlan &cloth : plan.cloth)
      if (unproved && cloth.stock && cloth.cloth == cloths.cloths[unproved->at.at]) cloth.stock->proved = false;
  }
}

} // namespace

PlanOutcome plan_within(const Job &job, const PlanSettings &settings, const DrawnEdges &edges, const Known &known,
                        Budget &budget) {
  PlanOutcome outcome = plan_numbers(job, edges,
                                     {.profile = settings.profile,
                                      .outlines = settings.outlines,
                                      .work = &budget.numbers,
                                      .work_of_conflict = &budget.conflict},
                                     known.start);
  if (!outcome) return outcome;
  Plan &made = *outcome;
  if (settings.advice) give_advice(job, made, edges, known, budget);
  if (settings.layouts && !made.pieces.empty()) lay_pieces(job, made);
  if (settings.advice && settings.savings && !made.cloth.empty() && !find_savings(job, made, edges, budget.savings))
    note_left_out(made, note::LeftOut::What::savings);
  return outcome;
}

} // namespace advice

namespace {

PlanOutcome plan_with_advice(const Job &job, const PlanSettings &settings, const DrawnEdges &edges,
                             const advice::Known &known) {
  advice::Budget budget;
  return advice::plan_within(job, settings, edges, known, budget);
}

Refusals refusals_of(const std::vector<PlacedFault> &faults) {
  return {faults.begin(), faults.end()};
}

} // namespace

Outcome<Prepared, Refusals> Prepared::prepare(const Job &job) {
  if (auto refusals = refusals_of(validate(job)); !refusals.empty()) return refusals;
  return draw_edges(job).and_then([&](DrawnEdges edges) -> Outcome<Prepared, Refusals> {
    Structure structure{std::move(edges), std::nullopt, advice::Dependents(job)};
    if (const auto scheme = allot::scheme(job, lengths_of(structure.edges))) {
      optimum::Work work(most_work);
      structure.start.emplace(scheme->problem, &work);
    }
    return Prepared(std::make_shared<const Structure>(std::move(structure)));
  });
}

PlanOutcome Prepared::plan(const Job &job, const PlanSettings &settings) const {
  if (auto refusals = refusals_of(faults_of_measures(job)); !refusals.empty()) return refusals;
  if (structure_->edges.empty() || drawn_as_asked(Settled(job).job(), structure_->edges))
    return plan_with_advice(job, settings, structure_->edges, structure_->known());
  return draw_edges(job).and_then(
      [&](const DrawnEdges &edges) { return plan_with_advice(job, settings, edges, structure_->known()); });
}

PlanOutcome plan(const Job &job, const PlanSettings &settings) {
  if (auto refusals = refusals_of(validate(job)); !refusals.empty()) return refusals;
  return draw_edges(job).and_then([&](const DrawnEdges &edges) { return plan_with_advice(job, settings, edges, {}); });
}

} // namespace gatherwright
