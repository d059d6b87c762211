// SPDX-License-Identifier: GPL-3.0-or-later
#include "bench/plan_ratios.hpp"

#include "bench/measured.hpp"
#include "bench/tied_job.hpp"
#include "gatherwright/plan.hpp"

#include <algorithm>
#include <memory>
#include <utility>

namespace gatherwright::bench {

namespace {

struct Size {
  int joins;
  int lengths;
};
constexpr Size small{100, 25};
constexpr Size large{400, 100};

Job job_of(Size size) {
  auto read = cli::read_job(tied_job(size.joins, size.lengths));
  hold(static_cast<bool>(read), "a job of joins that are tied does not read");
  return (*std::move(read)).job;
}

void hold_planned(const PlanOutcome &outcome) {
  hold(outcome && outcome->verdict == Verdict::within_limits, "joins that are tied are not within limits");
  const Certificate &proof = outcome->certificate.value();
  hold(std::max({proof.feasibility, proof.stationarity, proof.complementarity}) <= 1e-9,
       "the plan of joins that are tied is not proved");
}

/// In kilobytes.
double memory_of(const char *planning, Size size) {
  const std::string command =
      std::string(planning) + " " + std::to_string(size.joins) + " " + std::to_string(size.lengths);
  const std::unique_ptr<std::FILE, int (*)(std::FILE *)> answer(popen(command.c_str(), "r"), pclose);
  double kilobytes = 0;
  hold(answer && std::fscanf(answer.get(), "%lf", &kilobytes) == 1, "what memory planning takes is not told");
  return kilobytes;
}

} // namespace

void plan_ratios(const char *planning) {
  const Job few = job_of(small);
  const Job many = job_of(large);
  hold_planned(plan(few));
  hold_planned(plan(many));
  const auto [of_many, of_few] = in_turn(
      10, [&] { plan(many); }, [&] { plan(few); });
  say("plan_growth", (of_many / large.joins) / (of_few / small.joins));
  say("plan_memory_growth", memory_of(planning, large) / memory_of(planning, small));
}

} // namespace gatherwright::bench
