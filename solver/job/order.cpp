// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/order.hpp"

#include <algorithm>
#include <numeric>

namespace gatherwright {

namespace {

/// Whether each length already comes after those it needs, as where every name is written before it is used.
bool stand_in_order(const Job &job) {
  bool in_order = true;
  for (int i = 0; i < static_cast<int>(job.lengths.size()) && in_order; ++i)
    visit_formulas(job.lengths[i], [&](const Formula &formula) {
      for (const Formula::Step &step : formula.steps()) {
        if (step.code != Formula::Code::symbol) continue;
        const auto needed = job.length_of(step.symbol);
        in_order = in_order && !(needed && needed->at >= i);
      }
    });
  return in_order;
}

} // namespace

DependencyOrder dependencies_of_lengths(const Job &job) {
  if (stand_in_order(job)) {
    DependencyOrder as_written;
    as_written.order.resize(job.lengths.size());
    std::iota(as_written.order.begin(), as_written.order.end(), 0);
    return as_written;
  }
  std::vector<std::vector<int>> needs;
  for (const NamedLength &length : job.lengths) {
    std::vector<int> &needed = needs.emplace_back();
    visit_formulas(length, [&](const Formula &formula) {
      for (const int symbol : symbols_of(formula))
        if (const auto other = job.length_of(symbol)) needed.push_back(other->at);
    });
    std::sort(needed.begin(), needed.end());
    needed.erase(std::unique(needed.begin(), needed.end()), needed.end());
  }
  return dependency_order(needs);
}

std::vector<int> order_of_lengths(const Job &job) {
  return dependencies_of_lengths(job).order;
}

} // namespace gatherwright
