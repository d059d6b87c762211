// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/layout/problem.hpp"

#include <algorithm>

namespace gatherwright::layout {

namespace {

bool is_size(double size) {
  return size >= least_size && size <= greatest_size;
}

std::optional<Misfit::Why> misfit(const Rectangle &rectangle, double width) {
  if (!is_size(rectangle.across) || !is_size(rectangle.along)) return Misfit::Why::size;
  if (rectangle.count < 1) return Misfit::Why::count;
  const double least = rectangle.may_turn ? std::min(rectangle.across, rectangle.along) : rectangle.across;
  if (least > width * (1 + rounding / 10)) return Misfit::Why::wider;
  return std::nullopt;
}

} // namespace

std::optional<Misfit> misfit(const Problem &problem) {
  if (!is_size(problem.width)) return Misfit{Misfit::Why::width, std::nullopt};
  long long count = 0;
  for (std::size_t i = 0; i < problem.rectangles.size(); ++i) {
    if (const auto why = misfit(problem.rectangles[i], problem.width)) return Misfit{*why, i};
    count += problem.rectangles[i].count;
    if (count > most_rectangles) return Misfit{Misfit::Why::too_many, i};
  }
  double along = 0;
  for (const Rectangle &rectangle : problem.rectangles)
    along += rectangle.count * std::max(rectangle.across, rectangle.along);
  const double least = std::max(problem.width, along) * least_share;
  for (std::size_t i = 0; i < problem.rectangles.size(); ++i)
    if (std::min(problem.rectangles[i].across, problem.rectangles[i].along) < least)
      return Misfit{Misfit::Why::lost, i};
  return std::nullopt;
}

} // namespace gatherwright::layout
