// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/advice/dependence.hpp"

#include "gatherwright/order.hpp"
#include "solver/job/settled.hpp"
#include "tests/draft.hpp"
#include "tests/solver/advice/random_job.hpp"

#include <algorithm>
#include <random>
#include <set>
#include <vector>

using namespace gatherwright;
using namespace gatherwright::tests;

namespace {

using Lengths = std::set<int>;

bool names_one_of(const Job &job, const Formula &formula, const Lengths &lengths) {
  const std::vector<int> symbols = symbols_of(formula);
  return std::any_of(symbols.begin(), symbols.end(), [&](int symbol) {
    const auto length = job.length_of(symbol);
    return length && lengths.count(length->at) > 0;
  });
}

/// The length and all that are made of it, found by going over all of them until no more are.
Lengths made_of(const Job &job, int length) {
  Lengths found{length};
  for (std::size_t before = 0; before != found.size();) {
    before = found.size();
    for (int i = 0; i < static_cast<int>(job.lengths.size()); ++i)
      if (const Formula *is = job.lengths[i].fixed(); is && names_one_of(job, *is, found)) found.insert(i);
  }
  return found;
}

/// Numbers of things of which any formula names one of these.
template <class Visit> std::vector<int> numbers(std::size_t count, Visit any_names) {
  std::vector<int> found;
  for (int i = 0; i < static_cast<int>(count); ++i)
    if (any_names(i)) found.push_back(i);
  return found;
}

bool is_named_by(const Job &job, const Join &join, const Lengths &lengths) {
  bool names = false;
  const auto look = [&](const Formula *formula) { names = names || (formula && names_one_of(job, *formula, lengths)); };
  look(join.long_edge.formula());
  look(join.band.formula());
  for (const Segment &segment : join.segments) {
    look(segment.long_edge ? &*segment.long_edge : nullptr);
    look(segment.band ? &*segment.band : nullptr);
  }
  visit_fixed(join, JoinId(0), [&](const Formula &formula, const auto &...) { look(&formula); });
  return names;
}

bool is_named_by(const Job &job, const Piece &piece, const Lengths &lengths, const std::vector<int> &joins) {
  bool names = names_one_of(job, piece.across, lengths) || names_one_of(job, piece.along, lengths);
  for (const Side side : all_sides) {
    names = names || (piece.allowance[side] && names_one_of(job, *piece.allowance[side], lengths));
    for (const SidePart &part : piece.sides[side])
      names =
          names || names_one_of(job, part.at, lengths) || std::binary_search(joins.begin(), joins.end(), part.join.at);
  }
  return names;
}

} // namespace

TEST_CASE("what depends on a length is what names it or what is made of it, found by looking at everything") {
  std::mt19937_64 random(511);
  int with_pieces = 0;
  advice::Dependence found; // of the job and the length before
  for (int round = 0; round < 60; ++round) {
    Draft draft = random_job_with_pieces(random);
    draft.lengths.push_back({"q", "c + 2 * p - p"});
    draft.lengths.push_back({.name = "r", .from = "p", .to = "q + a", .aim = "q"});
    const Job job = job_of(draft);
    const advice::Dependents dependents(job);
    for (int length = 0; length < static_cast<int>(job.lengths.size()); ++length) {
      dependents.find(length, found);
      const Lengths lengths = made_of(job, length);
      CHECK(found.lengths.front() == length);
      CHECK(Lengths(found.lengths.begin(), found.lengths.end()) == lengths);
      CHECK(found.lengths.size() == lengths.size());
      for (auto at = found.lengths.begin() + 1; at != found.lengths.end(); ++at)
        CHECK_FALSE(names_one_of(job, *job.lengths[*at].fixed(), Lengths(at, found.lengths.end())));
      CHECK(found.ranged == numbers(job.lengths.size(), [&](int i) {
              bool names = false;
              if (job.lengths[i].free())
                visit_formulas(job.lengths[i],
                               [&](const Formula &formula) { names = names || names_one_of(job, formula, lengths); });
              return names;
            }));
      CHECK(found.joins == numbers(job.joins.size(), [&](int j) { return is_named_by(job, job.joins[j], lengths); }));
      CHECK(found.rules == numbers(job.rules.size(), [&](int r) {
              const Comparison &rule = job.rules[r].holds;
              return names_one_of(job, rule.left, lengths) || names_one_of(job, rule.right, lengths);
            }));
      CHECK(found.pieces ==
            numbers(job.pieces.size(), [&](int p) { return is_named_by(job, job.pieces[p], lengths, found.joins); }));
      with_pieces += found.pieces.empty() ? 0 : 1;
    }
  }
  CHECK(with_pieces > 50);
}
