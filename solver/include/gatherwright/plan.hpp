// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/cutting.hpp"
#include "gatherwright/job.hpp"
#include "gatherwright/mark.hpp"
#include "gatherwright/outcome.hpp"
#include "gatherwright/refusal.hpp"
#include "gatherwright/told.hpp"

#include <array>
#include <memory>
#include <optional>
#include <utility>
#include <variant>
#include <vector>

/// A plan: everything computed from a job, as numbers and indices into the job. Lengths are millimetres.
namespace gatherwright {

/// An interval; an end left out is without bound.
struct Interval {
  std::optional<double> low;
  std::optional<double> high;
};

/// What a free length was chosen to be.
struct FoundLength {
  double exact = 0;      ///< at the joint optimum
  bool off_tape = false; ///< no tape step would do
};

/// A length is no shorter than nothing.
struct BelowNothing {
  LengthId at;
};

/// What would no longer hold beyond an end of a room: what is asked for, what would be found wrong, or why there would
/// be no plan; with the figures of one step of the tape beyond.
using Binding = std::variant<BelowNothing, Condition, Finding, Refusal>;

///   1. A length is found only where it was free, and not known only where rules conflict and it is made of one.
///   2. What binds at an end of a room is what does not hold one step of the tape beyond it.
struct LengthPlan {
  std::optional<double> is;         ///< to work with
  std::optional<FoundLength> found; ///< chosen by the solver
  std::optional<Interval> room;
  std::array<std::optional<Binding>, 2> binds = {}; ///< beyond the lower and the upper end; nothing: no end, or unknown
};

/// A length that alone, were it so, would take less of a cloth: by at least a step in which that is sold.
///   3. A saving is the nearest value that saves a step of a cloth.
struct Saving {
  LengthId at;
  double by = 0;
  double to = 0;
  ClothId cloth;
  double saves = 0; ///< of what is bought, before it is rounded to what is sold
};

struct RulePlan {
  bool holds = true;
  bool of_fixed = true; ///< names no free length
  double left = 0;
  double right = 0;
};

/// Gathers as they stand.
struct Gathers {
  double ridge = 0;         ///< how far they stand off the band
  bool folds_press = false; ///< neighbouring folds touch
};

/// Folds, one to a stitch.
struct Folds {
  int count = 0;
  double depth = 0;
  double pitch = 0;
};

///   4. Gathers are told of what is gathered and folds of what is gauged, and of nothing else.
struct SegmentPlan {
  double from = 0; ///< along the band
  double to = 0;
  double long_from = 0; ///< along the long edge
  double long_to = 0;
  double long_length = 0;
  double band = 0;
  double fullness = 1;
  double fullest = 1;
  double slackest = 1;
  bool levelled = false; ///< the spread wanted was capped somewhere
  bool capped_at_packed =
      false; ///< the spread had to pass `most` somewhere though the mean does not, or the mean passes it
  std::optional<std::array<double, 2>> give; ///< fullness within the tolerance
  Limits limits;
  std::optional<Gathers> gathers; ///< of a kind that stands off, where there is as much cloth as band
  std::optional<Folds> folds;     ///< of a kind that is folded
  Verdict verdict = Verdict::within_limits;
  std::optional<Standing> standing; ///< where it is within limits and takes fullness
};

/// A drawn edge as points that straight lines join. On the page, in path units, y downwards; a closed line ends where
/// it begins.
///   5. An outline keeps within 0.02 mm of its curve, or within a ten-millionth of an edge over 200 m.
struct Outline {
  std::vector<std::array<double, 2>> cut_edge;
  std::vector<std::array<double, 2>> stitching;
};

/// The side of a drawn edge on which the garment lies: as seen on the page of one whose ends lie apart, else round a
/// closed one, else of one that is drawn along.
enum class GarmentSide { above, below, to_the_left, to_the_right, inside, outside, left_of_way, right_of_way };

/// Lengths of a drawn edge: as drawn, and its stitching line.
struct DrawnPlan {
  double cut_edge = 0;
  double stitching = 0;
  double allowance = 0;                              ///< between the two
  std::optional<Outline> outline = std::nullopt;     ///< where it was asked for
  std::optional<GarmentSide> garment = std::nullopt; ///< where the job gives a side
  bool cap_outside = false; ///< an arch whose ends run level, as a sleeve cap, and the garment not under it
};

struct Profile {
  std::vector<double> band;
  std::vector<double> long_edge;
};

struct JoinPlan {
  Verdict verdict = Verdict::within_limits;
  std::optional<Standing> standing = std::nullopt; ///< within limits: the lesser of its segments'
  double long_length = 0;
  double band = 0;
  std::optional<DrawnPlan> drawn_long;
  std::optional<DrawnPlan> drawn_band;
  std::optional<std::array<double, 2>>
      long_ends; ///< allowances before the first stitch and after the last, where given
  std::optional<std::array<double, 2>> band_ends;
  double allowance = 0;      ///< of the long edge, along the seam
  double band_allowance = 0; ///< of the band, likewise
  std::vector<SegmentPlan> segments;
  std::vector<Mark> marks;
  std::optional<std::vector<Mark>> marks_mirrored;
  std::optional<GatheringPlan> gathering;
  std::optional<double> cord;
  int pins = 0;
  std::optional<Profile> profile;
};

/// Largest relative residuals of the optimality conditions, over all levels.
struct Certificate {
  double feasibility = 0;
  double stationarity = 0;
  double complementarity = 0;
};

///   6. A plan has the verdict of the worst that it finds, and neither joins nor pieces where its rules conflict.
struct Plan {
  Verdict verdict = Verdict::within_limits;
  std::vector<LengthPlan> lengths; ///< as the job's
  std::vector<RulePlan> rules;
  std::vector<JoinPlan> joins; ///< empty where the rules conflict
  std::vector<PiecePlan> pieces;
  std::vector<ClothPlan> cloth; ///< of the cloths that pieces are laid on, in their order
  std::optional<Certificate> certificate;
  std::vector<Finding> findings;
  std::vector<Remedy> remedies;
  std::vector<Saving> savings; ///< where the verdict is within limits; what saves the most first
  std::optional<Conflict> conflict;
  std::vector<Caution> cautions;
  std::vector<Note> notes;
};

/// The pieces of a plan as they are cut; empty where its rules conflict.
WearersPieces pieces_of(const Plan &plan);

///   7. What is not asked for is left out, and the rest is the same.
struct PlanSettings {
  bool profile = false;  ///< stations along every join
  bool outlines = false; ///< points of every drawn edge
  bool advice = true;    ///< rooms, remedies, and what findings and notes say would do
  bool layouts = true;   ///< pieces laid on their cloth
  bool savings = true;   ///< with advice and layouts: what would save cloth, which takes longer than all the rest
};

/// Plans a job. Refusals: the faults of `validate`, where it has any; else what only planning can see (a path that
/// cannot be drawn, an undetermined segment, a fade longer than its band, a band of 0).
///   8. A job with faults that can be seen without planning it has those and is not planned.
using PlanOutcome = Outcome<Plan, Refusals>;
PlanOutcome plan(const Job &job, const PlanSettings &settings = {});

/// What of a job no measure alters, prepared once for many wearers: its drawn edges, by far the dearest part of a job
/// that has any (they are drawn anew where a measure alters an allowance), and what must hold of it, eliminated. Holds
/// no state that planning alters, so that threads may share it.
///   9. No plan from what was prepared depends on one made before, or at the same time.
class Prepared {
public:
  /// Refusals: the faults of `validate`, where it has any; else of the drawn edges.
  static Outcome<Prepared, Refusals> prepare(const Job &job);

  /// `job` must be the one prepared, but for its measures and the wearer's age.
  ///   10. A wearer planned from what was prepared gets the plan of a job with those measures, to the bit.
  PlanOutcome plan(const Job &job, const PlanSettings &settings = {}) const;

private:
  struct Structure;
  explicit Prepared(std::shared_ptr<const Structure> structure) : structure_(std::move(structure)) {}
  std::shared_ptr<const Structure> structure_;
};

} // namespace gatherwright
