// SPDX-License-Identifier: GPL-3.0-or-later
// usage: steps NAME: does the step of that name twice, the second time within `gatherwright_step`, whose instructions
// are counted by instructions.sh; without a name lists the steps.

#include "bench/made.hpp"
#include "bench/measured.hpp"
#include "bench/misfit.hpp"

#include "cli/job/read_job.hpp"
#include "cli/report/plan_json.hpp"
#include "gatherwright/plan.hpp"
#include "solver/optimum/hierarchy.hpp"

#include <array>
#include <cstdio>
#include <fstream>
#include <functional>
#include <iterator>
#include <string>
#include <string_view>

using namespace gatherwright;
using bench::hold;

namespace {

using Step = std::function<void()>;

std::string example() {
  std::ifstream file(EXAMPLE, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

Job job_of(const std::string &text) {
  auto read = cli::read_job(text);
  hold(static_cast<bool>(read), "the example does not read");
  return (*std::move(read)).job;
}

Job without_pieces() {
  Job job = job_of(example());
  job.pieces.clear();
  return job;
}

Step planning(const Job &job, Verdict verdict) {
  return [=] {
    const PlanOutcome outcome = plan(job);
    hold(outcome && outcome->verdict == verdict, "the verdict is another");
  };
}

Step planning_from_what_was_prepared() {
  const Job job = without_pieces();
  auto prepared = Prepared::prepare(job);
  hold(static_cast<bool>(prepared), "the example is not prepared");
  return [job, ready = *std::move(prepared)] {
    const PlanOutcome outcome = ready.plan(job);
    hold(outcome && outcome->verdict == Verdict::within_limits, "the verdict is another");
  };
}

Step reading() {
  return [text = example()] { job_of(text); };
}

Step writing() {
  const Job job = without_pieces();
  return
      [job, outcome = plan(job)] { hold(report::plan_json(job, *outcome).size() > 1000, "the plan is not written"); };
}

Step planning_a_misfit() {
  const Job job = bench::misfit_of(without_pieces());
  return planning(job, plan(job)->verdict);
}

Step optimum_of(int unknowns) {
  const bench::Made made = bench::shared_out(unknowns, 0);
  return [made, solver = optimum::Hierarchy(), problem = optimum::Problem()]() mutable {
    bench::rebuild(made.problem, problem);
    hold(bench::distance(solver.solve(problem).x, made.optimum) <= 1e-12, "the optimum is off");
  };
}

struct Named {
  std::string_view name;
  Step (*made)();
};

constexpr std::array steps{
    Named{"read", reading},
    Named{"plan", [] { return planning(without_pieces(), Verdict::within_limits); }},
    Named{"plan_prepared", planning_from_what_was_prepared},
    Named{"plan_with_pieces", [] { return planning(job_of(example()), Verdict::within_limits); }},
    Named{"plan_misfit", planning_a_misfit},
    Named{"write_json", writing},
    Named{"optimum_n10", [] { return optimum_of(10); }},
    Named{"optimum_n30", [] { return optimum_of(30); }},
    Named{"optimum_n100", [] { return optimum_of(100); }},
};

} // namespace

extern "C" [[gnu::noinline]] void gatherwright_step(const Step &step) {
  step();
}

int main(int count, char **words) {
  const std::string_view wanted = count > 1 ? words[1] : "";
  for (const Named &each : steps) {
    if (wanted.empty()) std::printf("%s\n", each.name.data());
    if (each.name != wanted) continue;
    const Step step = each.made();
    step(); // what is made once is made
    gatherwright_step(step);
    return 0;
  }
  return wanted.empty() ? 0 : 2;
}
