// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/plan/planner.hpp"

#include "solver/allot/allotment.hpp"
#include "solver/cloth/gathers.hpp"
#include "solver/formula/figure.hpp"
#include "solver/job/beyond.hpp"
#include "solver/job/settled.hpp"
#include "solver/piece/layouts.hpp"
#include "solver/piece/marks.hpp"
#include "solver/piece/sizes.hpp"
#include "solver/plan/findings.hpp"
#include "solver/plan/marks.hpp"
#include "solver/plan/notes.hpp"
#include "solver/plan/profile.hpp"
#include "solver/plan/segments.hpp"
#include "solver/stock/choice.hpp"

#include <algorithm>
#include <cmath>

namespace gatherwright {

namespace {

/// A segment can still move where it can by more than this share of its join; a band this small a share of its join is
/// nothing.
constexpr double nothing_of_join = 1e-9;

/// Of what is reckoned outside the optimum, in steps.
constexpr std::int64_t work_of_a_term = 20;
constexpr std::int64_t work_of_a_spread = 500;
constexpr std::int64_t work_of_a_knot = 20;
constexpr std::int64_t work_of_a_line = 5000; ///< or curve, drawn anew

/// Stations of a profile, at least.
constexpr int profile_stations = 200;

/// Plans one job: the numbers of the allotment, then join by join.
class Planner {
public:
  Planner(const Job &job, const DrawnEdges &edges, const PlannerSettings &settings, const optimum::Elimination *start,
          optimum::Work &work)
      : job_(job), edges_(edges), settings_(settings), start_(start), work_(work) {
    solver_.count_into(&work);
  }

  PlanOutcome plan();

private:
  void plan_lengths();
  void plan_rules();
  Plan conflicting();
  bool choose_within_stock();
  void keep_if_it_fits(std::size_t cloth);
  void hold(const std::vector<std::int64_t> &steps);
  void find_over_stock();
  Plan conflicting_with_stock();
  void plan_join(int join);
  void plan_gathering(const Join &made, JoinPlan &plan) const;
  piece::Sizes sizes_of(PieceId at) const;
  std::vector<piece::SewnJoin> sewn_joins() const;
  void plan_pieces();
  void refuse_marks(PieceId at, std::span<const piece::SewnJoin> joins, double &marks);
  void refuse_bands(int join, const JoinPlan &plan);
  bool has_room_for_marks(int join, double marks);
  void add_findings();

  const Job &job_;
  const DrawnEdges &edges_;
  const PlannerSettings &settings_;
  const optimum::Elimination *start_;
  optimum::Work &work_;
  allot::Scheme scheme_;
  allot::Allotment allotment_;
  optimum::Solver solver_;
  Plan plan_;
  cloth::Ridges ridges_;
  double marks_ = 0; ///< of all joins so far, as a plan lists them
  Refusals refusals_;
  std::optional<stock::Shelf> shelf_; ///< where a cloth of pieces is limited
  std::vector<ClothId> unproved_;     ///< cloths within which nothing better is proved
  std::vector<ClothId> over_;         ///< cloths out of which no choice that was found comes
};

refusal::TooMuch too_much_work(const optimum::Work &work) {
  using Bound = optimum::Work::Bound;
  using Of = refusal::TooMuch::Of;
  switch (work.passed()) {
  case Bound::maps:
    return {Of::numbers, optimum::most_in_maps};
  case Bound::shared:
    return {Of::lengths, optimum::most_shared};
  case Bound::active:
    return {Of::conditions, optimum::most_active};
  case Bound::none:
  case Bound::steps:
    break;
  }
  return {Of::steps, work.most()};
}

PlanOutcome Planner::plan() {
  const std::vector<allot::DrawnLengths> drawn = lengths_of(edges_);
  allot::SchemeOutcome scheme = allot::scheme(job_, drawn);
  if (!scheme) return Refusals(scheme.fault().begin(), scheme.fault().end());
  scheme_ = *std::move(scheme);
  const std::size_t rows =
      scheme_.problem.equal.terms.size() + scheme_.problem.at_least.terms.size() + scheme_.problem.limits.terms.size();
  work_.add(work_of_a_term * static_cast<std::int64_t>(rows));
  allotment_ = allot::allot(scheme_, job_.tape(), solver_, start_, settings_.limits_missed);
  // Two conditions that say nearly, but not quite, the same leave a crossing that no digits are left for.
  if (allotment_.indistinct) return Refusals{refusal::Indistinct{allot::nearest_to_parallel(scheme_)}};
  if (allotment_.too_much_work) return Refusals{too_much_work(work_)};
  if (!allotment_.conflict && !choose_within_stock()) return conflicting_with_stock();
  if (allotment_.indistinct) return Refusals{refusal::Indistinct{allot::nearest_to_parallel(scheme_)}};
  if (allotment_.too_much_work) return Refusals{too_much_work(work_)};
  plan_lengths();
  if (allotment_.conflict) return conflicting();
  if (allotment_.proved)
    plan_.certificate = {allotment_.certificate.feasibility, allotment_.certificate.stationarity,
                         allotment_.certificate.complementarity};
  plan_rules();
  plan_.joins.reserve(job_.joins.size());
  for (std::size_t j = 0; j < job_.joins.size(); ++j)
    plan_join(static_cast<int>(j));
  if (!refusals_.empty()) return std::move(refusals_);
  for (const JoinPlan &join : plan_.joins)
    plan_.verdict = std::max(plan_.verdict, join.verdict);
  add_findings();
  plan_pieces();
  if (!refusals_.empty()) return std::move(refusals_);
  find_over_stock();
  if (settings_.verdicts_only) return std::move(plan_);
  plan_.notes = notes_of(job_, plan_);
  for (const ClothId at : unproved_)
    plan_.notes.push_back(note::StockUnproved{at});
  plan_.cautions = cautions_of(job_, plan_);
  return std::move(plan_);
}

/// Chooses the lengths of pieces whose cloth is limited, on the tape, and allots the rest with these held. False: no
/// choice comes out of the cloth that there is.
bool Planner::choose_within_stock() {
  const bool limited = std::any_of(job_.pieces.begin(), job_.pieces.end(),
                                   [](const Piece &piece) { return piece.fabric.stock && piece.fabric.width; });
  if (!limited) return true;
  stock::Shelf &shelf = shelf_.emplace(job_, scheme_);
  for (std::size_t c = 0; c < shelf.cloths().size(); ++c) {
    const std::optional<bool> fixed = shelf.fixed_fit(c);
    if (!fixed) unproved_.push_back(shelf.cloths()[c].at);
    if (fixed != std::optional(true)) shelf.put_aside(c);
  }
  const stock::Choice choice = stock::choose(scheme_, job_.tape_step.mm, shelf, solver_,
                                             settings_.verdicts_only ? stock::Effort::trial : stock::Effort::whole);
  using Outcome = stock::Choice::Outcome;
  if (choice.outcome == Outcome::none && choice.proved) return false;
  if (choice.outcome == Outcome::not_found)
    for (std::size_t c = 0; c < shelf.cloths().size(); ++c)
      if (!shelf.is_aside(c)) keep_if_it_fits(c);
  if (choice.outcome == Outcome::chosen) hold(choice.steps);
  if (!choice.proved || choice.outcome == Outcome::not_found)
    for (std::size_t c = 0; c < shelf.cloths().size(); ++c)
      if (!shelf.is_aside(c)) unproved_.push_back(shelf.cloths()[c].at);
  return true;
}

/// Where no choice on the tape was found the lengths are as without regard to the cloth, which must be put aside where
/// that does not do.
void Planner::keep_if_it_fits(std::size_t cloth) {
  std::vector<double> lengths;
  for (const int column : shelf_->columns())
    lengths.push_back(allotment_.unknowns[column]);
  if (shelf_->fits(cloth, lengths)) return;
  over_.push_back(shelf_->cloths()[cloth].at);
}

/// Allots with the chosen lengths held.
void Planner::hold(const std::vector<std::int64_t> &steps) {
  const std::vector<int> &columns = shelf_->columns();
  for (std::size_t k = 0; k < columns.size(); ++k)
    scheme_.problem.equal.add(std::array<optimum::Term, 1>{{{columns[k], 1.0}}},
                              static_cast<double>(steps[k]) * job_.tape_step.mm);
  allotment_ = allot::allot(scheme_, job_.tape(), solver_, nullptr, settings_.limits_missed);
  if (allotment_.conflict || allotment_.exact.empty()) return;
  for (std::size_t k = 0; k < columns.size(); ++k)
    for (std::vector<double> *unknowns : {&allotment_.exact, &allotment_.unknowns})
      (*unknowns)[columns[k]] = static_cast<double>(steps[k]) * job_.tape_step.mm;
}

/// What of cloths that were put aside takes more than there is.
void Planner::find_over_stock() {
  if (!shelf_) return;
  std::vector<WearersPieces::Size> sizes;
  for (int p = 0; p < static_cast<int>(job_.pieces.size()); ++p)
    sizes.push_back(piece::cut_sizes(job_, PieceId(p), sizes_of(PieceId(p))));
  const Cloths cloths = cloths_of(job_);
  for (std::size_t c = 0; c < shelf_->cloths().size(); ++c) {
    const ClothId at = shelf_->cloths()[c].at;
    if (!shelf_->is_aside(c) && std::find(over_.begin(), over_.end(), at) == over_.end()) continue;
    const Cloth &cloth = cloths.cloths[at.at];
    const layout::Problem problem = piece::problem_of(job_, cloths, at, sizes);
    if (problem.rectangles.empty() || layout::misfit(problem)) continue;
    const layout::Layout laid = layout::lay(problem, piece::budget_of_one(cloths.cloths.size()));
    const double buy = laid.length / (1 - cloth.shrinkage.along);
    if (!is_above(buy, cloth.stock->is.mm)) continue; // only without what is too wide
    plan_.verdict = std::max(plan_.verdict, Verdict::rule_broken);
    plan_.findings.emplace_back(finding::OverStock{at, buy, cloth.stock->is.mm});
  }
}

/// The plan of a job whose pieces do not come out of the cloth that there is, however the lengths are chosen.
Plan Planner::conflicting_with_stock() {
  allotment_.conflict = true;
  plan_lengths();
  plan_.verdict = Verdict::rules_conflict;
  if (settings_.verdicts_only) return std::move(plan_);
  stock::NamedConflict conflict = stock::named_conflict(scheme_, job_.tape_step.mm, *shelf_, solver_);
  plan_.conflict = Conflict{std::move(conflict.conditions), 0};
  plan_.notes = notes_of(job_, plan_);
  plan_.cautions = cautions_of(job_, plan_);
  if (!conflict.irreducible) plan_.notes.push_back(note::LeftOut{note::LeftOut::What::conflict});
  return std::move(plan_);
}

/// The plan of a job whose rules conflict.
Plan Planner::conflicting() {
  plan_.verdict = Verdict::rules_conflict;
  if (settings_.verdicts_only) return std::move(plan_);
  optimum::Work own(most_work_of_conflict);
  optimum::Work &work = settings_.work_of_conflict ? *settings_.work_of_conflict : own;
  allot::NamedConflict conflict = allot::named_conflict(scheme_, allotment_.contradiction, work);
  plan_.conflict = Conflict{std::move(conflict.conditions), conflict.apart};
  plan_.notes = notes_of(job_, plan_);
  plan_.cautions = cautions_of(job_, plan_);
  if (!conflict.irreducible) plan_.notes.push_back(note::LeftOut{note::LeftOut::What::conflict});
  return std::move(plan_);
}

void Planner::plan_lengths() {
  plan_.lengths.resize(job_.lengths.size());
  for (std::size_t i = 0; i < job_.lengths.size(); ++i) {
    LengthPlan &length = plan_.lengths[i];
    const Affine &form = scheme_.symbols[job_.symbol_of(LengthId(static_cast<int>(i)))];
    if (allotment_.conflict) {
      // What depends on a free length has no value here.
      if (form.fixed()) length.is = form.constant;
      continue;
    }
    length.is = scheme_.value(form, allotment_.unknowns);
    if (job_.lengths[i].free()) length.found = FoundLength{allotment_.exact[scheme_.column_of_length[i]], false};
  }
  if (allotment_.conflict) return; // no length is found
  for (std::size_t f = 0; f < allotment_.off_tape.size(); ++f)
    plan_.lengths[scheme_.free_lengths[f]].found->off_tape = allotment_.off_tape[f] != 0;
}

/// Of the order of the absolute values of a rule's terms: what its sides are rounded at.
double size_of(const Job &job, const Formula &formula, const std::vector<LengthPlan> &lengths) {
  double size = 0;
  for (const Formula::Step &step : formula.steps()) {
    if (step.code == Formula::Code::length) size += std::abs(step.value);
    if (step.code != Formula::Code::symbol) continue;
    if (const auto length = job.length_of(step.symbol))
      size += std::abs(*lengths[length->at].is);
    else if (step.symbol < static_cast<int>(job.measures.size()))
      size += job.measures[step.symbol].is.mm;
    else if (job.fabric.width)
      size += job.fabric.width->mm;
  }
  return size;
}

void Planner::plan_rules() {
  for (std::size_t r = 0; r < job_.rules.size(); ++r) {
    const Comparison &comparison = job_.rules[r].holds;
    RulePlan &rule = plan_.rules.emplace_back();
    rule.of_fixed = scheme_.rule_sides[2 * r].fixed() && scheme_.rule_sides[2 * r + 1].fixed();
    rule.left = scheme_.value(scheme_.rule_sides[2 * r], allotment_.unknowns);
    rule.right = scheme_.value(scheme_.rule_sides[2 * r + 1], allotment_.unknowns);
    rule.holds = holds(comparison.relation, rule.left, rule.right,
                       size_of(job_, comparison.left, plan_.lengths) + size_of(job_, comparison.right, plan_.lengths));
    if (!rule.holds) plan_.verdict = std::max(plan_.verdict, Verdict::rule_broken);
  }
}

void Planner::refuse_bands(int join, const JoinPlan &plan) {
  const JoinId at(join);
  if (!(plan.band > 0)) {
    refusals_.push_back(refusal::NoBand{at});
    return;
  }
  refusal::Unsettled loose{at, {}};
  for (int s = 0; s < static_cast<int>(plan.segments.size()); ++s) {
    // What nothing settles has as much as it happens to have, or nothing.
    if (allotment_.loose[scheme_.long_column(join, s)] || allotment_.loose[scheme_.band_column(join, s)])
      loose.segments.push_back(s);
    else if (!(plan.segments[s].band > nothing_of_join * plan.band))
      refusals_.push_back(refusal::NoBand{SegmentAt(at, s)});
  }
  if (!loose.segments.empty()) refusals_.push_back(std::move(loose));
}

/// Of all joins together it is told once, where they pass it.
bool Planner::has_room_for_marks(int join, double marks) {
  if (marks > most_marks) {
    refusals_.push_back(refusal::TooManyMarks{JoinId(join), most_marks});
    return false;
  }
  const double before = marks_;
  marks_ += job_.joins[join].mirrored ? 2 * marks : marks;
  if (marks_ <= most_marks_in_all) return true;
  if (before <= most_marks_in_all) refusals_.push_back(refusal::TooManyMarks{JoinId(join), most_marks_in_all, true});
  return false;
}

void Planner::plan_join(int join) {
  const Join &made = job_.joins[join];
  JoinPlan plan;
  plan.long_length = scheme_.value(scheme_.long_edges[join], allotment_.unknowns);
  plan.band = scheme_.value(scheme_.bands[join], allotment_.unknowns);
  std::vector<SolvedSegment> solved;
  solved.reserve(made.segments.size());
  plan.segments.reserve(made.segments.size());
  for (int s = 0; s < static_cast<int>(made.segments.size()); ++s) {
    solved.push_back(
        {allotment_.unknowns[scheme_.long_column(join, s)], allotment_.unknowns[scheme_.band_column(join, s)]});
    plan.segments.emplace_back().band = solved.back().band;
  }
  const std::size_t refused_before = refusals_.size();
  refuse_bands(join, plan);
  if (refusals_.size() > refused_before) return;

  std::vector<SegmentSpread> spreads;
  spreads.reserve(made.segments.size());
  double along_long = 0;
  double along_band = 0;
  for (std::size_t s = 0; s < made.segments.size(); ++s) {
    const Limits &limits = scheme_.limits[join][s];
    const DrawnSides *sides = edges_.empty() ? nullptr : &edges_[join];
    const edge::DrawnLine *line = sides && sides->long_edge ? &*sides->long_edge : nullptr;
    const SegmentAt at(JoinId(join), static_cast<int>(s));
    if (auto refusal = refusal_of_spread(made.segments[s], at, solved[s], line, along_long)) {
      refusals_.push_back(*std::move(refusal));
      continue;
    }
    SegmentPlan &segment = plan.segments[s];
    if (settings_.verdicts_only) {
      segment = judged_segment(made.segments[s].kind, solved[s], limits);
    } else {
      segment = segment_plan(made, made.segments[s], solved[s], limits, job_.tolerance, ridges_);
      spreads.push_back(spread_of(made.segments[s], solved[s], limits, line, along_long));
      work_.add(work_of_a_spread + work_of_a_knot * static_cast<std::int64_t>(spreads.back().knots().size()));
      tell_spread(segment, spreads.back());
    }
    segment.from = along_band;
    segment.long_from = along_long;
    along_band += segment.band;
    along_long += segment.long_length;
    segment.to = s + 1 == made.segments.size() ? plan.band : along_band;
    segment.long_to = s + 1 == made.segments.size() ? plan.long_length : along_long;
    plan.verdict = std::max(plan.verdict, segment.verdict);
  }
  if (refusals_.size() > refused_before) return;
  plan.standing = standing_of(plan);
  const double marks = mark_count(made, plan.segments);
  if (!has_room_for_marks(join, marks)) return;
  if (settings_.verdicts_only) {
    plan_.joins.push_back(std::move(plan));
    return;
  }
  const DrawnSides sides_none;
  const DrawnSides &sides = edges_.empty() ? sides_none : edges_[join];
  const auto drawn_plan = [this](const Edge &edge, const std::optional<edge::DrawnLine> &line) {
    return line ? std::optional(drawn_edge(*edge.drawn(), *line, settings_.outlines)) : std::nullopt;
  };
  plan.drawn_long = drawn_plan(made.long_edge, sides.long_edge);
  plan.drawn_band = drawn_plan(made.band, sides.band);
  const auto ends_of = [](const Edge &edge) {
    return edge.ends ? std::optional(std::array{figure_of((*edge.ends)[0]), figure_of((*edge.ends)[1])}) : std::nullopt;
  };
  plan.long_ends = ends_of(made.long_edge);
  plan.band_ends = ends_of(made.band);
  plan.allowance = plan.drawn_long ? plan.drawn_long->allowance : allowance_of(job_, made);
  plan.band_allowance = plan.drawn_band ? plan.drawn_band->allowance : allowance_of(job_, made);
  plan.marks = marks_of(job_, made, plan, spreads, sides, marks);
  if (made.mirrored) plan.marks_mirrored = mirrored(made, plan, plan.marks);
  plan.pins = static_cast<int>(plan.marks.size());
  plan_gathering(made, plan);
  if (settings_.profile) plan.profile = profile_of(plan, spreads, profile_stations);
  plan_.joins.push_back(std::move(plan));
}

void Planner::plan_gathering(const Join &made, JoinPlan &plan) const {
  std::vector<cloth::Gap> gaps;
  gaps.reserve(plan.marks.size());
  const std::size_t count = made.closed ? plan.marks.size() : plan.marks.size() - 1;
  for (std::size_t i = 0; i < count; ++i) {
    const double end = i + 1 < plan.marks.size() ? plan.marks[i + 1].long_edge.exact : plan.long_length;
    gaps.push_back({end - plan.marks[i].long_edge.exact, plan.marks[i].stitches_to_next.has_value()});
  }
  const auto any = [&](bool (*is)(Kind)) {
    return std::any_of(made.segments.begin(), made.segments.end(), [&](const Segment &s) { return is(s.kind); });
  };
  plan.gathering = cloth::gathering_plan(gaps, made.closed, made.gathering, any(is_folded),
                                         {plan.allowance, is_imperial(job_.unit)});
  if (!any(on_cord)) return;
  double drawn = 0;
  for (std::size_t s = 0; s < made.segments.size(); ++s)
    if (on_cord(made.segments[s].kind)) drawn += plan.segments[s].long_length;
  plan.cord = cloth::cord(drawn, made.gathering.tail.mm);
}

piece::Sizes Planner::sizes_of(PieceId at) const {
  const allot::PieceForms &forms = scheme_.pieces[at.at];
  const auto value = [this](const Affine &form) { return scheme_.value(form, allotment_.unknowns); };
  piece::Sizes sizes;
  sizes.across = value(forms.across);
  sizes.along = value(forms.along);
  for (const Side side : all_sides) {
    sizes.allowance[side] = allowance_of(job_, SideAt(at, side));
    for (const Affine &begins : forms.at[side])
      sizes.at[side].push_back(value(begins));
  }
  return sizes;
}

/// Of all pieces together too many marks are told once, where they pass what is looked at.
void Planner::refuse_marks(PieceId at, std::span<const piece::SewnJoin> joins, double &marks) {
  const Piece &piece = job_[at];
  for (const Side side : all_sides)
    for (int p = 0; p < static_cast<int>(piece.sides[side].size()); ++p) {
      if (marks > most_marks_in_all) return;
      const SidePart &part = piece.sides[side][p];
      marks += piece::mark_count(part, joins[part.join.at]) * (piece.mirrored ? 2.0 : 1.0);
      if (marks > most_marks_in_all)
        refusals_.push_back(refusal::TooManyOnSides{PartAt(SideAt(at, side), p), most_marks_in_all});
    }
}

std::vector<piece::SewnJoin> Planner::sewn_joins() const {
  std::vector<piece::SewnJoin> sewn;
  for (const JoinPlan &join : plan_.joins) {
    piece::SewnJoin &edges = sewn.emplace_back();
    edges.long_ends.push_back(0);
    edges.band_ends.push_back(0);
    for (const SegmentPlan &segment : join.segments) {
      edges.long_ends.push_back(segment.long_to);
      edges.band_ends.push_back(segment.to);
    }
    edges.marks = join.marks;
  }
  return sewn;
}

void Planner::plan_pieces() {
  if (job_.pieces.empty()) return;
  const std::vector<piece::SewnJoin> joins = sewn_joins();
  double marks = 0;
  for (int p = 0; p < static_cast<int>(job_.pieces.size()); ++p) {
    const PieceId id(p);
    const piece::Sizes sizes = sizes_of(id);
    for (const piece::Unsound &unsound : piece::unsound_in(id, sizes))
      std::visit([this](const auto &why) { refusals_.emplace_back(why); }, unsound);
    const std::vector<piece::Wrong> wrong = piece::wrong_with(job_, id, sizes, joins);
    if (!wrong.empty()) plan_.verdict = std::max(plan_.verdict, Verdict::rule_broken);
    if (!settings_.verdicts_only) refuse_marks(id, joins, marks);
    if (!refusals_.empty()) continue;
    PiecePlan &plan =
        plan_.pieces.emplace_back(settings_.verdicts_only ? PiecePlan() : piece::plan_of(job_, id, sizes, joins));
    plan.within_limits = wrong.empty();
    for (const piece::Wrong &found : wrong) {
      plan.too_wide = plan.too_wide || std::holds_alternative<finding::TooWide>(found);
      std::visit([this](const auto &what) { plan_.findings.emplace_back(what); }, found);
    }
  }
}

void Planner::add_findings() {
  for (std::size_t r = 0; r < plan_.rules.size(); ++r) {
    const RulePlan &rule = plan_.rules[r];
    if (rule.holds) continue;
    plan_.findings.push_back(
        finding::RuleBroken{.at = RuleId(static_cast<int>(r)), .left = rule.left, .right = rule.right});
  }
  for (std::size_t j = 0; j < plan_.joins.size(); ++j) {
    if (plan_.joins[j].verdict == Verdict::within_limits) continue;
    const std::vector<SegmentPlan> &segments = plan_.joins[j].segments;
    for (std::size_t s = 0; s < segments.size(); ++s)
      if (auto found = finding_of(SegmentAt(JoinId(static_cast<int>(j)), static_cast<int>(s)), segments[s]))
        plan_.findings.push_back(*std::move(found));
  }
}

/// Lines and curves of a job's drawn edges.
std::int64_t lines_of(const DrawnEdges &edges) {
  std::size_t lines = 0;
  for (const DrawnSides &sides : edges)
    lines += (sides.long_edge ? sides.long_edge->pieces() : 0) + (sides.band ? sides.band->pieces() : 0);
  return static_cast<std::int64_t>(lines);
}

} // namespace

PlanOutcome plan_numbers(const Job &job, const DrawnEdges &edges, const PlannerSettings &settings,
                         const optimum::Elimination *start) {
  optimum::Work own(most_work);
  optimum::Work &work = settings.work ? *settings.work : own;
  const Settled settled(job);
  if (drawn_as_asked(settled.job(), edges)) return Planner(settled.job(), edges, settings, start, work).plan();
  return draw_edges(settled.job()).and_then([&](const DrawnEdges &drawn) {
    work.add(work_of_a_line * lines_of(drawn));
    return Planner(settled.job(), drawn, settings, start, work).plan();
  });
}

} // namespace gatherwright
