// SPDX-License-Identifier: GPL-3.0-or-later
#include "bench/made.hpp"
#include "bench/qpgen2.hpp"
#ifdef WITH_ALGLIB
#include "bench/alglib_qp.hpp"
#endif

#include "cli/job/read_job.hpp"
#include "cli/start_jobs.hpp"
#include "gatherwright/plan.hpp"
#include "solver/optimum/hierarchy.hpp"
#include "solver/spread/spread.hpp"

#include <algorithm>
#include <benchmark/benchmark.h>
#include <fstream>
#include <iterator>
#include <span>
#include <string>

using namespace gatherwright;

namespace {

std::string example() {
  std::ifstream file(EXAMPLE, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

void read_the_example(benchmark::State &state) {
  const std::string text = example();
  for (auto _ : state)
    benchmark::DoNotOptimize(cli::read_job(text));
}
BENCHMARK(read_the_example);

void plan_again(benchmark::State &state, const Job &job) {
  for (auto _ : state)
    benchmark::DoNotOptimize(plan(job));
}

/// A job with pieces, whose layouts have to be proved the shortest.
void plan_proved(benchmark::State &state, const Job &job) {
  const PlanOutcome outcome = plan(job);
  if (!outcome || outcome->cloth.empty() ||
      !std::all_of(outcome->cloth.begin(), outcome->cloth.end(), [](const ClothPlan &cloth) { return cloth.shortest; }))
    state.SkipWithError("its layout is not proved");
  else
    plan_again(state, job);
}

void plan_the_example(benchmark::State &state) {
  plan_proved(state, (*cli::read_job(example())).job);
}
BENCHMARK(plan_the_example);

void plan_the_example_without_pieces(benchmark::State &state) {
  Job job = (*cli::read_job(example())).job;
  job.pieces.clear();
  plan_again(state, job);
}
BENCHMARK(plan_the_example_without_pieces);

void plan_the_smock_to_start_from(benchmark::State &state) {
  for (const cli::StartJob &start : cli::start_jobs())
    if (start.name == "smock") return plan_proved(state, (*cli::read_job(start.text)).job);
  state.SkipWithError("there is no smock to start from");
}
BENCHMARK(plan_the_smock_to_start_from);

void spread_stations(benchmark::State &state) {
  const auto stations = static_cast<std::size_t>(state.range(0));
  std::vector<double> x(stations), y(stations);
  for (std::size_t i = 0; i < stations; ++i)
    x[i] = 180.0 * static_cast<double>(i) / static_cast<double>(stations - 1);
  const spread::Wish wish = spread::fade(180, 60, 40);
  for (auto _ : state) {
    spread::Spread(wish, 500, 180, 3.0, 11.0).map(x, y);
    benchmark::DoNotOptimize(y.data());
  }
  state.SetItemsProcessed(state.iterations() * state.range(0));
}
BENCHMARK(spread_stations)->RangeMultiplier(10)->Range(100, 1000000);

/// How far an answer lies from the optimum that was chosen first, beside its time.
void report_distance(benchmark::State &state, std::span<const double> found, const bench::Made &made) {
  state.counters["distance"] = bench::distance({found.begin(), found.end()}, made.optimum);
}

void solve_made(benchmark::State &state, const bench::Made &made) {
  optimum::Hierarchy solver;
  optimum::Problem problem;
  for (auto _ : state) {
    bench::rebuild(made.problem, problem);
    benchmark::DoNotOptimize(solver.solve(problem).x.data());
  }
  report_distance(state, solver.solve(problem).x, made);
}

/// A peer, with the building of its model; what it overwrites is written again each time.
template <class Peer> void solve_made_by(benchmark::State &state, const bench::Made &made, Peer &peer) {
  bench::DenseProgramme programme;
  std::span<const double> found;
  for (auto _ : state) {
    bench::write(made.problem, made.problem.wishes[0], programme);
    found = peer.solve(programme);
    benchmark::DoNotOptimize(found.data());
  }
  report_distance(state, found, made);
}

void with_qpgen2(benchmark::State &state, const bench::Made &made) {
  bench::Qpgen2 peer;
  if (!peer.present()) {
    state.SkipWithError("r-cran-quadprog is absent");
    return;
  }
  solve_made_by(state, made, peer);
}

bench::Made shared_out(const benchmark::State &state) {
  return bench::shared_out(static_cast<int>(state.range(0)), 1);
}

void shared_out_ours(benchmark::State &state) {
  solve_made(state, shared_out(state));
}
BENCHMARK(shared_out_ours)->Arg(10)->Arg(30)->Arg(100);

void shared_out_qpgen2(benchmark::State &state) {
  with_qpgen2(state, shared_out(state));
}
BENCHMARK(shared_out_qpgen2)->Arg(10)->Arg(30)->Arg(100);

void job_shape_ours(benchmark::State &state) {
  solve_made(state, bench::job_shape(1));
}
BENCHMARK(job_shape_ours);

void job_shape_qpgen2(benchmark::State &state) {
  with_qpgen2(state, bench::job_shape(1));
}
BENCHMARK(job_shape_qpgen2);

#ifdef WITH_ALGLIB
void with_alglib(benchmark::State &state, const bench::Made &made, bench::AlglibQp::Form form) {
  bench::AlglibQp peer(form);
  solve_made_by(state, made, peer);
}

void shared_out_alglib_dense(benchmark::State &state) {
  with_alglib(state, shared_out(state), bench::AlglibQp::Form::dense);
}
BENCHMARK(shared_out_alglib_dense)->Arg(10)->Arg(30)->Arg(100);

void shared_out_alglib_sparse(benchmark::State &state) {
  with_alglib(state, shared_out(state), bench::AlglibQp::Form::sparse);
}
BENCHMARK(shared_out_alglib_sparse)->Arg(10)->Arg(30)->Arg(100);

void job_shape_alglib_dense(benchmark::State &state) {
  with_alglib(state, bench::job_shape(1), bench::AlglibQp::Form::dense);
}
BENCHMARK(job_shape_alglib_dense);

void job_shape_alglib_sparse(benchmark::State &state) {
  with_alglib(state, bench::job_shape(1), bench::AlglibQp::Form::sparse);
}
BENCHMARK(job_shape_alglib_sparse);
#endif

void solve_coupled_joins(benchmark::State &state) {
  const auto joins = static_cast<int>(state.range(0));
  const optimum::Problem problem = bench::coupled_joins(joins, joins / 4, 1);
  optimum::Hierarchy solver;
  for (auto _ : state)
    benchmark::DoNotOptimize(solver.solve(problem).x.data());
  state.SetItemsProcessed(state.iterations() * joins);
}
BENCHMARK(solve_coupled_joins)->Arg(20)->Arg(50)->Arg(100)->Arg(200);

} // namespace

BENCHMARK_MAIN();
