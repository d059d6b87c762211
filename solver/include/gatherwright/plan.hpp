// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/job.hpp"

#include <array>
#include <memory>
#include <optional>
#include <utility>
#include <variant>
#include <vector>

/// A plan: everything computed from a job, as numbers and indices into the job. Lengths are millimetres.
namespace gatherwright {

/// In rising weight. Of two verdicts the heavier stands for both.
enum class Verdict { within_limits, too_scant, too_full, rule_broken, cannot_be_gathered, rules_conflict };

/// Fullness limits of a segment: least to most read well, ideal is aimed at, packed is the closest packing.
/// For ease `least` is 1 and `ideal` halfway to `most`; for flat all are 1.
struct Limits {
  double least = 1;
  double ideal = 1;
  double most = 1;
  double packed = 1;
};

/// An interval; an end left out is without bound.
struct Interval {
  std::optional<double> low;
  std::optional<double> high;
};

struct LengthPlan {
  double is = 0;         ///< the length to work with
  bool found = false;    ///< chosen by the solver
  double exact = 0;      ///< found: at the joint optimum
  bool off_tape = false; ///< found, but no tape step would do
  std::optional<Interval> room;
  bool known = true; ///< false only where the rules conflict: it depends on a free length
};

struct RulePlan {
  bool holds = true;
  bool of_fixed = true; ///< names no free length
  double left = 0;
  double right = 0;
};

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
  double ridge = 0;         ///< gather: how far the gathers stand
  bool folds_press = false; ///< gather: neighbouring folds touch
  int folds = 0;            ///< gauge
  double depth = 0;         ///< gauge
  double pitch = 0;         ///< gauge
  Verdict verdict = Verdict::within_limits;
};

/// A mark's place on one edge.
struct MarkPlace {
  double exact = 0;
  double tape = 0;                             ///< a whole count of steps, but for the edge's own end
  std::optional<double> cut;                   ///< from the cut edge, where the edge has ends
  std::optional<std::array<double, 2>> at;     ///< on the page, in path units, y downwards
  std::optional<std::array<double, 2>> normal; ///< towards the cut edge, length 1
};

struct Mark {
  int segment = 0; ///< that begins here; the last mark: the last; a pin: the one it lies in
  bool reference = false;
  int ends_segment = -1; ///< reference marks: the segment whose end it is; -1 at the start of an edge
  MarkPlace long_edge;
  MarkPlace band;
  std::optional<double> fullness_to_next;
  std::optional<double> stitches_to_next; ///< hole to hole
};

/// One piece of gathering thread, the same in each row.
struct Thread {
  int from = 0; ///< mark
  int to = 0;   ///< mark; 0 at the end of a ring
  double cut = 0;
  int stitches = 0;
};

struct GatheringPlan {
  double stitch = 0;
  int rows = 2;
  std::vector<double> at; ///< the rows' distances from the cut edge
  int stitches = 0;       ///< over one row
  double thread = 0;      ///< all threads together, tails included
  std::vector<Thread> threads;
};

/// A drawn edge as points that straight lines join, within 0.02 mm of the curve (an edge over 200 m: within a
/// ten-millionth of it). On the page, in path units, y downwards; a closed line ends where it begins.
struct Outline {
  std::vector<std::array<double, 2>> cut_edge;
  std::vector<std::array<double, 2>> stitching;
};

/// Lengths of a drawn edge: as drawn, and its stitching line.
struct DrawnPlan {
  double cut_edge = 0;
  double stitching = 0;
  std::optional<Outline> outline; ///< where it was asked for
};

struct Profile {
  std::vector<double> band;
  std::vector<double> long_edge;
};

struct JoinPlan {
  Verdict verdict = Verdict::within_limits;
  double long_length = 0;
  double band = 0;
  std::optional<DrawnPlan> drawn_long;
  std::optional<DrawnPlan> drawn_band;
  std::vector<SegmentPlan> segments;
  std::vector<Mark> marks;
  std::vector<Mark> marks_mirrored; ///< empty where not mirrored
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

/// Why a join or rule is not within limits, with the value measured and the limit passed. Lengths and fullness as the
/// kind says.
struct Finding {
  enum class Kind {
    too_scant,      ///< fullness below least
    too_full,       ///< fullness above most
    ease_too_full,  ///< ease above what works in without a fold
    past_packed,    ///< fullness above packed
    less_than_band, ///< less cloth than band; measured long, limit band
    swapped,        ///< as less_than_band, and planned the other way round the join is within limits
    flat_unequal,   ///< two lengths that must match do not; measured long, limit band
    rule_broken,    ///< measured left, limit right
  };
  Kind kind = Kind::too_full;
  Verdict level = Verdict::too_full;
  int join = -1;
  int segment = -1;
  int rule = -1;
  double measured = 0;
  double limit = 0;
  std::optional<double> long_alone; ///< what the long edge alone would have to be, all else as it is: it was planned
  std::optional<double> band_alone; ///< what the band alone would have to be, all else as it is: it was planned
};

/// A single change that brings the job, or one join, within limits.
struct Remedy {
  enum class Kind { length, long_edge, band, cloth_weight, stitch, kind };
  Kind kind = Kind::length;
  int join = -1;                                           ///< -1 where the whole job is put right
  int length = -1;                                         ///< of Kind::length
  int edge_join = -1;                                      ///< of long_edge, band, kind
  int segment = -1;                                        ///< of kind
  gatherwright::Kind becomes = gatherwright::Kind::gather; ///< of kind
  double by = 0;
  double to = 0; ///< millimetres; grams per square metre of cloth_weight
};

/// Something a maker should know that is no fault.
struct Note {
  enum class Kind {
    weight_assumed,   ///< no weight given: 150 g/m2 taken
    two_on_one_step,  ///< two marks fall on one tape step; join, on_band
    long_over_cloth,  ///< the long edge is wider than the cloth: value widths needed, amount cloth width; join
    stitch_long,      ///< a stitch over 2 cm; join (-1: the job's), value
    folds_press,      ///< folds press on each other; join, segment, value: fullness at the touch
    spread_past_most, ///< the spread wanted passes most somewhere and is levelled at packed; join, segment
    spread_levelled,  ///< the spread wanted was capped at most; join, segment
    give_below_least, ///< tolerance could cross a limit: value the fullness that could come out, amount the limit;
                      ///< join, segment
    give_above_most,
    halves_by_folding, ///< folding in halves finds the marks with no tape; join, segment
    length_off_tape,   ///< a found length is left exact: no tape step keeps what must hold; length
    certificate_weak,  ///< not proved to 1e-9; value: the share by which what must hold is missed, 0: unknown
    rule_broken,       ///< the rest is planned as it stands; rule
    bare_lengths_long, ///< bare numbers give an edge over 3 m; join, value
    pair_not_mirrored, ///< an even number made, different end for end, and not mirrored; join
    allowance_longer,  ///< drawn: the stitching line is longer than the edge drawn by value; join; on_band
    allowance_shorter,
    most_sensitive,     ///< which length moves a fullness the most; length
    longer_stitch,      ///< the stitch governs: planned with a stitch of value it is within limits; join, segment
    better_gauged,      ///< planned as gauged it is within limits; join, segment
    suppleness_unknown, ///< eased, and no bending length: value the fullness that firm cloth would take; join
    taken_from_job,     ///< a wearer's measure taken from the job; value: index of the measure
    // Too much work, so that it was left out; what stands there holds all the same.
    rooms_left_out,       ///< some lengths' rooms
    sensitivity_left_out, ///< which length moves a fullness the most
    remedies_left_out,    ///< some changes were not tried
    conflict_untried,     ///< some conditions of the conflict may have no part in it
  };
  Kind kind;
  int join = -1;
  int segment = -1;
  int length = -1;
  int rule = -1;
  bool on_band = false;
  double value = 0;
  double amount = 0;
};

/// A condition of an irreducible conflict, in the job's terms.
struct Condition {
  enum class Kind { rule, from, to, long_adds_up, band_adds_up, flat, long_given, band_given };
  Kind kind = Kind::rule;
  int rule = -1;
  int length = -1;
  int join = -1;
  int segment = -1;
};

enum class Caution { child_cord, cord_age_unknown, pins, flame };

struct Plan {
  Verdict verdict = Verdict::within_limits;
  std::vector<LengthPlan> lengths; ///< as the job's
  std::vector<RulePlan> rules;
  std::vector<JoinPlan> joins; ///< empty where the rules conflict
  std::optional<Certificate> certificate;
  std::vector<Finding> findings;
  std::vector<Remedy> remedies;
  std::vector<Condition> conflict;
  double conflict_apart = 0; ///< how far the conditions are from holding together
  std::vector<Caution> cautions;
  std::vector<Note> notes;
};

struct PlanSettings {
  bool profile = false;  ///< stations along every join
  bool outlines = false; ///< points of every drawn edge
  bool advice = true;    ///< rooms, remedies, and what findings and notes say would do
};

/// Plans a job. Faults are those only planning can see (an undetermined segment, a fade longer than its band, a band of
/// 0).
using PlanOutcome = std::variant<Plan, std::vector<PlacedFault>>;
PlanOutcome plan(const Job &job, const PlanSettings &settings = {});

/// What of a job no measure alters, prepared once for many wearers: its drawn edges, by far the dearest part of a job
/// that has any, and what must hold of it, eliminated: every wearer's plan starts from there. Holds no state that
/// planning alters, so that threads may share it, and no plan depends on one made before.
class Prepared {
public:
  /// Faults: of the drawn edges.
  static std::variant<Prepared, std::vector<PlacedFault>> prepare(const Job &job);

  /// The same as `plan(job)`, to the bit. `job` must be the one prepared, but for its measures and the wearer's age.
  PlanOutcome plan(const Job &job, const PlanSettings &settings = {}) const;

private:
  struct Structure;
  explicit Prepared(std::shared_ptr<const Structure> structure) : structure_(std::move(structure)) {}
  std::shared_ptr<const Structure> structure_;
};

} // namespace gatherwright
