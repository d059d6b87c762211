// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/job.hpp"
#include "gatherwright/plan.hpp"

#include <array>
#include <string>
#include <vector>

/// A planned piece with marks where a test wants them.
namespace marked {

struct At {
  double mm = 0;         ///< from the side's start at the seam line
  std::string name = {}; ///< empty: a pin
};

struct Part {
  gatherwright::Side side;
  std::string join;
  std::vector<At> marks; ///< the first and the last are the part's ends
};

struct Piece {
  std::string name;
  int cut = 1;
  double across = 0; ///< between seams, millimetres
  double along = 0;
  std::array<double, 4> allowance{}; ///< top, bottom, left, right
  std::vector<Part> parts;
  bool mirrored = false;
};

struct Planned {
  gatherwright::Job job;
  gatherwright::Plan plan;
};

inline std::vector<gatherwright::PieceMark> turned_over(const std::vector<gatherwright::PieceMark> &marks,
                                                        double cut_across) {
  using namespace gatherwright;
  std::vector<PieceMark> turned;
  for (const Side side : all_sides) {
    std::vector<PieceMark> of;
    for (PieceMark mark : marks) {
      if (turned_over(mark.side) != side) continue;
      mark.side = side;
      if (runs_across(side)) {
        mark.exact = cut_across - mark.exact;
        mark.tape = cut_across - mark.tape;
        of.insert(of.begin(), mark);
      } else {
        of.push_back(mark);
      }
    }
    turned.insert(turned.end(), of.begin(), of.end());
  }
  return turned;
}

inline Planned planned(const Piece &wanted) {
  using namespace gatherwright;
  Planned made;
  gatherwright::Piece piece;
  piece.name = wanted.name;
  piece.cut = wanted.cut;
  piece.mirrored = wanted.mirrored;
  PiecePlan plan;
  plan.across = wanted.across;
  plan.along = wanted.along;
  for (const Side side : all_sides)
    plan.allowance[side] = wanted.allowance[static_cast<std::size_t>(side)];
  const double cut_across = wanted.across + plan.allowance[Side::left] + plan.allowance[Side::right];
  const double cut_along = wanted.along + plan.allowance[Side::top] + plan.allowance[Side::bottom];
  plan.cut_across = {cut_across, cut_across};
  plan.cut_along = {cut_along, cut_along};
  for (const Part &part : wanted.parts) {
    const JoinId id(static_cast<int>(made.job.joins.size()));
    Join join;
    join.name = part.join;
    JoinPlan join_plan;
    for (const At &at : part.marks) {
      Mark mark;
      mark.reference = !at.name.empty();
      if (mark.reference) {
        join.segments.emplace_back();
        join.segments.back().to = at.name;
        mark.ends_segment = static_cast<int>(join.segments.size()) - 1;
      }
      const double from_corner = at.mm + plan.allowance[side_before(part.side)];
      plan.marks.push_back({part.side, EdgeAt(id, WhichEdge::long_edge), static_cast<int>(join_plan.marks.size()),
                            from_corner, from_corner});
      join_plan.marks.push_back(mark);
    }
    made.job.joins.push_back(join);
    made.plan.joins.push_back(join_plan);
  }
  if (wanted.mirrored) plan.marks_mirrored = turned_over(plan.marks, cut_across);
  made.job.pieces.push_back(piece);
  made.plan.pieces.push_back(plan);
  return made;
}

/// Gathered at its head and its hem, with a gusset at either side; pins 4 cm apart.
inline Piece sleeve() {
  using gatherwright::Side;
  return {.name = "sleeve",
          .cut = 2,
          .across = 520,
          .along = 560,
          .allowance = {10, 15, 10, 10},
          .parts = {{Side::top,
                     "sleeve head into armhole",
                     {{0, "start"},
                      {110, "gathers begin"},
                      {150},
                      {190},
                      {230},
                      {260, "shoulder"},
                      {300},
                      {340},
                      {380},
                      {430, "gathers end"},
                      {520, "end"}}},
                    {Side::bottom,
                     "sleeve hem into cuff",
                     {{0, "start"},
                      {15, "gathers begin"},
                      {60},
                      {105},
                      {150},
                      {195},
                      {240},
                      {285},
                      {330},
                      {375},
                      {420},
                      {465},
                      {505, "gathers end"},
                      {520, "end"}}},
                    {Side::left, "gusset", {{0, "start"}, {100, "gusset ends"}}},
                    {Side::right, "gusset", {{0, "start"}, {100, "gusset ends"}}},
                    {Side::right, "slit", {{490, "slit begins"}, {560, "end"}}}},
          .mirrored = true};
}

inline Piece collar() {
  using gatherwright::Side;
  return {.name = "collar",
          .across = 420,
          .along = 100,
          .allowance = {10, 10, 10, 10},
          .parts = {{Side::bottom,
                     "neck into collar",
                     {{0, "start"},
                      {15, "gathers begin"},
                      {60},
                      {90},
                      {115, "gathers end"},
                      {125, "left shoulder"},
                      {135, "gathers begin"},
                      {170},
                      {210, "centre back"},
                      {250},
                      {285, "gathers end"},
                      {295, "right shoulder"},
                      {305, "gathers begin"},
                      {340},
                      {370},
                      {405, "gathers end"},
                      {420, "end"}}}}};
}

} // namespace marked
