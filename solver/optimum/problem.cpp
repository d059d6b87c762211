// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/optimum/problem.hpp"

#include <algorithm>

namespace gatherwright::optimum {

namespace {

/// Makes room for more, and at least for twice as many: rows that come one after another are then seldom moved.
template <class Thing> void grow(std::vector<Thing> &things, std::size_t more) {
  if (things.capacity() - things.size() < more) things.reserve(std::max(2 * things.capacity(), things.size() + more));
}

} // namespace

void Rows::add_growing(std::span<const Term> row, double value) {
  grow(terms, row.size());
  grow(start, 1);
  grow(bound, 1);
  add(row, value);
}

} // namespace gatherwright::optimum
