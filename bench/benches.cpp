// SPDX-License-Identifier: GPL-3.0-or-later
#include "made.hpp"
#include "qpgen2.hpp"

#include "gatherwright/plan.hpp"
#include "job/read_job.hpp"
#include "optimum/hierarchy.hpp"
#include "spread/spread.hpp"

#include <benchmark/benchmark.h>
#include <fstream>
#include <iterator>
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

void plan_the_example(benchmark::State &state) {
  const Job job = std::get<cli::ReadJob>(cli::read_job(example())).job;
  for (auto _ : state)
    benchmark::DoNotOptimize(plan(job));
}
BENCHMARK(plan_the_example);

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

void solve_shared_out(benchmark::State &state) {
  const bench::Made made = bench::shared_out(static_cast<int>(state.range(0)), 1);
  optimum::Hierarchy solver;
  optimum::Problem problem;
  for (auto _ : state) {
    bench::rebuild(made.problem, problem);
    benchmark::DoNotOptimize(solver.solve(problem).x.data());
  }
}
BENCHMARK(solve_shared_out)->Arg(10)->Arg(30)->Arg(100);

void qpgen2_shared_out(benchmark::State &state) {
  const bench::Made made = bench::shared_out(static_cast<int>(state.range(0)), 1);
  bench::Qpgen2 peer;
  if (!peer.present()) {
    state.SkipWithError("r-cran-quadprog is absent");
    return;
  }
  bench::DenseProgramme programme;
  for (auto _ : state) {
    bench::write(made.problem, made.problem.wishes[0], programme);
    benchmark::DoNotOptimize(peer.solve(programme).data());
  }
}
BENCHMARK(qpgen2_shared_out)->Arg(10)->Arg(30)->Arg(100);

} // namespace

BENCHMARK_MAIN();
