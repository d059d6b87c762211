// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/job/read_job.hpp"

#include "gatherwright/cloths.hpp"
#include "gatherwright/validate.hpp"

#include "tests/outcomes.hpp"

#include <catch2/catch.hpp>

#include <array>

using namespace gatherwright;
using namespace gatherwright::cli;

namespace {

ReadJob sound(std::string_view text) {
  auto read = read_job(text);
  if (const auto *faults = tests::fault_in(read))
    for (const InputFault &fault : *faults)
      UNSCOPED_INFO(fault_line("job", fault));
  REQUIRE(static_cast<bool>(read));
  CHECK(validate(read->job).empty());
  return *std::move(read);
}

/// A job of one piece, with more of the piece and of the job.
Job job_of(const std::string &of_piece, const std::string &of_job = "") {
  return sound("{" + of_job + R"("joins": [
      { "name": "sleeve into cuff", "long": "sleeve", "band": "cuff", "make": 2,
        "segments": [ { "kind": "flat", "long": "3 cm", "to": "slit end" }, { "to": "elbow" }, {} ] },
      { "name": "hem", "long": "50 cm", "band": "25 cm" } ],
    "measures": { "wrist": "17 cm" },
    "lengths": { "cuff": "wrist + 5 cm", "sleeve": { "from": "40 cm", "to": "54 cm", "aim": "48 cm" } },
    "pieces": [ { "name": "sleeve", "across": "sleeve + 1 cm", "along": 56)" +
               of_piece + "} ]}")
      .job;
}

Piece piece_of(const std::string &of_piece, const std::string &of_job = "") {
  return job_of(of_piece, of_job).pieces.at(0);
}

const std::string linen = R"("fabric": { "name": "linen", "weight": "165 g/m2", "width": "150 cm", "selvedge": "1 cm",
  "shrinkage": { "along": "5 %", "across": "2 %" }, "sold_by": "25 cm", "thickness": "0.34 mm" }, )";

double mm_of(const std::optional<Formula> &formula) {
  REQUIRE(formula);
  const auto value = evaluate(*formula, {});
  REQUIRE(value);
  return value->constant;
}

} // namespace

TEST_CASE("a piece of which little is said has its defaults") {
  const Job job = job_of("");
  REQUIRE(job.pieces.size() == 1);
  const Piece &piece = job.pieces[0];
  CHECK(piece.name == "sleeve");
  CHECK(piece.cut == 1);
  CHECK(piece.across.written() == "sleeve + 1 cm");
  CHECK(symbols_of(piece.across) == std::vector<int>{job.symbol_of(LengthId(1))});
  CHECK(piece.along.written() == "56 cm");
  CHECK_FALSE(piece.mirrored);
  CHECK_FALSE(piece.turn);
  for (const Side side : all_sides) {
    CHECK_FALSE(piece.allowance[side]);
    CHECK(piece.sides[side].empty());
  }
  CHECK(cloth_of(piece.fabric, job.unit) == cloth_of(job.fabric, job.unit));
}

TEST_CASE("a job without pieces, or with an empty list of them, has none") {
  CHECK(sound(R"({"joins": [{"name": "n", "long": 52, "band": 22}]})").job.pieces.empty());
  CHECK(sound(R"({"joins": [{"name": "n", "long": 52, "band": 22}], "pieces": []})").job.pieces.empty());
}

TEST_CASE("an even number of pieces is mirrored unless it says otherwise") {
  CHECK(piece_of(R"(, "cut": 2)").mirrored);
  CHECK_FALSE(piece_of(R"(, "cut": 3)").mirrored);
  CHECK_FALSE(piece_of(R"(, "cut": 4, "mirrored": false)").mirrored);
  CHECK(piece_of(R"(, "cut": 3, "mirrored": true)").mirrored);
  CHECK(piece_of(R"(, "cut": 10000)").cut == 10'000);
  CHECK(piece_of(R"(, "turn": true)").turn);
}

TEST_CASE("an allowance is of all sides, or of those that are named") {
  const Piece all = piece_of(R"(, "allowance": "1.5 cm")");
  for (const Side side : all_sides)
    CHECK(mm_of(all.allowance[side]) == 15);
  const Piece some = piece_of(R"(, "allowance": { "bottom": "2 cm", "left": 0 })");
  CHECK_FALSE(some.allowance[Side::top]);
  CHECK(mm_of(some.allowance[Side::bottom]) == 20);
  CHECK(mm_of(some.allowance[Side::left]) == 0);
  CHECK_FALSE(some.allowance[Side::right]);
  CHECK(piece_of(R"(, "allowance": "wrist / 17")").allowance[Side::top]->written() == "wrist / 17");
}

TEST_CASE("what is sewn to a side is a join's whole long edge, a part of an edge, or a list of both") {
  const Piece piece = piece_of(R"(, "sides": {
    "top": "hem",
    "bottom": { "join": "sleeve into cuff", "edge": "band", "from": "slit end", "to": "elbow", "at": "wrist - 2 cm" },
    "left": [ "sleeve into cuff", { "join": "hem", "at": "sleeve / 2" },
              { "join": "sleeve into cuff", "from": "elbow" }, { "join": "sleeve into cuff", "to": "elbow" },
              { "join": "sleeve into cuff", "from": "start", "to": "end" } ],
    "right": [] })");
  const auto parts = [&](Side side) -> const std::vector<SidePart> & { return piece.sides[side]; };
  REQUIRE(parts(Side::top).size() == 1);
  const SidePart &hem = parts(Side::top)[0];
  CHECK(hem.join == JoinId(1));
  CHECK(hem.edge == WhichEdge::long_edge);
  CHECK(hem.from == 0);
  CHECK(hem.to == 1);
  CHECK(mm_of(hem.at) == 0);
  REQUIRE(parts(Side::bottom).size() == 1);
  const SidePart &cuff = parts(Side::bottom)[0];
  CHECK(cuff.join == JoinId(0));
  CHECK(cuff.edge == WhichEdge::band);
  CHECK(cuff.from == 1);
  CHECK(cuff.to == 2);
  CHECK(cuff.at.written() == "wrist - 2 cm");
  const std::vector<std::pair<int, int>> stretches{{0, 3}, {0, 1}, {2, 3}, {0, 2}, {0, 3}};
  REQUIRE(parts(Side::left).size() == stretches.size());
  for (std::size_t i = 0; i < stretches.size(); ++i)
    CHECK(std::pair(parts(Side::left)[i].from, parts(Side::left)[i].to) == stretches[i]);
  CHECK(parts(Side::left)[1].at.written() == "sleeve / 2");
  CHECK(parts(Side::right).empty());
}

TEST_CASE("the mark at a join's end may be called by its name, and may be called end") {
  const auto part = [](const std::string &last, const std::string &marks) {
    return sound(R"({"joins": [{"name": "n", "long": 52, "band": 22, "segments": [{"to": "a"}, {"to": ")" + last +
                 R"("}]}], "pieces": [{"name": "p", "across": 52, "along": 9, "sides": {"top": {"join": "n", )" +
                 marks + "}}}]}")
        .job.pieces.at(0)
        .sides[Side::top]
        .at(0);
  };
  CHECK(part("seam", R"("to": "seam")").to == 2);
  CHECK(part("end", R"("to": "end")").to == 2);
  CHECK(part("seam", R"("from": "a", "to": "end")").from == 1);
  CHECK(part("start", R"("from": "a")").to == 2); // "start" is not written out
}

TEST_CASE("what a job says of its cloth as it is bought is read") {
  const Fabric fabric = job_of("", linen).fabric;
  CHECK(fabric.selvedge->mm == 10);
  CHECK(fabric.shrinkage == Shrinkage{0.05, 0.02});
  CHECK(fabric.sold_by->mm == 250);
  const auto shrinkage = [](const std::string &value) {
    return job_of("", R"("fabric": {"shrinkage": )" + value + "}, ").fabric.shrinkage.value();
  };
  CHECK(shrinkage("{}") == Shrinkage{});
  CHECK(shrinkage(R"({"along": "49.9 %"})") == Shrinkage{49.9 / 100, 0});
  CHECK(shrinkage(R"({"across": " 2½% "})") == Shrinkage{0, 0.025});
  CHECK(shrinkage(R"({"across": "0 %", "along": ".5 %"})") == Shrinkage{0.005, 0});
  CHECK(shrinkage("{\"across\": \"3\u00a0%\"}") == Shrinkage{0, 0.03});
  CHECK(job_of("", R"("fabric": {"selvedge": 0}, )").fabric.selvedge->mm == 0);
}

TEST_CASE("a piece without a cloth of its own is cut from the job's") {
  const Fabric fabric = piece_of("", linen).fabric;
  CHECK(fabric.name == "linen");
  CHECK(fabric.width->mm == 1500);
  CHECK(fabric.shrinkage == Shrinkage{0.05, 0.02});
  CHECK(fabric.thickness->mm == 0.34);
}

TEST_CASE("a piece's own cloth takes over from the job's key by key, shrinkage as one") {
  const Fabric narrower = piece_of(R"(, "fabric": { "width": "90 cm" })", linen).fabric;
  CHECK(narrower.name == "linen");
  CHECK(narrower.width->mm == 900);
  CHECK(narrower.selvedge->mm == 10);
  CHECK(narrower.thickness->mm == 0.34);
  const Fabric washed = piece_of(R"(, "fabric": { "name": "linen", "shrinkage": { "across": "1 %" } })", linen).fabric;
  CHECK(washed.shrinkage == Shrinkage{0, 0.01});
  CHECK(washed.weight->grams == 165);
  CHECK(washed.sold_by->mm == 250);
}

TEST_CASE("a piece's cloth of another weight or another name takes over the width and the step it is sold in alone") {
  for (const char *own : {R"("name": "lawn")", R"("weight": "90 g/m2")", R"("name": "linen", "weight": "165 g/m2")"}) {
    INFO(own);
    const Fabric fabric = piece_of(R"(, "fabric": { )" + std::string(own) + "}", linen).fabric;
    CHECK(fabric.width->mm == 1500);
    CHECK(fabric.sold_by->mm == 250);
    CHECK_FALSE(fabric.selvedge);
    CHECK_FALSE(fabric.shrinkage);
    CHECK_FALSE(fabric.thickness);
    CHECK((fabric.name == "linen" || fabric.name == "lawn" || fabric.name.empty()));
  }
  CHECK(piece_of(R"(, "fabric": { "name": "lawn" })", R"("fabric": { "selvedge": "1 cm" }, )").fabric.name == "lawn");
  CHECK_FALSE(piece_of(R"(, "fabric": { "name": "lawn" })", R"("fabric": { "selvedge": "1 cm" }, )").fabric.selvedge);
}

TEST_CASE("a join takes over what the job says of its cloth, and its own selvedges are read") {
  const auto join = [](const std::string &own) {
    return sound("{" + linen + R"("joins": [{"name": "n", "long": 52, "band": 22, "fabric": )" + own + "}]}")
        .job.joins.at(0)
        .fabric;
  };
  CHECK(join("{}").selvedge->mm == 10);
  CHECK(join("{}").shrinkage == Shrinkage{0.05, 0.02});
  CHECK(join(R"({"selvedge": "5 mm", "sold_by": "1 m"})").selvedge->mm == 5);
  CHECK(join(R"({"sold_by": "1 m"})").sold_by->mm == 1000);
  CHECK_FALSE(join(R"({"weight": "90 g/m2"})").selvedge);
  // Nothing is cut from a join's cloth: lace may be narrower than the selvedges of the job's.
  CHECK(join(R"({"name": "lace", "width": "2 cm"})").width->mm == 20);
}

TEST_CASE("pieces of the same cloth, however it is written, lie on it together") {
  const Job job = sound(R"({ "fabric": { "name": "linen", "width": "150 cm" },
    "joins": [{"name": "n", "long": 52, "band": 22}],
    "pieces": [ { "name": "a", "across": 9, "along": 9, "fabric": { "width": "1.5 m", "selvedge": 0, "sold_by": 10 } },
                { "name": "b", "across": 9, "along": 9 },
                { "name": "c", "across": 9, "along": 9, "fabric": { "name": "lawn", "width": "90 cm" } },
                { "name": "d", "across": 9, "along": 9, "fabric": { "name": "lawn", "width": 90 } } ] })")
                      .job;
  CHECK(cloths_of(job).of_piece == std::vector<int>{0, 0, 1, 1});
}

TEST_CASE("the job's cloth counts among those that share a name only where a piece is cut from it") {
  const Job job = sound(R"({ "fabric": { "name": "linen", "width": "150 cm" },
    "joins": [{"name": "n", "long": 52, "band": 22, "fabric": { "width": "70 cm" }}],
    "pieces": [ { "name": "a", "across": 9, "along": 9, "fabric": { "width": "90 cm" } },
                { "name": "b", "across": 9, "along": 9, "fabric": { "width": "90 cm" } } ] })")
                      .job;
  CHECK(cloths_of(job).cloths.size() == 1);
}

TEST_CASE("faults of planning find the pieces they speak of") {
  const ReadJob read = sound(R"({"joins": [{"name": "n", "long": 52, "band": 22}], "pieces": [
{ "name": "a", "across":
  9, "along":
  8, "allowance":
  "1 cm" },
{ "name": "b", "across": 9, "along": 8, "allowance": { "top":
  "1 cm" }, "sides": { "left":
  "n", "right": [ "n",
  { "join": "n", "from":
    "start", "to":
    "end", "at":
    "1 cm" } ] } } ]})");
  const auto at = [&](const Place &place) {
    const InputFault fault = placed(read, std::array<Refusal, 1>{PlacedFault{place, {"what", "instead"}}}).front();
    return std::to_string(fault.line) + " " + fault.pointer;
  };
  using PiecePart = place::InPiece::Part;
  using PartOfSide = place::InSidePart::Part;
  const PieceId a(0);
  const PieceId b(1);
  CHECK(at(place::InPiece{a}) == "2 /pieces/0");
  CHECK(at(place::InPiece{a, PiecePart::across}) == "3 /pieces/0/across");
  CHECK(at(place::InPiece{a, PiecePart::along}) == "4 /pieces/0/along");
  CHECK(at(place::InAllowance{SideAt(a, Side::right)}) == "5 /pieces/0/allowance");
  CHECK(at(place::InAllowance{SideAt(b, Side::top)}) == "7 /pieces/1/allowance/top");
  CHECK(at(place::InAllowance{SideAt(b, Side::left)}) == "6 /pieces/1");
  CHECK(at(place::InSidePart{PartAt(SideAt(b, Side::left), 0), PartOfSide::at}) == "8 /pieces/1/sides/left");
  const auto second = [&](PartOfSide part) { return at(place::InSidePart{PartAt(SideAt(b, Side::right), 1), part}); };
  CHECK(second(PartOfSide::whole) == "9 /pieces/1/sides/right/1");
  CHECK(second(PartOfSide::from) == "10 /pieces/1/sides/right/1/from");
  CHECK(second(PartOfSide::to) == "11 /pieces/1/sides/right/1/to");
  CHECK(second(PartOfSide::at) == "12 /pieces/1/sides/right/1/at");
}
