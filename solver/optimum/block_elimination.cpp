// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/optimum/block_elimination.hpp"

#include "solver/optimum/tolerances.hpp"

#include <algorithm>
#include <cmath>

namespace gatherwright::optimum {

bool BlockElimination::eliminate(const ReducedRows &reduced, int first, int end, const BlockMap &map,
                                 std::span<const int> columns, std::vector<double> &border, Room &room,
                                 const WorkCounter &count) {
  const int rows = end - first;
  const int touched = static_cast<int>(map.touched.size());
  first_row_ = first;
  OpenRows &open = room.echelon.rows;
  open.begin(rows, map.locals);
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
        open.set(i, c, shrink * term.value);
      else
        border[static_cast<std::size_t>(c - map.locals) * rows + i] = shrink * term.value;
    }
  }
  echelon_.substitute(room.echelon);
  count.add(echelon_.work_left());
  if (count.spent()) return false;
  echelon_.factor(tolerance::dependent_share, room.echelon);
  room.places.resize(rows);
  for (int c = 0; c < touched; ++c) {
    double *of_shared = border.data() + static_cast<std::size_t>(c) * rows;
    for (int i = 0; i < rows; ++i)
      room.places[echelon_.place_of(i)] = of_shared[i];
    echelon_.apply(room.places.data());
    std::copy(room.places.begin(), room.places.end(), of_shared);
  }
  find_moves(map, room.echelon.column_place);
  return true;
}

void BlockElimination::find_moves(const BlockMap &map, std::span<const int> place_of_local) {
  const int rank = echelon_.rank();
  moves_.clear();
  moves_.reserve(map.size);
  for (int i = 0; i < map.size; ++i)
    map.for_each_local(i, [&](int local, double along) {
      if (place_of_local[local] < rank) moves_.push_back({map.begin + i, place_of_local[local], along});
    });
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

void BlockElimination::meet_bounds(std::span<const double> rests, Freedom &freedom, LeftRows &left, Room &room) const {
  const int rows = echelon_.rows();
  const int rank = echelon_.rank();
  room.places.resize(rows);
  double *places = room.places.data();
  for (int i = 0; i < rows; ++i)
    places[echelon_.place_of(i)] = shrink_[i] * rests[first_row_ + i];
  echelon_.apply(places);
  for (int i = rank; i < rows; ++i)
    left.set_rest(first_left_ + i - rank, places[i]);
  echelon_.solve(places);
  for (const BlockMove &move : moves_)
    freedom.move_unknown(move.unknown, move.along * places[move.place]);
}

std::span<const double> BlockElimination::multipliers(std::span<const double> of_left, std::span<const double> gradient,
                                                      Room &room) const {
  const int rows = echelon_.rows();
  const int rank = echelon_.rank();
  room.places.assign(rows, 0.0);
  double *places = room.places.data();
  for (const BlockMove &move : moves_)
    places[move.place] += move.along * gradient[move.unknown];
  echelon_.solve_transposed(places);
  for (int i = rank; i < rows; ++i)
    places[i] = of_left[first_left_ + i - rank];
  echelon_.apply_transposed(places);
  room.rows.resize(rows);
  for (int i = 0; i < rows; ++i)
    room.rows[i] = shrink_[i] * places[echelon_.place_of(i)];
  return room.rows;
}

} // namespace gatherwright::optimum
