// SPDX-License-Identifier: GPL-3.0-or-later
#include "plan/segments.hpp"

#include "cloth/gathers.hpp"
#include "cloth/limits.hpp"

#include <algorithm>

namespace gatherwright {

namespace {

std::array<double, 2> fullness_within(const Tolerance &tolerance, const SolvedSegment &solved) {
  const double error = tolerance.cut.mm + tolerance.mark.mm;
  return {(solved.long_length - error) / (solved.band + error), (solved.long_length + error) / (solved.band - error)};
}

} // namespace

SpreadOutcome spread_of(const Segment &segment, const SolvedSegment &solved, const Limits &limits, const Tape &tape,
                        const edge::DrawnLine *line, double along) {
  const double band = solved.band;
  const auto spread = [&](const spread::Wish &wish) -> SegmentSpread {
    return spread::Spread(wish, solved.long_length, band, limits.most, limits.packed);
  };
  if (segment.kind == Kind::flat)
    return SegmentSpread(spread::Spread(spread::even(band), solved.long_length, band, 1, 1));
  switch (segment.spread.form) {
  case SpreadWish::Form::fade: {
    const double rise = segment.spread.fade[0].mm;
    const double fall = segment.spread.fade[1].mm;
    if (rise + fall > band * (1 + limit_share))
      return Fault{"the fade takes " + named_reading({rise + fall}, tape) + " of a band of " +
                       named_reading({band}, tape),
                   "fade over no more than the segment's band"};
    const double fit = rise + fall > band ? band / (rise + fall) : 1;
    return spread(spread::fade(band, rise * fit, fall * fit));
  }
  case SpreadWish::Form::shape:
    return spread(spread::shape(band, segment.spread.points));
  case SpreadWish::Form::grain: {
    // Places are sums of solved lengths: rounding must not take the last past the line's end.
    const double end = std::min(along + solved.long_length, line->stitching());
    if (!(solved.long_length > 0)) break;
    const edge::Shear shear = line->shear(std::min(along, end), end);
    if (edge::mean(shear) <= edge::no_shear)
      return Fault{"this stretch lies wholly along the threads and shears nowhere", "spread it \"even\""};
    return SegmentSpread(spread::GrainSpread(shear, band, limits.most, limits.packed));
  }
  case SpreadWish::Form::even:
    break;
  }
  return spread(spread::even(band));
}

Verdict verdict_of(Kind kind, const SolvedSegment &solved, const Limits &limits) {
  if (kind == Kind::flat) return Verdict::within_limits;
  const double fullness = solved.long_length / solved.band;
  if (fullness < 1 - limit_share) return Verdict::cannot_be_gathered;
  const auto above = [&](double limit) { return fullness > limit * (1 + limit_share); };
  if (above(limits.packed)) return Verdict::cannot_be_gathered;
  if (above(limits.most)) return Verdict::too_full;
  return fullness < limits.least * (1 - limit_share) ? Verdict::too_scant : Verdict::within_limits;
}

SegmentPlan segment_plan(const Join &join, const Segment &segment, const SolvedSegment &solved, const Limits &limits,
                         const SegmentSpread &spread, const Tolerance &tolerance) {
  SegmentPlan made;
  made.long_length = solved.long_length;
  made.band = solved.band;
  made.fullness = solved.long_length / solved.band;
  made.fullest = spread.fullest();
  made.slackest = spread.slackest();
  made.levelled = spread.capped();
  made.capped_at_packed = spread.past_most();
  made.limits = limits;
  made.verdict = verdict_of(segment.kind, solved, limits);
  const double error = tolerance.cut.mm + tolerance.mark.mm;
  if (error > 0 && solved.band > error && segment.kind != Kind::flat) made.give = fullness_within(tolerance, solved);
  const double stitch = join.gathering.stitch.mm;
  if (segment.kind == Kind::gather && made.fullness >= 1) {
    const cloth::Ridge ridge = cloth::ridge(made.fullness, stitch, cloth::thickness(join.fabric, join.gathering));
    made.ridge = ridge.height;
    made.folds_press = ridge.folds_press;
  }
  if (segment.kind == Kind::gauge) {
    const cloth::CartridgeFolds folds = cloth::cartridge_folds(solved.long_length, solved.band, stitch);
    made.folds = folds.folds;
    made.depth = folds.depth;
    made.pitch = folds.pitch;
  }
  return made;
}

} // namespace gatherwright
