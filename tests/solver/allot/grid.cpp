// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/draft.hpp"

#include "gatherwright/limits.hpp"

#include <array>
#include <cmath>
#include <random>
#include <string>

using namespace gatherwright;
using namespace gatherwright::tests;

namespace {

/// A job of joins with one gathered segment each, long edges free: given the free lengths nothing else is to be found,
/// so every level's cost can be written down.
struct GridJob {
  Draft draft;
  int free = 0;
  std::vector<double> from, to, aim; ///< millimetres; aim 0: none
  std::vector<double> band;
  std::vector<int> edge; ///< free length of each join
  double cloth = 0;      ///< the sum of the free lengths is at most this
};

std::string written(double millimetres) {
  return std::to_string(static_cast<int>(millimetres)) + " mm";
}

GridJob random_job(std::mt19937_64 &random) {
  const auto whole = [&](int low, int high) { return std::uniform_int_distribution<int>(low, high)(random); };
  GridJob job;
  job.free = whole(1, 4);
  std::string sum;
  job.draft.fabric = weighing(150);
  for (int i = 0; i < job.free; ++i) {
    job.from.push_back(10 * whole(20, 50));
    job.to.push_back(job.from.back() + 10 * whole(5, 60));
    job.aim.push_back(whole(0, 1) ? 10 * whole(25, 100) : 0);
    const std::string name(1, static_cast<char>('a' + i));
    job.draft.lengths.push_back({.name = name,
                                 .from = written(job.from[i]),
                                 .to = written(job.to[i]),
                                 .aim = job.aim[i] > 0 ? written(job.aim[i]) : ""});
    sum += (i ? " + " : "") + name;
  }
  const int count = whole(1, 5);
  for (int j = 0; j < count; ++j) {
    job.edge.push_back(whole(0, job.free - 1));
    job.band.push_back(10 * whole(12, 45));
    job.draft.joins.push_back({"j" + std::to_string(j), job.draft.lengths[job.edge[j]].name, written(job.band[j])});
  }
  double least = 0;
  for (const double from : job.from)
    least += from;
  job.cloth = least + 10 * whole(0, 60);
  job.draft.rules = {sum + " <= " + written(job.cloth)};
  return job;
}

/// The levels' costs at a choice of the free lengths, level 1 first.
std::array<double, 4> costs(const GridJob &job, const Limits &limits, const std::vector<double> &free) {
  std::array<double, 4> cost{};
  for (std::size_t j = 0; j < job.edge.size(); ++j) {
    const double l = free[job.edge[j]];
    const double b = job.band[j];
    const double k = limits.ideal - 1;
    const double violation = std::max({0.0, limits.least * b - l, l - limits.most * b});
    cost[0] += violation * violation / b;
    cost[2] += std::pow(l - b - k * b, 2) / (k * b);
  }
  for (int i = 0; i < job.free; ++i) {
    const double middle = (job.from[i] + job.to[i]) / 2;
    if (job.aim[i] > 0)
      cost[1] += std::pow((free[i] - job.aim[i]) / job.aim[i], 2);
    else
      cost[3] += std::pow((free[i] - middle) / middle, 2);
  }
  return cost;
}

} // namespace

TEST_CASE("no point of a grid over the free lengths beats the plan, level by level") {
  std::mt19937_64 random(20261);
  Fabric fabric;
  fabric.weight = Weight{150};
  const Limits limits = cloth::limits(fabric, {}, Kind::gather, {});
  for (int trial = 0; trial < 300; ++trial) {
    const GridJob job = random_job(random);
    INFO("trial " << trial);
    const Plan plan = plan_of(job.draft, {.profile = false, .advice = false});
    REQUIRE(plan.verdict != Verdict::rules_conflict);
    std::vector<double> found;
    for (const LengthPlan &length : plan.lengths)
      found.push_back(length.found.value().exact);
    const std::array<double, 4> best = costs(job, limits, found);
    const int steps = job.free > 2 ? 9 : 41;
    std::vector<int> at(job.free, 0);
    std::vector<double> free(job.free);
    for (;;) {
      double sum = 0;
      for (int i = 0; i < job.free; ++i)
        sum += free[i] = job.from[i] + (job.to[i] - job.from[i]) * at[i] / (steps - 1);
      if (sum <= job.cloth) {
        const std::array<double, 4> other = costs(job, limits, free);
        for (int level = 0; level < 4; ++level) {
          // Costs are sums of squares of numbers that may cancel; a level is a tie within 1e-9 of itself and of what
          // rounding of lengths (1e-10 mm) can make of a cost of 0.
          const double tie = 1e-9 * (best[level] + other[level]) + 1e-12;
          REQUIRE(other[level] >= best[level] - tie);
          if (other[level] > best[level] + tie) break;
        }
      }
      int i = 0;
      while (i < job.free && ++at[i] == steps)
        at[i++] = 0;
      if (i == job.free) break;
    }
  }
}
