// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/advice/ties.hpp"

#include <algorithm>
#include <numeric>

namespace gatherwright::advice {

namespace {

class Unions {
public:
  explicit Unions(std::size_t count) : parent_(count) { std::iota(parent_.begin(), parent_.end(), 0); }
  int root(int node) {
    while (parent_[node] != node)
      node = parent_[node] = parent_[parent_[node]];
    return node;
  }
  void unite(int a, int b) { parent_[root(a)] = root(b); }

private:
  std::vector<int> parent_;
};

bool is_among(int number, std::span<const int> ascending) {
  return std::binary_search(ascending.begin(), ascending.end(), number);
}

} // namespace

std::vector<Piece> pieces_with_joins(const Job &job, std::span<const int> pieces, std::span<const int> joins) {
  std::vector<int> place_of(job.joins.size());
  for (int place = 0; place < static_cast<int>(joins.size()); ++place)
    place_of[joins[place]] = place;
  std::vector<Piece> found;
  for (const int p : pieces) {
    Piece &piece = found.emplace_back(job.pieces[p]);
    for (const Side side : all_sides)
      for (SidePart &part : piece.sides[side])
        part.join = JoinId(place_of[part.join.at]);
  }
  return found;
}

int PartOfJob::place_of(int join) const {
  const auto at = std::lower_bound(joins.begin(), joins.end(), join);
  return at != joins.end() && *at == join ? static_cast<int>(at - joins.begin()) : -1;
}

Ties::Ties(const Job &job, const Dependents &dependents, optimum::Work &work) {
  const int lengths = static_cast<int>(job.lengths.size());
  const int joins = static_cast<int>(job.joins.size());
  const int rules = static_cast<int>(job.rules.size());
  const int pieces = static_cast<int>(job.pieces.size());
  Unions unions(lengths + joins + rules + pieces);
  for (int i = 0; i < lengths; ++i) {
    if (!job.lengths[i].free()) continue;
    const Dependence on_it = dependents.of(i);
    work.add(steps_through(job, on_it));
    for (const int j : on_it.joins)
      unions.unite(lengths + j, i);
    for (const int r : on_it.rules)
      unions.unite(lengths + joins + r, i);
    for (const int p : on_it.pieces)
      unions.unite(lengths + joins + rules + p, i);
  }
  for (int p = 0; p < pieces; ++p)
    for (const Side side : all_sides)
      for (const SidePart &part : job.pieces[p].sides[side])
        unions.unite(lengths + joins + rules + p, lengths + part.join.at);
  // What is cut from a cloth of which there is only so much must come out of it together.
  const Cloths cloths = cloths_of(job);
  std::vector<int> first_of_cloth(cloths.cloths.size(), -1);
  for (int p = 0; p < pieces; ++p) {
    int &first = first_of_cloth[cloths.of_piece[p]];
    if (first < 0) first = p;
    if (cloths.cloths[cloths.of_piece[p]].stock)
      unions.unite(lengths + joins + rules + p, lengths + joins + rules + first);
  }
  for (int i = 0; i < lengths; ++i)
    of_length_.push_back(job.lengths[i].free() ? unions.root(i) : -1);
  for (int j = 0; j < joins; ++j)
    of_join_.push_back(unions.root(lengths + j));
  for (int r = 0; r < rules; ++r)
    of_rule_.push_back(unions.root(lengths + joins + r));
  for (int p = 0; p < pieces; ++p)
    of_piece_.push_back(unions.root(lengths + joins + rules + p));
}

std::vector<int> Ties::knots_of_join(int join) const {
  return {of_join_[join]};
}

std::vector<int> Ties::knots_of_piece(int piece) const {
  return {of_piece_[piece]};
}

std::vector<int> Ties::knots_of(int length, const Dependence &dependence) const {
  std::vector<int> knots;
  if (of_length_[length] >= 0) knots.push_back(of_length_[length]);
  for (const int j : dependence.joins)
    knots.push_back(of_join_[j]);
  for (const int r : dependence.rules)
    knots.push_back(of_rule_[r]);
  for (const int p : dependence.pieces)
    knots.push_back(of_piece_[p]);
  for (const int i : dependence.ranged)
    knots.push_back(of_length_[i]);
  sort_once_each(knots);
  return knots;
}

bool Ties::is_tied(int join, std::span<const int> knots) const {
  return is_among(of_join_[join], knots);
}

bool Ties::is_piece_tied(int piece, std::span<const int> knots) const {
  return is_among(of_piece_[piece], knots);
}

PartOfJob Ties::part(const Job &job, const Job &bare, const Plan &plan, const DrawnEdges &edges,
                     std::span<const int> knots) const {
  PartOfJob part;
  part.job = bare;
  for (int j = 0; j < static_cast<int>(job.joins.size()); ++j) {
    if (!is_tied(j, knots)) {
      part.limits_missed = part.limits_missed || plan.joins[j].verdict != Verdict::within_limits;
      continue;
    }
    part.joins.push_back(j);
    part.job.joins.push_back(job.joins[j]);
    if (!edges.empty()) part.edges.push_back(edges[j]);
  }
  for (std::size_t r = 0; r < job.rules.size(); ++r)
    if (is_among(of_rule_[r], knots)) part.job.rules.push_back(job.rules[r]);
  for (int p = 0; p < static_cast<int>(job.pieces.size()); ++p)
    if (is_piece_tied(p, knots)) part.pieces.push_back(p);
  part.job.pieces = pieces_with_joins(job, part.pieces, part.joins);
  for (std::size_t i = 0; i < job.lengths.size(); ++i) {
    NamedLength &length = part.job.lengths[i];
    if (length.free() && !is_among(of_length_[i], knots)) length.is = Formula::of({*plan.lengths[i].is}, "");
  }
  return part;
}

} // namespace gatherwright::advice
