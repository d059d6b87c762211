// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/optimum/problem.hpp"

#include <cstdint>
#include <vector>

/// Problems whose answer was chosen first: the point, which constraints bind it and with what multipliers; the wishes
/// follow from these.
namespace gatherwright::bench {

struct Made {
  optimum::Problem problem;
  std::vector<double> optimum;
};

/// A total shared among n lengths, each between bounds and none exceeding its neighbour by more than so much: 1
/// equality, 2n bounds, n - 1 slopes; one level of wishes, a weighted length each. About half as many constraints bind
/// as there are unknowns.
Made shared_out(int n, std::uint64_t seed);

/// 45 unknowns as ten joins of two segments and five free lengths have them: every join's long edge, and every second
/// one's band, is a free length or a sum of two; segments share their band equally and have limits; some rows depend on
/// others, some come twice, some pairs of inequalities are equalities. One level of wishes: evenness, bands, lengths.
Made job_shape(std::uint64_t seed);

/// As shared_out, and every level has something to say: limits some of which cannot hold, and three levels of wishes,
/// each on a third of the lengths.
Made all_levels(int n, std::uint64_t seed);

/// Joins of three segments (flat, two gathered) whose long edges and bands are free lengths, as the planner poses them:
/// ranges, limits, aims, evenness, the rest. No answer is known beforehand.
optimum::Problem coupled_joins(int joins, int free_lengths, std::uint64_t seed);

/// The problem again, row by row into emptied rows: what building it costs.
void rebuild(const optimum::Problem &from, optimum::Problem &into);

/// Greatest difference of two points over the greatest absolute value in the second.
double distance(const std::vector<double> &x, const std::vector<double> &optimum);

} // namespace gatherwright::bench
