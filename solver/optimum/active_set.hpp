// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/optimum/active_triangle.hpp"
#include "solver/optimum/arrow_factor.hpp"
#include "solver/optimum/work.hpp"

#include <span>
#include <vector>

namespace gatherwright::optimum {

/// Constraints over the reduced unknowns: the first `equalities` of them hold with equality, the rest are row y >=
/// rest. Those from `soft_from` on may be missed: by w at the cost of w^2.
struct Constraints {
  ReducedRows rows;
  int equalities = 0;
  int soft_from = 0;

  int size() const { return rows.size(); }
};

/// Strictly convex least squares under linear constraints, by the dual active set method of Goldfarb & Idnani
/// (Mathematical Programming 27 (1983) 1-33).
///
/// Of the QR factors of the active normals N = R^-T A' only the triangle is kept; products with Q are made with the
/// corrected seminormal equations (Bjorck, Linear Algebra Appl. 88/89 (1987) 31-48): what is left of a normal outside
/// the active ones is computed from the rows themselves and orthogonalised a second time, so that dependent normals are
/// told from independent ones as by an orthogonal method, while the sparse rows stay sparse. A dependent one costs
/// nothing but a look.
class ActiveSet {
public:
  enum class Outcome { optimal, infeasible, stalled, too_much_work };

  void count_into(Work *work) { count_.into(work); }

  /// Minimises |R y - d|^2 with R, d of `factor`. `magnitude`: the size of the numbers the bounds were computed from,
  /// so that rounding in them is not taken for a violation.
  Outcome solve(const ArrowFactor &factor, const Constraints &constraints, double magnitude);

  /// Solves again after the factor's right side alone has changed, starting from the present active set. `moved`: by
  /// how much that moves the minimum without constraints.
  Outcome solve_again(std::span<const double> moved);

  std::span<const double> point() const { return y_; }

  struct Multiplier {
    int constraint = 0;
    double value = 0;
  };
  /// Multipliers of the active constraints, >= 0 on inequalities (of a soft one: by how much it is missed); where the
  /// outcome is infeasible, those of a contradiction: the rows so multiplied cancel, and their bounds sum to more than
  /// 0.
  std::span<const Multiplier> multipliers() const { return multipliers_; }

  /// Constraints in the active set, equalities among them, and changes made to it since `solve` was called.
  int active() const { return static_cast<int>(active_.size()); }
  int equalities() const { return equalities_; }
  int changes() const { return changes_; }

  /// Whether some constraint was nearly parallel to active ones, since `forget_nearly_parallel` was called.
  bool met_nearly_parallel() const { return nearly_parallel_; }
  void forget_nearly_parallel() { nearly_parallel_ = false; }

private:
  /// Implied: it depends on the active constraints and agrees with them, so it holds while they do.
  enum class Part : char { waiting, active, implied };

  /// A constraint that may be violated, as it was when it was looked at last.
  struct Candidate {
    int constraint = 0;
    double missed = 0;
    double over_norm = 0; ///< what it misses, over its norm
  };

  bool is_too_much() const;
  bool soft(int constraint) const { return constraint >= constraints_->soft_from; }
  double numbers(int constraint) const;
  double missing(int constraint, double multiplier) const;
  Outcome add_equalities();
  Outcome add_violated();
  Outcome add(int constraint);
  bool add_at_once();
  void append_if_missed(const Candidate &candidate);
  int longest_start(int before);
  bool solve_start(int size);
  bool is_violated(int constraint, const ReducedRows::Row &row, double missed) const;
  int most_violated();
  int look_at_all();
  std::span<double> one_each(std::vector<double> &room) const;
  void project(int constraint);
  void note_step(int constraint);
  void add_active_to(std::span<double> row, std::span<const double> by, double sign) const;
  double square_of_give(int constraint) const;
  bool depends_on_active(int constraint);
  double left_of_row(int constraint, double &numbers);
  bool is_rounding_of_active(int constraint, double missed) const;
  bool is_made_of_active(int constraint, double length);
  bool times_active(const RowView &row, const double *step, std::span<double> values) const;
  bool times_active(const double *y, std::span<double> values) const;
  bool take_active_part_away();
  int blocking(double &step) const;
  void step_by(double step, bool moves);
  void imply(int constraint, double multiplier);
  double append(int constraint, double multiplier);
  void drop(int position);
  void solve_triangle_transposed(std::span<double> c) const;
  void solve_triangle(std::span<double> c) const;
  void move_by(std::span<const double> by);
  bool settle(int most_rounds);
  int most_negative() const;
  void follow(std::span<const double> moved);
  void fill_multipliers();
  void fill_contradiction(int entering, double sign);

  const ArrowFactor *factor_ = nullptr;
  const Constraints *constraints_ = nullptr;
  double magnitude_ = 0; ///< of the numbers that went into the bounds, and of the point
  double tolerance_ = 0;
  int changes_ = 0;
  int equalities_ = 0;
  std::vector<int> active_;  ///< constraint at each position
  std::vector<double> dual_; ///< multiplier at each position
  std::vector<Part> part_;   ///< of each constraint
  bool any_implied_ = false;
  bool nearly_parallel_ = false;
  std::vector<Candidate> candidates_;
  double most_ = 0;         ///< greatest violation over its norm among them
  double most_at_look_ = 0; ///< the same when all constraints were looked at last
  int at_once_ = 0;         ///< so many constraints are tried at once at most
  int alone_ = 0;           ///< so many more are added one at a time before that
  int last_alone_ = 0;      ///< the same when several were tried last
  ActiveTriangle triangle_;
  std::vector<double> y_;
  // Of the normal at hand: its part along the active normals and the combination of them that makes it; what is left,
  // in the factor's space and as a step of y.
  std::vector<double> along_, combination_, left_, step_, correction_, taken_, taken_step_;
  std::vector<double> steps_; ///< of the first active equalities: (R'R)^-1 times the row
  std::size_t known_steps_ = 0;
  std::vector<double> ahead_;       ///< of constraints added at once: what the triangle makes of their multipliers
  std::vector<double> sparse_step_; ///< 0 but while a column is made
  double normal_square_ = 0;
  double left_square_ = 0;
  std::vector<Multiplier> multipliers_;
  WorkCounter count_;
};

} // namespace gatherwright::optimum
