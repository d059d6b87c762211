// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/plan/segments.hpp"

#include "gatherwright/limits.hpp"
#include "solver/cloth/gathers.hpp"
#include "solver/formula/figure.hpp"
#include "solver/job/beyond.hpp"

#include <algorithm>

namespace gatherwright {

namespace {

std::array<double, 2> fullness_within(const Tolerance &tolerance, const SolvedSegment &solved) {
  const double error = tolerance.cut.mm + tolerance.mark.mm;
  return {(solved.long_length - error) / (solved.band + error), (solved.long_length + error) / (solved.band - error)};
}

/// Where a drawn edge's stretch ends: places are sums of solved lengths, and rounding must not take the last past the
/// line's end.
double end_of(const SolvedSegment &solved, const edge::DrawnLine &line, double along) {
  return std::min(along + solved.long_length, line.stitching());
}

bool by_grain(const Segment &segment, const SolvedSegment &solved) {
  return takes_fullness(segment.kind) && std::holds_alternative<AlongGrain>(segment.spread) && solved.long_length > 0;
}

} // namespace

std::optional<Refusal> refusal_of_spread(const Segment &segment, SegmentAt at, const SolvedSegment &solved,
                                         const edge::DrawnLine *line, double along) {
  if (const auto *fade = std::get_if<Fade>(&segment.spread); fade && takes_fullness(segment.kind)) {
    const double faded = figure_of(fade->over[0]) + figure_of(fade->over[1]);
    if (is_above(faded, solved.band)) return refusal::FadeTooLong{.at = at, .fade = faded, .band = solved.band};
  }
  if (!by_grain(segment, solved)) return std::nullopt;
  const double end = end_of(solved, *line, along);
  if (!line->shears(std::min(along, end), end)) return refusal::NoShear{at};
  return std::nullopt;
}

SegmentSpread spread_of(const Segment &segment, const SolvedSegment &solved, const Limits &limits,
                        const edge::DrawnLine *line, double along) {
  const double band = solved.band;
  const auto spread = [&](const spread::Wish &wish) -> SegmentSpread {
    return spread::Spread(wish, solved.long_length, band, limits.most, limits.packed);
  };
  if (!takes_fullness(segment.kind)) return spread::Level(solved.long_length, band, 1);
  if (by_grain(segment, solved)) {
    const double end = end_of(solved, *line, along);
    const double start = std::min(along, end);
    return spread::GrainSpread(line->shear(start, end), band, limits.most, limits.packed);
  }
  if (const auto *fade = std::get_if<Fade>(&segment.spread)) {
    const double rise = figure_of(fade->over[0]);
    const double fall = figure_of(fade->over[1]);
    const double fit = rise + fall > band ? band / (rise + fall) : 1;
    return spread(spread::fade(band, rise * fit, fall * fit));
  }
  if (const auto *shape = std::get_if<Shape>(&segment.spread)) return spread(spread::shape(band, shape->points));
  return spread::Level(solved.long_length, band, limits.most);
}

Verdict verdict_of(Kind kind, const SolvedSegment &solved, const Limits &limits) {
  if (!takes_fullness(kind)) return Verdict::within_limits;
  const double fullness = solved.long_length / solved.band;
  if (is_below(fullness, 1)) return Verdict::cannot_be_gathered;
  if (is_above(fullness, limits.packed)) return Verdict::cannot_be_gathered;
  if (is_above(fullness, limits.most)) return Verdict::too_full;
  return is_below(fullness, limits.least) ? Verdict::too_scant : Verdict::within_limits;
}

std::optional<Standing> standing_of(Kind kind, const SegmentPlan &segment) {
  constexpr double edge_share = 0.2;
  if (!takes_fullness(kind) || segment.verdict != Verdict::within_limits) return std::nullopt;
  const auto &[least, ideal, most, packed] = segment.limits;
  const double edge = edge_share * (most - least);
  const bool scant = has_least(kind) && !is_above(segment.fullness, least + edge);
  return scant || !is_below(segment.fullness, most - edge) ? Standing::only_just : Standing::well;
}

std::optional<Standing> standing_of(const JoinPlan &join) {
  std::optional<Standing> least;
  if (join.verdict != Verdict::within_limits) return least;
  for (const SegmentPlan &segment : join.segments)
    if (segment.standing) least = least ? std::min(*least, *segment.standing) : *segment.standing;
  return least;
}

SegmentPlan judged_segment(Kind kind, const SolvedSegment &solved, const Limits &limits) {
  SegmentPlan made;
  made.long_length = solved.long_length;
  made.band = solved.band;
  made.fullness = solved.long_length / solved.band;
  made.limits = limits;
  made.verdict = verdict_of(kind, solved, limits);
  made.standing = standing_of(kind, made);
  return made;
}

SegmentPlan segment_plan(const Join &join, const Segment &segment, const SolvedSegment &solved, const Limits &limits,
                         const Tolerance &tolerance, cloth::Ridges &ridges) {
  SegmentPlan made = judged_segment(segment.kind, solved, limits);
  const double error = tolerance.cut.mm + tolerance.mark.mm;
  if (error > 0 && solved.band > error && takes_fullness(segment.kind)) made.give = fullness_within(tolerance, solved);
  const double stitch = join.gathering.stitch.mm;
  if (stands_off(segment.kind) && made.fullness >= 1) {
    const cloth::Ridge ridge = ridges.of(made.fullness, stitch, cloth::thickness(join.fabric, join.gathering));
    made.gathers = Gathers{ridge.height, ridge.folds_press};
  }
  if (is_folded(segment.kind)) {
    const cloth::CartridgeFolds folds = cloth::cartridge_folds(solved.long_length, solved.band, stitch);
    made.folds = Folds{folds.folds, folds.depth, folds.pitch};
  }
  return made;
}

void tell_spread(SegmentPlan &segment, const SegmentSpread &spread) {
  segment.fullest = spread.fullest();
  segment.slackest = spread.slackest();
  segment.levelled = spread.capped();
  segment.capped_at_packed = spread.past_most();
}

} // namespace gatherwright
