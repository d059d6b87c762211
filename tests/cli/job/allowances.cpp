// SPDX-License-Identifier: GPL-3.0-or-later
// Lengths of cloth that a job may give by formulas of what is fixed, and what is kept.

#include "cli/job/read_job.hpp"

#include "tests/outcomes.hpp"

#include <catch2/catch.hpp>

#include <string>
#include <vector>

using namespace gatherwright;
using namespace gatherwright::cli;

namespace {

std::string with(const std::string &of_job, const std::string &of_join) {
  return R"({ "fabric": { "weight": "150 g/m2", "width": "150 cm" }, "measures": { "wrist": "17 cm" },
    "lengths": { "cuff": "wrist + 5 cm", "seam": "1.2 cm", "free": { "from": "40 cm", "to": "60 cm" } },
    )" + of_job +
         R"( "joins": [ { "name": "n", "band": "cuff")" + of_join + "} ] }";
}

Job read(const std::string &text) {
  auto job = read_job(text);
  if (!job) FAIL(job.fault().front().pointer << ": " << job.fault().front().fault.what);
  return job->job;
}

/// "pointer: what is wrong" of the only fault.
std::string fault_told(const std::string &text) {
  const auto job = read_job(text);
  REQUIRE_FALSE(job);
  REQUIRE(job.fault().size() == 1);
  return job.fault().front().pointer + ": " + job.fault().front().fault.what;
}

const std::string drawn_allowing = R"(, "long": { "path": "M 0 0 L 300 0", "garment": "left", "allowance": )";

} // namespace

TEST_CASE("fades, ends, allowances, apart and every are read as formulas") {
  const Job job = read(with(R"("allowance": "seam", "marks": { "apart": "cuff / 5" },)",
                            R"(, "long": { "length": "free", "ends": ["seam", "2 * seam"] }, "allowance": "seam + 3 mm",
      "segments": [ { "spread": { "fade": ["wrist / 5", 2] } } ])"));
  CHECK(job.allowance.value().written() == "seam");
  const Join &join = job.joins[0];
  CHECK(join.allowance.value().written() == "seam + 3 mm");
  CHECK((*join.long_edge.ends)[1].written() == "2 * seam");
  CHECK(std::get<PinsApart>(join.marks).most.written() == "cuff / 5");
  CHECK(std::get<Fade>(join.segments[0].spread).over[0].written() == "wrist / 5");
  CHECK(std::get<Fade>(join.segments[0].spread).over[1].written() == "2 cm");
  const Job other = read(with("", drawn_allowing + R"("seam" }, "marks": { "every": "wrist / 4" })"));
  CHECK(other.joins[0].long_edge.drawn()->allowance.written() == "seam");
  CHECK(std::get<PinsEvery>(other.joins[0].marks).distance.written() == "wrist / 4");
  CHECK_FALSE(other.allowance);
  CHECK_FALSE(other.joins[0].allowance);
}

TEST_CASE("what names a length to be found where only fixed ones may stand is at fault by its name") {
  const std::string hangs = ": this hangs on \"free\", which is to be found";
  const std::string plain = R"(, "long": "free")";
  CHECK(fault_told(with(R"("allowance": "free / 10",)", plain)) == "/allowance" + hangs);
  CHECK(fault_told(with(R"("marks": { "apart": "free / 8" },)", plain)) == "/marks/apart" + hangs);
  CHECK(fault_told(with("", plain + R"(, "marks": { "every": "free / 8" })")) == "/joins/0/marks/every" + hangs);
  CHECK(fault_told(with("", plain + R"(, "allowance": "free / 8")")) == "/joins/0/allowance" + hangs);
  CHECK(fault_told(with("", R"(, "long": { "length": "free", "ends": ["1 cm", "free / 9"] })")) ==
        "/joins/0/long/ends/1" + hangs);
  CHECK(fault_told(with("", plain + R"(, "segments": [ { "spread": { "fade": ["free / 9", 1] } } ])")) ==
        "/joins/0/segments/0/spread/fade/0" + hangs);
  CHECK(fault_told(with("", drawn_allowing + R"("free / 40" })")) == "/joins/0/long/allowance" + hangs);
}

TEST_CASE("an allowance is a length, and of a straight edge belongs in its join") {
  const std::string plain = R"(, "long": "free")";
  CHECK(fault_told(with(R"("allowance": -1,)", plain)).starts_with("/allowance: "));
  CHECK(fault_told(with(R"("allowance": "seam - 2 cm",)", plain)) == "/allowance: this comes to -0.8 cm");
  CHECK(fault_told(with(R"("marks": { "apart": "seam - 12 mm" },)", plain)) == "/marks/apart: this comes to 0");
  CHECK(fault_told(with("", plain + R"(, "allowance": "wrst / 9")")).starts_with("/joins/0/allowance: "));
  const auto job = read_job(with("", R"(, "long": { "length": "free", "allowance": "1 cm" })"));
  REQUIRE_FALSE(job);
  CHECK(job.fault().front().fault.instead.find("in the join") != std::string::npos);
  // The side of a drawn edge is wanted where a formula comes to more than 0, too.
  CHECK(fault_told(with("", R"(, "long": { "path": "M 0 0 L 300 0", "allowance": "seam" })"))
            .starts_with("/joins/0/long: \"garment\" is missing"));
}

TEST_CASE("a length whose own formula names a measure is kept, unless it says otherwise") {
  const auto kept = [](const std::string &collar) {
    const Job job =
        read(R"({ "measures": { "neck": "39 cm" }, "lengths": { "ease": "2 cm", "collar": )" + collar +
             R"(, "two": "2 * collar" }, "joins": [ { "name": "n", "long": "60 cm", "band": "collar" } ] })");
    CHECK_FALSE(job.lengths[0].keep);
    CHECK_FALSE(job.lengths[2].keep); // by way of another length is not by its own formula
    return job.lengths[1].keep;
  };
  CHECK(kept(R"("neck + 2 cm")"));
  CHECK(kept(R"("neck")"));
  CHECK(kept(R"({ "is": "neck + ease" })"));
  CHECK_FALSE(kept(R"({ "is": "neck + ease", "keep": false })"));
  CHECK(kept(R"({ "is": "41 cm", "keep": true })"));
  CHECK_FALSE(kept(R"("39 cm + ease")"));
  CHECK_FALSE(kept(R"({ "from": "neck", "to": "neck + 4 cm" })"));
}
