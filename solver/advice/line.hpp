// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

namespace gatherwright::advice {

/// A number that changes in proportion with one length: `at` where that length is as planned, `slope` for each
/// millimetre more.
struct Line {
  double at = 0;
  double slope = 0;

  Line &operator+=(Line other) {
    at += other.at;
    slope += other.slope;
    return *this;
  }
  friend Line operator+(Line a, Line b) { return a += b; }
  friend Line operator-(Line a, Line b) { return {a.at - b.at, a.slope - b.slope}; }
  friend Line operator*(double factor, Line line) { return {factor * line.at, factor * line.slope}; }
};

/// What a condition is of.
struct Kept {
  enum class What { rule, join, width, other };
  What what = What::other;
  int at = 0; ///< number of the rule, of the join, of the piece that is so wide
};

/// The changes of the length for which a set of conditions holds: an interval, cut down condition by condition.
class Reach {
public:
  /// As limits and rules hold within this share of the numbers in them, so do the ends of a room.
  static constexpr double rounding_share = 1e-9;

  /// `open_by`: how far inside a value that is itself no longer possible the reach ends. `rounding`: what a condition
  /// without slope may lack, and ends may have crossed by, as a share of the numbers behind them.
  explicit Reach(double open_by, double rounding = rounding_share) : open_by_(open_by), rounding_(rounding) {}

  /// What the conditions that follow are of.
  void keep(Kept kept) { kept_ = kept; }

  /// `size`: of the numbers behind a condition.
  void must_not_be_negative(Line line, double size);
  void must_be_zero(Line line, double size) {
    must_not_be_negative(line, size);
    must_not_be_negative(-1.0 * line, size);
  }
  void must_be_above_0(Line line, double size);

  bool empty() const { return empty_; }
  const std::optional<double> &low() const { return low_; }
  const std::optional<double> &high() const { return high_; }
  /// Of what sets an end the first.
  Kept low_by() const { return low_by_; }
  Kept high_by() const { return high_by_; }

  /// Call at the end: ends that have crossed by rounding alone meet, ends that have crossed by more leave nothing.
  void settle(double size);

private:
  double open_by_;
  double rounding_;
  bool empty_ = false;
  std::optional<double> low_;
  std::optional<double> high_;
  Kept kept_, low_by_, high_by_;
};

} // namespace gatherwright::advice
