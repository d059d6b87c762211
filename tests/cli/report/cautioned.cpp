// SPDX-License-Identifier: GPL-3.0-or-later
// What a maker must read first, and what would mislead, in text, on the worksheet and on strips.

#include "cli/drawing/svg.hpp"
#include "cli/report/plan_json.hpp"
#include "cli/report/plan_text.hpp"
#include "cli/sheet/sheet.hpp"
#include "cli/strip/strips.hpp"
#include "tests/holds.hpp"
#include "tests/made_job.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <string>

using namespace gatherwright;
using gatherwright::tests::holds;

namespace {

/// As read: tags and line breaks are spaces, and of spaces one is as good as many.
std::string as_read(const std::string &text) {
  std::string read;
  bool in_tag = false;
  for (const char each : text) {
    in_tag = in_tag || each == '<';
    if (in_tag || each == '\n' || each == ' ') {
      if (!read.empty() && read.back() != ' ') read += ' ';
    } else {
      read += each;
    }
    if (each == '>') in_tag = false;
  }
  return read;
}

struct Told {
  std::string text, sheet, strips, json;

  std::array<std::string, 3> to_read() const { return {as_read(text), as_read(sheet), as_read(strips)}; }
};

Told told(std::string_view written) {
  const Job job = tests::job_of(written);
  const Plan plan = tests::plan_of(job, {.profile = true, .outlines = true});
  return {report::plan_text(job, plan, {}), paper::sheet_html(job, plan),
          paper::svg_file(paper::strips(job, plan, paper::PaperSize::a4)), report::plan_json(job, plan, false)};
}

/// A neck, a sleeve, a skirt and a curtain, each drawn up.
std::string drawn_up(const std::string &wearer) {
  return R"({ "unit": "cm", "fabric": { "weight": "140 g/m2" }, )" + wearer + R"( "joins": [
    { "name": "neck on its string", "long": "77.4 cm", "band": "35 cm", "segments": [{ "kind": "draw" }] },
    { "name": "sleeve on elastic", "long": "37.6 cm", "band": "17 cm", "segments": [{ "kind": "draw" }] },
    { "name": "skirt on a tie", "use": "skirt", "long": "123 cm", "band": "55 cm", "segments": [{ "kind": "draw" }] },
    { "name": "curtain on tape", "use": "curtain", "long": "311 cm", "band": "160 cm", "segments": [{ "kind": "draw" }] }
    ] })";
}

} // namespace

TEST_CASE("a child's cord is cautioned of before anything else that is read, with its joins, and has no length") {
  const Told child = told(drawn_up(R"("wearer": { "age": 4 },)"));
  for (const std::string &read : child.to_read()) {
    const std::size_t neck = read.find("no cord or drawstring at neck or hood");
    const std::size_t waist = read.find("no long free ends at the waist");
    REQUIRE(neck != std::string::npos);
    REQUIRE(waist != std::string::npos);
    CHECK(holds(read, "neck on its string; sleeve on elastic"));
    CHECK(holds(read, "Drawn up there: skirt on a tie."));
    CHECK(holds(read, "Elastic whose ends are sewn fast in the casing, or a band, does instead."));
    CHECK(holds(read, "Local rules come first."));
    // Tails of 10 cm at either end of each.
    for (const char *length : {"97.4", "57.6", "143"})
      CHECK_FALSE(holds(read, length));
  }
  const std::string text = as_read(child.text);
  CHECK(text.find("Caution:") < text.find("All lengths are between seams"));
  const std::string sheet = as_read(child.sheet);
  CHECK(sheet.find("no cord or drawstring") < sheet.find("What to cut"));
  CHECK(holds(text, "331 cm")); // the curtain's, which nobody wears
  CHECK(holds(child.json, "\"cord\": 97.4"));
  CHECK(holds(child.json, "no cord or drawstring"));
}

TEST_CASE("a grown wearer's cord has its length and no caution, and where no age is given one at the end") {
  const Told grown = told(drawn_up(R"("wearer": { "age": 14 },)"));
  for (const std::string &read : grown.to_read()) {
    CHECK_FALSE(holds(read, "no cord or drawstring"));
    CHECK_FALSE(holds(read, "no long free ends"));
  }
  CHECK(holds(as_read(grown.text), "cut 97.4 cm to begin with"));
  const Told unknown = told(drawn_up(""));
  const std::string text = as_read(unknown.text);
  CHECK(text.find("If this is for a child: no cord or drawstring") > text.find("Cautions"));
  CHECK(holds(text, "cut 97.4 cm to begin with"));
  CHECK_FALSE(holds(text, "here: neck on its string; sleeve on elastic; curtain"));
}

TEST_CASE("marks of edges that lie the wrong way round are left out where they would be used, and not of the JSON") {
  const Told swapped = told(R"({ "fabric": { "weight": "165 g/m2" }, "joins": [
    { "name": "wrong", "long": "22 cm", "band": "50 cm" }, { "name": "right", "long": "50 cm", "band": "22 cm" } ] })");
  const std::string left_out = "Its marks are left out";
  for (const std::string &read : swapped.to_read())
    CHECK(holds(read, left_out));
  // Of the other join there are as many marks as ever.
  const std::string half = "the other half the same, from the other end";
  CHECK(as_read(swapped.text).find(half) != std::string::npos);
  CHECK(as_read(swapped.text).find(half) == as_read(swapped.text).rfind(half));
  CHECK(swapped.json.find("\"marks\"") != swapped.json.rfind("\"marks\""));
  CHECK(holds(swapped.json, R"("change": "swap", "text": "swapped")"));
  CHECK(as_read(swapped.text).find("Swap the edges of wrong") < as_read(swapped.text).find("All lengths"));
}

TEST_CASE("the side of a drawn line on which it is stitched is told in words, in text and on the worksheet") {
  const Told cap = told(R"({ "joins": [ { "name": "cap", "band": "30 cm", "long": { "path": "M 0 0 H 700",
    "allowance": "1 cm", "garment": "right" } } ] })");
  for (const std::string &where : {cap.text, cap.sheet})
    CHECK(holds(as_read(where), "Of the long edge the stitching runs below the line as drawn."));
}

TEST_CASE(
    "how well a plan lies within limits is told of the plan, of its joins and of each stretch that only just does") {
  const auto job = [](const std::string &first) {
    return R"({ "fabric": { "weight": "165 g/m2" }, "joins": [ { "name": "one", "long": ")" + first +
           R"(", "band": "40 cm" }, { "name": "two", "long": "80 cm", "band": "40 cm" } ] })";
  };
  const Told just = told(job("107 cm"));
  CHECK(holds(just.text, "Verdict: within limits, only just; mark, pin and sew as below."));
  CHECK(holds(just.text, "one: within limits, only just"));
  CHECK(holds(as_read(just.text), "Gathered 2.67 to 1, only just within limits,"));
  CHECK_FALSE(holds(just.text, "two: within limits"));
  CHECK(holds(as_read(just.sheet), "✓ within limits, only just"));
  CHECK(holds(as_read(just.sheet), "✓ within limits, well inside them"));
  CHECK(holds(just.json, R"("standing": "only just")"));
  const Told well = told(job("80 cm"));
  CHECK(holds(well.text, "Verdict: within limits, well inside them; mark, pin and sew as below."));
  CHECK_FALSE(holds(well.json, R"("standing": "only just")"));
  const Told bad = told(job("120 cm"));
  CHECK(holds(bad.text, "Verdict: too full; "));
  CHECK_FALSE(holds(as_read(bad.text), "too full, only just"));
}

TEST_CASE("what else will do is said to hold if nothing else changes, once, at the head of the lengths") {
  const Told rooms = told(R"({ "fabric": { "weight": "165 g/m2" }, "lengths": { "cuff": "22 cm", "slit": "8 cm",
    "sleeve": { "from": "45 cm", "to": "60 cm" } }, "joins": [ { "name": "n", "long": "sleeve", "band": "cuff" } ] })");
  for (const std::string &where : {as_read(rooms.text), as_read(rooms.sheet)}) {
    const std::size_t first = where.find("if nothing else changes");
    REQUIRE(first != std::string::npos);
    CHECK(where.find("if nothing else changes", first + 1) == std::string::npos);
    CHECK(first < where.find("Lengths found"));
  }
  const Told none = told(R"({ "joins": [ { "name": "n", "long": "80 cm", "band": "40 cm" } ] })");
  CHECK_FALSE(holds(as_read(none.text), "if nothing else changes"));
}
