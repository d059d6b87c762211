// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/report/plan_json.hpp"
#include "tests/made_job.hpp"

#include <nlohmann/json.hpp>
#include <string>

// How much cloth to buy, against figures reckoned by hand. Each job lays one piece or two that lie in one row.

using namespace gatherwright;
using nlohmann::json;

namespace {

/// A piece as cut, so many times, on cloth of which this is said.
struct Asked {
  std::string unit;
  std::string fabric; ///< keys of the cloth
  std::string across;
  std::string along;
  int cut = 1;
};

json cloth_of(const Asked &asked) {
  const Job job = tests::job_of(
      R"({ "unit": ")" + asked.unit + R"(", "allowance": 0, "fabric": { "weight": "150 g/m2", )" + asked.fabric +
      R"( }, "joins": [ { "name": "sleeve into cuff", "long": "50 cm", "band": "25 cm" } ],
    "pieces": [ { "name": "hanging", "cut": )" +
      std::to_string(asked.cut) + R"(, "across": ")" + asked.across + R"(", "along": ")" + asked.along + R"(" } ] })");
  return json::parse(report::plan_json(job, tests::plan_of(job, {.advice = false})))["cloth"][0];
}

void check_bought(const Asked &asked, double exact, const char *text) {
  INFO(asked.fabric << ", " << asked.along);
  const json cloth = cloth_of(asked);
  CHECK(cloth["buy"]["exact"].get<double>() == Approx(exact).epsilon(1e-12)); // a quotient
  CHECK(cloth["buy"]["text"] == text);
}

} // namespace

TEST_CASE("cloth by the metre is bought in tens of centimetres, up, and on a step no more") {
  const std::string plain = R"("width": "150 cm")";
  check_bought({"cm", plain, "148 cm", "190 cm"}, 190, "1.9 m");
  check_bought({"cm", plain, "148 cm", "190.1 cm"}, 190.1, "2 m");
  check_bought({"cm", plain, "148 cm", "189.9 cm"}, 189.9, "1.9 m");
  check_bought({"cm", plain, "148 cm", "0.5 cm"}, 0.5, "0.1 m");
  check_bought({"mm", plain, "148 cm", "210 mm"}, 210, "0.3 m");
  check_bought({"m", plain, "148 cm", "12.34 m"}, 12.34, "12.4 m");
}

TEST_CASE("what the wash takes is bought too, and what then comes to a step is on it") {
  // 190 / 0.95 = 200, of which in double precision a hair more comes: 8 x 25 cm and 20 x 10 cm.
  check_bought({"cm", R"("width": "150 cm", "shrinkage": { "along": "5 %" }, "sold_by": "25 cm")", "148 cm", "190 cm"},
               200, "2 m");
  check_bought({"cm", R"("width": "150 cm", "shrinkage": { "along": "5 %" })", "148 cm", "190 cm"}, 200, "2 m");
  // 169.5 / 0.96 = 176.5625
  check_bought({"cm", R"("width": "150 cm", "shrinkage": { "along": "4 %" })", "140 cm", "169.5 cm"}, 176.5625,
               "1.8 m");
  check_bought(
      {"cm", R"("width": "150 cm", "shrinkage": { "along": "4 %" }, "sold_by": "25 cm")", "140 cm", "169.5 cm"},
      176.5625, "2 m");
  // 96 / 0.96 = 100; 3 % of 300 cm are 9, 291 / 0.97 = 300
  check_bought({"cm", R"("width": "150 cm", "shrinkage": { "along": "4 %" }, "sold_by": "50 cm")", "140 cm", "96 cm"},
               100, "1 m");
  check_bought({"cm", R"("width": "150 cm", "shrinkage": { "along": "3 %" }, "sold_by": "1 m")", "140 cm", "291 cm"},
               300, "3 m");
  // What it takes across is not bought.
  check_bought({"cm", R"("width": "150 cm", "shrinkage": { "across": "5 %" })", "140 cm", "190 cm"}, 190, "1.9 m");
}

TEST_CASE("cloth by the yard is bought in eighths, as reduced fractions") {
  const std::string plain = R"("width": "45 in")";
  check_bought({"in", plain, "40 in", "22 1/2 in"}, 22.5, "5/8 yd"); // 5 x 4 1/2 in
  check_bought({"in", plain, "40 in", "22 9/16 in"}, 22.5625, "3/4 yd");
  check_bought({"in", plain, "40 in", "18 in"}, 18, "1/2 yd");
  check_bought({"in", plain, "40 in", "36 in"}, 36, "1 yd");
  check_bought({"in", plain, "40 in", "37 in"}, 37, "1 1/8 yd");
  check_bought({"in", plain, "40 in", "84 in"}, 84, "2 3/8 yd"); // 85 1/2
  check_bought({"yd", plain, "40 in", "2 yd"}, 2, "2 yd");
  check_bought({"ft", plain, "40 in", "4 ft"}, 4, "1 3/8 yd"); // 48 in; 49 1/2
  // By quarters: 37 in are 5 of 9 in. By halves after a wash that takes a tenth: 48.6 / 0.9 = 54 = 3 x 18.
  check_bought({"in", plain + R"(, "sold_by": "1/4 yd")", "40 in", "37 in"}, 37, "1 1/4 yd");
  check_bought({"in", plain + R"(, "sold_by": "1/2 yd", "shrinkage": { "along": "10 %" })", "40 in", "48.6 in"}, 54,
               "1 1/2 yd");
}

TEST_CASE("where the step is of the other measure than the unit the amount is in metres") {
  const std::string narrow = R"("width": "45 in")";
  // 12 in are 2 x 6 in = 0.3048 m and 4 x 10 cm: neither step is whole eighths of a yard.
  check_bought({"in", narrow + R"(, "sold_by": "6 in")", "40 in", "11 in"}, 11, "0.3048 m");
  check_bought({"in", narrow + R"(, "sold_by": "10 cm")", "40 in", "12 in"}, 12, "0.4 m");
  // 1/8 yd is 11.43 cm; the unit is cm.
  check_bought({"cm", R"("width": "150 cm", "sold_by": "1/8 yd")", "140 cm", "20 cm"}, 20, "0.2286 m");
}

TEST_CASE("what the wash takes across and the selvedges decide how many lie beside one another") {
  // 150 x 0.98 - 2 x 1 = 145 cm: two of 72.5 lie in one row, of 72.6 they do not.
  const std::string fabric = R"("width": "150 cm", "selvedge": "1 cm", "shrinkage": { "across": "2 %" })";
  const json beside = cloth_of({"cm", fabric, "72.5 cm", "90 cm", 2});
  CHECK(beside["width"] == 150);
  CHECK(beside["usable"].get<double>() == Approx(145).epsilon(1e-12));
  CHECK(beside["length"].get<double>() == Approx(90).epsilon(1e-12));
  CHECK(beside["used"].get<double>() == Approx(1).epsilon(1e-12));
  check_bought({"cm", fabric, "72.5 cm", "90 cm", 2}, 90, "0.9 m");
  check_bought({"cm", fabric, "72.6 cm", "90 cm", 2}, 180, "1.8 m");
}
