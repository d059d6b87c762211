// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/validate.hpp"

#include "gatherwright/bounds.hpp"
#include "tests/told.hpp"

#include <catch2/catch.hpp>

#include <functional>
#include <limits>
#include <string>

using namespace gatherwright;

namespace {

constexpr double no_number = std::numeric_limits<double>::quiet_NaN();
constexpr double infinity = std::numeric_limits<double>::infinity();

Segment worked(std::string to) {
  Segment segment;
  segment.to = std::move(to);
  return segment;
}

Join join_of(std::string name, double long_edge, double band) {
  Join join;
  join.name = std::move(name);
  join.long_edge.is = Length{long_edge};
  join.band.is = Length{band};
  join.segments = {worked("elbow"), worked("")};
  return join;
}

Piece piece_of(std::string name, const Fabric &fabric) {
  Piece piece;
  piece.name = std::move(name);
  piece.cut = 2;
  piece.across = Length{520};
  piece.along = Length{560};
  piece.fabric = fabric;
  return piece;
}

/// A job with pieces as a program makes it, with something of everything that they have.
Job good_job() {
  Job job;
  job.fabric.name = "drill";
  job.fabric.width = Length{1500};
  job.fabric.selvedge = Length{10};
  job.fabric.shrinkage = Shrinkage{0.05, 0.02};
  job.fabric.sold_by = Length{250};
  job.joins = {join_of("sleeve into cuff", 500, 230), join_of("cap into armhole", 330, 310)};
  job.joins[1].long_edge.is = DrawnEdge{.path = "M 0 0 C 100 80 200 -80 300 0"};
  for (Segment &segment : job.joins[1].segments)
    segment.kind = Kind::ease;
  job.pieces = {piece_of("sleeve", job.fabric), piece_of("collar", job.fabric)};
  Piece &sleeve = job.pieces[0];
  sleeve.allowance[Side::bottom] = Length{15};
  sleeve.sides[Side::bottom] = {
      {.join = JoinId(0)},
      {.join = JoinId(0), .edge = WhichEdge::band, .from = 1, .to = 2, .at = Length{250}},
  };
  job.pieces[1].fabric.name = "lawn";
  job.pieces[1].fabric.width = Length{900};
  return job;
}

SidePart &second_part(Job &job) {
  return job.pieces[0].sides[Side::bottom][1];
}
Fabric &lawn(Job &job) {
  return job.pieces[1].fabric;
}

/// One change of the good job, and the one fault that it has then.
struct Row {
  const char *place;
  const char *what;
  std::function<void(Job &)> change;
};

void check(const std::vector<Row> &rows) {
  for (const Row &row : rows) {
    INFO(row.place << ": " << row.what);
    Job job = good_job();
    row.change(job);
    const std::vector<PlacedFault> faults = validate(job);
    REQUIRE(!faults.empty());
    CHECK(faults.size() == 1);
    CHECK(tests::path_of(faults[0].place) == row.place);
    CHECK(faults[0].fault.what == row.what);
    CHECK(!faults[0].fault.instead.empty());
  }
}

std::vector<std::string> places_of(const Job &job) {
  std::vector<std::string> places;
  for (const PlacedFault &fault : validate(job))
    places.push_back(tests::path_of(fault.place));
  return places;
}

} // namespace

TEST_CASE("a job with pieces made by a program, with something of everything, has no fault") {
  CHECK(validate(good_job()).empty());
}

TEST_CASE("a piece is at fault by its name and by how many are cut") {
  check({
      {"piece 0, name", "the piece has no name", [](Job &job) { job.pieces[0].name = ""; }},
      {"piece 0, name", "the piece's name is not UTF-8", [](Job &job) { job.pieces[0].name = "\xff"; }},
      {"piece 0, name", "the piece's name has a line break or control character in it",
       [](Job &job) { job.pieces[0].name = "a\nb"; }},
      {"piece 1, name", "another piece is called so", [](Job &job) { job.pieces[1].name = "sleeve"; }},
      {"piece 0, cut", "0 pieces are too few", [](Job &job) { job.pieces[0].cut = 0; }},
      {"piece 0, cut", "-2147483648 pieces are too few",
       [](Job &job) { job.pieces[0].cut = std::numeric_limits<int>::min(); }},
      {"piece 0, cut", "10001 pieces are too many", [](Job &job) { job.pieces[0].cut = 10'001; }},
      {"pieces", "10001 pieces are too many", [](Job &job) { job.pieces[0].cut = 9'999; }},
  });
  Job job = good_job();
  job.pieces[0].cut = 9'998;
  CHECK(validate(job).empty());
}

TEST_CASE("what a piece's formulas are written as is UTF-8") {
  const Formula odd = Formula::of(Length{100}, "\xff");
  const char *what = "what the formula is written as is not UTF-8";
  check({
      {"piece 0, across", what, [&](Job &job) { job.pieces[0].across = odd; }},
      {"piece 0, along", what, [&](Job &job) { job.pieces[0].along = odd; }},
      {"piece 0, top, allowance", what, [&](Job &job) { job.pieces[0].allowance[Side::top] = odd; }},
      {"piece 0, right, allowance", what, [&](Job &job) { job.pieces[0].allowance[Side::right] = odd; }},
      {"piece 0, bottom, part 1, at", what, [&](Job &job) { second_part(job).at = odd; }},
  });
}

TEST_CASE("a part of a side is of an edge of a join of the job that is not drawn, from a mark to one behind it") {
  const char *no_join = "this join is none of the job's";
  const char *no_mark = "the join has no such mark";
  const char *backward = "the part ends where it begins, or before";
  check({
      {"piece 0, bottom, part 1", no_join, [](Job &job) { second_part(job).join = JoinId(2); }},
      {"piece 0, bottom, part 1", no_join, [](Job &job) { second_part(job).join = JoinId(-1); }},
      {"piece 0, bottom, part 1", no_join,
       [](Job &job) { second_part(job).join = JoinId(std::numeric_limits<int>::max()); }},
      {"piece 0, bottom, part 1", "this is no edge of a join",
       [](Job &job) { second_part(job).edge = static_cast<WhichEdge>(2); }},
      {"piece 0, bottom, part 1", "the edge is drawn, and the sides of a piece are straight",
       [](Job &job) {
         second_part(job).join = JoinId(1);
         second_part(job).edge = WhichEdge::long_edge;
       }},
      {"piece 0, bottom, part 1, from", no_mark, [](Job &job) { second_part(job).from = -1; }},
      {"piece 0, bottom, part 1, from", no_mark, [](Job &job) { second_part(job).from = 3; }},
      {"piece 0, bottom, part 1, to", no_mark, [](Job &job) { second_part(job).to = 3; }},
      {"piece 0, bottom, part 1, to", no_mark, [](Job &job) { second_part(job).to = std::numeric_limits<int>::min(); }},
      {"piece 0, bottom, part 1, to", backward, [](Job &job) { second_part(job).to = 1; }},
      {"piece 0, bottom, part 1, to", backward, [](Job &job) { second_part(job).to = 0; }},
      {"piece 0, bottom, part 1, to", backward, [](Job &job) { second_part(job).from = 2; }},
  });
  Job of_the_band = good_job();
  second_part(of_the_band).join = JoinId(1);
  CHECK(validate(of_the_band).empty());
}

TEST_CASE("a cloth is at fault by its selvedges, by what shrinks and by the step it is sold in") {
  check({
      {"piece 1, fabric", "the name of the cloth is not UTF-8", [](Job &job) { lawn(job).name = "\xc0\x80"; }},
      {"piece 1, fabric", "the width of the cloth comes to 0", [](Job &job) { lawn(job).width = Length{}; }},
      {"piece 1, fabric", "the width of the cloth is no number", [](Job &job) { lawn(job).width = Length{no_number}; }},
      {"piece 1, fabric", "the selvedge of the cloth comes to -0.1 cm",
       [](Job &job) { lawn(job).selvedge = Length{-1}; }},
      {"piece 1, fabric", "the selvedge of the cloth is no number",
       [](Job &job) { lawn(job).selvedge = Length{no_number}; }},
      {"piece 1, fabric", "the step in which the cloth is sold comes to 0",
       [](Job &job) { lawn(job).sold_by = Length{}; }},
      {"piece 1, fabric", "the step in which the cloth is sold comes to more than 100 km",
       [](Job &job) { lawn(job).sold_by = Length{infinity}; }},
      {"piece 1, fabric", "what shrinks along is 0.5",
       [](Job &job) {
         lawn(job).shrinkage = Shrinkage{0.5, 0};
       }},
      {"piece 1, fabric", "what shrinks across is -0.01",
       [](Job &job) {
         lawn(job).shrinkage = Shrinkage{0, -0.01};
       }},
      {"piece 1, fabric", "what shrinks across is nan",
       [](Job &job) {
         lawn(job).shrinkage = Shrinkage{0, no_number};
       }},
      {"piece 1, fabric", "what shrinks along is nan",
       [](Job &job) {
         lawn(job).shrinkage = Shrinkage{no_number, 0};
       }},
      {"join 0, fabric", "the selvedge of the cloth comes to -0.1 cm",
       [](Job &job) { job.joins[0].fabric.selvedge = Length{-1}; }},
      {"join 0, fabric", "what shrinks along is 1",
       [](Job &job) {
         job.joins[0].fabric.shrinkage = Shrinkage{1, 0};
       }},
      {"fabric", "the step in which the cloth is sold comes to -1 cm",
       [](Job &job) {
         job.pieces.clear();
         job.fabric.sold_by = Length{-10};
       }},
  });
}

TEST_CASE("something is left of a cloth's width between its selvedges, once it is washed") {
  const char *what = "between its selvedges nothing is left of the width of the cloth";
  check({
      {"fabric", what, [](Job &job) { job.fabric.selvedge = job.pieces[0].fabric.selvedge = Length{750}; }},
      {"piece 1, fabric", what, [](Job &job) { lawn(job).width = Length{20}; }},
      {"piece 1, fabric", what, [](Job &job) { lawn(job).selvedge = Length{441}; }}, // 882 of 900 are left by the wash
      {"join 0, fabric", what,
       [](Job &job) {
         job.joins[0].fabric.width = Length{30};
         job.joins[0].fabric.selvedge = Length{15};
       }},
  });
  Job lace = good_job(); // nothing is cut from the cloth of a join
  lace.joins[0].fabric = lace.fabric;
  lace.joins[0].fabric.width = Length{20};
  CHECK(validate(lace).empty());
}

TEST_CASE("a cloth that is at fault in the job is not told of the pieces that are cut from it") {
  Job job = good_job();
  job.fabric.selvedge = job.pieces[0].fabric.selvedge = Length{800};
  job.pieces.push_back(job.pieces[0]);
  job.pieces.back().name = "second sleeve";
  CHECK(places_of(job) == std::vector<std::string>{"fabric"});
}

TEST_CASE("two cloths that differ have names of their own") {
  const char *what = "the piece's cloth goes by the same name as another, or has none either";
  const auto renamed = [](const std::function<void(Fabric &)> &change) {
    return [change](Job &job) {
      lawn(job) = job.fabric;
      change(lawn(job));
    };
  };
  check({
      {"piece 1, fabric", what, renamed([](Fabric &fabric) { fabric.width = Length{900}; })},
      {"piece 1, fabric", what, renamed([](Fabric &fabric) { fabric.width.reset(); })},
      {"piece 1, fabric", what, renamed([](Fabric &fabric) { fabric.selvedge.reset(); })},
      {"piece 1, fabric", what, renamed([](Fabric &fabric) {
         fabric.shrinkage = Shrinkage{0.05, 0.03};
       })},
      {"piece 1, fabric", what, renamed([](Fabric &fabric) {
         fabric.shrinkage = Shrinkage{0.04, 0.02};
       })},
      {"piece 1, fabric", what, renamed([](Fabric &fabric) { fabric.sold_by.reset(); })},
      {"piece 0, fabric", what,
       [](Job &job) { // the job's cloth is the earliest, though the piece cut from it comes later
         job.pieces[0].fabric.width = Length{900};
         lawn(job) = job.fabric;
       }},
      {"piece 1, fabric", what,
       [](Job &job) {
         for (Piece &piece : job.pieces)
           piece.fabric.name = "";
       }},
  });
}

TEST_CASE("which cloths share a name goes by the job's where it is cut from, and by the first of the pieces") {
  const auto cloth = [](std::string name, double width) {
    return Cloth{.name = std::move(name), .width = Length{width}};
  };
  const Cloth jobs = cloth("drill", 1500);
  using Cloths = std::vector<std::optional<Cloth>>;
  const auto sharing = [&](const Cloths &of_pieces) { return sharing_a_name(jobs, of_pieces); };
  CHECK(sharing({}).empty());
  CHECK(sharing({jobs, jobs, cloth("lawn", 900), cloth("lawn", 900)}).empty());
  CHECK(sharing({cloth("drill", 900), jobs}) == std::vector<int>{0});
  CHECK(sharing({cloth("drill", 900), cloth("drill", 900)}).empty());
  CHECK(sharing({cloth("drill", 900), cloth("drill", 800)}) == std::vector<int>{1});
  CHECK(sharing({std::nullopt, jobs, std::nullopt, cloth("drill", 900)}) == std::vector<int>{3});
  CHECK(sharing({cloth("", 900), cloth("lawn", 900), cloth("", 800), cloth("", 900), cloth("", 800)}) ==
        std::vector<int>{2, 4});
}

TEST_CASE("a job with more pieces, parts of sides or text in them than is looked at has that one fault") {
  check({
      {"", "the job has more than 1000000 measures, lengths, rules, joins, segments, points, pieces and parts of sides",
       [](Job &job) { job.pieces[0].sides[Side::left].assign(1'000'000, {.join = JoinId(0)}); }},
      {"", "the job has more than 10000000 bytes of names and paths",
       [](Job &job) { job.pieces[0].name = std::string(10'000'000, 'x'); }},
      {"piece 0, name", "the names of pieces and joins, told for each part of a side, come to more than 20000000 bytes",
       [](Job &job) {
         job.pieces[0].name = std::string(4'000'000, 'x');
         job.pieces[0].sides[Side::left].assign(4, {.join = JoinId(0)});
       }},
      {"piece 0, name", "the names of pieces and joins, told for each part of a side, come to more than 20000000 bytes",
       [](Job &job) {
         job.joins[0].name = std::string(4'000'000, 'x');
         job.pieces[0].sides[Side::left].assign(4, {.join = JoinId(0)});
       }},
  });
  Job job = good_job();
  job.pieces.assign(1'000'001, job.pieces[0]);
  CHECK(validate(job).size() == 1);
  Job long_formulas = good_job();
  std::vector<Formula::Step> steps{{Formula::Code::length, 1}};
  for (int i = 0; i < 500'000; ++i) {
    steps.push_back({Formula::Code::length, 1e-3});
    steps.push_back({Formula::Code::add});
  }
  const Formula sum = Formula::of_steps(std::move(steps), "a sum").value();
  for (int i = 0; i < 4; ++i)
    long_formulas.pieces.push_back(piece_of("p" + std::to_string(i), long_formulas.fabric));
  for (int i = 2; i < 6; ++i)
    long_formulas.pieces[i].across = long_formulas.pieces[i].along = sum;
  long_formulas.pieces[0].sides[Side::top] = {{.join = JoinId(0), .at = sum}, {.join = JoinId(0), .at = sum}};
  const std::vector<PlacedFault> faults = validate(long_formulas);
  REQUIRE(faults.size() == 1);
  CHECK(faults[0].fault.what == "the job has more than 10000000 steps of formulas");
}

TEST_CASE("all faults of pieces are told in one run") {
  Job job = good_job();
  job.pieces[0].name = "";
  job.pieces[0].cut = 20'000;
  second_part(job).to = 7;
  second_part(job).at = Formula::of(Length{1}, "\xff");
  lawn(job).selvedge = Length{no_number};
  job.pieces[1].cut = 10'000;
  CHECK(places_of(job) == std::vector<std::string>{"piece 0, name", "piece 0, cut", "piece 0, bottom, part 1, at",
                                                   "piece 0, bottom, part 1, to", "piece 1, fabric", "pieces"});
}
