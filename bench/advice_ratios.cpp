// SPDX-License-Identifier: GPL-3.0-or-later
#include "bench/advice_ratios.hpp"

#include "bench/measured.hpp"
#include "bench/misfit.hpp"
#include "cli/job/read_job.hpp"
#include "gatherwright/plan.hpp"
#include "tests/hostile_job.hpp"

#include <algorithm>
#include <cmath>
#include <ctime>

namespace gatherwright::bench {

namespace {

Job job_of(const std::string &text) {
  const auto read = cli::read_job(text);
  hold(static_cast<bool>(read), "a job of bad joins does not read");
  return read->job;
}

void misfit_vs_fit(const std::string &text) {
  const Job fit = job_of(text);
  const Job misfit = misfit_of(fit);
  const auto prepared = Prepared::prepare(fit);
  hold(static_cast<bool>(prepared), "the example cannot be prepared");
  hold(prepared->plan(fit)->verdict == Verdict::within_limits, "the example does not fit");
  const PlanOutcome bad = prepared->plan(misfit);
  hold(bad->verdict == Verdict::too_scant && !bad->remedies.empty(), "the wide neck is not scant, or nothing mends it");
  const auto [ours, base] = in_turn(
      300, [&] { prepared->plan(misfit); }, [&] { prepared->plan(fit); });
  say("misfit_vs_fit", ours / base);
}

/// Most joins are too full, and each that is, is offered something.
Job of_bad_joins(const std::string &text) {
  Job job = job_of(text);
  const PlanOutcome outcome = plan(job);
  hold(static_cast<bool>(outcome), "bad joins cannot be planned");
  std::size_t bad = 0;
  for (int j = 0; j < static_cast<int>(job.joins.size()); ++j) {
    if (outcome->joins[j].verdict == Verdict::within_limits) continue;
    ++bad;
    hold(std::any_of(outcome->remedies.begin(), outcome->remedies.end(),
                     [&](const Remedy &remedy) { return !remedy.mends || remedy.mends == JoinId(j); }),
         "nothing mends a bad join");
  }
  hold(2 * bad > job.joins.size(), "few of the bad joins are bad");
  return job;
}

/// Of the processor: one side takes so much longer that what else the machine does would fall on it alone.
double processor_seconds(const Job &job) {
  const std::clock_t start = std::clock();
  plan(job);
  return static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
}

template <class Make> double growth(Make make) {
  const Job many = of_bad_joins(make(40));
  const Job few = of_bad_joins(make(10));
  double ours = HUGE_VAL;
  double base = HUGE_VAL;
  for (int i = 0; i < 30; ++i) {
    ours = std::min(ours, processor_seconds(many));
    base = std::min(base, processor_seconds(few));
  }
  return ours / base;
}

} // namespace

void advice_ratios(const std::string &text) {
  misfit_vs_fit(text);
  const double of_their_own = growth([](int joins) { return hostile::bad_joins(joins); });
  const double sharing = growth([](int joins) { return hostile::bad_joins_sharing(joins, 9); });
  say("bad_joins_growth", std::max(of_their_own, sharing));
}

} // namespace gatherwright::bench
