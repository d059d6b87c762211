// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/job.hpp"

#include <optional>
#include <variant>
#include <vector>

/// The lengths of cloth in a job that may name only what is fixed: fades, allowances, parts of drawn edges and the
/// distances of pins.
namespace gatherwright {

/// Whether a length of 0 will do.
enum class MayBe0 { no, yes };

/// Each of these of a join in turn: the formula, where it stands, whether it may come to 0, and what it is.
template <class MadeJoin, class Visit> void visit_fixed(MadeJoin &join, JoinId at, Visit visit) {
  const auto of_edge = [&](auto &edge, WhichEdge which) {
    using Part = place::InEdge::Part;
    if (auto *drawn = std::get_if<DrawnEdge>(&edge.is)) {
      visit(drawn->allowance, place::InEdge{EdgeAt(at, which), Part::allowance}, MayBe0::yes, "the allowance");
      const Place part = place::InEdge{EdgeAt(at, which), Part::part};
      if (drawn->part) {
        visit((*drawn->part)[0], part, MayBe0::yes, "where the part begins");
        visit((*drawn->part)[1], part, MayBe0::no, "where the part ends");
      }
    }
    if (!edge.ends) return;
    const Place ends = place::InEdge{EdgeAt(at, which), Part::ends};
    visit((*edge.ends)[0], ends, MayBe0::yes, "the allowance before the first stitch");
    visit((*edge.ends)[1], ends, MayBe0::yes, "the allowance after the last stitch");
  };
  of_edge(join.long_edge, WhichEdge::long_edge);
  of_edge(join.band, WhichEdge::band);
  const Place marks = place::InJoin{at, place::InJoin::Part::marks};
  if (auto *apart = std::get_if<PinsApart>(&join.marks))
    visit(apart->most, marks, MayBe0::no, "how far apart pins are");
  if (auto *every = std::get_if<PinsEvery>(&join.marks))
    visit(every->distance, marks, MayBe0::no, "how far apart pins are");
  if (join.allowance)
    visit(*join.allowance, place::InJoin{at, place::InJoin::Part::allowance}, MayBe0::yes, "the allowance");
  for (int s = 0; s < static_cast<int>(join.segments.size()); ++s) {
    auto *fade = std::get_if<Fade>(&join.segments[s].spread);
    if (!fade) continue;
    const Place spread = place::InSegment{SegmentAt(at, s), place::InSegment::Part::spread};
    visit(fade->over[0], spread, MayBe0::yes, "the fade at the start");
    visit(fade->over[1], spread, MayBe0::yes, "the fade at the end");
  }
}

/// Each of these of a piece in turn.
template <class MadePiece, class Visit> void visit_fixed(MadePiece &piece, PieceId at, Visit visit) {
  for (const Side side : all_sides)
    if (auto &allowance = piece.allowance[side])
      visit(*allowance, place::InAllowance{SideAt(at, side)}, MayBe0::yes, "the allowance");
}

/// Each of these of a job, its own allowance first.
template <class MadeJob, class Visit> void visit_fixed(MadeJob &job, Visit visit) {
  if (job.allowance)
    visit(*job.allowance, place::WholeJob{place::WholeJob::Part::allowance}, MayBe0::yes, "the allowance");
  for (int j = 0; j < static_cast<int>(job.joins.size()); ++j)
    visit_fixed(job.joins[j], JoinId(j), visit);
  for (int p = 0; p < static_cast<int>(job.pieces.size()); ++p)
    visit_fixed(job.pieces[p], PieceId(p), visit);
}

/// A job in which each of these stands as a figure, worked out of the measures and the fixed lengths that it has: the
/// job itself, which must outlive this, where they are figures already. What has no value is 0.
class Settled {
public:
  explicit Settled(const Job &job);

  const Job &job() const { return made_ ? *made_ : job_; }

private:
  const Job &job_;
  std::optional<Job> made_;
};

/// What each symbol of a job comes to; a length to be found is a term of itself. What has no value is 0.
std::vector<Affine> values_of_symbols(const Job &job);

/// The allowance along a join's seam, of straight edges: its own, else the job's; millimetres. Of a settled job.
double allowance_of(const Job &job, const Join &join);

/// The allowance of a piece's side: its own, else the job's; millimetres. Of a settled job.
double allowance_of(const Job &job, SideAt side);

} // namespace gatherwright
