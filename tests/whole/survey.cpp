// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/survey.hpp"
#include "tests/made_job.hpp"

#include <iterator>

using namespace gatherwright;
using namespace gatherwright::tests;

namespace {

std::string example() {
  std::ifstream file(in_project("docs/examples/porters-smock.json"));
  return {std::istreambuf_iterator<char>(file), {}};
}

void replace_measure(std::string &job, const std::string &name, const std::string &millimetres) {
  const std::string key = "\"" + name + "\": \"";
  const std::size_t at = job.find(key);
  REQUIRE(at != std::string::npos);
  const std::size_t begin = at + key.size();
  job.replace(begin, job.find('"', begin) - begin, millimetres + " mm");
}

} // namespace

TEST_CASE("for everybody of the survey head and hand go through the smock, or the plan says that they do not") {
  const std::string job = example();
  const std::vector<Person> people = survey();
  REQUIRE(people.size() == 200);
  int through = 0;
  for (const Person &person : people) {
    std::string own = job;
    replace_measure(own, "wrist", person.at("wristcircumference"));
    replace_measure(own, "hand", person.at("handcircumference"));
    replace_measure(own, "neck", person.at("neckcircumferencebase"));
    replace_measure(own, "head", person.at("headcircumference"));
    INFO("person " << person.at("subjectid"));
    const Plan plan = plan_of(own, {.savings = false});
    if (plan.verdict == Verdict::rules_conflict) {
      REQUIRE(plan.conflict);
      CHECK_FALSE(plan.conflict->conditions.empty());
      continue;
    }
    const auto length = [&](const char *name) {
      const Job read = job_of(own);
      for (std::size_t i = 0; i < read.lengths.size(); ++i)
        if (read.lengths[i].name == name) return plan.lengths[i].is.value();
      return 0.0;
    };
    const bool head = length("collar") + 2 * length("neck_slit") >= number(person, "headcircumference") + 100 - 1e-6;
    const bool hand = length("cuff") + 2 * length("cuff_slit") >= number(person, "handcircumference") + 30 - 1e-6;
    CHECK(plan.rules[0].holds == head);
    CHECK(plan.rules[1].holds == hand);
    if (head && hand)
      ++through;
    else
      CHECK(plan.verdict == Verdict::rule_broken);
  }
  CHECK(through > 190);
}
