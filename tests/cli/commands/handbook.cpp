// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/made_job.hpp"
#include "tests/table.hpp"

#include <sstream>
#include <string>
#include <vector>

// "By a Lady", The Workwoman's Guide (London, 1838): edges and bands as cut, in nails, and their exact fullness.

using namespace gatherwright;

namespace {

struct Row {
  std::string join, where, size, long_nail, band_nail, fullness;
};

std::vector<Row> handbook() {
  std::vector<Row> rows;
  for (const auto &of : tests::table("handbook_joins.csv"))
    if (of.size() == 7) rows.push_back({of[1], of[2], of[3], of[4], of[5], of[6]});
  return rows;
}

double fraction(const std::string &text) {
  const std::size_t bar = text.find('/');
  return std::stod(text.substr(0, bar)) / std::stod(text.substr(bar + 1));
}

} // namespace

TEST_CASE(
    "every join of the handbook has its exact fullness, its quarters, and is within limits at a middling weight") {
  const std::vector<Row> rows = handbook();
  REQUIRE(rows.size() == 39);
  for (const Row &row : rows) {
    INFO(row.join << ", " << row.where << ", " << row.size);
    const Plan plan = tests::plan_of(
        R"({"unit": "in", "fabric": {"weight": "150 g/m2"}, "marks": {"parts": 4}, "joins": [{"name": "x", "long": ")" +
        row.long_nail + R"( nail", "band": ")" + row.band_nail + R"( nail"}]})");
    const JoinPlan &join = plan.joins[0];
    // A quotient of two lengths, each rounded once.
    CHECK(join.segments[0].fullness == Approx(fraction(row.fullness)).epsilon(1e-12));
    REQUIRE(join.marks.size() == 5);
    for (int i = 0; i < 5; ++i) {
      CHECK(join.marks[i].band.exact == Approx(join.band * i / 4).epsilon(1e-14).margin(1e-12));
      CHECK(join.marks[i].long_edge.exact == Approx(join.long_length * i / 4).epsilon(1e-12).margin(1e-12));
    }
    CHECK(plan.verdict == Verdict::within_limits);
  }
}

TEST_CASE("the neck of a labouring shirt is its width less two shoulders in every column of the scale") {
  // The same, ch. VI, Plate 17, nails: proper width of cloth, space for shoulders, space for the neck.
  static constexpr double scale[][3] = {{9, 2, 5},        {12, 2, 8},   {13, 2.5, 8},
                                        {13.5, 2.5, 8.5}, {14, 2.5, 9}, {15, 3, 9}};
  for (const auto &[width, shoulder, neck] : scale) {
    std::ostringstream job;
    job << R"({"lengths": {"width": ")" << width << R"( nail", "shoulder": ")" << shoulder
        << R"( nail", "neck": "width - 2 * shoulder"},
      "joins": [{"name": "x", "long": "2 * neck", "band": "neck"}]})";
    CHECK(tests::plan_of(job.str()).lengths[2].is == Approx(neck * 57.15));
  }
}
