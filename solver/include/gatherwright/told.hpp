// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/job.hpp"

#include <optional>

/// What a plan tells beside its figures: verdicts, and why; changes that would do; what a maker should know. Numbers and
/// indices into the job; words are put to them elsewhere.
namespace gatherwright {

/// In rising weight. Of two verdicts the heavier stands for both.
enum class Verdict { within_limits, too_scant, too_full, rule_broken, cannot_be_gathered, rules_conflict };

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

enum class Caution { child_cord, cord_age_unknown, pins, flame };

} // namespace gatherwright
