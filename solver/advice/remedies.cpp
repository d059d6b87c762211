// SPDX-License-Identifier: GPL-3.0-or-later
#include "advice/remedies.hpp"

#include "advice/change.hpp"
#include "advice/dependence.hpp"
#include "cloth/limits.hpp"
#include "optimum/hierarchy.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace gatherwright::advice {

namespace {

/// A value this near to a tape step, in steps, is on it.
constexpr double on_step = 1e-6;

/// Cloth weights are tried gram by gram between these, the range of the table over weights.
constexpr int lightest = 40;
constexpr int heaviest = 400;

/// Stitches are tried by half millimetres up to this; longer ones gather unevenly (common practice, no source).
constexpr double longest_stitch = 12.0;
constexpr double stitch_step = 0.5;

/// Looks for remedies of the whole job (`join` -1) or of one join.
class Search {
public:
  Search(const Job &job, const Plan &plan, const DrawnEdges &edges, int join)
      : job_(job), plan_(plan), edges_(edges), drawn_(lengths_of(edges)), join_(join) {
    for (const LengthPlan &length : plan.lengths)
      planned_.push_back(length.is);
    if (join < 0)
      for (int j = 0; j < static_cast<int>(job.joins.size()); ++j)
        joins_.push_back(j);
    else
      joins_.push_back(join);
  }

  std::vector<Remedy> run() {
    if (plan_.verdict == Verdict::rules_conflict) {
      try_lengths_in_conflict();
      sort_by_share();
      for (const Condition &condition : plan_.conflict)
        if (condition.kind == Condition::Kind::flat) try_kind(condition.join, condition.segment);
      return std::move(found_);
    }
    try_lengths();
    sort_by_share();
    try_weight();
    for (const int j : bad_joins())
      try_stitch(j);
    for (const int j : bad_joins())
      try_kinds(j);
    return std::move(found_);
  }

private:
  static double share(const Remedy &remedy) {
    const double is = remedy.to - remedy.by;
    return is > 0 ? std::abs(remedy.by) / is : HUGE_VAL;
  }

  void sort_by_share() {
    std::stable_sort(found_.begin(), found_.end(),
                     [](const Remedy &a, const Remedy &b) { return share(a) < share(b); });
  }

  std::vector<int> bad_joins() const {
    std::vector<int> bad;
    for (const int j : joins_)
      if (plan_.joins[j].verdict != Verdict::within_limits) bad.push_back(j);
    return bad;
  }

  bool mends(const Job &changed) const {
    const std::optional<Plan> again = planned_again(changed, edges_);
    return again && mended(*again, join_);
  }

  void put(Remedy remedy) {
    remedy.join = join_;
    found_.push_back(remedy);
  }

  bool names_length(const Formula &formula) const {
    return std::any_of(formula.steps.begin(), formula.steps.end(), [&](const Formula::Step &step) {
      const int length = step.symbol - static_cast<int>(job_.measures.size());
      return step.code == Formula::Code::symbol && length >= 0 && length < static_cast<int>(job_.lengths.size());
    });
  }

  /// A broken rule stays broken unless it depends on what is changed.
  bool could_mend_rules(const std::vector<int> &rules) const {
    if (join_ >= 0) return true;
    for (int r = 0; r < static_cast<int>(plan_.rules.size()); ++r)
      if (!plan_.rules[r].holds && !std::binary_search(rules.begin(), rules.end(), r)) return false;
    return true;
  }

  void try_lengths() {
    const std::vector<Dependence> all = dependences(job_);
    for (int i = 0; i < static_cast<int>(job_.lengths.size()); ++i) {
      if (job_.lengths[i].keep || !could_mend_rules(all[i].rules)) continue;
      try_length(i, planned_[i]);
    }
    if (!could_mend_rules({})) return;
    for (const int j : joins_) {
      if (has_no_name(job_.joins[j].long_edge)) try_edge(j, false, plan_.joins[j].long_length);
      if (has_no_name(job_.joins[j].band)) try_edge(j, true, plan_.joins[j].band);
    }
  }

  /// An edge that is given where it stands.
  bool has_no_name(const Edge &edge) const { return !edge.drawn && !names_length(edge.length); }

  void try_length(int length, double is) {
    allot::Subject subject;
    subject.length = length;
    try_subject(subject, is);
  }

  void try_edge(int join, bool of_band, double is) {
    allot::Subject subject;
    subject.join = join;
    subject.of_band = of_band;
    try_subject(subject, is);
  }

  /// What the rules leave no value for has none to change: only lengths that are fixed, and the ends of ranges and the
  /// edges without a name that are part of the conflict.
  void try_lengths_in_conflict() {
    for (int i = 0; i < static_cast<int>(job_.lengths.size()); ++i) {
      if (job_.lengths[i].keep || job_.lengths[i].free || !plan_.lengths[i].known) continue;
      try_length(i, planned_[i]);
    }
    for (const Condition &condition : plan_.conflict) {
      const bool is_from = condition.kind == Condition::Kind::from;
      const bool of_band = condition.kind == Condition::Kind::band_adds_up;
      if (is_from || condition.kind == Condition::Kind::to) {
        const NamedLength &length = job_.lengths[condition.length];
        if (length.keep) continue;
        if (const auto end = fixed_value(is_from ? length.from : length.to)) try_length(condition.length, *end);
      } else if (of_band || condition.kind == Condition::Kind::long_adds_up) {
        const Join &join = job_.joins[condition.join];
        const Edge &edge = of_band ? join.band : join.long_edge;
        if (!has_no_name(edge)) continue;
        if (const auto is = fixed_value(edge.length)) try_edge(condition.join, of_band, *is);
      }
    }
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
      if (plan_.lengths[i].known) values[job_.symbol_of_length(i)].constant = plan_.lengths[i].is;
    if (job_.fabric.width) values[job_.symbol_of_cloth_width()].constant = job_.fabric.width->mm;
    return values;
  }

  void try_subject(const allot::Subject &subject, double is) {
    allot::Question question;
    question.subject = subject;
    question.planned = planned_;
    question.others_held = false;
    question.within_range = false;
    question.joins = joins_;
    auto asked = allot::scheme(job_, question, drawn_);
    if (!asked) return;
    asked->scheme.problem.wishes[0].add(std::array<optimum::Term, 1>{{{asked->column, 1.0}}}, is);
    const optimum::Solution &nearest = solver_.solve(asked->scheme.problem, optimum::Hierarchy::Wanted::point);
    if (nearest.status != optimum::Status::optimal) return;
    const double exact = nearest.x[asked->column];
    const double step = job_.tape_step.mm;
    const double steps = exact / step;
    if (std::abs(exact - is) <= on_step * step) return;
    const double direction = exact > is ? 1 : -1;
    const double nearest_step = std::round(steps);
    const bool on = std::abs(steps - nearest_step) <= on_step;
    const double first = on ? nearest_step : direction > 0 ? std::ceil(steps) : std::floor(steps);
    for (int k = 0; k < 2; ++k) {
      const double to = (first + direction * k) * step;
      if (!(to > 0) || !mends(with_length(job_, subject, is, to))) continue;
      Remedy remedy;
      remedy.kind = subject.is_length() ? Remedy::Kind::length
                    : subject.of_band   ? Remedy::Kind::band
                                        : Remedy::Kind::long_edge;
      remedy.length = subject.length;
      remedy.edge_join = subject.join;
      remedy.to = to;
      remedy.by = to - is;
      put(remedy);
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
    const double is = cloth::weight(job_.fabric).grams;
    const int direction = full ? -1 : 1;
    const int first = full ? static_cast<int>(std::ceil(is)) - 1 : static_cast<int>(std::floor(is)) + 1;
    const auto mended_at = [&](int grams) { return mends(with_weight(job_, {static_cast<double>(grams)})); };
    // Ten grams at a time, then back gram by gram: no nearer weight can be passed over by more than a join's whole
    // zone.
    for (int grams = first; grams >= lightest && grams <= heaviest; grams += 10 * direction) {
      int found = grams;
      if (!mended_at(found)) continue;
      while (found != first && mended_at(found - direction))
        found -= direction;
      Remedy remedy;
      remedy.kind = Remedy::Kind::cloth_weight;
      remedy.to = found;
      remedy.by = found - is;
      put(remedy);
      return;
    }
  }

  /// Where closest packing governs, a longer stitch takes more.
  void try_stitch(int join) {
    const auto &segments = plan_.joins[join].segments;
    const bool governs = std::any_of(segments.begin(), segments.end(), [](const SegmentPlan &segment) {
      return segment.fullness > segment.limits.most && segment.limits.most >= segment.limits.packed * (1 - 1e-9) &&
             segment.limits.packed > 1;
    });
    const bool packed = std::any_of(segments.begin(), segments.end(), [](const SegmentPlan &segment) {
      return segment.verdict == Verdict::cannot_be_gathered && segment.fullness > segment.limits.packed;
    });
    if (!governs && !packed) return;
    const double is = job_.joins[join].gathering.stitch.mm;
    const double first = std::floor(is / stitch_step) + 1;
    for (int n = 0; (first + n) * stitch_step <= longest_stitch; ++n) {
      const double stitch = (first + n) * stitch_step;
      if (!mends(with_stitch(job_, join, {stitch}))) continue;
      Remedy remedy;
      remedy.kind = Remedy::Kind::stitch;
      remedy.edge_join = join;
      remedy.to = stitch;
      remedy.by = stitch - is;
      put(remedy);
      return;
    }
  }

  void try_kinds(int join) {
    for (int s = 0; s < static_cast<int>(job_.joins[join].segments.size()); ++s)
      try_kind(join, s);
  }

  /// More fullness than the kind of a segment takes: flat to ease, ease to gather, gather to gauge.
  void try_kind(int join, int s) {
    const Segment &segment = job_.joins[join].segments[s];
    Kind next = Kind::ease;
    switch (segment.kind) {
    case Kind::flat:
      // A plain stretch that is all that is left has no place of its own to ease in.
      if (segment.band.steps.empty() && segment.long_edge.steps.empty()) return;
      if (job_.joins[join].long_edge.drawn && !edges_[join].long_edge->shear_expected()) return;
      next = Kind::ease;
      break;
    case Kind::ease:
      next = Kind::gather;
      break;
    case Kind::gather:
      next = Kind::gauge;
      break;
    default:
      return;
    }
    if (!mends(with_kind(job_, join, s, next))) return;
    Remedy remedy;
    remedy.kind = Remedy::Kind::kind;
    remedy.edge_join = join;
    remedy.segment = s;
    remedy.becomes = next;
    put(remedy);
  }

  const Job &job_;
  const Plan &plan_;
  const DrawnEdges &edges_;
  std::vector<allot::DrawnLengths> drawn_;
  int join_;
  std::vector<double> planned_;
  std::vector<int> joins_;
  optimum::Hierarchy solver_;
  std::vector<Remedy> found_;
};

} // namespace

std::vector<Remedy> remedies(const Job &job, const Plan &plan, const DrawnEdges &edges) {
  if (plan.verdict == Verdict::within_limits) return {};
  const DrawnEdges ready = ready_to_ease(job, edges);
  std::vector<Remedy> found = Search(job, plan, ready, -1).run();
  if (!found.empty() || plan.verdict == Verdict::rules_conflict) return found;
  for (std::size_t j = 0; j < plan.joins.size(); ++j) {
    if (plan.joins[j].verdict == Verdict::within_limits) continue;
    std::vector<Remedy> own = Search(job, plan, ready, static_cast<int>(j)).run();
    found.insert(found.end(), own.begin(), own.end());
  }
  return found;
}

} // namespace gatherwright::advice
