// SPDX-License-Identifier: GPL-3.0-or-later
#include "bench/layout_ratios.hpp"

#include "bench/measured.hpp"
#include "bench/skyline.hpp"
#include "solver/layout/checker.hpp"
#include "solver/layout/lay.hpp"
#include "tests/solver/layout/sets.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <optional>
#include <random>
#include <vector>

#ifdef WITH_GLPK
#include "tests/solver/layout/glpk_model.hpp"
#endif

namespace gatherwright::bench {

namespace {

using layout::Layout;
using layout::Problem;

Layout laid(const Problem &problem) {
  Layout layout = layout::lay(problem);
  hold(!layout::check(problem, layout), "the layout is not one");
  return layout;
}

#ifdef WITH_GLPK
Problem five(std::uint32_t seed) {
  std::mt19937 random(seed);
  const auto below = [&](int end) { return static_cast<int>(random() % static_cast<std::uint32_t>(end)); };
  Problem problem{static_cast<double>(12 + below(8)), {}};
  for (int i = 0; i < 5; ++i)
    problem.rectangles.push_back({static_cast<double>(2 + below(9)), static_cast<double>(2 + below(9)), 1});
  return problem;
}
#endif

} // namespace

void layout_vs_glpk() {
#ifdef WITH_GLPK
  double ours = 0;
  double theirs = 0;
  for (std::uint32_t seed = 1; seed <= 6; ++seed) {
    const Problem problem = five(seed);
    double length = 0;
    double best = HUGE_VAL;
    for (int i = 0; i < 50; ++i)
      best = std::min(best, once([&] { length = layout::lay(problem).length; }));
    ours += best;
    std::optional<double> optimum;
    theirs += once([&] { optimum = layout_sets::shortest_by_glpk(problem); });
    hold(optimum && std::abs(*optimum - length) <= 1e-6 * length, "GLPK's optimum is another");
    hold(laid(problem).shortest, "five rectangles are not proved");
  }
  std::printf("layout_vs_glpk %.6f\n", ours / theirs);
#else
  std::printf("layout_vs_glpk absent\n");
#endif
}

void layout_sum_vs_skyline() {
  if (!Skyline::present()) {
    std::printf("layout_sum_vs_skyline absent\n");
    return;
  }
  double ours = 0;
  double theirs = 0;
  for (const auto &[name, set] : layout_sets::strip_instances(STRIP_INSTANCES)) {
    double length = 0;
    const double time = once([&] { length = layout::lay(set.problem).length; });
    hold(laid(set.problem).length == length, "the same set is laid another way");
    Skyline skyline(set.problem);
    double best = HUGE_VAL;
    double spent = 0;
    for (std::uint32_t seed = 0; seed == 0 || spent < time; ++seed) {
      spent += once([&] { best = std::min(best, skyline.pack(seed)); });
      skyline.hold_right();
    }
    ours += length;
    theirs += best;
  }
  say("layout_sum_vs_skyline", ours / theirs);
}

void layout_gaps() {
  double six = 0;
  int sets = 0;
  for (int wearers = 1; wearers <= 4; ++wearers)
    for (std::uint32_t seed = 1; seed <= 5; ++seed, ++sets) {
      const Layout layout = laid(layout_sets::six_garments(seed, wearers));
      six += layout.length / layout.bound;
    }
  say("layout_gap_six", six / sets);
  double cast = 0;
  constexpr std::uint32_t casts = 8;
  for (std::uint32_t seed = 1; seed <= casts; ++seed) {
    const Layout layout = laid(layout_sets::cast(seed, 800));
    cast += layout.length / layout.certified;
  }
  say("layout_gap_cast", cast / casts);
}

void layout_growth() {
  const auto time_a_rectangle = [](int rectangles) {
    double sum = 0;
    for (std::uint32_t seed = 1; seed <= 4; ++seed) {
      const Problem problem = layout_sets::cast(seed, rectangles);
      double length = 0;
      sum += once([&] { length = layout::lay(problem).length; });
      hold(laid(problem).length == length, "the same cast is laid another way");
    }
    return sum / rectangles;
  };
  const double few = time_a_rectangle(80);
  say("layout_growth", time_a_rectangle(800) / few);
}

} // namespace gatherwright::bench
