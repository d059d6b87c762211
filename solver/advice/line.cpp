// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/advice/line.hpp"

#include <algorithm>
#include <cmath>

namespace gatherwright::advice {

namespace {

/// A slope of sums that cancel is rounding below this: slopes are sums of products of order 1.
constexpr double no_slope = 1e-13;

} // namespace

void Reach::must_not_be_negative(Line line, double size) {
  if (std::abs(line.slope) <= no_slope) {
    if (line.at < -rounding_ * size) empty_ = true;
    return;
  }
  const double end = -line.at / line.slope;
  if (line.slope > 0) {
    if (low_ && *low_ >= end) return;
    low_ = end;
    low_by_ = kept_;
  } else {
    if (high_ && *high_ <= end) return;
    high_ = end;
    high_by_ = kept_;
  }
}

void Reach::must_be_above_0(Line line, double size) {
  line.at -= open_by_ * std::abs(line.slope);
  must_not_be_negative(line, size);
}

void Reach::settle(double size) {
  if (!low_ || !high_ || *low_ <= *high_) return;
  if (*low_ - *high_ > rounding_ * size)
    empty_ = true;
  else
    low_ = high_ = (*low_ + *high_) / 2;
}

} // namespace gatherwright::advice
