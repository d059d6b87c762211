// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/cli/report/sample_pieces.hpp"

#include <algorithm>
#include <utility>

using namespace gatherwright;

namespace sample {

namespace {

constexpr int sleeve_symbol = 4;
constexpr int cuff_symbol = 2;

Fabric linen() {
  Fabric fabric;
  fabric.name = "washed linen";
  fabric.width = Length{1500};
  fabric.selvedge = Length{10};
  return fabric;
}

Piece piece(std::string name, int cut, Formula across, double along) {
  Piece made;
  made.name = std::move(name);
  made.cut = cut;
  made.across = std::move(across);
  made.along = Formula(Length{along});
  made.mirrored = cut == 2;
  made.fabric = linen();
  return made;
}

CutSize cut_size(double mm) {
  return {mm, mm};
}

/// `ahead`: the allowance before the side's start; `from_right`: the cut size, of a piece turned over.
std::vector<PieceMark> on_side(Side side, WhichEdge which, double ahead, std::optional<double> from_right) {
  const MarkPlace Mark::*edge = which == WhichEdge::band ? &Mark::band : &Mark::long_edge;
  const std::vector<Mark> of_join = plan().joins.front().marks;
  std::vector<PieceMark> marks;
  for (std::size_t n = 0; n < of_join.size(); ++n) {
    const double at = ahead + (of_join[n].*edge).tape;
    const double told = from_right ? *from_right - at : at;
    marks.push_back({side, EdgeAt(cuff_join, which), static_cast<int>(n), told, told});
  }
  if (from_right) std::reverse(marks.begin(), marks.end());
  return marks;
}

PiecePlan planned(double across, double along, double bottom) {
  PiecePlan made;
  made.across = across;
  made.along = along;
  made.allowance.of_sides = {10, bottom, 10, 10};
  made.cut_across = cut_size(across + 20);
  made.cut_along = cut_size(along + 10 + bottom);
  return made;
}

ClothPlan laid() {
  ClothPlan made;
  made.cloth = {.name = "washed linen", .width = Length{1500}, .selvedge = Length{10}};
  made.usable = 1480;
  made.length = made.bound = made.buy = 585;
  made.shortest = true;
  made.used = (2 * 540. * 585 + 2 * 240. * 140 + 400. * 100) / (585. * 1480);
  made.buy_by_step = 600;
  made.lay = {{.piece = PieceId(0), .copy = 1, .across = 0, .along = 0},
              {.piece = PieceId(0), .copy = 2, .across = 540, .along = 0},
              {.piece = PieceId(1), .copy = 1, .across = 1080, .along = 0},
              {.piece = PieceId(1), .copy = 2, .across = 1080, .along = 140},
              {.piece = PieceId(2), .copy = 1, .across = 1080, .along = 280}};
  using Run = Cut::Run;
  made.cuts = {{Run::along, 540, 0, 585},     {Run::along, 1080, 0, 585},     {Run::across, 140, 1080, 1480},
               {Run::along, 1320, 0, 140},    {Run::across, 280, 1080, 1480}, {Run::along, 1320, 140, 280},
               {Run::across, 380, 1080, 1480}};
  return made;
}

} // namespace

Job job_with_pieces() {
  Job made = job();
  made.allowance = Formula(Length{10});
  made.fabric = linen();
  Piece sleeve = piece("sleeve", 2, Formula::of_symbol(sleeve_symbol, "sleeve"), 560);
  sleeve.allowance[Side::bottom] = Formula(Length{15});
  sleeve.sides[Side::bottom] = {{.join = cuff_join, .edge = WhichEdge::long_edge, .from = 0, .to = 2}};
  Piece cuff = piece("cuff", 2, Formula::of_symbol(cuff_symbol, "cuff"), 120);
  cuff.sides[Side::top] = {{.join = cuff_join, .edge = WhichEdge::band, .from = 0, .to = 2}};
  made.pieces = {sleeve, cuff, piece("collar", 1, Formula(Length{380}), 80)};
  return made;
}

Plan plan_with_pieces() {
  Plan made = plan();
  PiecePlan sleeve = planned(520, 560, 15);
  sleeve.marks = on_side(Side::bottom, WhichEdge::long_edge, 10, std::nullopt);
  sleeve.marks_mirrored = on_side(Side::bottom, WhichEdge::long_edge, 10, 540);
  PiecePlan cuff = planned(220, 120, 10);
  cuff.marks = on_side(Side::top, WhichEdge::band, 10, std::nullopt);
  cuff.marks_mirrored = on_side(Side::top, WhichEdge::band, 10, 240);
  made.pieces = {sleeve, cuff, planned(380, 80, 10)};
  made.cloth = {laid()};
  return made;
}

} // namespace sample
