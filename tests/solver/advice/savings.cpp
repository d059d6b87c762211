// SPDX-License-Identifier: GPL-3.0-or-later
// What would save cloth, held against planning and laying every step of the tape anew.

#include "tests/draft.hpp"
#include "tests/outcomes.hpp"
#include "tests/solver/advice/random_job.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <random>
#include <string>

using namespace gatherwright;
using namespace gatherwright::tests;

namespace {

constexpr int steps_tried = 25; // either way

std::string written(double mm) {
  char text[40];
  std::snprintf(text, sizeof text, "%.17g mm", mm);
  return text;
}

/// The draft with what was found written down, and one length as long as is said.
Draft held(Draft draft, const Plan &plan, LengthId at, double mm) {
  for (std::size_t i = 0; i < draft.lengths.size(); ++i)
    if (plan.lengths[i].found) draft.lengths[i] = {.name = draft.lengths[i].name, .is = written(*plan.lengths[i].is)};
  draft.lengths[static_cast<std::size_t>(at.at)].is = written(mm);
  return draft;
}

/// How much less of the cloth is bought with the length so, where that is within limits and both layouts are proved.
std::optional<double> saved(const Draft &draft, const Plan &plan, LengthId at, double mm, std::size_t cloth) {
  const PlanOutcome again = gatherwright::plan(job_of(held(draft, plan, at, mm)), {.advice = false});
  if (!again || again->verdict != Verdict::within_limits || again->cloth.size() != plan.cloth.size())
    return std::nullopt;
  if (!again->cloth[cloth].shortest) return std::nullopt;
  return plan.cloth[cloth].buy - again->cloth[cloth].buy;
}

} // namespace

TEST_CASE("a saving is the nearest value that saves a step of a cloth") {
  std::mt19937_64 random(31);
  int said = 0;
  int unsaid = 0;
  for (int trial = 0; trial < 400; ++trial) {
    Draft draft = random_job_with_pieces(random);
    draft.tape_step = mm(5);
    const Job job = job_of(draft);
    const PlanOutcome made = gatherwright::plan(job);
    if (!made || made->verdict != Verdict::within_limits || made->cloth.empty() || !made->cloth[0].shortest) continue;
    INFO("trial " << trial);
    const double step = job.tape_step.mm;
    const double wanted = made->cloth[0].cloth.sold_by.mm * (1 - 1e-9);
    for (int i = 0; i < static_cast<int>(job.lengths.size()); ++i) {
      if (job.lengths[i].keep || !made->lengths[i].room) continue;
      const LengthId at(i);
      const auto saving =
          std::find_if(made->savings.begin(), made->savings.end(), [&](const Saving &each) { return each.at == at; });
      const bool is_said = saving != made->savings.end();
      INFO("length " << i);
      const double is = *made->lengths[i].is;
      if (is_said) {
        const auto saves = saved(draft, *made, at, saving->to, 0);
        REQUIRE(saves);
        CHECK(*saves == Approx(saving->saves).margin(1e-6));
        CHECK(saving->saves >= wanted);
        CHECK(saving->by == Approx(saving->to - is));
      }
      const Interval room = *made->lengths[i].room;
      const double reach = is_said ? std::abs(saving->by) - step / 2 : step * steps_tried;
      for (int n = -steps_tried; n <= steps_tried; ++n) {
        const double mm = (std::round(is / step) + n) * step;
        if (std::abs(mm - is) > reach || mm < room.low.value_or(0) || mm > room.high.value_or(mm)) continue;
        INFO(mm << " mm");
        if (const auto saves = saved(draft, *made, at, mm, 0)) CHECK(*saves < wanted);
      }
      ++(is_said ? said : unsaid);
    }
  }
  CHECK(said > 20);
  CHECK(unsaid > 20);
}
