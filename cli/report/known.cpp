// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/report/known.hpp"

namespace gatherwright::report {

bool rule_known(const Plan &plan, const RulePlan &rule) {
  return plan.verdict != Verdict::rules_conflict || rule.of_fixed;
}

} // namespace gatherwright::report
