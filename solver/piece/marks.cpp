// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/piece/marks.hpp"

#include "solver/mark/rounding.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace gatherwright::piece {

namespace {

/// The nearest step of the tape; of two the lower, which half way is within as much as on a step is.
double nearest_step(double length, double step) {
  const double steps = length / step;
  return std::ceil(steps - 0.5 - mark::on_step) * step;
}

/// Marks of a join by the place that a part begins or ends at: from its start over its segments' ends.
int mark_at(const SewnJoin &join, int place) {
  if (place == 0) return 0;
  const auto ends = [place](const Mark &mark) { return mark.reference && mark.ends_segment == place - 1; };
  // In a ring the start, which is the end too, is no mark of its end.
  const auto mark = std::find_if(join.marks.begin() + 1, join.marks.end(), ends);
  return static_cast<int>(mark - join.marks.begin()); // of a ring's end one past the last
}

/// The marks of a part: first and one past the last.
std::pair<int, int> marks_within(const SidePart &part, const SewnJoin &join) {
  const int count = static_cast<int>(join.marks.size());
  return {mark_at(join, part.from), std::min(mark_at(join, part.to) + 1, count)};
}

CutSize cut_size(double exact, const Job &job) {
  return {exact, nearest_step(exact, job.tape_step.mm)};
}

/// Marks of one part, in the order in which they lie.
void add_marks(const Job &job, PartAt at, const Sizes &sizes, std::span<const SewnJoin> joins,
               std::vector<PieceMark> &marks) {
  const SidePart &part = job[at];
  const SewnJoin &join = joins[part.join.at];
  const Side side = at.side.side;
  const double corner = sizes.allowance[side_before(side)] + sizes.at[side][at.part];
  const auto place = [&](const Mark &mark) -> const MarkPlace & {
    return part.edge == WhichEdge::band ? mark.band : mark.long_edge;
  };
  const auto [first, end] = marks_within(part, join);
  const MarkPlace &begins = place(join.marks[first]);
  for (int m = first; m < end; ++m) {
    const MarkPlace &lies = place(join.marks[m]);
    marks.push_back({.side = side,
                     .edge = EdgeAt(part.join, part.edge),
                     .mark = m,
                     .exact = corner + (lies.exact - begins.exact),
                     .tape = nearest_step(corner + (lies.tape - begins.tape), job.tape_step.mm)});
  }
}

/// On each side marks stand in the order of their distance.
std::vector<PieceMark> marks_of(const Job &job, PieceId id, const Sizes &sizes, std::span<const SewnJoin> joins) {
  std::vector<PieceMark> marks;
  for (const Side side : all_sides) {
    const auto first = static_cast<std::ptrdiff_t>(marks.size());
    for (int part = 0; part < static_cast<int>(job[id].sides[side].size()); ++part)
      add_marks(job, PartAt(SideAt(id, side), part), sizes, joins, marks);
    std::stable_sort(marks.begin() + first, marks.end(),
                     [](const PieceMark &a, const PieceMark &b) { return a.exact < b.exact; });
  }
  return marks;
}

/// The piece turned over left for right: what ran across runs the other way, and left and right change places.
std::vector<PieceMark> turned_over(const PiecePlan &piece, double step) {
  std::vector<PieceMark> marks;
  for (const Side side : all_sides) {
    const auto first = static_cast<std::ptrdiff_t>(marks.size());
    for (PieceMark mark : piece.marks) {
      if (gatherwright::turned_over(mark.side) != side) continue;
      mark.side = side;
      if (runs_across(side)) {
        mark.exact = piece.cut_across.exact - mark.exact;
        mark.tape = nearest_step(piece.cut_across.tape - mark.tape, step); // which it is but for rounding
      }
      marks.push_back(mark);
    }
    if (runs_across(side)) std::reverse(marks.begin() + first, marks.end());
  }
  return marks;
}

} // namespace

int mark_count(const SidePart &part, const SewnJoin &join) {
  const auto [first, end] = marks_within(part, join);
  return end - first;
}

PiecePlan plan_of(const Job &job, PieceId id, const Sizes &sizes, std::span<const SewnJoin> joins) {
  PiecePlan plan;
  plan.across = sizes.across;
  plan.along = sizes.along;
  plan.allowance = sizes.allowance;
  plan.cut_across = cut_size(sizes.cut_across(), job);
  plan.cut_along = cut_size(sizes.cut_along(), job);
  plan.marks = marks_of(job, id, sizes, joins);
  if (job[id].mirrored && job[id].cut >= 2) plan.marks_mirrored = turned_over(plan, job.tape_step.mm);
  return plan;
}

} // namespace gatherwright::piece
