// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/advice/remedies.hpp"

#include "gatherwright/limits.hpp"
#include "solver/advice/change.hpp"
#include "solver/advice/foreseen.hpp"
#include "solver/advice/nearest.hpp"
#include "solver/advice/weighed_parts.hpp"
#include "solver/advice/what_to_try.hpp"
#include "solver/job/beyond.hpp"
#include "solver/layout/lay.hpp"
#include "solver/optimum/solver.hpp"
#include "solver/piece/layouts.hpp"
#include "solver/plan/planner.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <set>

namespace gatherwright::advice {

namespace {

/// Cloth weights are tried gram by gram between these, the range of the table over weights.
constexpr int lightest = 40;
constexpr int heaviest = 400;

/// A job is copied about so many times in the time in which it is read and laid out for planning.
constexpr int copies_in_a_plan = 10;

/// Looks for remedies of the whole job or of one join, until the work is spent.
class RemedySearch {
public:
  RemedySearch(const WhatToTry &what, std::optional<int> join, WeighedParts &weighed, optimum::Work &work)
      : what_(what), job_(what.job()), plan_(what.plan()), join_(join), weighed_(weighed), work_(work) {
    solver_.count_into(&work);
  }

  std::vector<Remedy> run() {
    if (plan_.verdict == Verdict::rules_conflict)
      try_in_conflict();
    else
      try_in_plan();
    return in_order();
  }

private:
  void try_in_conflict() {
    take_whole();
    std::set<int> adding_up;
    for (const Condition &condition : plan_.conflict->conditions)
      if (const auto *edge = std::get_if<condition::AddsUp>(&condition)) adding_up.insert(edge->at.join.at);
    for (const int join : adding_up)
      try_swap(join);
    try_lengths_in_conflict();
    for (const Condition &condition : plan_.conflict->conditions)
      if (const auto *flat = std::get_if<condition::Flat>(&condition)) try_kind(flat->at.join.at, flat->at.segment);
    try_cloth_lengths();
  }

  void try_in_plan() {
    // A broken rule is mended by a length, and by nothing else.
    const bool rules_aside = join_ || what_.rules_hold();
    if (rules_aside)
      for (const int j : bad_joins())
        if (has_less_than_band(j) && take(what_.knots_of_join(j))) try_swap(j);
    try_lengths();
    if (!rules_aside) return;
    for (const int j : bad_joins())
      if (take(what_.knots_of_join(j))) try_stitch(j);
    for (const int j : bad_joins())
      if (take(what_.knots_of_join(j))) try_kinds(j);
    try_weight();
    try_cloth_lengths();
  }

  /// Cloths of which there is too little.
  std::vector<ClothId> short_cloths() const {
    std::vector<ClothId> cloths;
    for (const Finding &finding : plan_.findings)
      if (const auto *over = std::get_if<finding::OverStock>(&finding)) cloths.push_back(over->at);
    if (plan_.conflict)
      for (const Condition &condition : plan_.conflict->conditions)
        if (const auto *stock = std::get_if<condition::WithinStock>(&condition)) cloths.push_back(stock->at);
    return cloths;
  }

  void try_cloth_lengths() {
    if (join_) return;
    const std::vector<ClothId> cloths = short_cloths();
    if (!cloths.empty()) take_whole();
    for (const ClothId at : cloths)
      try_cloth_length(at);
  }

  /// As much of a cloth as is bought where there is no end of it.
  void try_cloth_length(ClothId at) {
    work_.add(steps_of_part_);
    if (work_.spent()) return;
    const PlanOutcome endless = plan_numbers(with_stock(job_, at, std::nullopt), part_.edges, {.work = &work_});
    if (!endless || endless->verdict != Verdict::within_limits) return;
    const Cloths cloths = cloths_of(job_);
    const Cloth &cloth = cloths.cloths[at.at];
    const layout::Problem problem = piece::problem_of(job_, cloths, at, pieces_of(*endless).sizes);
    if (problem.rectangles.empty() || layout::misfit(problem)) return;
    const double lay = layout::lay(problem, piece::budget_of_one(cloths.cloths.size())).length;
    const double steps = std::ceil(lay / (1 - cloth.shrinkage.along) / cloth.sold_by.mm - on_step);
    const double to = steps * cloth.sold_by.mm;
    const double is = cloth.stock.value().is.mm;
    if (to > is && mends(with_stock(job_, at, Length{to})))
      put(change::ToClothLength{.at = at, .by = to - is, .to = to});
  }

  /// What there is too little of cloth for may do with a length that is another: tried by twice as many steps each
  /// time, then back.
  void try_for_stock(const allot::Subject &subject, double is) {
    if (stock_trials_ <= 0) return;
    const double step = job_.tape_step.mm;
    const auto steps = static_cast<std::int64_t>(std::floor(is / step + on_step));
    const auto mended_by = [&](std::int64_t by) {
      --stock_trials_;
      return mends(with_length(part_.job, subject, is, static_cast<double>(steps - by) * step));
    };
    std::int64_t fails_at = 0;
    std::int64_t holds_at = 0;
    for (std::int64_t by = 1; by < steps && holds_at == 0 && stock_trials_ > 0; by *= 2)
      (mended_by(by) ? holds_at : fails_at) = by;
    if (holds_at == 0) return;
    while (holds_at - fails_at > 1 && stock_trials_ > 0) {
      const std::int64_t middle = fails_at + (holds_at - fails_at) / 2;
      (mended_by(middle) ? holds_at : fails_at) = middle;
    }
    if (holds_at - fails_at > 1) return; // there may be a nearer one
    const double to = static_cast<double>(steps - holds_at) * step;
    if (const auto *length = std::get_if<LengthId>(&subject))
      put(change::ToLength{.at = *length, .by = to - is, .to = to});
  }

  /// What a change asks of a maker, the least first.
  enum class Asks { other_way_round, little, a_stitch, a_kind, a_cloth, much };

  /// A length that moves by up to so much of itself moves a little.
  static constexpr double little = 1.0 / 3 + 1e-9;

  struct Rank {
    Asks asks = Asks::much;
    double share = 0; ///< by how much of itself a length or an edge is changed

    auto operator<=>(const Rank &) const = default;
  };

  static Rank rank_of_length(double by, double to) {
    const double is = to - by;
    const double share = is > 0 ? std::abs(by) / is : HUGE_VAL;
    return {share <= little ? Asks::little : Asks::much, share};
  }

  struct Ranked {
    Rank operator()(const change::Swap &) const { return {Asks::other_way_round}; }
    Rank operator()(const change::ToLength &length) const { return rank_of_length(length.by, length.to); }
    Rank operator()(const change::ToEdge &edge) const { return rank_of_length(edge.by, edge.to); }
    Rank operator()(const change::ToStitch &) const { return {Asks::a_stitch}; }
    Rank operator()(const change::ToKind &) const { return {Asks::a_kind}; }
    Rank operator()(const change::ToWeight &) const { return {Asks::a_cloth}; }
    Rank operator()(const change::ToClothLength &) const { return {Asks::a_cloth}; }
  };

  static Rank rank(const Remedy &remedy) { return std::visit(Ranked{}, remedy.change); }

  /// A length that would be twice as long, or half.
  struct Drastic {
    static bool moves(double by, double to) {
      constexpr double rounding = 1e-9;
      const double is = to - by;
      return to >= 2 * is * (1 - rounding) || to <= is / 2 * (1 + rounding);
    }
    bool operator()(const change::ToLength &length) const { return moves(length.by, length.to); }
    bool operator()(const change::ToEdge &edge) const { return moves(edge.by, edge.to); }
    bool operator()(const change::Swap &) const { return false; }
    bool operator()(const change::ToStitch &) const { return false; }
    bool operator()(const change::ToKind &) const { return false; }
    bool operator()(const change::ToWeight &) const { return false; }
    bool operator()(const change::ToClothLength &) const { return false; }
  };

  static bool is_drastic(const Remedy &remedy) { return std::visit(Drastic{}, remedy.change); }

  /// By what they ask, and of lengths by how much; nothing drastic where there is anything else.
  std::vector<Remedy> in_order() {
    if (!std::all_of(found_.begin(), found_.end(), is_drastic)) std::erase_if(found_, is_drastic);
    std::stable_sort(found_.begin(), found_.end(), [](const Remedy &a, const Remedy &b) { return rank(a) < rank(b); });
    return std::move(found_);
  }

  std::vector<int> bad_joins() const { return join_ ? std::vector{*join_} : what_.bad_joins(); }

  /// Takes up the part of the job that a change of these knots can alter. False: it would not mend what is wrong.
  bool take(const std::vector<int> &knots) {
    if (!what_.could_mend(knots, join_)) return false;
    if (knots == knots_ && !part_.joins.empty()) return true;
    work_.add(steps_to_plan(job_) / copies_in_a_plan);
    knots_ = knots;
    take_part(what_.part(knots));
    return true;
  }

  void take_whole() {
    work_.add(steps_to_plan(job_) / copies_in_a_plan);
    knots_.clear();
    PartOfJob whole;
    whole.job = job_;
    whole.edges = what_.edges();
    whole.joins.resize(job_.joins.size());
    std::iota(whole.joins.begin(), whole.joins.end(), 0);
    take_part(std::move(whole));
  }

  void take_part(PartOfJob part) {
    part_ = std::move(part);
    drawn_ = lengths_of(part_.edges);
    foreseen_.emplace(part_.job, what_.planned(), drawn_);
    steps_of_part_ = steps_to_plan(part_.job);
    places_.clear();
    if (join_)
      places_.emplace_back(part_.place_of(*join_));
    else
      for (int place = 0; place < static_cast<int>(part_.joins.size()); ++place)
        places_.emplace_back(place);
    find_hopeless();
  }

  /// Of the joins that must come within limits those that no other join's change brings there.
  void find_hopeless() {
    hopeless_.clear();
    for (const JoinId place : places_)
      if (is_hopeless(place, part_.job[place])) hopeless_.push_back(place);
  }

  /// Where the rules conflict lengths have no values to begin from, and all is tried.
  bool is_hopeless(JoinId place, const Join &worked) {
    if (plan_.verdict == Verdict::rules_conflict) return false;
    if (plan_.joins[part_.joins[place.at]].verdict == Verdict::within_limits) return false;
    work_.add(steps_to_foresee(worked));
    return foreseen_->is_past_limits(place, worked);
  }

  bool mends(const Job &changed) { return mends(changed, part_.edges); }

  bool mends(const Job &changed, const DrawnEdges &edges) {
    const std::optional<Plan> again = planned_again(changed, edges, work_, part_.limits_missed);
    return again && mended(*again, join_ ? std::optional(places_.front()) : std::nullopt);
  }

  /// With one join worked otherwise: tried by planning only where it, and every other that must, may then be within
  /// limits.
  bool mends_worked(JoinId place, Join worked) {
    if (std::any_of(hopeless_.begin(), hopeless_.end(), [&](JoinId other) { return other != place; })) return false;
    if (is_hopeless(place, worked)) return false;
    Join &of_part = part_.job.joins[place.at];
    std::swap(of_part, worked);
    const bool does = mends(part_.job);
    std::swap(of_part, worked);
    return does;
  }

  bool mends_in_weight(Weight weight) {
    for (const JoinId place : places_)
      if (is_hopeless(place, with_weight(part_.job[place], weight))) return false;
    if (join_) return weighed_.is_within(knots_.front(), part_, places_.front(), weight, work_);
    return mends(with_weight(part_.job, weight));
  }

  void put(const Change &change) {
    found_.push_back({.mends = join_ ? std::optional(JoinId(*join_)) : std::nullopt, .change = change});
  }

  bool names_length(const Formula &formula) const {
    return std::any_of(formula.steps().begin(), formula.steps().end(), [&](const Formula::Step &step) {
      return step.code == Formula::Code::symbol && job_.length_of(step.symbol);
    });
  }

  void try_lengths() {
    for (const int i : what_.lengths_for(join_))
      if (take(what_.knots_of_length(i))) try_length(i, what_.planned()[i]);
    if (!join_ && !what_.rules_hold()) return;
    // Of the whole job the edge of any join that is tied to all that is wrong, else only the join's own.
    const std::vector<int> bad = bad_joins();
    if (!take(bad.empty() ? what_.knots_of_piece(what_.bad_pieces().front()) : what_.knots_of_join(bad.front())))
      return;
    for (int place = 0; place < static_cast<int>(part_.joins.size()); ++place) {
      const int j = part_.joins[place];
      if (join_ && j != *join_) continue;
      if (has_no_name(job_.joins[j].long_edge)) try_edge(place, WhichEdge::long_edge, plan_.joins[j].long_length);
      if (has_no_name(job_.joins[j].band)) try_edge(place, WhichEdge::band, plan_.joins[j].band);
    }
  }

  /// An edge that is given where it stands.
  bool has_no_name(const Edge &edge) const { return edge.formula() && !names_length(*edge.formula()); }

  void try_length(int length, double is) { try_subject(LengthId(length), is); }

  /// Of the join at a place in the part.
  void try_edge(int place, WhichEdge which, double is) { try_subject(EdgeAt(JoinId(place), which), is); }

  /// What the rules leave no value for has none to change: only lengths that are fixed, and the ends of ranges and the
  /// edges without a name that are part of the conflict.
  void try_lengths_in_conflict() {
    for (int i = 0; i < static_cast<int>(job_.lengths.size()); ++i) {
      if (job_.lengths[i].keep || job_.lengths[i].free() || !plan_.lengths[i].is) continue;
      try_length(i, *plan_.lengths[i].is);
    }
    for (const Condition &condition : plan_.conflict->conditions) {
      if (const auto *range = std::get_if<condition::InRange>(&condition)) try_end(*range);
      if (const auto *edge = std::get_if<condition::AddsUp>(&condition)) try_edge_in_conflict(edge->at);
    }
  }

  void try_end(const condition::InRange &range) {
    const NamedLength &length = job_[range.at];
    if (length.keep) return;
    const bool is_from = range.end == condition::InRange::End::from;
    if (const auto end = fixed_value(is_from ? *length.free()->from : *length.free()->to))
      try_length(range.at.at, *end);
  }

  void try_edge_in_conflict(EdgeAt at) {
    if (!has_no_name(job_[at])) return;
    if (const auto is = fixed_value(*job_[at].formula())) try_edge(at.join.at, at.edge, *is);
  }

  std::optional<double> fixed_value(const Formula &formula) const {
    const auto value = evaluate(formula, fixed_values());
    return value && value->fixed() ? std::optional(value->constant) : std::nullopt;
  }

  /// Of every symbol that has one while the rules conflict; of the others 0, which no end of a range is made of.
  std::vector<Affine> fixed_values() const {
    std::vector<Affine> values(job_.symbols());
    for (std::size_t m = 0; m < job_.measures.size(); ++m)
      values[m].constant = job_.measures[m].is.mm;
    for (int i = 0; i < static_cast<int>(job_.lengths.size()); ++i)
      values[job_.symbol_of(LengthId(i))].constant = plan_.lengths[i].is.value_or(0);
    if (job_.fabric.width) values[job_.symbol_of_cloth_width()].constant = job_.fabric.width->mm;
    return values;
  }

  void try_subject(const allot::Subject &subject, double is) {
    allot::Question question{.subject = subject};
    question.planned = what_.planned();
    question.others_held = false;
    question.within_range = false;
    question.joins = places_;
    work_.add(steps_of_part_);
    if (work_.spent()) return;
    const auto exact = nearest_value(part_.job, question, drawn_, is, solver_);
    const bool as_it_is = exact && std::abs(*exact - is) <= on_step * job_.tape_step.mm;
    if ((!exact || as_it_is) && !short_cloths().empty()) return try_for_stock(subject, is);
    if (!exact || as_it_is) return;
    for (const double to : steps_beyond(is, *exact, job_.tape_step.mm)) {
      if (!(to > 0) || !mends(with_length(part_.job, subject, is, to))) continue;
      if (const auto *edge = std::get_if<EdgeAt>(&subject))
        put(change::ToEdge{.at = EdgeAt(JoinId(part_.joins[edge->join.at]), edge->edge), .by = to - is, .to = to});
      else
        put(change::ToLength{.at = std::get<LengthId>(subject), .by = to - is, .to = to});
      return;
    }
  }

  /// Limits fall with weight: a full join wants a lighter cloth, a scant one a heavier.
  void try_weight() {
    bool full = false;
    bool scant = false;
    for (const int j : bad_joins()) {
      const Join &join = job_.joins[j];
      if (join.own_weight || (join.fabric.swatch && join.fabric.swatch->good)) return;
      full = full || plan_.joins[j].verdict == Verdict::too_full;
      scant = scant || plan_.joins[j].verdict == Verdict::too_scant;
    }
    if (full == scant) return;
    if (join_)
      take(what_.knots_of_join(*join_));
    else
      take_whole();
    const double is = cloth::weight(job_.fabric).grams;
    const int direction = full ? -1 : 1;
    const int first = full ? static_cast<int>(std::ceil(is)) - 1 : static_cast<int>(std::floor(is)) + 1;
    const auto mended_at = [&](int grams) { return mends_in_weight({static_cast<double>(grams)}); };
    // Ten grams at a time, then back gram by gram: no nearer weight can be passed over by more than a join's whole
    // zone.
    for (int grams = first; grams >= lightest && grams <= heaviest && !work_.spent(); grams += 10 * direction) {
      int found = grams;
      if (!mended_at(found)) continue;
      while (found != first && mended_at(found - direction))
        found -= direction;
      if (work_.spent()) return; // there may be a nearer one
      put(change::ToWeight{.by = found - is, .to = static_cast<double>(found)});
      return;
    }
  }

  /// Whether closest packing is what a segment's fullness passes: of gauging, which is known from it, already its most.
  bool packing_governs(int join, int s) const {
    const SegmentPlan &segment = plan_.joins[join].segments[s];
    if (segment.verdict == Verdict::cannot_be_gathered) return segment.fullness > segment.limits.packed;
    if (!(segment.fullness > segment.limits.most) || !(segment.limits.packed > 1)) return false;
    const Segment &asked = job_.joins[join].segments[s];
    return !is_below(segment.limits.most, segment.limits.packed) || (is_folded(asked.kind) && !asked.limits.most);
  }

  /// Where closest packing governs, a longer stitch takes more; one that is counted for gathering is no stitch to gauge
  /// with.
  void try_stitch(int join) {
    bool governs = false;
    bool gauged = false;
    for (int s = 0; s < static_cast<int>(job_.joins[join].segments.size()); ++s) {
      governs = governs || packing_governs(join, s);
      gauged = gauged || is_folded(job_.joins[join].segments[s].kind);
    }
    if (!governs) return;
    const JoinId place(part_.place_of(join));
    const double is = job_.joins[join].gathering.stitch.mm;
    const double step = stitch_step(job_.unit);
    double first = std::floor(is / step + 1e-9) + 1;
    if (gauged) first = std::max(first, std::ceil(note::shallow_fold / step));
    for (int n = 0; (first + n) * step <= longest_stitch && !work_.spent(); ++n) {
      const double stitch = (first + n) * step;
      if (!mends_worked(place, with_stitch(part_.job[place], {stitch}))) continue;
      put(change::ToStitch{.at = JoinId(join), .by = stitch - is, .to = stitch});
      return;
    }
  }

  void try_kinds(int join) {
    for (int s = 0; s < static_cast<int>(job_.joins[join].segments.size()) && !work_.spent(); ++s)
      try_kind(join, s);
  }

  bool has_less_than_band(int join) const {
    const auto &segments = plan_.joins[join].segments;
    return std::any_of(segments.begin(), segments.end(), [](const SegmentPlan &segment) {
      return segment.verdict == Verdict::cannot_be_gathered && segment.fullness < 1;
    });
  }

  /// The edges of a join written the wrong way round.
  void try_swap(int join) {
    work_.add(steps_of_part_);
    if (work_.spent()) return;
    const JoinId place(part_.place_of(join));
    const auto edges = with_drawn_swapped(part_.job, part_.edges, place);
    if (edges && mends(with_edges_swapped(part_.job, place), *edges)) put(change::Swap{JoinId(join)});
  }

  /// More fullness than the kind of a segment takes: flat to ease, ease to gather, gather to gauge.
  void try_kind(int join, int s) {
    const Segment &segment = job_.joins[join].segments[s];
    const std::optional<Kind> next = offered_next(segment.kind);
    if (!next) return;
    if (!takes_fullness(segment.kind)) {
      // A plain stretch that is all that is left has no place of its own to ease in.
      if (!segment.band && !segment.long_edge) return;
      if (job_.joins[join].long_edge.drawn() && !what_.edges()[join].long_edge->shear_expected()) return;
    }
    const JoinId place(part_.place_of(join));
    if (!mends_worked(place, with_kind(part_.job[place], s, *next))) return;
    put(change::ToKind{.at = SegmentAt(JoinId(join), s), .becomes = *next});
  }

  const WhatToTry &what_;
  const Job &job_;
  const Plan &plan_;
  std::optional<int> join_; ///< left out: the whole job
  WeighedParts &weighed_;
  optimum::Work &work_;
  std::vector<int> knots_; ///< of the part at hand
  PartOfJob part_;
  std::vector<allot::DrawnLengths> drawn_; ///< of the part
  std::optional<Foreseen> foreseen_;       ///< of the part
  std::vector<JoinId> places_;             ///< in the part, of the joins that must come within limits
  std::vector<JoinId> hopeless_;           ///< of these, what must itself be changed to come there
  std::int64_t steps_of_part_ = 0;
  optimum::Solver solver_;
  int stock_trials_ = 24; ///< each may look for many layouts
  std::vector<Remedy> found_;
};

/// Within a share of what is left of the work, which is taken from it. False: that was not enough.
bool search(const WhatToTry &what, std::optional<int> join, WeighedParts &weighed, std::int64_t share,
            optimum::Work &work, std::vector<Remedy> &found) {
  optimum::Work own(share);
  const std::vector<Remedy> remedies = RemedySearch(what, join, weighed, own).run();
  found.insert(found.end(), remedies.begin(), remedies.end());
  work.add(std::min(own.done(), share));
  return !own.spent();
}

} // namespace

bool give_remedies(const Job &job, Plan &plan, const DrawnEdges &edges, optimum::Work &work) {
  if (plan.verdict == Verdict::within_limits) return true;
  const DrawnEdges ready = ready_to_ease(job, edges);
  const WhatToTry what(job, plan, ready, work);
  WeighedParts weighed;
  const bool conflicts = plan.verdict == Verdict::rules_conflict;
  bool all = !work.spent();
  std::vector<Remedy> &found = plan.remedies;
  all = search(what, std::nullopt, weighed, conflicts ? work.left() : work.left() / 2, work, found) && all;
  if (!found.empty() || conflicts) return all;
  // Each join has an equal share, and what those before it have left of theirs.
  std::int64_t joins_left = static_cast<std::int64_t>(what.bad_joins().size());
  for (const int join : what.bad_joins())
    all = search(what, join, weighed, work.left() / joins_left--, work, found) && all;
  return all;
}

} // namespace gatherwright::advice
