// SPDX-License-Identifier: GPL-3.0-or-later
// Marks on the sides of pieces.

#include "tests/draft.hpp"
#include "tests/told.hpp"

#include <cmath>

using namespace gatherwright;
using namespace gatherwright::tests;

namespace {

/// A hem and a seam on the sides of a sleeve, marked to 2 mm.
Draft sleeve(const char *at, const char *left_allowance) {
  return {.tape_step = mm(2),
          .fabric = weighing(165, cm(150)),
          .joins = {{.name = "hem",
                     .long_edge = "47.7 cm",
                     .band = "22.3 cm",
                     .segments = {{.kind = Kind::flat, .long_edge = "3 cm", .to = "slit"}, {.to = "middle"}, {}}},
                    {.name = "seam", .long_edge = "50 cm", .band = "40 cm"}},
          .allowance = "1 cm",
          .pieces = {{.name = "sleeve",
                      .across = "60 cm",
                      .along = "62 cm",
                      .cut = 2,
                      .sides = {{.side = Side::left, .join = 1, .at = "2 cm"},
                                {.side = Side::bottom, .from = 1, .at = at},
                                {.side = Side::bottom, .edge = WhichEdge::band, .to = 1, .at = "1 cm"}},
                      .allowance = {{Side::left, left_allowance}}}}};
}

const MarkPlace &place_of(const Plan &plan, const PieceMark &mark) {
  const Mark &of_join = plan.joins[mark.edge.join.at].marks[mark.mark];
  return mark.edge.edge == WhichEdge::band ? of_join.band : of_join.long_edge;
}

bool is_step(double length, double step) {
  return std::abs(length / step - std::round(length / step)) < 1e-6;
}

} // namespace

TEST_CASE("a side's marks are those of its parts, from the cut corner at its start") {
  const Plan plan = plan_of(sleeve("8 cm", "1.6 cm"));
  const std::vector<PieceMark> &marks = plan.pieces[0].marks;
  // The slit's stretch of the cuff first, then the hem from the slit on, then the seam.
  REQUIRE(marks.size() > 5);
  CHECK(marks[0].side == Side::bottom);
  CHECK(marks[0].edge == EdgeAt(JoinId(0), WhichEdge::band));
  CHECK(marks[0].exact == Approx(16 + 10));
  CHECK(marks[1].exact == Approx(16 + 10 + 30));
  CHECK(marks[2].edge == EdgeAt(JoinId(0), WhichEdge::long_edge));
  CHECK(marks[2].exact == Approx(16 + 80));
  for (std::size_t i = 1; i < marks.size(); ++i)
    if (marks[i].side == marks[i - 1].side) CHECK(marks[i].exact >= marks[i - 1].exact);
  const auto seam =
      std::find_if(marks.begin(), marks.end(), [](const PieceMark &mark) { return mark.side == Side::left; });
  REQUIRE(seam != marks.end());
  CHECK(seam->exact == Approx(10 + 20));
  CHECK(marks.end() - seam == static_cast<std::ptrdiff_t>(plan.joins[1].marks.size()));
  CHECK(marks.back().exact == Approx(10 + 20 + 500));
}

TEST_CASE(
    "piece and join have a mark at the same step wherever the allowance and the part's beginning are on the tape") {
  const Plan plan = plan_of(sleeve("8 cm", "1.6 cm"));
  for (const PieceMark &mark : plan.pieces[0].marks) {
    if (mark.edge.edge == WhichEdge::band || mark.edge.join.at == 1) continue;
    const MarkPlace &place = place_of(plan, mark);
    if (!is_step(place.tape, 2)) continue; // the edge's own end
    CHECK(mark.tape == Approx(16 + 80 + place.tape - 30));
  }
  const Plan off = plan_of(sleeve("8.1 cm", "1.6 cm"));
  for (const PieceMark &mark : off.pieces[0].marks)
    CHECK(is_step(mark.tape, 2));
}

TEST_CASE("the second of a pair is the first turned over left for right") {
  const Plan plan = plan_of(sleeve("8 cm", "1.6 cm"));
  const PiecePlan &piece = plan.pieces[0];
  REQUIRE(piece.marks_mirrored);
  REQUIRE(piece.marks_mirrored->size() == piece.marks.size());
  for (std::size_t i = 1; i < piece.marks_mirrored->size(); ++i) {
    const PieceMark &before = (*piece.marks_mirrored)[i - 1];
    const PieceMark &mark = (*piece.marks_mirrored)[i];
    CHECK(before.side <= mark.side);
    if (before.side == mark.side) CHECK(before.exact <= mark.exact);
  }
  for (const PieceMark &mark : piece.marks) {
    const bool across = runs_across(mark.side);
    const auto there =
        std::find_if(piece.marks_mirrored->begin(), piece.marks_mirrored->end(), [&](const PieceMark &m) {
          return m.edge == mark.edge && m.mark == mark.mark && m.side == turned_over(mark.side);
        });
    REQUIRE(there != piece.marks_mirrored->end());
    CHECK(there->exact == Approx(across ? piece.cut_across.exact - mark.exact : mark.exact));
    CHECK(there->tape == Approx(across ? piece.cut_across.tape - mark.tape : mark.tape));
  }
}

TEST_CASE("only pieces of which two are cut and that are mirrored have marks turned over") {
  Draft draft = sleeve("8 cm", "1 cm");
  draft.pieces[0].cut = 1;
  draft.pieces[0].mirrored = true;
  CHECK_FALSE(plan_of(draft).pieces[0].marks_mirrored);
  draft.pieces[0].cut = 3;
  CHECK(plan_of(draft).pieces[0].marks_mirrored);
  draft.pieces[0].mirrored = false;
  CHECK_FALSE(plan_of(draft).pieces[0].marks_mirrored);
}

TEST_CASE("a part that runs to the end of a ring has no mark there") {
  const Draft ring{.fabric = weighing(120, cm(150)),
                   .joins = {{.name = "waist",
                              .long_edge = "220 cm",
                              .band = "84 cm",
                              .segments = {{.long_edge = "60 cm", .band = "22 cm", .to = "left seam"}, {}},
                              .closed = true}},
                   .allowance = "1 cm",
                   .pieces = {{.name = "back", .across = "160 cm", .along = "90 cm", .sides = {{.from = 1}}}}};
  const Plan plan = plan_of(ring);
  const std::vector<PieceMark> &marks = plan.pieces[0].marks;
  const std::vector<Mark> &of_join = plan.joins[0].marks;
  REQUIRE_FALSE(marks.empty());
  CHECK(marks.front().exact == Approx(10));
  CHECK(of_join[marks.front().mark].ends_segment == 0);
  CHECK(marks.back().mark == static_cast<int>(of_join.size()) - 1);
  CHECK(marks.back().exact < 10 + 1600);
}
