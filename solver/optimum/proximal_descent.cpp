// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/optimum/proximal_descent.hpp"

#include "solver/optimum/dense.hpp"
#include "solver/optimum/tolerances.hpp"

#include <algorithm>
#include <cmath>

namespace gatherwright::optimum {

namespace {

/// After so many moves a little more than rounding will do for the slope; after the second the search has stalled.
constexpr int many_moves = 20;
constexpr int most_moves = 100;

/// The centre goes ahead at most this many times a move.
constexpr double most_ahead = 1e4;

} // namespace

void ProximalDescent::count_into(Work *work) {
  factor_.count_into(work);
  active_set_.count_into(work);
}

double ProximalDescent::Setting::first_weight() const {
  return greatest > 0 ? tolerance::proximal_share * greatest : 1;
}

/// The factor of the wishes, with a proximal term of this weight about the centre; where none is given, about 0.
void ProximalDescent::factor(const Layout &layout, double weight, std::span<const double> centre) {
  factor_.reset(layout, weight);
  if (weight > 0 && !centre.empty()) factor_.aim_at(centre);
  factor_.insert(wishes_);
}

/// Factors the wishes; where they leave unknowns open, with a proximal term, whose weight is returned, else 0.
double ProximalDescent::factor_wishes(const Setting &setting) {
  if (wishes_.size() >= setting.layout.size()) {
    factor(setting.layout, 0, {});
    if (factor_.least_pivot() > tolerance::open_share * factor_.greatest_pivot()) {
      factor_.finish();
      return 0;
    }
  }
  factor(setting.layout, setting.first_weight(), {});
  factor_.finish();
  return setting.first_weight();
}

ProximalDescent::Ended ProximalDescent::meet_wishes(const Rows &wishes, const Constraints &constraints,
                                                    Reduction &reduction, Magnitude &magnitude) {
  wishes_.clear();
  reduction.append(wishes, wishes_);
  magnitude.see(wishes_.all());
  magnitude.settle();
  const Setting setting{constraints, reduction.layout(), magnitude.size(), largest(wishes_.all_terms())};
  const double weight = factor_wishes(setting);
  Outcome outcome = active_set_.solve(factor_, constraints, setting.magnitude);
  const bool moving = weight > 0 && wishes.size() > 0;
  if (outcome == Outcome::optimal && moving) {
    centre_.assign(factor_.size(), 0.0);
    outcome = move_centre_to_rest(setting, weight);
  }
  return {outcome, weight == 0};
}

ProximalDescent::Outcome ProximalDescent::miss_least(const Constraints &constraints, const Layout &layout,
                                                     double magnitude, std::span<const double> near) {
  double greatest = 0;
  for (int i = constraints.soft_from; i < constraints.size(); ++i)
    greatest = std::max(greatest, largest(constraints.rows.view(i).terms));
  wishes_.clear();
  const Setting setting{constraints, layout, magnitude, greatest};
  // Numbers beyond those at hand would be rounded at their own size.
  if (std::all_of(near.begin(), near.end(), [&](double c) { return std::abs(c) <= magnitude; }))
    centre_.assign(near.begin(), near.end());
  else
    centre_.assign(layout.size(), 0.0);
  factor(layout, setting.first_weight(), centre_);
  factor_.finish();
  const Outcome outcome = active_set_.solve(factor_, constraints, magnitude);
  return outcome == Outcome::optimal ? move_centre_to_rest(setting, setting.first_weight()) : outcome;
}

ProximalDescent::Outcome ProximalDescent::draw(std::span<const double> towards, const Constraints &constraints,
                                               const Layout &layout, double magnitude) {
  factor_.reset(layout, 1);
  factor_.aim_at(towards);
  factor_.finish();
  return active_set_.solve(factor_, constraints, magnitude);
}

/// Moves the centre to the point until it stands still. What wishes see only weakly comes near by a constant share in
/// each move: the weight is lessened first, then the centre goes ahead to where such moves would end.
ProximalDescent::Outcome ProximalDescent::move_centre_to_rest(const Setting &setting, double weight) {
  const std::size_t open = factor_.size();
  for (std::vector<double> *room : {&step_, &last_step_, &moved_})
    room->resize(open);
  double before = HUGE_VAL;
  bool comparable = false; // the last move was a plain one, of this weight and active set
  for (int moves = 0; moves < most_moves; ++moves) {
    const std::span<const double> point = active_set_.point();
    for (std::size_t c = 0; c < open; ++c)
      step_[c] = point[c] - centre_[c];
    const double longest = largest(step_);
    const double share = setting.share_of(weight);
    if (longest <= tolerance::still * setting.magnitude / share) return Outcome::optimal;
    const bool is_slow = !(longest <= tolerance::slow * before);
    const double slope = share * share * longest / setting.magnitude;
    if (is_slow && slope <= (moves < many_moves ? tolerance::no_slope : tolerance::little_slope))
      return Outcome::optimal;
    before = longest;
    Outcome outcome = Outcome::optimal;
    if (is_slow && moves > 0 && share > tolerance::least_proximal_share) {
      weight *= tolerance::least_proximal_share / share;
      outcome = begin_at_point(setting, weight);
      before = HUGE_VAL;
      comparable = false;
    } else {
      const double ahead = comparable && is_slow && active_set_.changes() == 0 ? how_far_ahead() : 1;
      outcome = move_centre(weight, ahead);
      comparable = ahead == 1;
    }
    if (outcome != Outcome::optimal) return outcome;
  }
  return Outcome::stalled;
}

/// Begins again with a proximal term of another weight, about the point.
ProximalDescent::Outcome ProximalDescent::begin_at_point(const Setting &setting, double weight) {
  centre_.assign(active_set_.point().begin(), active_set_.point().end());
  factor(setting.layout, weight, centre_);
  factor_.finish();
  return active_set_.solve(factor_, setting.constraints, setting.magnitude);
}

/// How many times the step to the point leads to where steps of which each is the same share of the one before would
/// end (Aitken); 1 where they are no such steps.
double ProximalDescent::how_far_ahead() const {
  const double along = dot(step_, last_step_);
  const double square = dot(last_step_, last_step_);
  return along > 0 && along < square ? std::min(1 / (1 - along / square), most_ahead) : 1;
}

ProximalDescent::Outcome ProximalDescent::move_centre(double weight, double ahead) {
  last_step_.swap(step_);
  for (std::size_t c = 0; c < centre_.size(); ++c) {
    step_[c] = ahead * last_step_[c];
    centre_[c] += step_[c];
  }
  factor_.move_centre(weight, step_, moved_);
  return active_set_.solve_again(moved_);
}

} // namespace gatherwright::optimum
