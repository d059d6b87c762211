// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/report/plan_json.hpp"
#include "cli/report/plan_text.hpp"
#include "cli/report/short_names.hpp"
#include "gatherwright/cloths.hpp"
#include "tests/hostile_paper.hpp"
#include "tests/made_job.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

using namespace gatherwright;
using report::told_bytes;
using report::with_short_names;

namespace {

std::string times(int count, std::string_view text) {
  std::string all;
  for (int i = 0; i < count; ++i)
    all += text;
  return all;
}

/// How often a character stands in a text.
std::size_t count(std::string_view text, std::string_view character) {
  std::size_t found = 0;
  for (std::size_t at = text.find(character); at != std::string_view::npos; at = text.find(character, at + 1))
    ++found;
  return found;
}

} // namespace

TEST_CASE("a name is told up to a thousand characters, however many bytes each has") {
  CHECK(told_bytes("") == 0);
  for (const std::string_view letter : {"n", "é", "袖", "𝄞"}) {
    CHECK(told_bytes(times(1000, letter)) == 1000 * letter.size());
    CHECK(told_bytes(times(1001, letter)) == 1000 * letter.size());
    CHECK(told_bytes(times(50'000, letter)) == 1000 * letter.size());
  }
}

TEST_CASE("of accents on one letter sixteen are told, and those on many letters all") {
  CHECK(told_bytes(hostile::accented(16, "nd")) == hostile::accented(16, "nd").size());
  CHECK(told_bytes(hostile::accented(17, "nd")) == hostile::accented(16).size());
  CHECK(told_bytes(hostile::accented(20'000)) == hostile::accented(16).size());
  CHECK(told_bytes(times(50, hostile::accented(3))) == 50 * hostile::accented(3).size());
  CHECK(told_bytes(times(17, "\xe2\x80\x8d")) == 16 * 3); // joiners of no width
}

TEST_CASE("a job whose names are those of people is told as it is") {
  CHECK_FALSE(with_short_names(tests::job_of(hostile::named("sleeve into cuff, Đặng Thị Hương's"))));
  CHECK_FALSE(with_short_names(tests::job_of(hostile::named(times(1000, "n")))));
  CHECK_FALSE(with_short_names(tests::job_of(hostile::named(hostile::accented(16)))));
}

TEST_CASE("every text of a job that is told is told short, and nothing else of it changes") {
  const std::string name = times(1500, "n");
  const std::string other = times(1500, "m");
  const std::string is = times(1500, "k");
  const Job job = tests::job_of(R"({"title":")" + name + R"(","measures":{")" + is + R"(":"17 cm"},"lengths":{")" +
                                name + R"(":{"from":")" + is + R"( + 1 cm","to":")" + is + R"( + 60 cm"},"x":20},
    "rules":[")" + name + R"( >= 20 cm",{"name":")" +
                                other + R"(","holds":"x <= 30 cm"}, "x >= 3 cm"],
    "joins":[{"name":")" + name +
                                R"(","long":")" + name + R"(","band":"x","segments":[
      {"name":")" + name + R"(","to":")" +
                                other + R"(","long":")" + is + R"(","band":")" + is + R"( / 2"},{}]}]})");
  const auto told = with_short_names(job);
  REQUIRE(told);
  const auto begins = [](const std::string &text, char letter) { CHECK(text == std::string(1000, letter) + "…"); };
  begins(*told->title, 'n');
  begins(told->measures[0].name, 'k');
  begins(told->lengths[0].name, 'n');
  begins(told->lengths[0].free()->from->written(), 'k');
  begins(told->lengths[0].free()->to->written(), 'k');
  begins(told->joins[0].name, 'n');
  const Segment &segment = told->joins[0].segments[0];
  begins(segment.name, 'n');
  begins(segment.to, 'm');
  begins(segment.long_edge->written(), 'k');
  begins(segment.band->written(), 'k');
  CHECK(told->rules[0].name == std::string(1000, 'n') + "… >= 20 cm"); // called as it is written
  begins(told->rules[1].name, 'm');
  CHECK(told->rules[2].name == job.rules[2].name);
  CHECK(told->lengths[1].name == "x");
  CHECK(told->joins[0].segments.size() == job.joins[0].segments.size());
  CHECK(told->lengths[0].free() != nullptr);
}

TEST_CASE("sentences have a name short, and fields of JSON have it whole") {
  const std::string name = hostile::accented(20'000, "nd");
  const Job job = tests::job_of(hostile::named(name));
  const Plan plan = tests::plan_of(job);
  const std::string text = report::plan_text(job, plan, report::Ink{});
  CHECK(text.size() < 20'000);
  CHECK(count(text, "…") >= 4);
  const auto json = nlohmann::json::parse(report::plan_json(job, plan));
  CHECK(json["joins"][0]["name"] == name);
  CHECK(json["joins"][0]["segments"][0]["name"] == name);
  for (const auto &said : json["notes"])
    CHECK(said.get<std::string>().size() < 2000);
}

TEST_CASE("findings and remedies of a job with names beyond reading stay sentences") {
  const std::string name = times(3000, "n");
  const Job job = tests::job_of(R"({"lengths":{")" + name + R"(":"90 cm"},"joins":[{"name":")" + name +
                                R"(","long":")" + name + R"(","band":"20 cm"}]})");
  const Plan plan = tests::plan_of(job, {.advice = true});
  const auto json = nlohmann::json::parse(report::plan_json(job, plan));
  REQUIRE_FALSE(json["findings"].empty());
  REQUIRE_FALSE(json["remedies"].empty());
  CHECK(json["findings"][0]["join"] == name);
  for (const char *list : {"findings", "remedies"})
    for (const auto &each : json[list]) {
      const std::string says = each["says"];
      INFO(says);
      CHECK(count(says, "n") < 2200);
      CHECK(says.find(name) == std::string::npos);
    }
}

TEST_CASE("pieces and their cloths are told short, and cloths whose names begin alike stay two") {
  const std::string name = times(1500, "n");
  const auto piece = [&](const std::string &called, const std::string &cloth) {
    return R"({"name":")" + called + R"(","across":"20 cm","along":"30 cm","fabric":{"name":")" + cloth +
           R"(","width":"90 cm"}})";
  };
  const Job job = tests::job_of(
      R"({"allowance":"1 cm","joins":[{"name":"neck","long":"52 cm","band":"22 cm"}],"pieces":[)" +
      piece(name, name + "1") + "," + piece("front", name + "2") + "," + piece("back", name + "1") + "]}");
  const auto told = with_short_names(job);
  REQUIRE(told);
  CHECK(told->pieces[0].name == std::string(1000, 'n') + "…");
  CHECK(told->pieces[1].name == "front");
  for (const Piece &each : told->pieces)
    CHECK(std::string_view(each.fabric.name).size() < 1100);
  CHECK(cloths_of(*told).of_piece == cloths_of(job).of_piece);
  const Plan plan = tests::plan_of(job);
  CHECK(count(report::plan_text(job, plan, report::Ink{}), "n") < 6000);
  CHECK(nlohmann::json::parse(report::plan_json(job, plan))["cloth"][1]["name"] == name + "2");
}
