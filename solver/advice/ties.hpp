// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/plan.hpp"
#include "solver/advice/dependence.hpp"
#include "solver/optimum/work.hpp"
#include "solver/plan/drawn.hpp"

#include <span>
#include <vector>

namespace gatherwright::advice {

/// Some of a job's pieces for a job that has of its joins only these, in this order; all that are sewn to the pieces
/// are among them.
std::vector<Piece> pieces_with_joins(const Job &job, std::span<const int> pieces, std::span<const int> joins);

/// A part of a job, as a job of its own: some of its joins, rules and pieces, and all of its lengths, of which those
/// that have nothing to do with these are held where they were planned.
struct PartOfJob {
  Job job;
  DrawnEdges edges;
  std::vector<int> joins;     ///< which of the whole's, ascending
  std::vector<int> pieces;    ///< likewise
  bool limits_missed = false; ///< as planned, some other join is not within limits

  /// The place of one of the whole's joins; -1 where it is not among them.
  int place_of(int join) const;
};

/// What of a job hangs together: joins, rules and pieces that meet in a free length, or on the sides of a piece,
/// directly or through others. Whatever one of them comes to, the others' numbers are no different.
class Ties {
public:
  /// What is done is counted into `work`.
  Ties(const Job &job, const Dependents &dependents, optimum::Work &work);

  /// The knots, each of what hangs together, that something touches; ascending.
  std::vector<int> knots_of_join(int join) const;
  std::vector<int> knots_of_piece(int piece) const;
  std::vector<int> knots_of(int length, const Dependence &dependence) const;

  /// Whether the join is of one of the knots.
  bool is_tied(int join, std::span<const int> knots) const;
  bool is_piece_tied(int piece, std::span<const int> knots) const;

  /// What of the job is of these knots. `bare`: the job without joins, rules and pieces.
  PartOfJob part(const Job &job, const Job &bare, const Plan &plan, const DrawnEdges &edges,
                 std::span<const int> knots) const;

private:
  std::vector<int> of_length_; ///< -1: it is not free
  std::vector<int> of_join_;
  std::vector<int> of_rule_;
  std::vector<int> of_piece_;
};

} // namespace gatherwright::advice
