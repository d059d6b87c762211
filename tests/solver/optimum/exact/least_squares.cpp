// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/solver/optimum/exact/least_squares.hpp"

#include <algorithm>
#include <stdexcept>

namespace gatherwright::tests::exact {

namespace {

Vector left_of(const Matrix &rows, const Vector &target, const Vector &multipliers) {
  Vector left = target;
  for (std::size_t i = 0; i < rows.size(); ++i)
    add(left, -multipliers[i], rows[i]);
  return left;
}

/// Multipliers of any sign for the rows used alone.
Vector free_multipliers(const Matrix &rows, const std::vector<int> &used, const Vector &target) {
  const int count = static_cast<int>(used.size());
  Matrix products(count, Vector(count));
  Vector right(count);
  for (int i = 0; i < count; ++i) {
    for (int j = 0; j < count; ++j)
      products[i][j] = dot(rows[used[i]], rows[used[j]]);
    right[i] = dot(rows[used[i]], target);
  }
  return solve(products, right, count).value();
}

/// A point on its way: unknowns, and of each soft row an amount of help (`help`) with which it reaches its bound. Held
/// hard rows stay at their bounds; held soft rows have just the help that they need, the others none.
class Way {
public:
  Way(const LeastSquares &problem, Vector start) : problem_(problem), y_(std::move(start)) {
    is_held_.assign(problem_.hard.size(), false);
    is_helped_.assign(problem_.soft.size(), false);
    refresh_help();
  }

  Least walk() {
    for (;;) {
      while (step_to_least_of_held()) {
      }
      refresh_help();
      std::vector<int> met;
      Matrix rows;
      for (std::size_t i = 0; i < problem_.hard.size(); ++i)
        if (sgn(problem_.hard[i].rest(y_)) == 0) {
          met.push_back(static_cast<int>(i));
          rows.push_back(problem_.hard[i].terms);
        }
      const Balance balanced = balance(rows, gradient());
      is_held_.assign(problem_.hard.size(), false);
      if (is_zero(balanced.left)) {
        Least found{y_, Vector(problem_.hard.size())};
        for (std::size_t i = 0; i < met.size(); ++i)
          found.multipliers[met[i]] = balanced.multipliers[i];
        return found;
      }
      for (const int used : balanced.used)
        is_held_[met[used]] = true;
      go_down(balanced.left);
    }
  }

private:
  /// Just the help that is needed, which costs no more than what there was.
  void refresh_help() {
    help_.assign(problem_.soft.size(), 0);
    for (std::size_t i = 0; i < help_.size(); ++i) {
      const Number rest = problem_.soft[i].rest(y_);
      if (sgn(rest) < 0) help_[i] = -rest;
      is_helped_[i] = sgn(rest) < 0;
    }
  }

  Vector gradient() const {
    Vector sum(problem_.unknowns);
    for (const Row &wish : problem_.wishes)
      add(sum, wish.rest(y_), wish.terms);
    for (std::size_t i = 0; i < help_.size(); ++i)
      add(sum, -help_[i], problem_.soft[i].terms);
    return sum;
  }

  /// The second derivative along a direction.
  Number curvature(const Vector &direction) const {
    Number sum = 0;
    const auto see = [&](const Row &row) {
      const Number seen = dot(row.terms, direction);
      sum += seen * seen;
    };
    for (const Row &wish : problem_.wishes)
      see(wish);
    for (std::size_t i = 0; i < help_.size(); ++i)
      if (is_helped_[i]) see(problem_.soft[i]);
    return sum;
  }

  /// The least of what is held, which may be far beyond other rows.
  Vector least_of_held() const {
    const int unknowns = problem_.unknowns;
    Matrix seen;
    Vector right(unknowns);
    const auto see = [&](const Row &row) {
      seen.push_back(row.terms);
      add(right, row.bound, row.terms);
    };
    for (const Row &wish : problem_.wishes)
      see(wish);
    for (std::size_t i = 0; i < help_.size(); ++i)
      if (is_helped_[i]) see(problem_.soft[i]);
    Matrix system = gram(seen, unknowns);
    int size = unknowns;
    for (std::size_t i = 0; i < problem_.hard.size(); ++i)
      if (is_held_[i]) ++size;
    for (Vector &row : system)
      row.resize(size);
    int at = unknowns;
    for (std::size_t i = 0; i < problem_.hard.size(); ++i) {
      if (!is_held_[i]) continue;
      Vector row = problem_.hard[i].terms;
      for (int c = 0; c < unknowns; ++c)
        system[c][at] = row[c];
      row.resize(size);
      system.push_back(std::move(row));
      right.push_back(problem_.hard[i].bound);
      ++at;
    }
    Vector found = solve(std::move(system), std::move(right), size).value();
    found.resize(unknowns);
    return found;
  }

  /// False: the point is the least of what is held already.
  bool step_to_least_of_held() {
    Vector direction = least_of_held();
    add(direction, -1, y_);
    // What is held was worse than its least by half the curvature that lies between.
    if (sgn(curvature(direction)) == 0) return false;
    return move(direction, 1);
  }

  void go_down(const Vector &uphill) {
    Vector direction(problem_.unknowns);
    add(direction, -1, uphill);
    // Soft rows that are met exactly and would fall short need help at once.
    for (std::size_t i = 0; i < help_.size(); ++i)
      if (sgn(problem_.soft[i].rest(y_)) == 0 && sgn(dot(problem_.soft[i].terms, direction)) < 0) is_helped_[i] = true;
    const Number length = -dot(gradient(), direction) / curvature(direction);
    move(direction, length);
  }

  /// Moves so far, or to the first row in the way, which is held from there on. False: it got all the way.
  bool move(const Vector &direction, const Number &length) {
    Number possible = length;
    int hard = -1;
    int soft = -1;
    const auto look = [&](const Row &row, int i, bool is_soft) {
      const Number slope = dot(row.terms, direction);
      if (sgn(slope) >= 0) return;
      const Number room = row.rest(y_) / -slope;
      if (room >= possible) return;
      possible = room;
      hard = is_soft ? -1 : i;
      soft = is_soft ? i : -1;
    };
    for (std::size_t i = 0; i < problem_.hard.size(); ++i)
      if (!is_held_[i]) look(problem_.hard[i], static_cast<int>(i), false);
    for (std::size_t i = 0; i < problem_.soft.size(); ++i)
      if (!is_helped_[i]) look(problem_.soft[i], static_cast<int>(i), true);
    add(y_, possible, direction);
    for (std::size_t i = 0; i < help_.size(); ++i)
      if (is_helped_[i]) help_[i] = -problem_.soft[i].rest(y_);
    if (hard >= 0) is_held_[hard] = true;
    if (soft >= 0) is_helped_[soft] = true;
    return hard >= 0 || soft >= 0;
  }

  const LeastSquares &problem_;
  Vector y_;
  Vector help_;
  std::vector<bool> is_held_;
  std::vector<bool> is_helped_;
};

void prove(const LeastSquares &problem, const Least &found) {
  const auto must = [](bool holds) {
    if (!holds) throw std::logic_error("a least that is none");
  };
  Vector rest(problem.unknowns);
  for (const Row &wish : problem.wishes)
    add(rest, wish.rest(found.y), wish.terms);
  for (const Row &row : problem.soft)
    if (const Number over = row.rest(found.y); sgn(over) < 0) add(rest, over, row.terms);
  for (std::size_t i = 0; i < problem.hard.size(); ++i) {
    const Number over = problem.hard[i].rest(found.y);
    must(sgn(over) >= 0);
    must(sgn(found.multipliers[i]) >= 0);
    must(sgn(over) == 0 || sgn(found.multipliers[i]) == 0);
    add(rest, -found.multipliers[i], problem.hard[i].terms);
  }
  must(is_zero(rest));
}

} // namespace

Balance balance(const Matrix &rows, const Vector &target) {
  Balance found{Vector(rows.size()), {}, target};
  for (;;) {
    int next = -1;
    Number most = 0;
    for (std::size_t i = 0; i < rows.size(); ++i) {
      if (std::find(found.used.begin(), found.used.end(), static_cast<int>(i)) != found.used.end()) continue;
      const Number seen = dot(rows[i], found.left);
      if (seen <= most) continue;
      most = seen;
      next = static_cast<int>(i);
    }
    if (next < 0) return found;
    found.used.push_back(next);
    for (;;) {
      const Vector wanted = free_multipliers(rows, found.used, target);
      Number possible = 1;
      for (std::size_t k = 0; k < wanted.size(); ++k) {
        const Number &now = found.multipliers[found.used[k]];
        if (sgn(wanted[k]) > 0) continue;
        const Number room = now / (now - wanted[k]);
        if (room < possible) possible = room;
      }
      for (std::size_t k = 0; k < wanted.size(); ++k) {
        Number &now = found.multipliers[found.used[k]];
        now += possible * (wanted[k] - now);
      }
      std::erase_if(found.used, [&](int i) { return sgn(found.multipliers[i]) == 0; });
      if (possible == 1) break;
    }
    found.left = left_of(rows, target, found.multipliers);
  }
}

Least least(const LeastSquares &problem, Vector start) {
  Least found = Way(problem, std::move(start)).walk();
  prove(problem, found);
  return found;
}

} // namespace gatherwright::tests::exact
