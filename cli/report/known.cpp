// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/known.hpp"

#include <algorithm>

namespace gatherwright::report {

std::vector<bool> known_lengths(const Job &job, const Plan &plan) {
  std::vector<bool> known(job.lengths.size(), true);
  if (plan.verdict != Verdict::rules_conflict) return known;
  const int first = job.symbol_of_length(0);
  for (const int index : job.length_order) {
    const NamedLength &length = job.lengths.at(index);
    const std::vector<int> named = symbols_of(length.is);
    known[index] = !length.free && std::all_of(named.begin(), named.end(), [&](int symbol) {
      return symbol < first || symbol >= job.symbol_of_cloth_width() || known[symbol - first];
    });
  }
  return known;
}

bool rule_known(const Plan &plan, const RulePlan &rule) {
  return plan.verdict != Verdict::rules_conflict || rule.of_fixed;
}

} // namespace gatherwright::report
