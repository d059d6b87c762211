// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/words/names.hpp"
#include "gatherwright/text.hpp"
#include "tests/cli/report/sample.hpp"

#include <catch2/catch.hpp>

#include <set>

using namespace gatherwright;

TEST_CASE("names are printed without anything that moves a terminal") {
  CHECK(words::printable("cuff") == "cuff");
  CHECK(words::printable("ärmel 袖") == "ärmel 袖");
  CHECK(words::printable("a\x1b[31mb") == "a\\u001b[31mb");
  CHECK(words::printable("a\nb\tc\x7f") == "a\\u000ab\\u0009c\\u007f");
  CHECK(words::printable("a\u202eb\u2028c\ufeff") == "a\\u202eb\\u2028c\\ufeff");
  CHECK(words::printable("\u009b31m") == "\\u009b31m");
  CHECK(words::printable("a\xff\xc3") == "a\\xff\\xc3");
}

TEST_CASE("only well-formed sequences are characters") {
  const auto valid = [](std::string_view text) { return character_at(text, 0).valid; };
  CHECK(character_at("\xe2\x82\xac!", 0).code == U'\u20ac');
  CHECK(character_at("\xe2\x82\xac!", 0).bytes == 3);
  CHECK(character_at("\xf0\x9f\xa7\xb5", 0).code == U'\U0001f9f5');
  CHECK_FALSE(valid("\xc0\xaf"));         // overlong
  CHECK_FALSE(valid("\xe0\x80\xaf"));     // overlong
  CHECK_FALSE(valid("\xed\xa0\x80"));     // half of a pair
  CHECK_FALSE(valid("\xf4\x90\x80\x80")); // past the last
  CHECK_FALSE(valid("\xe2\x82"));         // cut short
  CHECK_FALSE(valid("\x80"));
}

TEST_CASE("every verdict and kind has its own word") {
  std::set<std::string_view> verdicts;
  for (int verdict = 0; verdict <= static_cast<int>(Verdict::rules_conflict); ++verdict)
    verdicts.insert(words::verdict(static_cast<Verdict>(verdict)));
  CHECK(verdicts == std::set<std::string_view>{"within limits", "too scant", "too full", "rule broken",
                                               "cannot be gathered", "rules conflict"});
  std::set<std::string_view> kinds;
  std::set<std::string_view> worked;
  for (const Kind kind : all_kinds) {
    kinds.insert(name(kind));
    worked.insert(words::worked(kind));
  }
  CHECK(kinds == std::set<std::string_view>{"gather", "gauge", "draw", "ease", "flat"});
  CHECK(worked.size() == 5);
}

TEST_CASE("a mark is called as the job has it, an edge's ends start and end, a pin not at all") {
  const Job job = sample::job();
  const Plan plan = sample::plan();
  const auto called = [&](int join) {
    std::vector<std::string> names;
    for (const Mark &mark : plan.joins[join].marks)
      names.push_back(words::mark_called(job.joins[join], mark));
    return names;
  };
  CHECK(called(0) == std::vector<std::string>{"start", "slit end", "", "", "", "end"});
  CHECK(called(1) == std::vector<std::string>{"start", "", "end"});
}

TEST_CASE("the start of a ring is the end of its last stretch") {
  Job job = sample::job();
  Join &ring = job.joins[0];
  ring.closed = true;
  Mark start = sample::plan().joins[0].marks[0];
  ring.segments.back().to = "underarm seam";
  CHECK(words::mark_called(ring, start) == "underarm seam");
  ring.segments.back().to.clear();
  CHECK(words::mark_called(ring, start) == "start");
  CHECK_FALSE(words::mark_is_named(ring, start));
}

TEST_CASE("a mark within that the job does not name is called by what ends there") {
  Job job = sample::job();
  Mark mark = sample::plan().joins[0].marks[1];
  job.joins[0].segments[0].to.clear();
  CHECK(words::mark_called(job.joins[0], mark) == "end of beside the slit");
  job.joins[0].segments[0].name.clear();
  CHECK(words::mark_called(job.joins[0], mark) == "end of stretch 1");
}

TEST_CASE("a place is the join and the stretch, by its number where it has no name") {
  Job job = sample::job();
  CHECK(words::where(job, SegmentAt(JoinId(0), 1)) == "sleeve into cuff, fullness");
  CHECK(words::where(job, JoinId(0)) == "sleeve into cuff");
  CHECK(words::where(job, SegmentAt(JoinId(1), 0)) == "neck into collar");
  job.joins[0].segments[1].name.clear();
  CHECK(words::where(job, SegmentAt(JoinId(0), 1)) == "sleeve into cuff, stretch 2");
}

TEST_CASE("a rule says what it holds only where its name does not") {
  Job job = sample::job();
  CHECK(words::rule_called(job.rules[0]) == "the hand goes through (cuff + 2 * slit >= hand + 3 cm)");
  CHECK(words::rule_called(job.rules[1]) == "2 * sleeve <= 150 cm");
  job.rules[1].name = "2*sleeve<=150 cm";
  CHECK(words::rule_called(job.rules[1]) == "2 * sleeve <= 150 cm");
}

TEST_CASE("an edge that is one name is called by it") {
  const Job job = sample::job();
  CHECK(words::edge_named(job, job.joins[0].long_edge) == "sleeve");
  CHECK(words::edge_named(job, job.joins[0].band) == "cuff");
  CHECK(words::edge_named(job, job.joins[1].band).empty());
}
