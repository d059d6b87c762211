// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/advice/dependence.hpp"

#include "gatherwright/order.hpp"
#include "solver/job/settled.hpp"

#include <algorithm>
#include <functional>
#include <numeric>
#include <queue>
#include <utility>

namespace gatherwright::advice {

namespace {

void append(std::span<const int> some, std::vector<int> &all) {
  if (!some.empty()) all.insert(all.end(), some.begin(), some.end());
}

} // namespace

void sort_once_each(std::vector<int> &numbers) {
  if (numbers.size() < 2) return;
  std::sort(numbers.begin(), numbers.end());
  numbers.erase(std::unique(numbers.begin(), numbers.end()), numbers.end());
}

Dependents::Dependents(const Job &job) : first_(job.lengths.size() * kinds + 1), rank_(job.lengths.size()) {
  struct Naming {
    int of; ///< length and kind
    int who;
  };
  std::vector<int> last(first_.size() - 1, -1); // of each length and kind
  std::vector<Naming> namings;
  namings.reserve(job.lengths.size() * kinds);
  const auto note = [&](const Formula &formula, Of kind, int who) {
    for (const Formula::Step &step : formula.steps()) {
      if (step.code != Formula::Code::symbol) continue;
      const auto length = job.length_of(step.symbol);
      if (!length) continue;
      const int of = length->at * kinds + static_cast<int>(kind);
      if (std::exchange(last[of], who) != who) namings.push_back({of, who});
    }
  };
  int place = 0;
  for (const int length : order_of_lengths(job))
    rank_[length] = place++;
  for (int i = 0; i < static_cast<int>(job.lengths.size()); ++i) {
    const NamedLength &length = job.lengths[i];
    const Of kind = length.fixed() ? Of::lengths : Of::ranged;
    visit_formulas(length, [&](const Formula &formula) { note(formula, kind, i); });
  }
  for (int j = 0; j < static_cast<int>(job.joins.size()); ++j) {
    const Join &join = job.joins[j];
    for (const Edge *edge : {&join.long_edge, &join.band})
      if (const Formula *length = edge->formula()) note(*length, Of::joins, j);
    for (const Segment &segment : join.segments) {
      if (segment.long_edge) note(*segment.long_edge, Of::joins, j);
      if (segment.band) note(*segment.band, Of::joins, j);
    }
    visit_fixed(join, JoinId(j), [&](const Formula &formula, const auto &...) { note(formula, Of::joins, j); });
  }
  for (int r = 0; r < static_cast<int>(job.rules.size()); ++r) {
    note(job.rules[r].holds.left, Of::rules, r);
    note(job.rules[r].holds.right, Of::rules, r);
  }
  sewn_to_.resize(job.joins.size());
  for (int p = 0; p < static_cast<int>(job.pieces.size()); ++p) {
    const Piece &piece = job.pieces[p];
    note(piece.across, Of::pieces, p);
    note(piece.along, Of::pieces, p);
    visit_fixed(piece, PieceId(p), [&](const Formula &formula, const auto &...) { note(formula, Of::pieces, p); });
    for (const Side side : all_sides)
      for (const SidePart &part : piece.sides[side]) {
        note(part.at, Of::pieces, p);
        sewn_to_[part.join.at].push_back(p);
      }
  }
  for (const Naming &naming : namings)
    ++first_[naming.of + 1];
  std::partial_sum(first_.begin(), first_.end(), first_.begin());
  named_by_.resize(namings.size());
  std::vector<std::size_t> next(first_.begin(), first_.end() - 1);
  for (const Naming &naming : namings)
    named_by_[next[naming.of]++] = naming.who;
}

void Dependents::find(int length, Dependence &found) const {
  for (std::vector<int> *list : {&found.lengths, &found.ranged, &found.joins, &found.rules, &found.pieces})
    list->clear();
  using Ranked = std::pair<int, int>;
  std::priority_queue<Ranked, std::vector<Ranked>, std::greater<>> next; // the earliest worked out first
  const auto take = [&](int at) {
    found.lengths.push_back(at);
    for (const int derived : naming(at, Of::lengths))
      next.emplace(rank_[derived], derived);
    append(naming(at, Of::ranged), found.ranged);
    append(naming(at, Of::joins), found.joins);
    append(naming(at, Of::rules), found.rules);
    append(naming(at, Of::pieces), found.pieces);
  };
  for (take(length); !next.empty();) {
    const int at = next.top().second;
    next.pop();
    if (found.lengths.back() != at) take(at); // it may name several of them
  }
  const bool of_several = found.lengths.size() > 1;
  if (of_several)
    for (std::vector<int> *list : {&found.ranged, &found.joins, &found.rules})
      sort_once_each(*list);
  const std::size_t named = found.pieces.size();
  for (const int j : found.joins)
    append(sewn_to_[j], found.pieces);
  if (of_several || found.pieces.size() > named) sort_once_each(found.pieces);
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
