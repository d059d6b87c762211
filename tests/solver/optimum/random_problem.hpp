// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/optimum/problem.hpp"

#include <random>
#include <vector>

namespace gatherwright::tests {

struct ProblemShape {
  int most_blocks = 4;
  int most_of_block = 5;
  int most_shared = 4;
  int most_rows = 10; ///< of inequalities and of limits
  int most_wishes = 5;
};

/// Made round a point that keeps level 0 four times in five; whole coefficients half the time, so that rows depend on
/// each other, come twice, and inequalities meet in one point.
class RandomProblem {
public:
  explicit RandomProblem(std::uint64_t seed) : random_(seed) {}

  optimum::Problem make(const ProblemShape &shape) {
    optimum::Problem problem;
    const int blocks = whole(0, shape.most_blocks);
    const int shared = whole(blocks == 0 ? 1 : 0, shape.most_shared);
    for (int j = 0; j < blocks; ++j) {
      problem.unknowns += whole(1, shape.most_of_block);
      problem.block_ends.push_back(problem.unknowns);
    }
    problem.unknowns += shared;
    whole_ = whole(0, 1) == 1;
    point_.resize(problem.unknowns);
    for (double &x : point_)
      x = number(5);
    keeps_ = whole(0, 4) > 0;
    for (int i = whole(0, 3); i > 0; --i) {
      const auto terms = row(problem);
      problem.equal.add(terms, value(terms));
      if (whole(0, 3) == 0) problem.equal.add(terms, value(terms));
    }
    for (int i = whole(0, shape.most_rows); i > 0; --i) {
      const auto terms = row(problem);
      const double room = keeps_ ? (whole(0, 1) ? 0 : between(0, 3)) : between(-1, 3);
      problem.at_least.add(terms, value(terms) - room);
    }
    for (int i = whole(0, shape.most_rows); i > 0; --i) {
      const auto terms = row(problem);
      problem.limits.add(terms, value(terms) + (whole(0, 1) ? -whole(0, 3) : between(-4, 2)));
    }
    for (optimum::Rows &wishes : problem.wishes)
      for (int i = whole(0, shape.most_wishes); i > 0; --i)
        wishes.add(row(problem), number(9));
    return problem;
  }

  bool keeps_level_0() const { return keeps_; }
  int whole(int low, int high) { return std::uniform_int_distribution<int>(low, high)(random_); }
  double between(double low, double high) { return std::uniform_real_distribution<double>(low, high)(random_); }

private:
  double number(int size) { return whole_ ? whole(-size, size) : between(-size, size); }
  double coefficient() { return whole_ ? (whole(0, 1) ? whole(1, 2) : -whole(1, 2)) : between(-2, 2); }

  std::vector<optimum::Term> row(const optimum::Problem &problem) {
    std::vector<optimum::Term> terms;
    const int blocks = problem.blocks();
    const int shared = problem.unknowns - problem.shared_begin();
    const int block = blocks == 0 ? -1 : shared == 0 ? whole(0, blocks - 1) : whole(-1, blocks - 1);
    if (block >= 0)
      for (int c = block == 0 ? 0 : problem.block_ends[block - 1]; c < problem.block_ends[block]; ++c)
        if (whole(0, 1)) terms.push_back({c, coefficient()});
    for (int c = problem.shared_begin(); c < problem.unknowns; ++c)
      if (whole(0, 2) == 0) terms.push_back({c, coefficient()});
    if (terms.empty()) terms.push_back({block >= 0 ? problem.block_ends[block] - 1 : problem.shared_begin(), 1.0});
    return terms;
  }

  double value(const std::vector<optimum::Term> &terms) const {
    double sum = 0;
    for (const optimum::Term &term : terms)
      sum += term.value * point_[term.column];
    return sum;
  }

  std::mt19937_64 random_;
  bool whole_ = false;
  bool keeps_ = true;
  std::vector<double> point_;
};

} // namespace gatherwright::tests
