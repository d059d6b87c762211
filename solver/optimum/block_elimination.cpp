// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/optimum/block_elimination.hpp"

#include "solver/optimum/tolerances.hpp"

#include <algorithm>
#include <cmath>

namespace gatherwright::optimum {

bool BlockElimination::eliminate(const ReducedRows &reduced, int first, int end, const BlockMap &map,
                                 std::span<const int> columns, std::vector<double> &border, const WorkCounter &count) {
  const int rows = end - first;
  const int touched = static_cast<int>(map.touched.size());
  first_row_ = first;
  echelon_.begin(rows, map.locals);
  shrink_.resize(rows);
  border.assign(static_cast<std::size_t>(rows) * touched, 0.0);
  for (int i = 0; i < rows; ++i) {
    const double shrink = 1 / reduced[first + i].norm;
    shrink_[i] = shrink;
    int c = 0;
    for (const Term &term : reduced.view(first + i).terms) {
      while (columns[c] != term.column)
        ++c;
      if (c < map.locals)
        echelon_.set(i, c, shrink * term.value);
      else
        border[static_cast<std::size_t>(c - map.locals) * rows + i] = shrink * term.value;
    }
  }
  echelon_.substitute();
  count.add(echelon_.work_left());
  if (count.spent()) return false;
  echelon_.factor(tolerance::dependent_share);
  places_.resize(rows);
  for (int c = 0; c < touched; ++c) {
    double *of_shared = border.data() + static_cast<std::size_t>(c) * rows;
    for (int i = 0; i < rows; ++i)
      places_[echelon_.place_of(i)] = of_shared[i];
    echelon_.apply(places_.data());
    std::copy(places_.begin(), places_.end(), of_shared);
  }
  find_moves(map);
  return true;
}

void BlockElimination::find_moves(const BlockMap &map) {
  place_of_local_.assign(map.locals, -1);
  for (int k = 0; k < echelon_.rank(); ++k)
    place_of_local_[echelon_.pivots()[k]] = k;
  moves_.clear();
  for (int i = 0; i < map.size; ++i)
    for (int c = 0; c < map.locals; ++c)
      if (const double along = map.row(i)[c]; along != 0 && place_of_local_[c] >= 0)
        moves_.push_back({map.begin + i, place_of_local_[c], along});
}

void BlockElimination::leave(std::span<const int> touched, std::span<const double> border, LeftRows &left) {
  first_left_ = left.size();
  const int rows = echelon_.rows();
  for (int i = echelon_.rank(); i < rows; ++i) {
    ReducedRows::Pen pen = left.pen(touched.size());
    for (std::size_t c = 0; c < touched.size(); ++c) {
      const double value = border[c * rows + i];
      // What is left of a row that depends on others is rounding: it must not be taken for a condition on the shared
      // unknowns.
      if (std::abs(value) > tolerance::dependent_share) pen.put(touched[c], value);
    }
    left.take(pen, 1);
  }
}

void BlockElimination::meet_bounds(std::span<const double> rests, Freedom &freedom, LeftRows &left) {
  const int rows = echelon_.rows();
  const int rank = echelon_.rank();
  places_.resize(rows);
  for (int i = 0; i < rows; ++i)
    places_[echelon_.place_of(i)] = shrink_[i] * rests[first_row_ + i];
  echelon_.apply(places_.data());
  for (int i = rank; i < rows; ++i)
    left.set_rest(first_left_ + i - rank, places_[i]);
  echelon_.solve(places_.data());
  for (const Move &move : moves_)
    freedom.move_unknown(move.unknown, move.along * places_[move.place]);
}

std::span<const double> BlockElimination::multipliers(std::span<const double> of_left,
                                                      std::span<const double> gradient) {
  const int rows = echelon_.rows();
  const int rank = echelon_.rank();
  places_.assign(rows, 0.0);
  for (const Move &move : moves_)
    places_[move.place] += move.along * gradient[move.unknown];
  echelon_.solve_transposed(places_.data());
  for (int i = rank; i < rows; ++i)
    places_[i] = of_left[first_left_ + i - rank];
  echelon_.apply_transposed(places_.data());
  rows_.resize(rows);
  for (int i = 0; i < rows; ++i)
    rows_[i] = shrink_[i] * places_[echelon_.place_of(i)];
  return rows_;
}

} // namespace gatherwright::optimum
