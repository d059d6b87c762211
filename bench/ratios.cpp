// SPDX-License-Identifier: GPL-3.0-or-later
// Prints one line a ratio, `name value`: both sides measured in this run, the smallest of many times each. What is
// timed is checked.

#include "bench/advice_ratios.hpp"
#include "bench/cast_ratios.hpp"
#include "bench/edge_ratios.hpp"
#include "bench/layout_ratios.hpp"
#include "bench/made.hpp"
#include "bench/measured.hpp"
#include "bench/page_ratios.hpp"
#include "bench/plan_ratios.hpp"
#include "bench/process.hpp"
#include "bench/qpgen2.hpp"
#include "bench/stock_ratios.hpp"

#include "cli/job/read_job.hpp"
#include "cli/report/plan_json.hpp"
#include "gatherwright/plan.hpp"
#include "solver/optimum/certificate.hpp"
#include "solver/optimum/hierarchy.hpp"
#include "solver/spread/spread.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>
#include <string>
#include <sys/stat.h>
#include <unistd.h>
#include <variant>
#include <vector>

namespace {

using namespace gatherwright;
using namespace gatherwright::bench;
using optimum::Hierarchy;
using optimum::Problem;

std::string contents(const char *path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

/// The example as it is but for its pieces, its last key: these ratios are of planning. What pieces take is among the
/// benches, and how they are laid has ratios of its own.
std::string without_pieces(const std::string &text) {
  const std::size_t pieces = text.rfind(",\n\n  \"pieces\":");
  hold(pieces != std::string::npos, "the example's pieces are not where they were");
  return text.substr(0, pieces) + "\n}\n";
}

/// A file with these bytes, for as long as it is wanted; it may be a program.
class Written {
public:
  explicit Written(const std::string &text) {
    const int file = mkstemp(path_);
    hold(file >= 0, "no place for a temporary file");
    hold(write(file, text.data(), text.size()) == static_cast<ssize_t>(text.size()), "cannot write");
    hold(fchmod(file, S_IRWXU) == 0, "no program may be made");
    close(file);
  }
  ~Written() { unlink(path_); }
  Written(const Written &) = delete;
  Written &operator=(const Written &) = delete;

  const char *path() const { return path_; }

private:
  char path_[20] = "/tmp/ratios-XXXXXX";
};

Job example(const std::string &text) {
  auto read = cli::read_job(text);
  hold(static_cast<bool>(read), "the example does not read");
  return (*std::move(read)).job;
}

/// Planning the example in memory, with rooms and all, over parsing its text and dumping its plan's JSON with
/// nlohmann_json.
void plan_vs_json(const std::string &text) {
  const Job job = example(text);
  PlanOutcome outcome = plan(job);
  hold(static_cast<bool>(outcome), "the example cannot be planned");
  hold(outcome->verdict == Verdict::within_limits, "the example is not within limits");
  const auto tree = nlohmann::ordered_json::parse(report::plan_json(job, *outcome));
  std::size_t bytes = 0;
  const auto [ours, json] = in_turn(
      2000, [&] { bytes += static_cast<bool>(plan(job)); },
      [&] {
        bytes += nlohmann::json::parse(text, nullptr, true, true).size();
        bytes += tree.dump().size();
      });
  hold(bytes > 0, "nothing was done");
  say("plan_vs_json", ours / json);
}

/// The whole process `plan JOB --json` over one that only parses the same file and writes the same bytes. Both are
/// copied first, as what is installed is: what a linker has written lies in memory in smaller pieces, and takes longer
/// to map.
void process_vs_json(const Written &file, const std::string &text) {
  const Job job = example(text);
  const Written plan_text(report::plan_json(job, *plan(job)));
  const Written program(contents(PROGRAM));
  const Written peer(contents(PARSE_AND_WRITE));
  double ours = HUGE_VAL;
  double theirs = HUGE_VAL;
  for (int i = 0; i < 200; ++i) {
    ours = std::min(ours, process({program.path(), "plan", file.path(), "--json"}));
    theirs = std::min(theirs, process({peer.path(), file.path(), plan_text.path()}));
  }
  say("process_vs_json", ours / theirs);
}

/// Time for a station of a capped fade at 1e6 stations over that at 1e3.
void spread_growth() {
  const spread::Wish wish = spread::fade(180, 60, 40);
  const auto time_a_station = [&](int stations) {
    std::vector<double> x(stations), y(stations);
    for (int i = 0; i < stations; ++i)
      x[i] = 180.0 * i / (stations - 1);
    double best = HUGE_VAL;
    for (int i = 0; i < (stations > 100000 ? 10 : 2000); ++i)
      best = std::min(best, once([&] { spread::Spread(wish, 500, 180, 3.0, 11.0).map(x, y); }));
    hold(std::abs(y.back() - 500) <= 1e-9 * 500, "the map does not end at the long edge");
    return best / stations;
  };
  const double few = time_a_station(1000);
  say("spread_growth", time_a_station(1000000) / few);
}

/// One level with our solver over the same with qpgen2, model building in both; the answers were made beforehand.
template <class Make> void against_qpgen2(const char *name, Make make, int problems, int rounds, double allowed) {
  bench::Qpgen2 peer;
  std::vector<bench::Made> made;
  for (int i = 0; i < problems; ++i)
    made.push_back(make(i));
  Hierarchy solver;
  Problem problem;
  bench::DenseProgramme programme;
  for (const bench::Made &each : made)
    hold(bench::distance(solver.solve(each.problem).x, each.optimum) <= allowed, "our answer is off");
  if (!peer.present()) {
    std::printf("%s absent\n", name);
    return;
  }
  // What the peer cannot solve (rows that depend on each other) is left out of both sides.
  std::erase_if(made, [&](const bench::Made &each) {
    bench::write(each.problem, each.problem.wishes[0], programme);
    return peer.solve(programme).empty();
  });
  hold(!made.empty(), "qpgen2 solved none");
  const auto [ours, theirs] = in_turn(
      rounds,
      [&] {
        for (const bench::Made &each : made) {
          bench::rebuild(each.problem, problem);
          solver.solve(problem);
        }
      },
      [&] {
        for (const bench::Made &each : made) {
          bench::write(each.problem, each.problem.wishes[0], programme);
          peer.solve(programme);
        }
      });
  say(name, ours / theirs);
}

/// All levels of our solver at 30 unknowns over one level by qpgen2 at 30.
void hierarchy_vs_qpgen2() {
  bench::Qpgen2 peer;
  std::vector<bench::Made> all, one;
  for (int i = 0; i < 16; ++i) {
    all.push_back(bench::all_levels(30, i));
    one.push_back(bench::shared_out(30, i));
  }
  Hierarchy solver;
  Problem problem;
  bench::DenseProgramme programme;
  for (const bench::Made &each : all)
    hold(bench::distance(solver.solve(each.problem).x, each.optimum) <= 1e-9, "our answer is off");
  if (!peer.present()) {
    std::printf("hierarchy_vs_qpgen2_n30 absent\n");
    return;
  }
  const auto [ours, theirs] = in_turn(
      100,
      [&] {
        for (const bench::Made &each : all) {
          bench::rebuild(each.problem, problem);
          solver.solve(problem);
        }
      },
      [&] {
        for (const bench::Made &each : one) {
          bench::write(each.problem, each.problem.wishes[0], programme);
          hold(!peer.solve(programme).empty(), "qpgen2 found nothing");
        }
      });
  say("hierarchy_vs_qpgen2_n30", ours / theirs);
}

/// Time for a join at 200 joins coupled by 50 free lengths over that at 20 coupled by 5: the joint hierarchy alone. In
/// some of these problems all limits can hold, in others not, which is more work: both sizes are of eight.
void joins_growth() {
  const auto time_a_join = [](int joins, int free_lengths, int rounds) {
    double total = 0;
    Hierarchy solver;
    for (std::uint64_t seed = 1; seed <= 8; ++seed) {
      const Problem problem = bench::coupled_joins(joins, free_lengths, seed);
      hold(optimum::check(problem, solver.solve(problem)).largest() <= 1e-9, "the joins are not solved");
      double best = HUGE_VAL;
      for (int i = 0; i < rounds; ++i)
        best = std::min(best, once([&] { solver.solve(problem); }));
      total += best;
    }
    return total / joins;
  };
  const double few = time_a_join(20, 5, 100);
  say("joins_growth", time_a_join(200, 50, 10) / few);
}

/// A cast of wearers; see cast_ratios.hpp for what each is divided by.
void cast(const Written &file, const std::string &text) {
  const bench::CastRatios ratios = bench::cast_ratios(file.path(), text, PROGRAM);
  say("cast_vs_dump", ratios.dump);
  say("cast_vs_write", ratios.write);
  say("cast_threads", ratios.threads);
}

} // namespace

int main() {
  const std::string text = without_pieces(contents(EXAMPLE));
  const Written file(text);
  plan_vs_json(text);
  process_vs_json(file, text);
  spread_growth();
  against_qpgen2(
      "optimum_vs_qpgen2_n10", [](int i) { return bench::shared_out(10, i); }, 32, 6000, 1e-12);
  against_qpgen2(
      "optimum_vs_qpgen2_n30", [](int i) { return bench::shared_out(30, i); }, 16, 1000, 1e-12);
  against_qpgen2(
      "optimum_vs_qpgen2_n100", [](int i) { return bench::shared_out(100, i); }, 8, 40, 1e-12);
  against_qpgen2(
      "jobshape_vs_qpgen2", [](int i) { return bench::job_shape(i); }, 32, 60, 1e-10);
  hierarchy_vs_qpgen2();
  joins_growth();
  plan_ratios(PEAK_MEMORY);
  cast(file, text);
  advice_ratios(text);
  path_growth();
  head_vs_quadrature();
  layout_vs_glpk();
  layout_sum_vs_skyline();
  layout_gaps();
  layout_growth();
  stock_ratios(contents(EXAMPLE));
  page_ratios(contents(EXAMPLE));
  return 0;
}
