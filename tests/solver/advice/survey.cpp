// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/survey.hpp"
#include "tests/draft.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

using namespace gatherwright;
using namespace gatherwright::tests;

namespace {

double percentile(std::vector<double> values, double share) {
  std::sort(values.begin(), values.end());
  return values[static_cast<std::size_t>(std::ceil(share * static_cast<double>(values.size()))) - 1];
}

/// The shortest slit, millimetres, with which an opening over `closed` lets `body` through with `allowance`.
double shortest_slit(double closed, double body, double allowance) {
  const Draft draft{.unit = Unit::mm,
                    .tape_step = mm(0.5),
                    .measures = {{"closed", mm(closed)}, {"body", mm(body)}, {"allowance", mm(allowance)}},
                    .lengths = {{.name = "slit", .aim = "least"}},
                    .rules = {"closed + 2 * slit >= body + allowance"},
                    .joins = {{"x", "400 mm", "200 mm"}}};
  return plan_of(draft, {.profile = false, .advice = false}).lengths[0].found.value().exact;
}

} // namespace

TEST_CASE("with no allowance the shortest slits are those of the survey's percentiles") {
  // Of the whole survey, 50, 95 and 99 of a hundred: men's palms need 8, 13.5 and 16 mm at a cuff of wrist + 20 mm,
  // women's 6, 11 and 13; men's heads 65, 84 and 90 mm at a collar of neck base + 10 mm, women's 90, 109 and 117. A
  // sample of a hundred meets its middle to about 2 mm (head: 4) and its ends to about twice that.
  const std::vector<Person> people = survey();
  for (const bool men : {true, false}) {
    std::vector<double> hands;
    std::vector<double> heads;
    for (const Person &person : people) {
      if ((person.at("sex") == "M") != men) continue;
      hands.push_back(shortest_slit(number(person, "wristcircumference") + 20, number(person, "handcircumference"), 0));
      heads.push_back(
          shortest_slit(number(person, "neckcircumferencebase") + 10, number(person, "headcircumference"), 0));
    }
    REQUIRE(hands.size() == 100);
    CHECK(percentile(hands, 0.50) == Approx(men ? 8 : 6).margin(2));
    CHECK(percentile(hands, 0.95) == Approx(men ? 13.5 : 11).margin(3));
    CHECK(percentile(hands, 0.99) == Approx(men ? 16 : 13).margin(4));
    CHECK(percentile(heads, 0.50) == Approx(men ? 65 : 90).margin(4));
    CHECK(percentile(heads, 0.95) == Approx(men ? 84 : 109).margin(6));
    CHECK(percentile(heads, 0.99) == Approx(men ? 90 : 117).margin(8));
  }
}

TEST_CASE("with the ready-made allowance neck slits come to what is usual at a close collar") {
  // Common practice, no source: 5 to 6 inches at a close collar is barely enough for the head.
  const std::vector<Person> people = survey();
  std::vector<double> slits;
  for (const Person &person : people)
    slits.push_back(
        shortest_slit(number(person, "neckcircumferencebase") + 10, number(person, "headcircumference"), 100));
  CHECK(percentile(slits, 0.5) / 25.4 == Approx(5).margin(0.5));
  CHECK(percentile(slits, 0.95) / 25.4 == Approx(6).margin(0.5));
  CHECK(percentile(slits, 0.05) / 25.4 > 3.5);
}
