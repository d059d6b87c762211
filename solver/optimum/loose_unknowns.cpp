// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/optimum/loose_unknowns.hpp"

#include "solver/optimum/dense.hpp"
#include "solver/optimum/tolerances.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>

namespace gatherwright::optimum {

void LooseUnknowns::mark(const Reduction &reduction, std::span<const double> point, double magnitude,
                         std::vector<char> &loose) {
  moved_.resize(loose.size());
  reduction.displacement(point, moved_);
  for (std::size_t i = 0; i < loose.size(); ++i)
    if (std::abs(moved_[i]) > tolerance::moved_share * magnitude) loose[i] = 1;
}

LooseUnknowns::Found LooseUnknowns::draw_all(const Reduction &reduction, const Constraints &constraints,
                                             double magnitude, ProximalDescent &descent, std::vector<char> &loose) {
  const int open = reduction.layout().size();
  towards_.resize(open);
  for (const double side : {1.0, -1.0}) {
    std::uint32_t state = 12345;
    for (double &far : towards_) {
      state = state * 1664525U + 1013904223U;
      far = side * magnitude * (0.5 + state / 4294967296.0);
    }
    const ActiveSet::Outcome outcome = descent.draw(towards_, constraints, reduction.layout(), magnitude);
    if (outcome == ActiveSet::Outcome::too_much_work) return Found::too_much_work;
    if (outcome != ActiveSet::Outcome::optimal) continue;
    if (descent.active_set().equalities() == open) return Found::all_closed; // what is held leaves nothing open
    mark(reduction, descent.active_set().point(), magnitude, loose);
  }
  const bool any = std::any_of(loose.begin(), loose.end(), [](char is_loose) { return is_loose != 0; });
  return any ? Found::something : Found::all_closed;
}

bool LooseUnknowns::find(const Reduction &reduction, const Constraints &constraints, double magnitude,
                         ProximalDescent &descent, std::vector<char> &loose) {
  const Found found = draw_all(reduction, constraints, magnitude, descent, loose);
  if (found != Found::something) return found == Found::all_closed;
  for (std::size_t i = 0; i < loose.size(); ++i)
    for (const double side : {1.0, -1.0}) {
      if (loose[i]) break;
      reduction.row_of(static_cast<int>(i), towards_);
      const double length = largest(towards_);
      if (length == 0) break;
      for (double &far : towards_)
        far *= side * magnitude / length;
      const ActiveSet::Outcome outcome = descent.draw(towards_, constraints, reduction.layout(), magnitude);
      if (outcome == ActiveSet::Outcome::too_much_work) return false;
      if (outcome == ActiveSet::Outcome::optimal) mark(reduction, descent.active_set().point(), magnitude, loose);
    }
  return true;
}

} // namespace gatherwright::optimum
