// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/plan/marks.hpp"

#include "solver/formula/figure.hpp"
#include "solver/mark/pins.hpp"
#include "solver/mark/rounding.hpp"

#include <algorithm>
#include <cmath>

namespace gatherwright {

double mark_count(const Join &join, std::span<const SegmentPlan> segments) {
  double count = join.closed ? 0 : 1;
  for (std::size_t s = 0; s < segments.size(); ++s)
    count += 1 + mark::pin_count(segments[s].band, join.segments[s].kind, join.marks);
  return count;
}

namespace {

/// Two places are the same within this share of their edge.
constexpr double same_place = 1e-9;

using MarkSide = MarkPlace Mark::*;

/// Marks at their exact places: a reference mark at the start of each segment, its pins, and one at the very end (left
/// out of a ring, whose end is its start).
std::vector<Mark> exact_marks(const Join &join, const JoinPlan &plan, std::span<const SegmentSpread> spreads,
                              double count) {
  std::vector<Mark> marks;
  marks.reserve(static_cast<std::size_t>(count));
  const int segments = static_cast<int>(join.segments.size());
  for (int s = 0; s < segments; ++s) {
    const SegmentPlan &segment = plan.segments[s];
    Mark &reference = marks.emplace_back();
    reference.segment = s;
    reference.reference = true;
    if (s > 0) reference.ends_segment = s - 1;
    reference.band.exact = segment.from;
    reference.long_edge.exact = segment.long_from;
    const mark::Pins pins(segment.band, join.segments[s].kind, join.marks);
    for (std::size_t p = 0; p < pins.size(); ++p) {
      const double place = pins[p];
      Mark &pin = marks.emplace_back();
      pin.segment = s;
      pin.band.exact = segment.from + place;
      pin.long_edge.exact = segment.long_from + spreads[s].map(place);
    }
  }
  if (join.closed) {
    marks.front().ends_segment = segments - 1;
    return marks;
  }
  Mark &end = marks.emplace_back();
  end.segment = segments - 1;
  end.ends_segment = segments - 1;
  end.reference = true;
  end.band.exact = plan.band;
  end.long_edge.exact = plan.long_length;
  return marks;
}

bool same_from_both_ends(const std::vector<Mark> &marks, MarkSide side, double length, bool closed) {
  const std::size_t count = marks.size();
  for (std::size_t i = closed ? 1 : 0; i < count; ++i) {
    const std::size_t opposite = closed ? count - i : count - 1 - i;
    if (std::abs((marks[i].*side).exact + (marks[opposite].*side).exact - length) > same_place * length) return false;
  }
  return true;
}

void round_to_tape(std::vector<Mark> &marks, MarkSide side, double length, double step, bool closed, bool symmetric) {
  std::vector<double> places;
  places.reserve(marks.size());
  for (const Mark &mark : marks)
    places.push_back((mark.*side).exact / step);
  const std::vector<double> on_tape = mark::to_tape(places, length / step, closed, symmetric);
  for (std::size_t i = 0; i < marks.size(); ++i)
    (marks[i].*side).tape = on_tape[i] * step;
  if (!closed) (marks.back().*side).tape = length;
}

void measure_from_cut_edge(std::vector<Mark> &marks, MarkSide side, const Edge &edge, int end) {
  if (!edge.ends) return;
  for (Mark &mark : marks)
    (mark.*side).cut = (mark.*side).tape + figure_of((*edge.ends)[end]);
}

/// Marks of a drawn edge, exactly: on the page, and from its cut edge.
void place_on_page(std::vector<Mark> &marks, MarkSide side, const edge::DrawnLine &line, const Edge &edge) {
  for (Mark &mark : marks) {
    MarkPlace &own = mark.*side;
    const edge::DrawnLine::Place place = line.place(own.exact);
    own.at = place.at;
    own.normal = place.normal;
    if (edge.ends) own.cut = figure_of((*edge.ends)[0]) + place.cut;
  }
}

/// What lies between each mark and the next; `gap_segment` of the segment that gap i lies in.
template <class SegmentOfGap>
void fill_gaps(std::vector<Mark> &marks, const Join &join, const JoinPlan &plan, SegmentOfGap segment_of_gap) {
  const std::size_t gaps = join.closed ? marks.size() : marks.size() - 1;
  for (std::size_t i = 0; i < gaps; ++i) {
    const bool last = i + 1 == marks.size();
    const double long_end = last ? plan.long_length : marks[i + 1].long_edge.exact;
    const double band_end = last ? plan.band : marks[i + 1].band.exact;
    const double long_gap = long_end - marks[i].long_edge.exact;
    marks[i].fullness_to_next = long_gap / (band_end - marks[i].band.exact);
    const Kind kind = join.segments[segment_of_gap(i)].kind;
    if (runs_on_thread(kind)) marks[i].stitches_to_next = long_gap / join.gathering.stitch.mm;
  }
}

} // namespace

std::vector<Mark> marks_of(const Job &job, const Join &join, const JoinPlan &plan,
                           std::span<const SegmentSpread> spreads, const DrawnSides &sides, double count) {
  std::vector<Mark> marks = exact_marks(join, plan, spreads, count);
  const bool symmetric = same_from_both_ends(marks, &Mark::long_edge, plan.long_length, join.closed) &&
                         same_from_both_ends(marks, &Mark::band, plan.band, join.closed);
  round_to_tape(marks, &Mark::long_edge, plan.long_length, job.tape_step.mm, join.closed, symmetric);
  round_to_tape(marks, &Mark::band, plan.band, job.tape_step.mm, join.closed, symmetric);
  measure_from_cut_edge(marks, &Mark::long_edge, join.long_edge, 0);
  measure_from_cut_edge(marks, &Mark::band, join.band, 0);
  if (sides.long_edge) place_on_page(marks, &Mark::long_edge, *sides.long_edge, join.long_edge);
  if (sides.band) place_on_page(marks, &Mark::band, *sides.band, join.band);
  fill_gaps(marks, join, plan, [&](std::size_t i) { return marks[i].segment; });
  return marks;
}

std::vector<Mark> mirrored(const Join &join, const JoinPlan &plan, std::span<const Mark> marks) {
  std::vector<Mark> turned(marks.rbegin(), marks.rend());
  if (join.closed) std::rotate(turned.begin(), turned.end() - 1, turned.end());
  // From the cut edge a drawn edge is measured along itself, which its allowance makes longer or shorter than its
  // stitches.
  const auto turn = [](MarkPlace &place, double length, const std::optional<DrawnPlan> &drawn, const Edge &edge) {
    place.exact = length - place.exact;
    place.tape = length - place.tape;
    if (drawn && edge.ends)
      place.cut = drawn->cut_edge - (*place.cut - figure_of((*edge.ends)[0])) + figure_of((*edge.ends)[1]);
  };
  const int last = static_cast<int>(join.segments.size()) - 1;
  for (std::size_t i = 0; i < turned.size(); ++i) {
    Mark &mark = turned[i];
    if (!join.closed || i > 0) {
      turn(mark.long_edge, plan.long_length, plan.drawn_long, join.long_edge);
      turn(mark.band, plan.band, plan.drawn_band, join.band);
    }
    mark.fullness_to_next.reset();
    mark.stitches_to_next.reset();
    // Read from the other end, the segment that ended here begins here.
    if (mark.reference) mark.segment = mark.ends_segment.value_or(0);
  }
  if (join.closed) turned.front().segment = last;
  if (!plan.drawn_long) measure_from_cut_edge(turned, &Mark::long_edge, join.long_edge, 1);
  if (!plan.drawn_band) measure_from_cut_edge(turned, &Mark::band, join.band, 1);
  fill_gaps(turned, join, plan, [&](std::size_t i) { return turned[i].segment; });
  return turned;
}

} // namespace gatherwright
