// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/job.hpp"
#include "solver/optimum/problem.hpp"

#include <functional>
#include <optional>
#include <span>
#include <variant>
#include <vector>

/// Joins and segments as an optimum problem, and back.
namespace gatherwright::allot {

/// What is known of drawn edges, where an edge is drawn: the length of the stitching line, millimetres, and of the long
/// edge how readily it shears, on average between two places along it (0 to 1).
struct DrawnLengths {
  std::optional<double> long_edge;
  std::optional<double> band;
  std::function<double(double from, double to)> mean_shear;
};

/// What of a job may be changed by itself: a named length, or an edge that names none.
using Subject = std::variant<LengthId, EdgeAt>;

/// A question about a job already planned: which values one subject may take.
struct Question {
  Subject subject;
  std::span<const double> planned = {}; ///< of the job's lengths
  bool others_held = true;              ///< other free lengths stay as planned; else they may move within their ranges
  bool within_range = true;             ///< a free subject stays within its own range; else it may leave it
  std::span<const JoinId> joins = {};   ///< whose segments must be within limits; ascending
};

/// What the figures of a piece come to, as forms of the lengths that are to be found.
struct PieceForms {
  Affine across;
  Affine along;
  BySide<std::vector<Affine>> at; ///< of each part
};

/// The row of level 0 that says what a condition does.
struct ConditionRow {
  bool is_equal = false; ///< else one of what must be at least
  int row = 0;
};

/// A job as a problem of the optimum.
///
/// Unknowns: of every join (a block) its segments' long and band in turn; then the free lengths, shared. What the job
/// gives is an equality. Level 1 is scaled by 1 / sqrt(reference band), the wishes by their own weights, so that plain
/// sums of squares are least. A rule of fixed lengths alone is no row: it holds or it does not. So with a piece's
/// width, which may be no more than its cloth's where the piece may not turn.
struct Scheme {
  optimum::Problem problem;
  std::vector<Affine> symbols;       ///< what each symbol of the job comes to; free lengths are terms of themselves
  std::vector<int> free_lengths;     ///< indices into the job's lengths
  std::vector<int> column_of_length; ///< -1 where it is fixed
  std::vector<int> first_column;     ///< per join
  std::vector<std::vector<Limits>> limits; ///< per join and segment
  std::vector<Affine> long_edges;          ///< per join
  std::vector<Affine> bands;
  std::vector<Affine> rule_sides; ///< left and right of each rule in turn
  std::vector<PieceForms> pieces;
  std::vector<Condition> conditions; ///< named conditions, in the order in which the earliest are to stay
  std::vector<ConditionRow> condition_rows;

  int long_column(int join, int segment) const { return first_column[join] + 2 * segment; }
  int band_column(int join, int segment) const { return first_column[join] + 2 * segment + 1; }

  std::span<const optimum::Term> row_of_condition(std::size_t condition) const {
    const auto &[is_equal, row] = condition_rows[condition];
    return is_equal ? problem.equal.row(row) : problem.at_least.row(row);
  }

  /// The value of an affine form at the unknowns; exactly 0 where it is that but for rounding of its terms.
  double value(const Affine &form, std::span<const double> unknowns) const;

  std::vector<int> symbol_columns; ///< -1 where fixed; the last is that of an edge asked about
};

/// `drawn` is as long as the job's joins, or empty where no edge is drawn. Faults: a formula that has no value.
using SchemeOutcome = Outcome<Scheme, std::vector<PlacedFault>>;
SchemeOutcome scheme(const Job &job, std::span<const DrawnLengths> drawn = {});

/// The scheme of a question: its subject is an unknown, limits must hold, nothing is wished for. Bands must also hold
/// the fades spread over them, no length is below 0, and what lies on the sides of pieces that hang on the subject
/// keeps to them, in the order in which it lies as planned. Nothing where something depends on the subject otherwise
/// than affinely.
struct AskedScheme {
  Scheme scheme;
  int column = -1; ///< of the subject
};
std::optional<AskedScheme> scheme(const Job &job, const Question &question, std::span<const DrawnLengths> drawn = {});

} // namespace gatherwright::allot
