// SPDX-License-Identifier: GPL-3.0-or-later
// Pieces on their cloths: what the plan tells, held against cuts that are made one after another.

#include "gatherwright/cutting.hpp"
#include "tests/draft.hpp"
#include "tests/told.hpp"

#include <cmath>
#include <random>

using namespace gatherwright;
using namespace gatherwright::tests;

namespace {

constexpr double rounding = 1e-6; // millimetres, of lays of some metres

struct Part {
  double across = 0, along = 0, width = 0, length = 0;
};

bool near(double a, double b) {
  return std::abs(a - b) <= rounding;
}

/// Makes the cuts one after another. Each has to run straight through one part.
std::vector<Part> cut_up(const ClothPlan &cloth) {
  std::vector<Part> parts{{0, 0, cloth.usable, cloth.length}};
  for (const Cut &cut : cloth.cuts) {
    const bool across = cut.run == Cut::Run::across;
    const auto runs_through = [&](const Part &part) {
      const double from = across ? part.across : part.along;
      const double to = from + (across ? part.width : part.length);
      const double begins = across ? part.along : part.across;
      const double ends = begins + (across ? part.length : part.width);
      return near(cut.from, from) && near(cut.to, to) && begins + rounding < cut.at && cut.at < ends - rounding;
    };
    const auto part = std::find_if(parts.begin(), parts.end(), runs_through);
    REQUIRE(part != parts.end());
    Part second = *part;
    if (across) {
      second.along = cut.at;
      second.length = part->along + part->length - cut.at;
      part->length = cut.at - part->along;
    } else {
      second.across = cut.at;
      second.width = part->across + part->width - cut.at;
      part->width = cut.at - part->across;
    }
    parts.push_back(second);
  }
  return parts;
}

/// Takes each piece that lies on the cloth out of the parts that its cuts leave.
void take_out(const Job &job, const Plan &plan, const ClothPlan &cloth) {
  std::vector<Part> parts = cut_up(cloth);
  for (const Placement &at : cloth.lay) {
    const PiecePlan &piece = plan.pieces[at.piece.at];
    const double width = at.turned ? piece.cut_along.exact : piece.cut_across.exact;
    const double length = at.turned ? piece.cut_across.exact : piece.cut_along.exact;
    CHECK((!at.turned || job[at.piece].turn));
    const auto part = std::find_if(parts.begin(), parts.end(), [&](const Part &each) {
      return near(each.across, at.across) && near(each.along, at.along) && near(each.width, width) &&
             near(each.length, length);
    });
    REQUIRE(part != parts.end());
    parts.erase(part);
  }
}

Draft smock() {
  Fabric linen = weighing(165, cm(150));
  linen.selvedge = cm(1);
  linen.shrinkage = Shrinkage{0.05, 0};
  return {.fabric = linen,
          .joins = {{.name = "sleeve into cuff", .long_edge = "52 cm", .band = "22 cm", .make = 2}},
          .allowance = "1 cm",
          .pieces = {{.name = "body", .across = "72 cm", .along = "90 cm", .cut = 2},
                     {.name = "sleeve", .across = "52 cm", .along = "56 cm", .cut = 2},
                     {.name = "cuff", .across = "22 cm", .along = "12 cm", .cut = 2},
                     {.name = "collar", .across = "42 cm", .along = "10 cm"},
                     {.name = "gusset", .across = "12 cm", .along = "12 cm", .cut = 2},
                     {.name = "strap", .across = "20 cm", .along = "8 cm", .cut = 2, .turn = true}}};
}

} // namespace

TEST_CASE(
    "what is cut out of a lay are the pieces, each whole, and no lay is longer than it need be where it says so") {
  std::mt19937 random(19);
  const auto sized = [&](int least, int most) {
    return std::to_string(std::uniform_int_distribution(least, most)(random)) + " mm";
  };
  for (int n = 0; n < 40; ++n) {
    Draft draft = smock();
    for (PieceDraft &piece : draft.pieces) {
      piece.across = sized(30, 700);
      piece.along = sized(30, 900);
      piece.turn = random() % 3 == 0;
    }
    const Job job = job_of(draft);
    const Plan plan = plan_of(job, {.advice = false});
    REQUIRE(plan.cloth.size() == 1);
    const ClothPlan &cloth = plan.cloth[0];
    CHECK(cloth.lay.size() == 11);
    take_out(job, plan, cloth);
    double area = 0;
    for (std::size_t p = 0; p < plan.pieces.size(); ++p)
      area += job.pieces[p].cut * plan.pieces[p].cut_across.exact * plan.pieces[p].cut_along.exact;
    CHECK(cloth.used == Approx(area / (cloth.length * cloth.usable)));
    CHECK(cloth.bound <= cloth.length);
    CHECK(cloth.bound >= area / cloth.usable * (1 - 1e-9));
    CHECK(cloth.shortest); // eleven pieces are always proved
    CHECK(cloth.length - cloth.bound < job.tape_step.mm);
  }
}

TEST_CASE("what is bought is the lay before the wash, up to a whole step") {
  Draft draft = smock();
  const Plan plan = plan_of(draft);
  const ClothPlan &cloth = plan.cloth.at(0);
  CHECK(cloth.usable == Approx(1480));
  CHECK(cloth.buy == Approx(cloth.length / 0.95));
  CHECK(cloth.buy_by_step >= cloth.buy * (1 - 1e-6));
  CHECK(cloth.buy_by_step - cloth.buy < 100);
  CHECK(std::fmod(cloth.buy_by_step, 100) == Approx(0).margin(1e-9));
  draft.fabric.shrinkage.reset();
  draft.pieces = {{.name = "hanging", .across = "146 cm", .along = "98 cm"}};
  const Plan exactly = plan_of(draft);
  CHECK(exactly.cloth.at(0).buy_by_step == 1000); // no step more for rounding
}

TEST_CASE("pieces of another cloth lie on it, and a cloth of no width has a note") {
  Draft draft = smock();
  Fabric lawn = weighing(90, cm(60));
  lawn.name = "lawn";
  draft.pieces[3].fabric = lawn;
  const Plan plan = plan_of(draft);
  REQUIRE(plan.cloth.size() == 2);
  CHECK(plan.cloth[1].cloth.name == "lawn");
  CHECK(plan.cloth[1].lay.size() == 1);
  CHECK(plan.cloth[1].length == Approx(120));
  lawn.width.reset();
  draft.pieces[3].fabric = lawn;
  const Plan unknown = plan_of(draft);
  CHECK(unknown.cloth.size() == 1);
  const auto *not_laid = find<note::NotLaid>(unknown.notes);
  REQUIRE(not_laid);
  CHECK(not_laid->why == note::NotLaid::Why::no_width);
  CHECK(not_laid->first == PieceId(3));
}

TEST_CASE("one wearer's pieces laid by themselves are laid as in the plan") {
  const Job job = job_of(smock());
  const Plan plan = plan_of(job);
  const std::vector wearers{pieces_of(plan)};
  const auto together = lay_together(job, wearers);
  REQUIRE(together);
  REQUIRE(together->size() == 1);
  CHECK(together->front().length == plan.cloth[0].length);
  CHECK(together->front().bound == plan.cloth[0].bound);
  CHECK(together->front().lay.size() == plan.cloth[0].lay.size());
}

TEST_CASE("the pieces of several wearers laid together take no more than one by one, and are all there") {
  Draft draft = smock();
  const Job job = job_of(draft);
  std::vector<WearersPieces> wearers;
  double one_by_one = 0;
  for (int n = 0; n < 6; ++n) {
    draft.pieces[0].along = std::to_string(85 + n) + " cm";
    const Plan plan = plan_of(draft);
    one_by_one += plan.cloth[0].length;
    wearers.push_back(pieces_of(plan));
  }
  const auto together = lay_together(job, wearers);
  REQUIRE(together);
  const ClothPlan &cloth = together->at(0);
  CHECK(cloth.lay.size() == 6 * 11);
  CHECK(cloth.length <= one_by_one);
  CHECK(cut_up(cloth).size() >= 6 * 11);
  for (int wearer = 0; wearer < 6; ++wearer)
    CHECK(std::count_if(cloth.lay.begin(), cloth.lay.end(), [&](const Placement &at) { return at.wearer == wearer; }) ==
          11);
}

TEST_CASE("ten thousand copies are laid, and more than that together are not") {
  Draft draft = smock();
  draft.pieces = {{.name = "square", .across = "2 cm", .along = "2 cm", .cut = 10'000}};
  const Job job = job_of(draft);
  const Plan plan = plan_of(job);
  REQUIRE(plan.cloth.size() == 1);
  CHECK(plan.cloth[0].lay.size() == 10'000);
  CHECK(plan.cloth[0].length == Approx(std::ceil(10'000.0 / 37) * 40));
  CHECK(plan.cloth[0].shortest);
  const std::vector wearers(2, pieces_of(plan));
  CHECK_FALSE(lay_together(job, wearers));
}

TEST_CASE("layouts that are not asked for are left out, and the rest is the same") {
  const Plan with = plan_of(smock());
  const Plan without = plan_of(smock(), {.layouts = false});
  CHECK(without.cloth.empty());
  CHECK(without.pieces.size() == with.pieces.size());
  CHECK(without.lengths.size() == with.lengths.size());
}
