// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <span>
#include <vector>

/// Lexicographic least squares with inequalities.
///
/// Level 0 must hold; level 1 wants inequalities held as far as they can be, in the sense of least squares; each later
/// level minimises a sum of squares without giving up anything gained before. (Escande, Mansard & Wieber, "Hierarchical
/// quadratic programming", Int. J. Robotics Research 33 (2014) 1006-1028, is the field's reference.)
namespace gatherwright::optimum {

struct Term {
  int column = 0;
  double value = 0;
};

/// Sparse rows a x against bounds. Terms of a row have different columns.
struct Rows {
  std::vector<int> start{0}; ///< rows + 1
  std::vector<Term> terms;
  std::vector<double> bound;

  int size() const { return static_cast<int>(bound.size()); }
  std::span<const Term> row(int i) const {
    return {terms.data() + start[i], static_cast<std::size_t>(start[i + 1] - start[i])};
  }
  /// Terms of 0 are left out.
  void add(std::span<const Term> row, double value) {
    if (room_left(terms) < row.size() || is_full(start) || is_full(bound)) {
      add_growing(row, value);
      return;
    }
    for (const Term &term : row)
      if (term.value != 0) put(terms, term);
    put(start, static_cast<int>(terms.size()));
    put(bound, value);
  }
  void drop_last() {
    start.pop_back();
    terms.resize(start.back());
    bound.pop_back();
  }
  void clear() {
    start.assign(1, 0);
    terms.clear();
    bound.clear();
  }

private:
  /// The same where there is no room for the row yet.
  void add_growing(std::span<const Term> row, double value);

  template <class Thing> static std::size_t room_left(const std::vector<Thing> &things) {
    return static_cast<std::size_t>((things.data() + things.capacity()) - (things.data() + things.size()));
  }
  template <class Thing> static bool is_full(const std::vector<Thing> &things) {
    return things.data() + things.size() == things.data() + things.capacity();
  }
  /// Appends where it is known that there is room: it is not looked after again for every term.
  template <class Thing> static void put(std::vector<Thing> &things, Thing thing) {
    if (is_full(things)) __builtin_unreachable();
    things.push_back(thing);
  }
};

inline constexpr int wish_levels = 3;

/// Unknowns come in blocks that meet only through shared unknowns: block j holds those from block_ends[j - 1] (0 for
/// the first) up to block_ends[j]; those from the last block's end on are shared. A row has terms of one block at most,
/// besides shared ones. No blocks: every unknown is shared.
struct Problem {
  int unknowns = 0;
  std::vector<int> block_ends;
  Rows equal;                           ///< level 0: a x = bound
  Rows at_least;                        ///< level 0: a x >= bound
  Rows limits;                          ///< level 1: a x >= bound, the sum of squared violations least
  std::array<Rows, wish_levels> wishes; ///< levels 2, 3, 4: the sum of squares of a x - bound least

  int blocks() const { return static_cast<int>(block_ends.size()); }
  int shared_begin() const { return block_ends.empty() ? 0 : block_ends.back(); }
};

/// Multipliers of one level's optimality conditions, of rows as the problem has them (see certificate.hpp).
struct Multipliers {
  std::vector<double> equal;                           ///< free sign
  std::vector<double> at_least;                        ///< >= 0
  std::vector<double> limits;                          ///< >= 0, free sign where the limit's least violation is above 0
  std::array<std::vector<double>, wish_levels> wishes; ///< of earlier levels only, free sign; empty for others
};

enum class Status {
  not_run,
  optimal,
  conflict,      ///< level 0 cannot hold; `conflict` holds multipliers of a contradiction
  stalled,       ///< the iteration limit was reached: x is the last point, and the certificate tells how good it is
  indistinct,    ///< rows of level 0 cannot be told apart at this precision: x is nothing
  too_much_work, ///< the bound on work was passed: nothing else is set
};

struct Solution {
  Status status = Status::not_run;
  std::vector<double> x;
  std::vector<char> loose;       ///< of each unknown: it can still move without any level losing
  std::vector<double> violation; ///< of each limit, the least possible: >= 0, exactly 0 where it can hold
  std::array<Multipliers, wish_levels + 1> levels; ///< level 1 first; an empty level's are empty
  /// Of a conflict: the rows so multiplied sum to no terms at all and a bound above 0 (only equal and at_least are
  /// filled).
  Multipliers conflict;
};

} // namespace gatherwright::optimum
