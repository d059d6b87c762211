// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/job/read_job.hpp"

#include "gatherwright/plan.hpp"

#include "tests/figure.hpp"
#include "tests/outcomes.hpp"
#include "tests/where.hpp"

#include <catch2/catch.hpp>

#include <regex.h>

#include <algorithm>
#include <array>
#include <filesystem>
#include <fstream>
#include <iterator>

using namespace gatherwright;
using namespace gatherwright::cli;

namespace {

std::string contents_of(const std::filesystem::path &path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

ReadJob sound(std::string_view text) {
  auto read = read_job(text);
  if (const auto *faults = tests::fault_in(read))
    for (const InputFault &fault : *faults)
      UNSCOPED_INFO(fault_line("job", fault));
  REQUIRE(static_cast<bool>(read));
  return *std::move(read);
}

Job job_of(std::string_view text) {
  return sound(text).job;
}

/// A job of one join with these keys.
Join join_of(const std::string &keys, const std::string &job_keys = "") {
  return job_of("{" + job_keys + "\"joins\": [{\"name\": \"n\", \"long\": \"52 cm\", \"band\": \"22 cm\"" + keys +
                "}]}")
      .joins.at(0);
}

/// The length of an edge that is not drawn.
const Formula &length_of(const Edge &edge) {
  return std::get<Formula>(edge.is);
}

/// The value of a formula that names nothing free, given those of the symbols.
double comes_to(const Formula &formula, const std::vector<double> &symbols = {}) {
  std::vector<Affine> values;
  for (const double symbol : symbols)
    values.push_back({symbol, {}});
  const auto value = evaluate(formula, values);
  REQUIRE(value);
  REQUIRE(value->fixed());
  return value->constant;
}

/// Whether an extended regular expression is found in a line, case set aside. (POSIX's: g++ 12 warns of std::regex
/// itself.)
bool is_found(const std::string &pattern, const std::string &line) {
  regex_t compiled;
  REQUIRE(regcomp(&compiled, pattern.c_str(), REG_EXTENDED | REG_ICASE | REG_NOSUB) == 0);
  const bool found = regexec(&compiled, line.c_str(), 0, nullptr, 0) == 0;
  regfree(&compiled);
  return found;
}

std::vector<std::filesystem::path> worked(std::string_view prefix, bool with) {
  std::vector<std::filesystem::path> paths;
  for (const char *folder : {"worked", "worked/pieces"})
    for (const auto &entry : std::filesystem::directory_iterator(test_data(folder))) {
      const std::string name = entry.path().filename().string();
      if (name.ends_with(".job.json") && name.starts_with(prefix) == with) paths.push_back(entry.path());
    }
  std::sort(paths.begin(), paths.end());
  return paths;
}

} // namespace

TEST_CASE("the smallest job has its defaults") {
  const Job job = job_of(R"({"joins": [{"name": "n", "long": 52, "band": 22}]})");
  CHECK(!job.title);
  CHECK(job.unit == Unit::cm);
  CHECK(job.tape_step.mm == 1);
  CHECK(!job.fabric.weight);
  CHECK(job.gathering.stitch.mm == 4);
  CHECK(!job.gathering.stitch_given);
  CHECK(!job.gathering.rows);
  CHECK(job.gathering.tail.mm == 100);
  CHECK(job.gathering.longest.mm == 1000);
  CHECK(job.tolerance.cut.mm == 0);
  CHECK(!job.wearer_age);
  CHECK(job.bare_lengths);
  REQUIRE(job.joins.size() == 1);
  const Join &join = job.joins[0];
  CHECK(join.name == "n");
  CHECK(comes_to(length_of(join.long_edge)) == 520);
  CHECK(length_of(join.long_edge).written() == "52 cm");
  CHECK(!join.long_edge.ends);
  CHECK(join.make == 1);
  CHECK(!join.mirrored);
  CHECK(!join.closed);
  const auto *apart = std::get_if<PinsApart>(&join.marks);
  REQUIRE(apart);
  CHECK(tests::figure(apart->most).mm == 60);
  CHECK(apart->halves);
  REQUIRE(join.segments.size() == 1);
  CHECK(join.segments[0].kind == Kind::gather);
  CHECK_FALSE(join.segments[0].long_edge);
  CHECK(join.segments[0].share == 1);
  CHECK(!join.own_weight);
  CHECK(!join.own_stitch);
}

TEST_CASE("a job in inches, feet or yards has a tape of eighths and pins 2 1/2 in apart") {
  for (const char *unit : {"in", "ft", "yd"}) {
    const Job job = job_of("{\"unit\": \"" + std::string(unit) +
                           "\", \"joins\": [{\"name\": \"n\", \"long\": \"52 cm\", \"band\": \"22 cm\"}]}");
    CHECK(job.tape_step.mm == 3.175);
    CHECK(tests::figure(std::get<PinsApart>(job.joins[0].marks).most).mm == 63.5);
    CHECK(!job.bare_lengths);
  }
}

TEST_CASE("everything a job may say is read") {
  const Job job = job_of(R"({
    "title": "Porter's smock", "unit": "in", "tape_step": "1/8 in",
    "fabric": { "name": "washed linen", "weight": "4.4 oz/yd2", "width": "150 cm", "thickness": "0.34 mm",
                "bending_length": "2.3 cm", "shrinks": true,
                "swatch": { "cut": "30 cm", "tight": "3.4 cm", "good": ["10 cm", "16 cm"], "stitch": "4 mm" } },
    "gathering": { "threads": [3, 4], "count": "14 / cm", "rows": 3, "tail": 4, "longest": "1 yd" },
    "marks": { "every": "4 cm" },
    "tolerance": { "cut": "2 mm", "mark": "1 mm" },
    "wearer": { "age": 3.5 },
    "lengths": {
      "sleeve": { "from": "45 cm", "to": "2 * cuff + slit", "aim": "52 cm", "keep": true },
      "cuff": { "is": "wrist + 5 cm", "keep": true },
      "slit": "8 cm", "short": { "from": 1, "aim": "least" }, "long": { "to": "1 m", "aim": "most" }, "any": {} },
    "measures": { "wrist": "17 cm", "hand": 9.5 },
    "rules": [ "2 * (sleeve + 3 cm) <= cloth_width",
               { "name": "the hand goes through", "holds": "cuff + 2 * slit >= hand + 3 cm" } ],
    "joins": [
      { "name": "sleeve into cuff", "long": { "length": "sleeve", "ends": ["1 cm", 0] }, "band": "cuff",
        "closed": true, "make": 2, "mirrored": false, "marks": { "parts": 4 },
        "segments": [
          { "name": "beside the slit", "kind": "flat", "long": "3 cm", "to": "slit end" },
          { "kind": "gather", "share": 2, "limits": { "least": 1.5, "ideal": 2.2, "most": 2.8 }, "spread": { "fade": ["3 cm", 1] } },
          { "kind": "ease", "limits": { "most": 1.04 }, "spread": { "shape": [[0, 1], [0.5, 2], [1, 0]] } },
          { "kind": "gauge", "band": "slit / 2", "spread": "even" }, { "kind": "draw" } ] },
      { "name": "cap", "make": 4, "band": { "length": 20 }, "marks": { "apart": "5 cm", "halves": true },
        "long": { "path": "M 0 0 L 10 0", "path_unit": "in", "allowance": "1 cm", "garment": "right", "grain": 45, "ends": [1, 2] },
        "segments": [ { "spread": "grain" } ] } ] })");

  CHECK(job.title == "Porter's smock");
  CHECK(job.unit == Unit::in);
  CHECK(job.tape_step.mm == 3.175);
  CHECK(job.fabric.name == "washed linen");
  CHECK(job.fabric.weight->grams == Approx(4.4 * 28.349523125 / (0.9144 * 0.9144)).epsilon(1e-14));
  CHECK(job.fabric.width->mm == 1500);
  CHECK(job.fabric.thickness->mm == 0.34);
  CHECK(job.fabric.bending_length->mm == 23);
  CHECK(job.fabric.shrinks);
  CHECK(job.fabric.swatch->cut.mm == 300);
  CHECK(job.fabric.swatch->tight->mm == 34);
  CHECK((*job.fabric.swatch->good)[0].mm == 100);
  CHECK((*job.fabric.swatch->good)[1].mm == 160);
  CHECK(job.fabric.swatch->stitch->mm == 4);
  CHECK(job.gathering.stitch.mm ==
        Approx(3.5 / 1.4).epsilon(1e-15)); // three and a half threads of 14 to the centimetre
  CHECK(job.gathering.threads->taken_up == 3);
  CHECK(job.gathering.threads->passed == 4);
  CHECK(job.gathering.stitch_given);
  CHECK(job.gathering.rows == 3);
  CHECK(job.gathering.tail.mm == 101.6);
  CHECK(job.gathering.longest.mm == 914.4);
  CHECK(job.tolerance.cut.mm == 2);
  CHECK(job.tolerance.mark.mm == 1);
  CHECK(job.wearer_age == 3.5);

  REQUIRE(job.measures.size() == 2);
  CHECK(job.measures[1].name == "hand");
  CHECK(job.measures[1].is.mm == 241.3);
  REQUIRE(job.lengths.size() == 6);
  CHECK(job.lengths[0].name == "sleeve");
  const auto free = [&](int length) {
    REQUIRE(job.lengths[length].free());
    return *job.lengths[length].free();
  };
  const auto extreme = [&](int length) { return std::get<Extreme>(free(length).aim.value()); };
  CHECK(job.lengths[0].keep);
  CHECK(comes_to(free(0).from.value()) == 450);
  CHECK(comes_to(free(0).to.value(), {170, 0, 0, 220, 80}) == 520);
  CHECK(comes_to(std::get<Formula>(free(0).aim.value())) == 520);
  CHECK(job.lengths[1].keep);
  REQUIRE(job.lengths[1].fixed());
  CHECK(symbols_of(*job.lengths[1].fixed()) == std::vector<int>{0});
  CHECK(extreme(3) == Extreme::least);
  CHECK(free(3).from.value().written() == "1 in");
  CHECK(extreme(4) == Extreme::most);
  CHECK_FALSE(free(5).from);
  CHECK_FALSE(free(5).to);
  CHECK_FALSE(free(5).aim);

  REQUIRE(job.rules.size() == 2);
  CHECK(job.rules[0].name == "2 * (sleeve + 3 cm) <= cloth_width");
  CHECK(job.rules[0].holds.relation == Relation::at_most);
  CHECK(symbols_of(job.rules[0].holds.right) == std::vector<int>{job.symbol_of_cloth_width()});
  CHECK(job.rules[1].name == "the hand goes through");
  CHECK(job.rules[1].holds.relation == Relation::at_least);

  REQUIRE(job.joins.size() == 2);
  const Join &cuff = job.joins[0];
  CHECK(symbols_of(length_of(cuff.long_edge)) == std::vector<int>{job.symbol_of(LengthId(0))});
  CHECK(tests::figure((*cuff.long_edge.ends)[0]).mm == 10);
  CHECK(tests::figure((*cuff.long_edge.ends)[1]).mm == 0);
  CHECK(cuff.closed);
  CHECK(cuff.make == 2);
  CHECK(!cuff.mirrored);
  CHECK(std::get<PinsAtParts>(cuff.marks).parts == 4);
  REQUIRE(cuff.segments.size() == 5);
  CHECK(cuff.segments[0].name == "beside the slit");
  CHECK(cuff.segments[0].kind == Kind::flat);
  CHECK(comes_to(cuff.segments[0].long_edge.value()) == 30);
  CHECK(cuff.segments[0].to == "slit end");
  CHECK(cuff.segments[1].share == 2);
  CHECK(cuff.segments[1].limits.least == 1.5);
  CHECK(cuff.segments[1].limits.ideal == 2.2);
  CHECK(cuff.segments[1].limits.most == 2.8);
  const auto *fade = std::get_if<Fade>(&cuff.segments[1].spread);
  REQUIRE(fade);
  CHECK(tests::figure(fade->over[0]).mm == 30);
  CHECK(tests::figure(fade->over[1]).mm == 25.4);
  CHECK(cuff.segments[2].kind == Kind::ease);
  const auto *shape = std::get_if<Shape>(&cuff.segments[2].spread);
  REQUIRE(shape);
  CHECK(shape->points == std::vector<std::array<double, 2>>{{0, 1}, {0.5, 2}, {1, 0}});
  CHECK(cuff.segments[3].kind == Kind::gauge);
  CHECK(cuff.segments[3].band);
  CHECK(std::holds_alternative<Even>(cuff.segments[3].spread));
  CHECK(cuff.segments[4].kind == Kind::draw);

  const Join &cap = job.joins[1];
  CHECK(cap.mirrored);
  CHECK(tests::figure(std::get<PinsApart>(cap.marks).most).mm == 50);
  CHECK(std::get<PinsApart>(cap.marks).halves);
  const DrawnEdge *drawn = cap.long_edge.drawn();
  REQUIRE(drawn);
  CHECK(cap.long_edge.formula() == nullptr);
  CHECK(drawn->path == "M 0 0 L 10 0");
  CHECK(drawn->path_unit == Unit::in);
  CHECK(tests::figure(drawn->allowance).mm == 10);
  CHECK(drawn->garment == Garment::right);
  CHECK(drawn->grain == 45);
  CHECK(tests::figure((*cap.long_edge.ends)[1]).mm == 50.8);
  CHECK(comes_to(length_of(cap.band)) == 508);
  CHECK(std::holds_alternative<AlongGrain>(cap.segments[0].spread));
}

TEST_CASE("marks a distance apart are halved only where that is asked for") {
  CHECK(!std::get<PinsApart>(join_of(R"(, "marks": {"apart": "5 cm"})").marks).halves);
  CHECK(std::get<PinsApart>(join_of(R"(, "marks": {"apart": "5 cm", "halves": true})").marks).halves);
  CHECK(tests::figure(std::get<PinsEvery>(join_of("", R"("marks": {"every": "3 cm"}, )").marks).distance).mm == 30);
}

TEST_CASE("a join may say what it is for") {
  CHECK(!join_of("").use);
  CHECK(join_of(R"(, "use": "skirt")").use == Use::skirt);
  CHECK(join_of(R"(, "use": "curtain")").use == Use::curtain);
}

TEST_CASE("an even number of pieces is mirrored unless the job says otherwise") {
  CHECK(!join_of(R"(, "make": 3)").mirrored);
  CHECK(join_of(R"(, "make": 6)").mirrored);
  CHECK(join_of(R"(, "make": 3, "mirrored": true)").mirrored);
  CHECK(join_of(R"(, "make": 2.0)").make == 2);
}

TEST_CASE("a stitch is a length, stitches counted on the face, or threads counted on the cloth") {
  const auto stitch = [](const std::string &keys) { return join_of(", \"gathering\": {" + keys + "}").gathering; };
  CHECK(stitch(R"("stitch": "3/8 in")").stitch.mm == 9.525);
  CHECK(!stitch(R"("stitch": "3/8 in")").on_face);
  CHECK(stitch(R"("stitch": "8 / in")").stitch.mm ==
        Approx(25.4 / 16).epsilon(1e-15)); // half of the pitch of an eighth
  CHECK(stitch(R"("stitch": "8/in")").on_face);
  CHECK(stitch(R"("stitch": 0.3)").stitch.mm == 3);
  CHECK(stitch(R"("threads": [2, 4], "count": "20 / in")").stitch.mm == Approx(3 * 1.27).epsilon(1e-15));
}

TEST_CASE("the stitch of a swatch is written in every way in which that of the gathering is") {
  const auto stitch = [](const std::string &keys) {
    return job_of(R"({"fabric": {"swatch": {"cut": "30 cm", "tight": "5 cm")" + keys +
                  R"(}}, "joins": [{"name": "n", "long": "52 cm", "band": "22 cm"}]})")
        .fabric.swatch->stitch;
  };
  CHECK_FALSE(stitch(""));
  CHECK(stitch(R"(, "stitch": "3 mm")")->mm == 3);
  CHECK(stitch(R"(, "stitch": "1/8 in")")->mm == Approx(25.4 / 8));
  CHECK(stitch(R"(, "stitch": "8 / in")")->mm == Approx(25.4 / 16)); // half a running stitch
  CHECK(stitch(R"(, "threads": [3, 4], "count": "18 / cm")")->mm == Approx(3.5 / 1.8));
}

TEST_CASE("a path without a unit is in millimetres, whatever the job's") {
  for (const char *unit : {"cm", "in", "mm"}) {
    const Job job = job_of(R"({"unit": ")" + std::string(unit) +
                           R"(", "joins": [{"name": "n", "long": {"path": "M 0 0 L 500 0"}, "band": "22 cm"}]})");
    PlanOutcome outcome = plan(job);
    REQUIRE(static_cast<bool>(outcome));
    CHECK(outcome->joins.at(0).long_length == Approx(500));
  }
}

TEST_CASE("a join's own cloth and gathering are laid over the job's") {
  const std::string of_job =
      R"("fabric": {"weight": "165 g/m2", "width": "150 cm", "thickness": "0.34 mm", "shrinks": true},
    "gathering": {"stitch": "4 mm", "rows": 3}, )";
  const Join inherits = join_of("", of_job);
  CHECK(inherits.fabric.weight->grams == 165);
  CHECK(inherits.fabric.shrinks);
  CHECK(inherits.gathering.rows == 3);
  CHECK(!inherits.own_weight);
  CHECK(!inherits.own_stitch);
  const Join own = join_of(R"(, "fabric": {"weight": "90 g/m2"}, "gathering": {"stitch": "2 mm"})", of_job);
  CHECK(own.fabric.weight->grams == 90);
  CHECK(own.fabric.width->mm == 1500);
  CHECK(!own.fabric.thickness);
  CHECK(!own.fabric.shrinks);
  CHECK(own.gathering.stitch.mm == 2);
  CHECK(own.gathering.rows == 3);
  CHECK(own.own_weight);
  CHECK(own.own_stitch);
}

TEST_CASE("a number of the file is written with the job's unit, in its shortest form") {
  const auto written = [](const std::string &number) {
    const Job job = job_of("{\"joins\": [{\"name\": \"n\", \"long\": " + number + ", \"band\": 1}]}");
    return length_of(job.joins[0].long_edge).written();
  };
  CHECK(written("80") == "80 cm");
  CHECK(written("80.50") == "80.5 cm");
  CHECK(written("1e5") == "100000 cm");
  CHECK(written("0.1") == "0.1 cm");
  CHECK(written("\"24 3/4 in\"") == "24 3/4 in");
}

TEST_CASE("a length without a unit is noticed") {
  CHECK(job_of(R"({"joins": [{"name": "n", "long": "52", "band": "22 cm"}]})").bare_lengths);
  CHECK(job_of(R"({"joins": [{"name": "n", "long": "52 1/2", "band": "22 cm"}]})").bare_lengths);
  CHECK(!job_of(R"({"joins": [{"name": "n", "long": "5' 10 1/2\"", "band": "5’ 10½″"}]})").bare_lengths);
  CHECK(!job_of(R"({"measures": {"a": "5 cm"}, "joins": [{"name": "n", "long": "a", "band": "2 * a"}]})").bare_lengths);
}

TEST_CASE("worked jobs are read without a fault") {
  const auto paths = worked("bad-", false);
  REQUIRE(paths.size() >= 24);
  for (const auto &path : paths) {
    CAPTURE(path);
    CHECK(!sound(contents_of(path)).job.joins.empty());
  }
}

TEST_CASE("worked jobs that cannot be used say so as they should") {
  const auto paths = worked("bad-", true);
  REQUIRE(paths.size() >= 8);
  for (const auto &path : paths) {
    CAPTURE(path);
    std::string expected_path = path.string();
    expected_path.replace(expected_path.size() - 9, 9, ".expected.txt");
    const std::string expected = contents_of(expected_path);
    const std::size_t first = expected.find('\n') + 1;
    const std::size_t second = expected.find('\n', first);
    std::string pattern = expected.substr(first, second - first);
    for (std::size_t at; (at = pattern.find("(?i:")) != std::string::npos;)
      pattern.replace(at, 4, "(");
    const std::string third = expected.substr(second + 1);
    const std::size_t count = third.empty() ? 1 : std::stoul(third);

    auto read = read_job(contents_of(path));
    REQUIRE_FALSE(read);
    const auto &faults = read.fault();
    for (const auto &fault : faults)
      UNSCOPED_INFO(fault_line(path.filename().string(), fault));
    CHECK(std::any_of(faults.begin(), faults.end(), [&](const InputFault &fault) {
      return is_found(pattern, fault_line(path.filename().string(), fault));
    }));
    CHECK((count == 0 ? !faults.empty() : faults.size() == count));
  }
}

TEST_CASE("faults of planning find the place they speak of") {
  const ReadJob read = sound(R"({
"lengths": { "a": 3,
  "f": { "from": "1 cm",
    "to": "2 cm" } },
"rules": [ "f <= 3 cm",
  { "name": "r",
    "holds": "f >= 1 cm" } ],
"joins": [
  { "name": "n", "long": 52, "band":
    { "length": 22 } },
  { "name": "m", "long": { "path": "M 0 0 L 1 0",
    "ends": [1, 1] }, "band": 5,
    "segments": [ {},
      { "spread": { "fade": [1, 2] }, "long": 3,
        "band": 4 } ] } ] })");
  const auto at = [&](const Place &place) {
    const InputFault fault = placed(read, std::array<Refusal, 1>{PlacedFault{place, {"what", "instead"}}}).front();
    CHECK(fault.fault == Fault{"what", "instead"});
    return std::to_string(fault.line) + " " + fault.pointer;
  };
  using LengthPart = place::InLength::Part;
  using SegmentPart = place::InSegment::Part;
  const auto of_length = [&](int length, LengthPart part) { return at(place::InLength{LengthId(length), part}); };
  const auto of_edge = [&](int join, WhichEdge edge) { return at(place::InEdge{EdgeAt(JoinId(join), edge)}); };
  const auto of_segment = [&](int join, int segment, SegmentPart part) {
    return at(place::InSegment{SegmentAt(JoinId(join), segment), part});
  };
  CHECK(at(place::WholeJob{}) == "1 ");
  CHECK(of_length(0, LengthPart::is) == "2 /lengths/a");
  CHECK(of_length(1, LengthPart::whole) == "3 /lengths/f");
  CHECK(of_length(1, LengthPart::from) == "3 /lengths/f/from");
  CHECK(of_length(1, LengthPart::to) == "4 /lengths/f/to");
  CHECK(of_length(1, LengthPart::aim) == "3 /lengths/f");
  CHECK(at(place::InRule{RuleId(0)}) == "5 /rules/0");
  CHECK(at(place::InRule{RuleId(1)}) == "7 /rules/1/holds");
  CHECK(at(place::InJoin{JoinId(0)}) == "9 /joins/0");
  CHECK(of_edge(0, WhichEdge::long_edge) == "9 /joins/0/long");
  CHECK(of_edge(0, WhichEdge::band) == "10 /joins/0/band/length");
  CHECK(of_segment(0, 0, SegmentPart::spread) == "9 /joins/0");
  CHECK(of_edge(1, WhichEdge::long_edge) == "11 /joins/1/long/path");
  CHECK(of_segment(1, 0, SegmentPart::band) == "13 /joins/1/segments/0");
  CHECK(of_segment(1, 1, SegmentPart::spread) == "14 /joins/1/segments/1/spread/fade");
  CHECK(of_segment(1, 1, SegmentPart::band) == "15 /joins/1/segments/1/band");
}

TEST_CASE("a wrong path is told at its path, with the byte that is wrong") {
  const ReadJob read = sound(R"({"joins": [{"name": "n", "long": {"path": "M 0 0 L 1"},
    "band": {"path": "M 0 0 Q 1 0"}}]})");
  const PlanOutcome outcome = plan(read.job);
  REQUIRE_FALSE(outcome);
  REQUIRE(outcome.fault().size() == 2);
  const std::vector<InputFault> faults = placed(read, outcome.fault());
  const InputFault &first = faults[0];
  const InputFault &second = faults[1];
  CHECK(first.pointer == "/joins/0/long/path");
  CHECK(second.pointer == "/joins/0/band/path");
  CHECK(second.line == 2);
  CHECK(first.fault.what.find("byte 9") != std::string::npos);
}
