// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/advice/savings.hpp"

#include "solver/advice/dependence.hpp"
#include "solver/advice/held_job.hpp"
#include "solver/advice/moved_pieces.hpp"
#include "solver/advice/nearest.hpp"
#include "solver/layout/lay.hpp"
#include "solver/piece/layouts.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

namespace gatherwright::advice {

namespace {

/// Of one question whether the pieces fit; what it finds is laid as thoroughly as the plan's own.
constexpr layout::Budget of_a_question{2'000'000, 100'000};

/// Where pieces grow and shrink with one length nothing orders its values: so many steps either way are looked at.
constexpr int steps_looked_at = 60;

/// What is saved is a whole step but for rounding.
constexpr double rounding = 1e-9;

class SavingSearch {
public:
  SavingSearch(const Job &job, const Plan &plan, const DrawnEdges &edges, optimum::Work &work)
      : job_(job), plan_(plan), edges_(edges), work_(work), dependents_(job), pieces_(job, plan),
        step_(job.tape_step.mm), words_() {}

  std::vector<Saving> run() {
    for (int i = 0; i < static_cast<int>(job_.lengths.size()) && !work_.spent(); ++i) {
      if (job_.lengths[i].keep || !plan_.lengths[i].room) continue;
      length_ = LengthId(i);
      on_it_ = dependents_.of(i);
      if (on_it_.pieces.empty()) continue;
      try_cloths();
    }
    std::stable_sort(found_.begin(), found_.end(), [](const Saving &a, const Saving &b) { return a.saves > b.saves; });
    return std::move(found_);
  }

private:
  void try_cloths() {
    is_ = *plan_.lengths[length_.at].is;
    const Interval room = *plan_.lengths[length_.at].room;
    first_ = static_cast<std::int64_t>(std::ceil(std::max(room.low.value_or(0), step_) / step_ - on_step));
    const double high = room.high.value_or(is_ + steps_looked_at * step_);
    last_ = static_cast<std::int64_t>(std::floor(high / step_ + on_step));
    const std::vector<Cloth> &all = pieces_.cloths().cloths;
    for (const ClothPlan &cloth : plan_.cloth) {
      cloth_ = ClothId(static_cast<int>(std::find(all.begin(), all.end(), cloth.cloth) - all.begin()));
      const auto [grows, shrinks] = pieces_.ways(on_it_, cloth_, is_);
      if (grows || shrinks) try_cloth(cloth, grows, shrinks);
    }
  }

  void try_cloth(const ClothPlan &cloth, bool grows, bool shrinks) {
    most_ = (cloth.buy - cloth.cloth.sold_by.mm) * (1 - cloth.cloth.shrinkage.along);
    if (!(most_ > 0)) return;
    const auto below = static_cast<std::int64_t>(std::ceil(is_ / step_ - on_step)) - 1;
    const auto above = static_cast<std::int64_t>(std::floor(is_ / step_ + on_step)) + 1;
    std::optional<std::int64_t> steps;
    if (grows && shrinks)
      steps = nearest_looked_at(below, above);
    else if (grows)
      steps = furthest_from(first_, below);
    else
      steps = furthest_from(last_, above);
    if (steps) say(cloth, static_cast<double>(*steps) * step_);
  }

  /// Of the values from an end of the room to the step beside the present value the last that fits: all before it do.
  std::optional<std::int64_t> furthest_from(std::int64_t end, std::int64_t beside) {
    const std::int64_t way = beside >= end ? 1 : -1;
    if (beside < first_ || beside > last_ || !fits(end)) return std::nullopt;
    std::int64_t fits_at = end;
    std::int64_t fails_at = beside + way;
    while (std::abs(fails_at - fits_at) > 1) {
      const std::int64_t middle = fits_at + (fails_at - fits_at) / 2;
      (fits(middle) ? fits_at : fails_at) = middle;
    }
    return fits_at;
  }

  std::optional<std::int64_t> nearest_looked_at(std::int64_t below, std::int64_t above) {
    for (int n = 0; n < steps_looked_at; ++n) {
      const std::int64_t less = below - n;
      const std::int64_t more = above + n;
      const bool less_is_nearer =
          is_ - static_cast<double>(less) * step_ <= static_cast<double>(more) * step_ - is_ + on_step * step_;
      for (const std::int64_t steps : {less_is_nearer ? less : more, less_is_nearer ? more : less})
        if (steps >= first_ && steps <= last_ && fits(steps)) return steps;
    }
    return std::nullopt;
  }

  std::optional<layout::Problem> problem_at(double value) {
    const auto sizes = pieces_.sizes_at(on_it_, value);
    if (!sizes) return std::nullopt;
    layout::Problem problem = piece::problem_of(job_, pieces_.cloths(), cloth_, *sizes);
    if (problem.rectangles.empty() || layout::misfit(problem)) return std::nullopt;
    return problem;
  }

  bool fits(std::int64_t steps) {
    const auto problem = problem_at(static_cast<double>(steps) * step_);
    if (!problem) return false;
    for (const layout::Rectangle &rectangle : problem->rectangles)
      work_.add(rectangle.count);
    if (work_.spent()) return false;
    return layout::fits(*problem, most_, of_a_question).answer == layout::Fitting::Answer::fits;
  }

  void say(const ClothPlan &cloth, double value) {
    if (work_.spent()) return;
    if (!held_) held_.emplace(job_, plan_, edges_, words_);
    held_->take(length_.at, on_it_);
    const std::optional<Plan> again = held_->with(value);
    if (!again || again->verdict != Verdict::within_limits) return;
    const auto problem = problem_at(value);
    if (!problem) return;
    double length = layout::lay(*problem, piece::budget_of_one(pieces_.cloths().cloths.size())).length;
    if (length > most_ * (1 + rounding))
      if (const layout::Fitting fitting = layout::fits(*problem, most_, of_a_question); fitting.layout)
        length = fitting.layout->length;
    const double saves = cloth.buy - length / (1 - cloth.cloth.shrinkage.along);
    if (saves < cloth.cloth.sold_by.mm * (1 - rounding)) return;
    found_.push_back({.at = length_, .by = value - is_, .to = value, .cloth = cloth_, .saves = saves});
  }

  const Job &job_;
  const Plan &plan_;
  const DrawnEdges &edges_;
  optimum::Work &work_;
  Dependents dependents_;
  MovedPieces pieces_;
  double step_;
  optimum::Work words_; ///< of planning what was found, which is little
  std::optional<HeldJob> held_;
  LengthId length_{0};
  Dependence on_it_;
  ClothId cloth_{0};
  double is_ = 0;
  double most_ = 0; ///< of a layout that saves a step
  std::int64_t first_ = 0;
  std::int64_t last_ = 0; ///< of the room, in steps
  std::vector<Saving> found_;
};

} // namespace

bool find_savings(const Job &job, Plan &plan, const DrawnEdges &edges, optimum::Work &work) {
  if (plan.verdict != Verdict::within_limits || plan.cloth.empty()) return true;
  plan.savings = SavingSearch(job, plan, edges, work).run();
  return !work.spent();
}

} // namespace gatherwright::advice
