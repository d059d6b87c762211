// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "optimum/arrow_factor.hpp"

#include <Eigen/Core>
#include <span>
#include <vector>

namespace gatherwright::optimum {

/// Constraints over the reduced unknowns: the first `equalities` of them hold with equality, the rest are row y >=
/// bound.
struct Constraints {
  std::vector<RowView> rows;
  std::vector<double> bound;
  std::vector<double> norm; ///< of each row, Euclidean
  int equalities = 0;

  int size() const { return static_cast<int>(rows.size()); }
};

/// Strictly convex least squares under linear constraints, by the dual active set method of Goldfarb & Idnani
/// (Mathematical Programming 27 (1983) 1-33), on the thin QR factors of the active normals R^-T n. Only orthogonal
/// steps touch the normals, so dependent ones are told from independent ones down to rounding, and a dependent one
/// costs nothing but a look.
class ActiveSet {
public:
  enum class Outcome { optimal, infeasible, stalled };

  /// Minimises |R y - d|^2 with R, d of `factor`. `magnitude`: the size of the numbers the bounds were computed from,
  /// so that rounding in them is not taken for a violation.
  Outcome solve(const ArrowFactor &factor, const Constraints &constraints, double magnitude);

  /// Solves again after the factor's right side alone has changed, starting from the present active set.
  Outcome solve_again();

  std::span<const double> point() const { return {y_.data(), static_cast<std::size_t>(y_.size())}; }

  /// Multipliers of the constraints, >= 0 on inequalities; where the outcome is infeasible, those of a contradiction:
  /// the rows so multiplied cancel, and their bounds sum to more than 0.
  const std::vector<double> &multipliers() const { return multipliers_; }

  /// Constraints in the active set and changes made to it since `solve` was called.
  int active() const { return active_count_; }

  /// How many of the equalities are independent.
  int equalities() const { return equality_count_; }
  int changes() const { return changes_; }

private:
  /// Implied: it depends on the active constraints and agrees with them, so it holds while they do.
  enum class Part : char { waiting, active, implied };

  Outcome add_equalities();
  Outcome add_violated();
  Outcome add(int constraint);
  void begin_again();
  double slack(int constraint) const;
  int most_violated() const;
  bool within_rounding(int constraint, double violation, double tolerance) const;
  void project(int constraint);
  void drop(int position);
  void append(int constraint, double multiplier, double normal_square);
  void move(double step);
  void fill_multipliers(int entering, double entering_multiplier);

  const ArrowFactor *factor_ = nullptr;
  const Constraints *constraints_ = nullptr;
  double magnitude_ = 0;
  int changes_ = 0;
  int active_count_ = 0;
  int equality_count_ = 0;
  std::vector<int> active_; ///< constraint at each position
  std::vector<Part> part_;  ///< of each constraint
  bool any_implied_ = false;
  std::vector<double> sign_; ///< of an equality as it entered
  Eigen::MatrixXd basis_;    ///< unknowns x positions, orthonormal columns
  Eigen::MatrixXd triangle_; ///< positions x positions, upper: active normals = basis * triangle
  Eigen::VectorXd dual_;     ///< multiplier at each position
  Eigen::VectorXd y_, v_;    ///< the point, and R y - d
  Eigen::VectorXd normal_, residue_, coefficients_, correction_, dual_step_, move_;
  std::vector<int> support_;
  std::vector<double> multipliers_;
};

} // namespace gatherwright::optimum
