// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/advice/what_would_do.hpp"

#include "gatherwright/limits.hpp"
#include "solver/advice/change.hpp"
#include "solver/advice/lone_joins.hpp"
#include "solver/advice/nearest.hpp"
#include "solver/job/beyond.hpp"
#include "solver/plan/notes.hpp"
#include "solver/plan/segments.hpp"

#include <algorithm>
#include <cmath>
#include <span>
#include <utility>

namespace gatherwright::advice {

namespace {

/// The join, or one segment of it.
bool is_within(const JoinPlan &join, std::optional<int> segment = std::nullopt) {
  return (segment ? join.segments[*segment].verdict : join.verdict) == Verdict::within_limits;
}

std::optional<JoinId> join_of(const Finding &finding) {
  if (const auto *past = std::get_if<finding::PastLimit>(&finding)) return past->at.join;
  if (const auto *less = std::get_if<finding::LessThanBand>(&finding)) return less->at.join;
  return std::nullopt;
}

bool is_too_much(const Finding &finding) {
  const auto *past = std::get_if<finding::PastLimit>(&finding);
  return past && past->limit != finding::PastLimit::Limit::least;
}

/// Of a finding that a join has.
finding::EdgesAlone &alone_of(Finding &finding) {
  if (auto *past = std::get_if<finding::PastLimit>(&finding)) return past->alone;
  return std::get<finding::LessThanBand>(finding).alone;
}

/// Tries what can be said of the joins of a plan that are not within limits, one after another.
class JoinTrials {
public:
  JoinTrials(const Job &job, Plan &plan, const DrawnEdges &edges, optimum::Work &work)
      : job_(job), plan_(plan), joins_(job, plan, edges), work_(work) {
    work.add(steps_to_plan(job));
    solver_.count_into(&work);
    const auto last_of_joins = std::find_if(plan.findings.rbegin(), plan.findings.rend(),
                                            [](const Finding &finding) { return join_of(finding).has_value(); });
    findings_of_pieces_ = last_of_joins - plan.findings.rbegin();
  }

  void run() {
    for (int j = 0; j < static_cast<int>(plan_.joins.size()) && !work_.spent(); ++j) {
      if (is_within(plan_.joins[j])) continue;
      const LoneJoin lone = joins_.lone(JoinId(j));
      try_edges(j, lone);
      try_swapped(j, lone);
      for (int s = 0; s < static_cast<int>(plan_.joins[j].segments.size()) && !work_.spent(); ++s)
        try_segment(j, s, lone);
    }
    if (!notes_.empty()) plan_.notes = notes_of(job_, plan_, notes_);
  }

private:
  /// Findings stand in the order of the joins, after those of rules and before those of pieces, which have none.
  std::span<Finding> findings_of(int j) {
    const auto before = [](const Finding &finding, JoinId join) { return join_of(finding) < join; };
    const auto of_pieces = plan_.findings.end() - findings_of_pieces_;
    const auto first = std::lower_bound(plan_.findings.begin(), of_pieces, JoinId(j), before);
    const auto end = std::lower_bound(first, of_pieces, JoinId(j + 1), before);
    return {first, end};
  }

  /// Whether there is work left for planning that, or for a solve as large.
  bool may_try(const LoneJoin &lone) {
    work_.add(steps_to_plan(lone.job));
    return !work_.spent();
  }

  /// Whether the join, or one segment of it, is then within limits.
  bool does(const LoneJoin &lone, std::optional<int> segment = std::nullopt) {
    if (!may_try(lone)) return false;
    const std::optional<Plan> again = planned_again(lone.job, lone.edges, work_);
    return again && again->verdict != Verdict::rules_conflict && is_within(again->joins.front(), segment);
  }

  /// An edge given by its length where it stands, however it was given before.
  static void set_edge(LoneJoin &lone, WhichEdge which, double length) {
    Join &join = lone.join();
    const bool of_band = which == WhichEdge::band;
    (of_band ? join.band : join.long_edge).is = Formula::of({length}, "");
    if (lone.edges.empty()) return;
    (of_band ? lone.edges.front().band : lone.edges.front().long_edge).reset();
    if (of_band) return;
    for (Segment &segment : join.segments) // verdicts go by means, which no spread alters
      if (std::holds_alternative<AlongGrain>(segment.spread)) segment.spread = Even{};
  }

  /// What the edge alone would have to be, where the step of the tape that is told of it does.
  std::optional<double> edge_alone(int j, WhichEdge which, const LoneJoin &lone) {
    const bool of_band = which == WhichEdge::band;
    const Join &join = job_.joins[j];
    const auto eased_as_drawn = [](const Segment &segment) {
      return segment.kind == Kind::ease && !segment.limits.most;
    };
    // A drawn edge that is as long is another drawing, on which other stretches lie on the bias.
    if (!of_band && join.long_edge.drawn() && std::any_of(join.segments.begin(), join.segments.end(), eased_as_drawn))
      return std::nullopt;
    if (!may_try(lone)) return std::nullopt;
    allot::Question question{.subject = EdgeAt(JoinId(0), which)};
    constexpr std::array<JoinId, 1> only{JoinId(0)};
    question.joins = only;
    const double is = of_band ? plan_.joins[j].band : plan_.joins[j].long_length;
    const auto exact = nearest_value(lone.job, question, lengths_of(lone.edges), is, solver_);
    if (!exact || !(*exact > 0)) return std::nullopt;
    const double to = steps_beyond(is, *exact, job_.tape_step.mm).front();
    if (!(to > 0)) return std::nullopt;
    LoneJoin changed = lone;
    set_edge(changed, which, to);
    return does(changed) ? exact : std::nullopt;
  }

  void try_edges(int j, const LoneJoin &lone) {
    const std::optional<double> long_alone = edge_alone(j, WhichEdge::long_edge, lone);
    const std::optional<double> band_alone = edge_alone(j, WhichEdge::band, lone);
    for (Finding &finding : findings_of(j)) {
      // Too much wants a shorter long edge or a longer band, too little the reverse, and is told in these words.
      const bool too_much = is_too_much(finding);
      if (long_alone && (*long_alone < plan_.joins[j].long_length) == too_much)
        alone_of(finding).long_edge = long_alone;
      if (band_alone && (*band_alone > plan_.joins[j].band) == too_much) alone_of(finding).band = band_alone;
    }
  }

  void try_swapped(int j, const LoneJoin &lone) {
    const std::span<Finding> findings = findings_of(j);
    const auto has_less = [](const Finding &finding) { return std::holds_alternative<finding::LessThanBand>(finding); };
    if (std::none_of(findings.begin(), findings.end(), has_less)) return;
    const LoneJoin as_written = with_join(lone, joins_.as_written(JoinId(j)));
    auto edges = with_drawn_swapped(as_written.job, lone.edges, JoinId(0));
    if (!edges || !does({with_edges_swapped(as_written.job, JoinId(0)), *std::move(edges)})) return;
    for (Finding &finding : findings)
      if (auto *less = std::get_if<finding::LessThanBand>(&finding)) less->swapped = true;
  }

  void try_segment(int j, int s, const LoneJoin &lone) {
    const SegmentPlan &segment = plan_.joins[j].segments[s];
    if (job_.joins[j].segments[s].kind != Kind::gather) return;
    if (segment.fullness > segment.limits.packed && segment.verdict == Verdict::cannot_be_gathered)
      try_stitch(j, s, lone);
    else if (segment.verdict == Verdict::too_full)
      try_gauged(j, s, lone);
  }

  /// The first stitch with which closest packing takes as much, if that is all that is wrong.
  void try_stitch(int j, int s, const LoneJoin &lone) {
    const Join &join = job_.joins[j];
    const double packs = 1.5 * plan_.joins[j].segments[s].fullness * cloth::thickness(join.fabric, join.gathering);
    const double step = stitch_step(job_.unit);
    const double stitch = std::ceil(packs / step * (1 - limit_share)) * step;
    if (!(stitch <= longest_stitch)) return;
    if (does(with_join(lone, with_stitch(lone.join(), {stitch})), s))
      notes_.push_back(note::StitchWouldDo{.at = SegmentAt(JoinId(j), s), .stitch = stitch});
  }

  void try_gauged(int j, int s, const LoneJoin &lone) {
    const Join &join = job_.joins[j];
    const Limits gauged = cloth::limits(join.fabric, join.gathering, Kind::gauge, {});
    const double fullness = plan_.joins[j].segments[s].fullness;
    if (fullness < gauged.least || fullness > gauged.most) return; // most often it comes out as full again
    if (does(with_join(lone, with_kind(lone.join(), s, Kind::gauge)), s))
      notes_.push_back(note::BetterGauged{SegmentAt(JoinId(j), s)});
  }

  const Job &job_;
  Plan &plan_;
  LoneJoins joins_;
  std::ptrdiff_t findings_of_pieces_ = 0; ///< behind those of joins
  std::vector<Note> notes_;
  optimum::Solver solver_;
  optimum::Work &work_;
};

} // namespace

bool say_what_would_do(const Job &job, Plan &plan, const DrawnEdges &edges, optimum::Work &work) {
  const auto is_of_join = [](const Finding &finding) { return join_of(finding).has_value(); };
  if (std::any_of(plan.findings.begin(), plan.findings.end(), is_of_join)) JoinTrials(job, plan, edges, work).run();
  return !work.spent();
}

} // namespace gatherwright::advice
