// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/optimum/active_set.hpp"
#include "solver/optimum/arrow_factor.hpp"
#include "solver/optimum/magnitude.hpp"
#include "solver/optimum/problem.hpp"
#include "solver/optimum/reduced_rows.hpp"
#include "solver/optimum/reduction.hpp"
#include "solver/optimum/work.hpp"

#include <span>
#include <vector>

namespace gatherwright::optimum {

/// Least squares under constraints, where the squares may leave unknowns open: a proximal term centred on the point
/// then makes them strictly convex, and the centre moves to the solution until it stands still, so the term vanishes
/// and no weight is left in the answer (Rockafellar, SIAM J. Control Optim. 14 (1976) 877-898: for such problems the
/// centre comes to rest after finitely many moves).
///
/// Whatever is solved, the active set tells its answer: by how much the point moves, and the multipliers.
class ProximalDescent {
public:
  using Outcome = ActiveSet::Outcome;

  void count_into(Work *work);

  struct Ended {
    Outcome outcome = Outcome::optimal;
    bool regular = false; ///< the wishes left nothing open
  };

  /// Least squares of wishes. Where there are none, the proximal term alone chooses the nearest point.
  Ended meet_wishes(const Rows &wishes, const Constraints &constraints, Reduction &reduction, Magnitude &magnitude);

  /// Least squares of what soft constraints are missed by; of points that miss as little, one near to where it begins.
  /// A point that keeps many of them, as a search for one that keeps all of them ends at, is a good place for that:
  /// few are left to be looked at.
  Outcome miss_least(const Constraints &constraints, const Layout &layout, double magnitude,
                     std::span<const double> near);

  /// The point nearest to a place.
  Outcome draw(std::span<const double> towards, const Constraints &constraints, const Layout &layout, double magnitude);

  const ActiveSet &active_set() const { return active_set_; }
  void forget_nearly_parallel() { active_set_.forget_nearly_parallel(); }

private:
  /// What is the same for all moves of the centre.
  struct Setting {
    const Constraints &constraints;
    const Layout &layout;
    double magnitude;
    double greatest; ///< coefficient of what is squared; 0: nothing is

    double first_weight() const;
    double share_of(double weight) const { return greatest > 0 ? weight / greatest : 1; }
  };

  void factor(const Layout &layout, double weight, std::span<const double> centre);
  double factor_wishes(const Setting &setting);
  Outcome move_centre_to_rest(const Setting &setting, double weight);
  Outcome begin_at_point(const Setting &setting, double weight);
  double how_far_ahead() const;
  Outcome move_centre(double weight, double ahead);

  ArrowFactor factor_;
  ActiveSet active_set_;
  ReducedRows wishes_; ///< what is squared now
  // Room to work in: the centre, how far the point is from it, how far it moved last, and what that moves.
  std::vector<double> centre_, step_, last_step_, moved_;
};

} // namespace gatherwright::optimum
