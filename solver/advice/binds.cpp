// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/advice/binds.hpp"

#include "gatherwright/cloths.hpp"
#include "solver/advice/held_job.hpp"
#include "solver/advice/moved.hpp"
#include "solver/advice/piece_reach.hpp"
#include "solver/job/beyond.hpp"
#include "solver/piece/sizes.hpp"
#include "solver/plan/findings.hpp"
#include "solver/plan/segments.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string_view>
#include <utility>

namespace gatherwright::advice {

namespace {

using End = condition::InRange::End;

/// An end of a room is an end of a range where they are this share of a step apart.
constexpr double same_place = 1e-6;

/// Each end of a room may tell a name as long as the job's text, so each byte of a long one counts as so many steps.
constexpr std::int64_t steps_a_byte = 20;
constexpr std::int64_t long_name = 100; ///< bytes; what is no longer costs nothing to speak of

/// What the names come to that are told of something.
struct NameBytes {
  const Job &job;

  template <class Thing> std::size_t operator()(Id<Thing> at) const { return job[at].name.size(); }
  std::size_t operator()(ClothId at) const { return std::string_view(cloths_of(job).cloths.at(at.at).name).size(); }
  std::size_t operator()(SegmentAt at) const { return (*this)(at.join) + job[at].name.size(); }
  std::size_t operator()(EdgeAt at) const { return (*this)(at.join); }
  std::size_t operator()(SideAt at) const { return (*this)(at.piece); }
  std::size_t operator()(PartAt at) const { return (*this)(at.side); }

  std::size_t operator()(const BelowNothing &below) const { return (*this)(below.at); }
  std::size_t operator()(const Refusal &refusal) const { return of_alternative(place_of(refusal)); }
  template <class... Of> std::size_t operator()(const std::variant<Of...> &of) const { return of_alternative(of); }

private:
  template <class Variant> std::size_t of_alternative(const Variant &variant) const {
    return std::visit(
        [&](const auto &of) {
          if constexpr (requires { of.at; }) return (*this)(of.at);
          return std::size_t{0};
        },
        variant);
  }
};

/// One length after another, put one step beyond the ends of its room.
class TrialsBeyond {
public:
  TrialsBeyond(const Job &job, const Plan &plan, const DrawnEdges &edges, optimum::Work &work)
      : job_(job), plan_(plan), edges_(edges), moved_(job, plan), step_(job.tape_step.mm), work_(work) {}

  void take(LengthId length, const Dependence &on_it) {
    length_ = length;
    on_it_ = &on_it;
    held_for_ = false;
  }

  /// What would no longer hold on the far side of an end of its room. `kept`: what set that end, where it is known.
  std::optional<Binding> beyond(double end, End which, const std::optional<KeptEnd> &kept) {
    const bool low = which == End::from;
    if (low && !(end > 0)) return BelowNothing{length_};
    std::optional<double> own;
    if (job_[length_].free()) {
      moved_.move(*on_it_, end);
      own = bound_of(length_, which);
    }
    if (own && std::abs(*own - end) <= same_place * step_) return condition::InRange{length_, which};
    double value = low ? std::max(end - step_, end / 2) : end + step_;
    if (own) value = low ? std::max(value, *own) : std::min(value, *own);
    moved_.move(*on_it_, value);
    if (auto length = beyond_range()) return length;
    if (kept && kept->at == end)
      if (auto found = found_in(kept->by)) return found;
    return planned_at(value);
  }

private:
  /// An end of a free length's range, with what moves as it has moved.
  std::optional<double> bound_of(LengthId at, End which) const {
    const FreeLength *free = job_[at].free();
    if (!free) return std::nullopt;
    const std::optional<Formula> &bound = which == End::from ? free->from : free->to;
    return bound ? moved_.value(*bound) : std::nullopt;
  }

  /// A length that comes out below 0, or another that is beyond its range.
  std::optional<Binding> beyond_range() const {
    for (const int other : on_it_->lengths)
      if (moved_.length(LengthId(other)) < 0) return BelowNothing{LengthId(other)};
    for (const int other : on_it_->ranged) {
      const LengthId at(other);
      if (at == length_) continue;
      const auto from = bound_of(at, End::from);
      if (from && is_above(*from, moved_.length(at))) return condition::InRange{at, End::from};
      const auto to = bound_of(at, End::to);
      if (to && is_above(moved_.length(at), *to)) return condition::InRange{at, End::to};
    }
    return std::nullopt;
  }

  /// What is wrong with the one thing that set the end, where that can be told without planning it.
  std::optional<Binding> found_in(Kept by) {
    switch (by.what) {
    case Kept::What::rule:
      return broken(RuleId(by.at));
    case Kept::What::join:
      return past_limit(JoinId(by.at));
    case Kept::What::width:
      return too_wide(PieceId(by.at));
    case Kept::What::other:
      break;
    }
    return std::nullopt;
  }

  std::optional<Binding> broken(RuleId at) const {
    const Comparison &rule = job_[at].holds;
    work_.add(static_cast<std::int64_t>(rule.left.steps().size() + rule.right.steps().size()));
    const auto left = moved_.value(rule.left);
    const auto right = moved_.value(rule.right);
    if (!left || !right || holds(rule.relation, *left, *right, std::abs(*left) + std::abs(*right))) return std::nullopt;
    return finding::RuleBroken{.at = at, .left = *left, .right = *right};
  }

  /// The first stretch of a join that passes a limit, in closed form: those that are given both lengths by these, those
  /// that take the rest of the cloth each by as much of it as its share of their bands. Nothing where a band is found
  /// by its cloth or beside a plain stretch that is to be found, where a fade may be what fails, or nothing fails.
  std::optional<Binding> past_limit(JoinId at) {
    const std::vector<Segment> &segments = job_[at].segments;
    const auto cloth = edge_of(at, WhichEdge::long_edge);
    const auto band = edge_of(at, WhichEdge::band);
    if (!cloth || !band) return std::nullopt;
    stretches_.clear();
    double cloth_left = *cloth;
    double band_left = *band;
    int sharing = 0;
    for (const Segment &segment : segments) {
      const Stretch &stretch = stretches_.emplace_back(stretch_of(segment));
      if (std::holds_alternative<Fade>(segment.spread)) return std::nullopt;
      if (!stretch.band && (stretch.cloth || !takes_fullness(segment.kind))) return std::nullopt;
      cloth_left -= stretch.cloth.value_or(0);
      band_left -= stretch.band.value_or(0);
      if (!stretch.band) ++sharing;
    }
    for (Stretch &stretch : stretches_)
      if (!stretch.band) stretch.band = band_left / sharing;
    share_cloth(at, cloth_left);
    return first_past(at);
  }

  /// What a stretch has, where that is known.
  struct Stretch {
    std::optional<double> cloth;
    std::optional<double> band;
  };

  Stretch stretch_of(const Segment &segment) const {
    const auto is = [this](const std::optional<Formula> &given) { return given ? moved_.value(*given) : std::nullopt; };
    const std::optional<Formula> &cloth = given_on(segment, WhichEdge::long_edge);
    const std::optional<Formula> &band = given_on(segment, WhichEdge::band);
    const std::optional<double> length = is(cloth);
    return {length, &band == &cloth ? length : is(band)};
  }

  std::optional<double> edge_of(JoinId at, WhichEdge which) const {
    const Edge &edge = job_[EdgeAt(at, which)];
    if (const Formula *formula = edge.formula()) return moved_.value(*formula);
    return which == WhichEdge::band ? plan_.joins[at.at].band : plan_.joins[at.at].long_length;
  }

  /// Of stretches that want cloth each has its most, or its least, and what is over or wanting by its share of the
  /// band.
  void share_cloth(JoinId at, double cloth) {
    double bands = 0;
    double least = 0;
    double most = 0;
    for (std::size_t s = 0; s < stretches_.size(); ++s) {
      if (stretches_[s].cloth) continue;
      const Limits &limits = limits_of(at, s);
      bands += *stretches_[s].band;
      least += limits.least * *stretches_[s].band;
      most += limits.most * *stretches_[s].band;
    }
    for (std::size_t s = 0; s < stretches_.size(); ++s) {
      if (stretches_[s].cloth) continue;
      const Limits &limits = limits_of(at, s);
      const double fullness = cloth > most    ? limits.most + (cloth - most) / bands
                              : cloth < least ? limits.least - (least - cloth) / bands
                                              : limits.least;
      stretches_[s].cloth = fullness * *stretches_[s].band;
    }
  }

  const Limits &limits_of(JoinId at, std::size_t segment) const { return plan_.joins[at.at].segments[segment].limits; }

  std::optional<Binding> first_past(JoinId at) const {
    std::optional<Binding> first;
    for (std::size_t s = 0; s < stretches_.size(); ++s) {
      const SolvedSegment solved{*stretches_[s].cloth, *stretches_[s].band};
      if (!(solved.long_length >= 0) || !(solved.band > 0)) return std::nullopt;
      const Kind kind = job_[at].segments[s].kind;
      if (first || verdict_of(kind, solved, limits_of(at, s)) == Verdict::within_limits) continue;
      const SegmentPlan judged = judged_segment(kind, solved, limits_of(at, s));
      first.emplace(*finding_of(SegmentAt(at, static_cast<int>(s)), judged));
    }
    return first;
  }

  std::optional<Binding> too_wide(PieceId at) const {
    const std::optional<piece::Sizes> sizes = moved_.sizes(at);
    if (!sizes) return std::nullopt;
    if (const auto wide = piece::too_wide(job_, at, *sizes)) return *wide;
    return std::nullopt;
  }

  std::optional<Binding> planned_at(double value) {
    if (!held_) held_.emplace(job_, plan_, edges_, work_);
    if (!std::exchange(held_for_, true)) held_->take(length_.at, *on_it_);
    const std::optional<PlanOutcome> outcome = held_->tried(value);
    if (!outcome || work_.spent()) return std::nullopt;
    if (!*outcome) return renumbered(outcome->fault().front(), held_->numbers());
    const Plan &plan = **outcome;
    if (!plan.findings.empty()) return renumbered(plan.findings.front(), held_->numbers());
    if (plan.verdict != Verdict::rules_conflict) return std::nullopt;
    const std::optional<Conflict> conflict = held_->conflict();
    if (!conflict || conflict->conditions.empty()) return std::nullopt;
    return renumbered(conflict->conditions.front(), held_->numbers());
  }

  const Job &job_;
  const Plan &plan_;
  const DrawnEdges &edges_;
  Moved moved_;
  double step_;
  optimum::Work &work_;
  LengthId length_{0};
  const Dependence *on_it_ = nullptr;
  std::optional<HeldJob> held_;    ///< only where something must be planned
  bool held_for_ = false;          ///< the length at hand has been taken up
  std::vector<Stretch> stretches_; ///< of the join at hand
};

} // namespace

bool say_what_binds(const Job &job, Plan &plan, const DrawnEdges &edges, const Dependents &dependents,
                    std::span<const KeptEnds> kept, optimum::Work &work) {
  const auto has_room = [](const LengthPlan &length) { return length.room.has_value(); };
  const auto told = [&](std::optional<Binding> binding) {
    const auto bytes = static_cast<std::int64_t>(binding ? std::visit(NameBytes{job}, *binding) : 0);
    if (bytes > long_name) work.add(steps_a_byte * bytes);
    return binding;
  };
  if (std::none_of(plan.lengths.begin(), plan.lengths.end(), has_room)) return true;
  TrialsBeyond trials(job, plan, edges, work);
  Dependence on_it;
  for (int i = 0; i < static_cast<int>(plan.lengths.size()) && !work.spent(); ++i) {
    LengthPlan &length = plan.lengths[i];
    if (!length.room || (!length.room->low && !length.room->high)) continue;
    dependents.find(i, on_it);
    work.add(steps_through(job, on_it));
    trials.take(LengthId(i), on_it);
    const KeptEnds ends = i < static_cast<int>(kept.size()) ? kept[i] : KeptEnds();
    if (length.room->low && !length.binds[0])
      length.binds[0] = told(trials.beyond(*length.room->low, End::from, ends[0]));
    if (length.room->high && !length.binds[1])
      length.binds[1] = told(trials.beyond(*length.room->high, End::to, ends[1]));
  }
  return !work.spent();
}

} // namespace gatherwright::advice
