// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/advice/dependence.hpp"

#include "gatherwright/order.hpp"
#include "solver/job/settled.hpp"

#include <algorithm>
#include <functional>
#include <queue>

namespace gatherwright::advice {

namespace {

void sort_once_each(std::vector<int> &numbers) {
  std::sort(numbers.begin(), numbers.end());
  numbers.erase(std::unique(numbers.begin(), numbers.end()), numbers.end());
}

void append(std::vector<int> &to, const std::vector<int> &from) {
  to.insert(to.end(), from.begin(), from.end());
}

} // namespace

Dependents::Dependents(const Job &job) : by_(job.lengths.size()), rank_(job.lengths.size()) {
  const auto note = [&](const Formula &formula, std::vector<int> Named::*of, int who) {
    for (const Formula::Step &step : formula.steps()) {
      if (step.code != Formula::Code::symbol) continue;
      if (const auto length = job.length_of(step.symbol)) (by_[length->at].*of).push_back(who);
    }
  };
  int place = 0;
  for (const int length : order_of_lengths(job))
    rank_[length] = place++;
  for (int i = 0; i < static_cast<int>(job.lengths.size()); ++i) {
    const NamedLength &length = job.lengths[i];
    const auto of = length.fixed() ? &Named::lengths : &Named::ranged;
    visit_formulas(length, [&](const Formula &formula) { note(formula, of, i); });
  }
  for (int j = 0; j < static_cast<int>(job.joins.size()); ++j) {
    const Join &join = job.joins[j];
    for (const Edge *edge : {&join.long_edge, &join.band})
      if (const Formula *length = edge->formula()) note(*length, &Named::joins, j);
    for (const Segment &segment : join.segments) {
      if (segment.long_edge) note(*segment.long_edge, &Named::joins, j);
      if (segment.band) note(*segment.band, &Named::joins, j);
    }
    visit_fixed(join, JoinId(j), [&](const Formula &formula, const auto &...) { note(formula, &Named::joins, j); });
  }
  for (int r = 0; r < static_cast<int>(job.rules.size()); ++r) {
    note(job.rules[r].holds.left, &Named::rules, r);
    note(job.rules[r].holds.right, &Named::rules, r);
  }
  sewn_to_.resize(job.joins.size());
  for (int p = 0; p < static_cast<int>(job.pieces.size()); ++p) {
    const Piece &piece = job.pieces[p];
    note(piece.across, &Named::pieces, p);
    note(piece.along, &Named::pieces, p);
    visit_fixed(piece, PieceId(p), [&](const Formula &formula, const auto &...) { note(formula, &Named::pieces, p); });
    for (const Side side : all_sides)
      for (const SidePart &part : piece.sides[side]) {
        note(part.at, &Named::pieces, p);
        sewn_to_[part.join.at].push_back(p);
      }
  }
}

Dependence Dependents::of(int length) const {
  Dependence found;
  using Ranked = std::pair<int, int>;
  std::priority_queue<Ranked, std::vector<Ranked>, std::greater<>> next; // the earliest worked out first
  next.emplace(-1, length);
  while (!next.empty()) {
    const int at = next.top().second;
    next.pop();
    if (!found.lengths.empty() && found.lengths.back() == at) continue; // it names several of them
    found.lengths.push_back(at);
    for (const int derived : by_[at].lengths)
      next.emplace(rank_[derived], derived);
    append(found.ranged, by_[at].ranged);
    append(found.joins, by_[at].joins);
    append(found.rules, by_[at].rules);
    append(found.pieces, by_[at].pieces);
  }
  sort_once_each(found.ranged);
  sort_once_each(found.joins);
  sort_once_each(found.rules);
  for (const int j : found.joins)
    append(found.pieces, sewn_to_[j]);
  sort_once_each(found.pieces);
  return found;
}

std::int64_t parts_of(const Piece &piece) {
  std::size_t parts = 0;
  for (const Side side : all_sides)
    parts += piece.sides[side].size();
  return static_cast<std::int64_t>(parts);
}

std::int64_t steps_through(const Job &job, const Piece &piece) {
  constexpr int each_size = 100;
  constexpr int each_segment = 100; // of the join of each part: how long the part is goes by all of them
  std::int64_t segments = 0;
  for (const Side side : all_sides)
    for (const SidePart &part : piece.sides[side])
      segments += 1 + static_cast<std::int64_t>(job[part.join].segments.size());
  return 2 * each_size + each_segment * segments;
}

std::int64_t steps_through(const Job &job, const Dependence &dependence) {
  constexpr int each_length = 100;
  constexpr int each_rule = 200;
  constexpr int each_join = 300;
  std::int64_t segments = 0;
  for (const int j : dependence.joins)
    segments += static_cast<std::int64_t>(job.joins[j].segments.size());
  std::int64_t pieces = 0;
  for (const int p : dependence.pieces)
    pieces += steps_through(job, job.pieces[p]);
  return each_length * static_cast<std::int64_t>(dependence.lengths.size() + dependence.ranged.size()) +
         each_rule * static_cast<std::int64_t>(dependence.rules.size()) +
         each_join * (static_cast<std::int64_t>(dependence.joins.size()) + segments) + pieces;
}

} // namespace gatherwright::advice
