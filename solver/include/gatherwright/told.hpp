// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/cutting.hpp"
#include "gatherwright/job.hpp"

#include <optional>
#include <variant>
#include <vector>

/// What a plan tells beside its figures: verdicts, and why; changes that would do; what a maker should know. Numbers
/// and indices into the job; words are put to them elsewhere.
namespace gatherwright {

///   1. Verdicts rise in weight, and of several the heaviest stands for all.
enum class Verdict { within_limits, too_scant, too_full, rule_broken, cannot_be_gathered, rules_conflict };

/// How well what is within limits and takes fullness lies within them. The lesser first.
enum class Standing {
  only_just, ///< in the first or the last fifth of what its limits allow
  well,
};

/// Why a join or rule is not within limits, with what was measured and the limit passed.
namespace finding {

/// What each edge alone would have to be, all else as it is; millimetres.
///   2. Planned with either edge as it alone would have to be, a join is within limits.
struct EdgesAlone {
  std::optional<double> long_edge = std::nullopt;
  std::optional<double> band = std::nullopt;
};

/// A segment's fullness passes a limit of its.
struct PastLimit {
  enum class Limit { least, most, packed };
  SegmentAt at;
  Limit limit;
  double fullness = 1;
  double allowed = 1;
  EdgesAlone alone = {};
};

/// A segment has less cloth than band.
struct LessThanBand {
  SegmentAt at;
  double long_length = 0;
  double band = 0;
  bool swapped = false; ///< planned the other way round the join is within limits
  EdgesAlone alone = {};
};

struct RuleBroken {
  RuleId at;
  double left = 0;
  double right = 0;
};

} // namespace finding

using Finding = std::variant<finding::PastLimit, finding::LessThanBand, finding::RuleBroken, finding::TooWide,
                             finding::PastTheEnd, finding::Overlaps, finding::OverStock>;

/// The verdict that a finding gives.
///   3. A finding weighs as much as what it finds.
Verdict level_of(const Finding &finding);

/// What may be changed by itself. `by` and `to` in millimetres, of a weight in grams per square metre.
namespace change {

/// A join's long edge and band change places.
struct Swap {
  JoinId at;
};

/// A fixed length's value, or an end of a free one's range.
struct ToLength {
  LengthId at;
  double by = 0;
  double to = 0;
};

struct ToEdge {
  EdgeAt at;
  double by = 0;
  double to = 0;
};

/// Another cloth for the whole job.
struct ToWeight {
  double by = 0;
  double to = 0;
};

struct ToStitch {
  JoinId at;
  double by = 0;
  double to = 0;
};

/// A segment worked in another way.
struct ToKind {
  SegmentAt at;
  Kind becomes;
};

/// More of a cloth than there is.
struct ToClothLength {
  ClothId at;
  double by = 0;
  double to = 0;
};

} // namespace change

using Change = std::variant<change::Swap, change::ToLength, change::ToEdge, change::ToWeight, change::ToStitch,
                            change::ToKind, change::ToClothLength>;

/// A single change.
///   4. Each remedy brings the job, or the join that it mends, within limits.
///   5. Remedies stand in the order of what they ask of a maker: edges swapped, lengths that move by up to a third, a
///      stitch, another way of working, another cloth, lengths that move by more.
///   6. No remedy doubles or halves a length where there is any other.
struct Remedy {
  std::optional<JoinId> mends = std::nullopt; ///< left out where the whole job is put right
  Change change;
};

/// Something a maker should know that is no fault. Lengths are millimetres.
namespace note {

/// No weight of the cloth is given: 150 g/m2 is taken.
struct WeightAssumed {};

/// Too much work, so that it was left out; what stands there holds all the same.
struct LeftOut {
  enum class What {
    rooms,       ///< some lengths' rooms
    sensitivity, ///< which length moves a fullness the most
    remedies,    ///< some changes were not tried
    savings,     ///< some lengths were not tried
    conflict,    ///< some conditions of the conflict may have no part in it
  };
  What what;
};

/// Two marks of an edge fall on one step of the tape.
struct SharedStep {
  EdgeAt at;
};

/// The long edge, with its allowances, is wider than the cloth.
struct OverCloth {
  JoinId at;
  std::optional<double> widths = std::nullopt; ///< needed; left out where the allowances leave nothing of a width
  double cloth_width = 0;
  double allowance = 0; ///< at either side of a seam between two widths
};

/// Rows of gathering lie inside the garment, as its allowance is narrow: they come out again.
struct RowsInside {
  JoinId at;
  double allowance = 0;
};

/// A free length's range ends before it begins.
struct RangeTurned {
  LengthId at;
};

/// A measure is far from what bodies have: under half the least of a survey, or over one and a half its greatest.
struct MeasureFarOff {
  MeasureId at;
  double least = 0;
  double greatest = 0;
};

/// A stitch over 2 cm.
struct LongStitch {
  std::optional<JoinId> at = std::nullopt; ///< left out: the job's
  double stitch = 0;
};

/// From this fullness on, folds press on each other.
struct FoldsPress {
  SegmentAt at;
  double fullness = 1;
};

/// The spread wanted passes the most somewhere, and is levelled there.
struct SpreadLevelled {
  enum class At { most, packed };
  SegmentAt at;
  At level;
};

/// Cut and marked within the tolerance a segment could come out at a fullness past a limit.
struct GivePasses {
  enum class Limit { least, most };
  SegmentAt at;
  Limit limit;
  double fullness = 1;
  double allowed = 1;
};

/// Folding in halves finds the marks with no tape: of one segment, or of all that are not flat.
struct FoundByFolding {
  std::variant<JoinId, SegmentAt> at;
};

/// A found length is left exact: no tape step keeps what must hold.
struct OffTape {
  LengthId at;
};

/// Nothing better is not proved, or what must hold is missed as cut.
struct Unproved {
  std::optional<double> missed = std::nullopt; ///< by which share of its own size; left out: unknown
};

/// A rule is broken; the rest is planned as it stands.
struct RuleBroken {
  RuleId at;
};

/// Bare numbers give an edge over 3 m.
struct LongBareNumber {
  JoinId at;
  double length = 0;
};

/// An even number made, different end for end, and not mirrored.
struct PairNotMirrored {
  JoinId at;
};

/// A drawn edge's stitching line is longer than what is drawn, or shorter.
struct StitchingDiffers {
  EdgeAt at;
  double by = 0; ///< below 0: shorter
};

/// An edge is drawn through points that were measured, and is by up to so much longer or shorter where each of them is
/// up to 1 mm off.
struct Misread {
  EdgeAt at;
  double by = 0;
};

/// A drawn long edge shaped as a sleeve cap whose garment is said to lie outside it: its allowance then falls outside
/// the piece.
struct GarmentOutside {
  EdgeAt at;
};

/// A gathered test strip and the cloth's weight say different things; the strip is believed. Limits of fullness.
struct SwatchBelieved {
  std::optional<JoinId> at = std::nullopt; ///< left out: of all joins that gather
  double least = 1;                        ///< by the strip
  double most = 1;
  double least_by_weight = 1;
  double most_by_weight = 1;
  double weight = 0; ///< grams per square metre
};

/// Folds are shallow below this, millimetres: a common gathering stitch; gauging is counted in longer ones (common
/// practice, no source).
inline constexpr double shallow_fold = 4.0;

/// Gauged in folds that are shallow: the stitch may have been counted for gathering.
struct ShallowFolds {
  SegmentAt at;
  int folds = 0;
  double depth = 0;
};

/// Which length moves a fullness the most.
struct MostSensitive {
  LengthId at;
};

/// The stitch governs: planned with this one the segment is within limits.
struct StitchWouldDo {
  SegmentAt at;
  double stitch = 0;
};

/// Planned as gauged it is within limits.
struct BetterGauged {
  SegmentAt at;
};

/// Eased, and no bending length is given.
struct SupplenessUnknown {
  JoinId at;
  double firm = 1; ///< the fullness that firm cloth would take
};

/// A wearer's measure is the job's.
struct TakenFromJob {
  MeasureId at;
};

/// Sides of pieces have no allowance, since nobody said one.
struct NoAllowance {
  std::vector<PieceId> at; ///< that have such a side
};

/// A side's allowance is another than that of the join sewn to it. Millimetres.
struct AllowancesDiffer {
  PartAt at;
  double of_side = 0;
  double of_join = 0;
};

/// It is said how much there is of the job's cloth, and no piece is cut from it.
struct StockUnused {};

/// That the lengths could not be chosen better within what there is of a cloth is not proved.
struct StockUnproved {
  ClothId at;
};

} // namespace note

using Note =
    std::variant<note::WeightAssumed, note::LeftOut, note::SharedStep, note::OverCloth, note::RowsInside,
                 note::RangeTurned, note::MeasureFarOff, note::LongStitch, note::FoldsPress, note::SpreadLevelled,
                 note::GivePasses, note::FoundByFolding, note::OffTape, note::Unproved, note::RuleBroken,
                 note::LongBareNumber, note::PairNotMirrored, note::StitchingDiffers, note::Misread,
                 note::GarmentOutside, note::SwatchBelieved, note::ShallowFolds, note::MostSensitive,
                 note::StitchWouldDo, note::BetterGauged, note::SupplenessUnknown, note::TakenFromJob,
                 note::NoAllowance, note::AllowancesDiffer, note::NotLaid, note::StockUnused, note::StockUnproved>;

/// Conditions that cannot all hold. A note says where not all were tried.
///   7. The conditions of a conflict cannot all hold, and without any one of them the others can.
struct Conflict {
  std::vector<Condition> conditions;
  double apart = 0; ///< how far they are from holding together, millimetres
};

/// What a wearer or a maker should be kept from.
namespace caution {

/// Years: below this a wearer is a child (EN 14682 speaks of children up to 14).
inline constexpr double child_below = 14.0;

/// Joins that a cord or an elastic draws up, worn by a child or by nobody knows whom.
struct Cord {
  enum class Where {
    neck,  ///< or anywhere else: the job does not say
    waist, ///< of a skirt
  };
  Where where = Where::neck;
  bool of_a_child = false; ///< false: no age is given
  std::vector<JoinId> joins;
};

/// Pins go in, and must come out.
struct Pins {};

/// Light cloth, full enough to stand away from the body.
struct Flame {};

} // namespace caution

///   8. A child's cord is cautioned of before all else, and never at the neck where it is a skirt's or a curtain's.
using Caution = std::variant<caution::Cord, caution::Pins, caution::Flame>;

} // namespace gatherwright
