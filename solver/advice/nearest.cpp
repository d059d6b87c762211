// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/advice/nearest.hpp"

#include <cmath>

namespace gatherwright::advice {

std::optional<double> nearest_value(const Job &job, const allot::Question &question,
                                    std::span<const allot::DrawnLengths> drawn, double is, optimum::Solver &solver) {
  auto asked = allot::scheme(job, question, drawn);
  if (!asked) return std::nullopt;
  asked->scheme.problem.wishes[0].add(std::array<optimum::Term, 1>{{{asked->column, 1.0}}}, is);
  const optimum::Solution &nearest = solver.solve(asked->scheme.problem, optimum::Solver::Wanted::point);
  if (nearest.status != optimum::Status::optimal) return std::nullopt;
  return nearest.x[asked->column];
}

std::array<double, 2> steps_beyond(double is, double exact, double step) {
  const double direction = exact > is ? 1 : -1;
  const double steps = exact / step;
  const double nearest = std::round(steps);
  const bool on = std::abs(steps - nearest) <= on_step;
  const double first = on ? nearest : direction > 0 ? std::ceil(steps) : std::floor(steps);
  return {first * step, (first + direction) * step};
}

} // namespace gatherwright::advice
