// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/cloths.hpp"
#include "gatherwright/job.hpp"
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

///   1. A length is found only where it was free, and not known only where rules conflict and it is made of one.
struct LengthPlan {
  std::optional<double> is;         ///< to work with
  std::optional<FoundLength> found; ///< chosen by the solver
  std::optional<Interval> room;
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

///   2. Gathers are told of what is gathered and folds of what is gauged, and of nothing else.
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

/// A mark's place on one edge.
struct MarkPlace {
  double exact = 0;
  double tape = 0;                             ///< a whole count of steps, but for the edge's own end
  std::optional<double> cut;                   ///< from the cut edge, where the edge has ends
  std::optional<std::array<double, 2>> at;     ///< on the page, in path units, y downwards
  std::optional<std::array<double, 2>> normal; ///< towards the cut edge, length 1
};

///   3. Marks lie on whole steps of the tape, but for an edge's own end.
///   4. An edge's start ends no segment, and only what is mirrored has marks from its other end.
struct Mark {
  int segment = 0; ///< that begins here; the last mark: the last; a pin: the one it lies in
  bool reference = false;
  std::optional<int> ends_segment; ///< reference marks: the segment whose end it is; none at the start of an edge
  MarkPlace long_edge;
  MarkPlace band;
  std::optional<double> fullness_to_next;
  std::optional<double> stitches_to_next; ///< hole to hole
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

/// A size at which a piece is cut, its allowances in.
struct CutSize {
  double exact = 0;
  double tape = 0; ///< the nearest step
};

/// A mark of a join on a piece's side. Distances from the piece's cut corner at the side's start.
struct PieceMark {
  Side side = Side::top;
  EdgeAt edge;
  int mark = 0; ///< of the join's `marks`
  double exact = 0;
  double tape = 0;
};

///   6. Piece and join have a mark at the same step wherever the allowance and the part's beginning are on the tape.
struct PiecePlan {
  double across = 0; ///< between seam lines
  double along = 0;
  BySide<double> allowance;
  CutSize cut_across;
  CutSize cut_along;
  std::vector<PieceMark> marks;                         ///< by side in the order of `all_sides`, then by distance
  std::optional<std::vector<PieceMark>> marks_mirrored; ///< of the second of a pair, turned over left for right
  bool too_wide = false;                                ///< for its cloth: it is not laid
  bool within_limits = true;                            ///< no finding is of it
};

/// Where a copy of a piece lies on its cloth: its corner nearest the first selvedge and the cut end, from the usable
/// edge.
struct Placement {
  PieceId piece;
  int copy = 1;   ///< from 1
  int wearer = 0; ///< of many whose pieces lie together
  double across = 0;
  double along = 0;
  bool turned = false;
};

/// A straight cut. One that runs across is at a distance along, from and to distances across; the reverse else.
struct Cut {
  enum class Run { across, along };
  Run run = Run::across;
  double at = 0;
  double from = 0;
  double to = 0;
};

/// Pieces laid on a cloth as it is once washed.
///   7. What is cut out of a lay are the pieces, each whole, and no lay is longer than it need be where it says so.
struct ClothPlan {
  Cloth cloth;
  double usable = 0;      ///< of the width
  double length = 0;      ///< the lay
  double bound = 0;       ///< no layout is shorter
  bool shortest = false;  ///< proved to a step of the tape
  double used = 0;        ///< share of length x usable that is pieces
  double buy = 0;         ///< before the wash
  double buy_by_step = 0; ///< that, rounded up to the step the cloth is sold in
  std::vector<Placement> lay;
  std::vector<Cut> cuts; ///< in an order in which each runs straight through the part it divides
};

/// Largest relative residuals of the optimality conditions, over all levels.
struct Certificate {
  double feasibility = 0;
  double stationarity = 0;
  double complementarity = 0;
};

///   8. A plan has the verdict of the worst that it finds, and neither joins nor pieces where its rules conflict.
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
  std::optional<Conflict> conflict;
  std::vector<Caution> cautions;
  std::vector<Note> notes;
};

///   9. What is not asked for is left out, and the rest is the same.
struct PlanSettings {
  bool profile = false;  ///< stations along every join
  bool outlines = false; ///< points of every drawn edge
  bool advice = true;    ///< rooms, remedies, and what findings and notes say would do
  bool layouts = true;   ///< pieces laid on their cloth
};

/// Plans a job. Refusals: the faults of `validate`, where it has any; else what only planning can see (a path that
/// cannot be drawn, an undetermined segment, a fade longer than its band, a band of 0).
///   10. A job with faults that can be seen without planning it has those and is not planned.
using PlanOutcome = Outcome<Plan, Refusals>;
PlanOutcome plan(const Job &job, const PlanSettings &settings = {});

/// What of a job no measure alters, prepared once for many wearers: its drawn edges, by far the dearest part of a job
/// that has any (they are drawn anew where a measure alters an allowance), and what must hold of it, eliminated. Holds
/// no state that planning alters, so that threads may share it.
///   11. No plan from what was prepared depends on one made before, or at the same time.
class Prepared {
public:
  /// Refusals: the faults of `validate`, where it has any; else of the drawn edges.
  static Outcome<Prepared, Refusals> prepare(const Job &job);

  /// `job` must be the one prepared, but for its measures and the wearer's age.
  ///   12. A wearer planned from what was prepared gets the plan of a job with those measures, to the bit.
  PlanOutcome plan(const Job &job, const PlanSettings &settings = {}) const;

private:
  struct Structure;
  explicit Prepared(std::shared_ptr<const Structure> structure) : structure_(std::move(structure)) {}
  std::shared_ptr<const Structure> structure_;
};

} // namespace gatherwright
