// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/page/text/added_quantity.hpp"
#include "cli/page/text/length_written.hpp"
#include "tests/cli/page/text/changes.hpp"
#include "tests/cli/page/text/odd_text.hpp"
#include "tests/good_jobs.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <random>

using namespace gatherwright;
using namespace gatherwright::tests;
using page::Slide;

namespace {

/// What a length is written as in a job of this unit, once it has slid.
std::string slid(const std::string &length, int steps, const std::string &unit = "cm") {
  const std::string text = R"({ "unit": ")" + unit + R"(", "measures": { "wrist": "17 cm" }, "lengths": { "a": )" +
                           length + R"( }, "joins": [{ "name": "j", "long": "60 cm", "band": "22 cm" }] })";
  return values_of(changed_to(text, "/lengths/a", Slide{steps}))["lengths"]["a"].dump();
}

} // namespace

TEST_CASE("a given length slides by steps of the tape, in the unit that it is written in") {
  CHECK(slid(R"("62 cm")", 3) == R"("62.3 cm")");
  CHECK(slid(R"("62 cm")", -20) == R"("60 cm")");
  CHECK(slid(R"("620 mm")", 1) == R"("621 mm")");
  CHECK(slid(R"("0.62 m")", 1) == R"("0.621 m")");
  CHECK(slid("62", 1) == "62.1");
  CHECK(slid(R"("62")", 1) == R"("62.1")");
  CHECK(slid(R"("62.04 cm")", 1) == R"("62.1 cm")");
  CHECK(slid(R"("62.05 cm")", 1) == R"("62.1 cm")");
  CHECK(slid(R"({"is":"62 cm","keep":true})", 1) == R"({"is":"62.1 cm","keep":true})");
  CHECK(slid(R"("24 3/4 in")", 1, "in") == R"("24 7/8 in")");
  CHECK(slid(R"("24 3/4 in")", 1) == R"("63 cm")");
  CHECK(slid(R"("2 ft 3 1/2 in")", -4, "in") == R"("2 ft 3 in")");
  CHECK(slid(R"("1 yd")", 4, "in") == R"("1 yd 1/2 in")");
  CHECK(slid("24.75", 1, "in") == "24.875");
  CHECK(slid(R"("24 3/4")", 1, "in") == R"("24 7/8")");
  CHECK(slid(R"("5' 1\"")", 1, "in") == R"("5 ft 1 1/8 in")");
  CHECK(slid(R"("4 nail")", 18, "in") == R"("5 nail")");
  CHECK(slid(R"("4 nail")", 1, "in") == R"("9 1/8 in")");
}

TEST_CASE("a formula slides by the one quantity that is added in it") {
  CHECK(slid(R"("wrist + 5 cm")", 3) == R"("wrist + 5.3 cm")");
  CHECK(slid(R"("wrist+5cm")", -60) == R"("wrist-1 cm")");
  CHECK(slid(R"("wrist - 2 cm")", 10) == R"("wrist - 1 cm")");
  CHECK(slid(R"("wrist - 2 cm")", 30) == R"("wrist + 1 cm")");
  CHECK(slid(R"("wrist - 2 cm")", 20) == R"("wrist + 0 cm")");
  CHECK(slid(R"("5 cm + wrist")", 1) == R"("5.1 cm + wrist")");
  CHECK(slid(R"("5 cm + wrist")", -60) == R"("-1 cm + wrist")");
  CHECK(slid(R"("-5 cm + wrist")", 60) == R"("1 cm + wrist")");
  CHECK(slid(R"("2 * wrist / 3 + 50 mm - (wrist + 1 cm) / 9")", 1) ==
        R"("2 * wrist / 3 + 51 mm - (wrist + 1 cm) / 9")");
  CHECK(slid(R"("wrist + 1 yd 4 1/2 in")", 1, "in") == R"("wrist + 1 yd 4 5/8 in")");
  for (const char *rests :
       {"wrist", "2 * wrist", "(wrist + 5 cm) / 2", "wrist + 5 cm + 2 cm", "max(wrist, 5 cm) * 2", "wrist * -1 * -2"})
    CHECK_FALSE(page::added_quantity(rests, Unit::cm));
}

TEST_CASE("a length to be found slides by what it aims at, else from where it was planned") {
  CHECK(slid(R"({"from":"40 cm","aim":"52 cm"})", 2) == R"({"from":"40 cm","aim":"52.2 cm"})");
  CHECK(slid(R"({"from":"40 cm","aim":"wrist + 35 cm"})", 2) == R"({"from":"40 cm","aim":"wrist + 35.2 cm"})");
  CHECK(slid(R"({"from":"40 cm","aim":"3 * wrist"})", 2) == R"({"from":"40 cm","aim":"51.2 cm"})");
  CHECK(slid(R"({"from":"40 cm","to":"60 cm","aim":"least"})", 2) ==
        R"({"from":"40 cm","to":"60 cm","aim":"40.2 cm"})");
  CHECK(slid(R"({"from":"40 cm","to":"60 cm","aim":"most","keep":true})", -2) ==
        R"({"from":"40 cm","to":"60 cm","aim":"59.8 cm","keep":true})");
}

TEST_CASE("what cannot slide says why") {
  const std::string text = R"({ "measures": { "wrist": "17 cm" }, "lengths": { "a": "5 cm", "b": "2 * wrist" },
    "joins": [{ "name": "j", "long": "60 cm", "band": "22 cm" }] })";
  CHECK(fault_of_change(text, "/lengths/b", Slide{1}).fault.what ==
        "\"b\" is worked out as \"2 * wrist\", with not one length added to the rest");
  CHECK(fault_of_change(text, "/lengths/a", Slide{-50}).fault.what == "\"a\" would come to nothing");
  CHECK(fault_of_change(text, "/lengths/a", Slide{2'000'000'000}).fault.what == "\"a\" would be over 1000 km");
  CHECK(fault_of_change(text, "/measures/wrist", Slide{1}).fault.what == "there is no length at \"/measures/wrist\"");
  CHECK(fault_of_change(text, "/lengths/c", Slide{1}).fault.what == "there is no length at \"/lengths/c\"");
  const std::string no_job = R"({ "lengths": { "a": "5 cm" } })";
  CHECK(fault_of_change(no_job, "/lengths/a", Slide{1}).fault.what == "\"joins\" is missing");
}

TEST_CASE("every length of a good job slides by as many steps as it is told, and nothing else of its job changes") {
  std::mt19937_64 random(7);
  int slides = 0;
  for (const std::string &text : good_job_texts()) {
    const Job job = job_of(text);
    const Plan before = plan_of(job, {.advice = false, .layouts = false});
    if (before.verdict == Verdict::rules_conflict) continue;
    for (std::size_t i = 0; i < job.lengths.size(); ++i) {
      const int steps = static_cast<int>(random() % 7) + 1;
      const std::string name = job.lengths[i].name;
      const auto outcome = page::changed(text, {"/lengths/" + name, Slide{steps}});
      INFO(name << " by " << steps << "\n" << text);
      if (!outcome) {
        REQUIRE(outcome.fault().front().fault.what.find("not one length added") != std::string::npos);
        REQUIRE(job.lengths[i].fixed() != nullptr);
        continue;
      }
      Json values = values_of(*outcome);
      const Json old = values_of(text);
      values["lengths"][name] = old["lengths"][name];
      REQUIRE(values == old);
      const Job changed = job_of(*outcome);
      const double step = job.tape_step.mm;
      if (job.lengths[i].fixed()) {
        // Of a given length: lengths made of others need planning.
        const Plan after = plan_of(changed, {.advice = false, .layouts = false});
        if (after.verdict == Verdict::rules_conflict || !after.lengths[i].is) continue;
        bool of_found = false;
        for (const int symbol : symbols_of(*job.lengths[i].fixed()))
          of_found = of_found || job.length_of(symbol);
        if (of_found) continue;
        const double moved = *after.lengths[i].is - *before.lengths[i].is;
        REQUIRE(std::fabs(moved - steps * step) <= step / 2 + 1e-6);
      } else {
        const Formula *aim = changed.lengths[i].free()->figure();
        REQUIRE(aim != nullptr);
        REQUIRE(aim->steps().size() == 1);
        const double count = aim->steps().front().value / step;
        REQUIRE(std::fabs(count - std::round(count)) < 1e-6);
      }
      ++slides;
    }
  }
  REQUIRE(slides > 40);
}

TEST_CASE("a length is written so that it reads as exactly what it is") {
  std::mt19937_64 random(11);
  const Tape tapes[] = {{Unit::cm, {1}},        {Unit::cm, {2}},        {Unit::mm, {0.5}},
                        {Unit::m, {10}},        {Unit::in, {25.4 / 8}}, {Unit::in, {25.4 / 16}},
                        {Unit::ft, {25.4 / 4}}, {Unit::yd, {25.4 / 8}}, {Unit::in, {2.54}}};
  const char *befores[] = {"",          "62",   "62 cm",  "620 mm", "0.62 m", "24 3/4 in",
                           "2 ft 3 in", "1 yd", "4 nail", "2 ell",  "5' 1\"", "wrist + 5 cm"};
  for (const Tape &tape : tapes)
    for (const char *before : befores)
      for (int trial = 0; trial < 50; ++trial) {
        const double mm = static_cast<double>(1 + random() % 5000) * tape.step.mm;
        const std::string written = page::length_written(mm, tape, before);
        const auto read = read_length(written, tape.unit);
        INFO(written << " for " << mm << " mm, before it " << before);
        REQUIRE(read);
        REQUIRE(std::fabs(read->mm - mm) <= 1e-9 * (1 + mm));
        const auto number = read_length(page::number_written(mm, tape.unit), tape.unit);
        REQUIRE(number);
        REQUIRE(std::fabs(number->mm - mm) <= 1e-9 * (1 + mm));
      }
}
