// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/page/text/change_advice.hpp"
#include "cli/words/findings.hpp"
#include "gatherwright/cloths.hpp"
#include "tests/cli/page/text/changes.hpp"
#include "tests/cli/page/text/odd_text.hpp"
#include "tests/good_jobs.hpp"

#include <catch2/catch.hpp>

#include <random>
#include <regex>
#include <set>

using namespace gatherwright;
using namespace gatherwright::tests;
using page::TakeRemedy;

namespace {

/// The text with a remedy of its plan taken up.
std::string remedied(const std::string &text, int number) {
  return changed_to(text, "", TakeRemedy{number});
}

/// Takes up every remedy of a job's plan and holds the new plan to what was promised; tells their kinds, by the
/// alternatives of what they change.
void hold_to_promises(const std::string &text, std::set<std::size_t> &kinds, int &taken) {
  const auto read = cli::read_job(text);
  if (!read) return;
  const PlanOutcome planned = plan(read->job);
  if (!planned) return;
  for (std::size_t n = 0; n < planned->remedies.size(); ++n) {
    const Remedy &remedy = planned->remedies[n];
    const std::string after = remedied(text, static_cast<int>(n));
    INFO(words::remedy(read->job, remedy) << "\n" << text << "\n---\n" << after);
    const Plan mended = plan_of(job_of(after), {.layouts = false});
    if (remedy.mends)
      REQUIRE(mended.joins.at(static_cast<std::size_t>(remedy.mends->at)).verdict == Verdict::within_limits);
    else
      REQUIRE(mended.verdict == Verdict::within_limits);
    kinds.insert(remedy.change.index());
    ++taken;
  }
}

/// The value with one of its lengths, of those outside measures, made longer or shorter.
Json with_one_length_off(const Json &values, std::mt19937_64 &random) {
  static const std::regex quantity(R"(^(\d+(?:\.\d+)?) (cm|mm|in|m)$)");
  std::vector<std::string> lengths;
  for (const std::string &pointer : pointers_in(values)) {
    const Json &value = values.at(Json::json_pointer(pointer));
    const bool alters = pointer.starts_with("/lengths") || pointer.starts_with("/joins");
    if (alters && value.is_string() && std::regex_match(value.get<std::string>(), quantity)) lengths.push_back(pointer);
  }
  Json changed = values;
  if (lengths.empty()) return changed;
  Json &value = changed[Json::json_pointer(lengths[random() % lengths.size()])];
  std::smatch parts;
  const std::string written = value.get<std::string>();
  std::regex_match(written, parts, quantity);
  const double factors[] = {0.2, 0.4, 0.6, 0.8, 1.2, 1.5, 2, 3, 5};
  const double off = std::round(std::stod(parts[1]) * factors[random() % std::size(factors)] * 10) / 10;
  value = Json(off).dump() + " " + parts[2].str();
  return changed;
}

} // namespace

TEST_CASE("every remedy of a job taken up in its text brings what it promised") {
  std::mt19937_64 random(3);
  std::set<std::size_t> kinds;
  int taken = 0;
  for (const std::string &text : good_job_texts()) {
    hold_to_promises(text, kinds, taken);
    const Json values = values_of(text);
    for (int trial = 0; trial < 12; ++trial) {
      Json off = with_one_length_off(values, random);
      if (trial % 3 == 0) off = with_one_length_off(off, random);
      const TidyText tidy(random(), off, trial % 2 == 0 ? "\n" : "\r\n");
      hold_to_promises(tidy.text(), kinds, taken);
    }
  }
  CHECK(taken > 300);
  for (std::size_t kind = 0; kind < 6; ++kind) // of each kind but more cloth some
    CHECK(kinds.contains(kind));
}

TEST_CASE("a remedy is written where the job says what it alters") {
  CHECK(
      remedied(
          R"({ "joins": [{ "name": "a", "long": "22 cm", /* cuff */ "band": { "length": "52 cm", "ends": [1, 1] } }] })",
          0) ==
      R"({ "joins": [{ "name": "a", "long": { "length": "52 cm", "ends": [1, 1] }, /* cuff */ "band": "22 cm" }] })");
  const std::string full = R"({ "lengths": { "sleeve": { "from": "90 cm", "aim": "least" } },
    "joins": [{ "name": "a", "long": "sleeve", "band": "22 cm" }] })";
  const Plan plan = plan_of(full);
  const auto is_length = [](const Remedy &remedy) { return std::holds_alternative<change::ToLength>(remedy.change); };
  const auto found = std::find_if(plan.remedies.begin(), plan.remedies.end(), is_length);
  REQUIRE(found != plan.remedies.end());
  const double to = std::get<change::ToLength>(found->change).to;
  const std::string after = remedied(full, static_cast<int>(found - plan.remedies.begin()));
  Json expected = values_of(full);
  expected["lengths"]["sleeve"]["from"] = named_reading(Length{to}, {Unit::cm, {1}});
  CHECK(values_of(after) == expected);
}

TEST_CASE("more of a cloth is written wherever it is said how much there is") {
  const std::string pieces = R"("joins": [{ "name": "j", "long": "52 cm", "band": "22 cm" }], "pieces": [
    { "name": "a", "across": "30 cm", "along": "20 cm" },
    { "name": "b", "across": "30 cm", "along": "20 cm", "fabric": { "name": "lawn", "width": "1 m"STOCK } },
    { "name": "c", "across": "30 cm", "along": "20 cm", "fabric": { "name": "lawn", "width": "1 m"STOCK } }] })";
  const auto with_stock = [&](const std::string &jobs, const std::string &own) {
    return R"({ "fabric": { "width": "1.5 m")" + jobs + " }, " + std::regex_replace(pieces, std::regex("STOCK"), own);
  };
  const std::string stock = R"(, "stock": "2.5 m")";
  const std::string more = R"(, "stock": "2.7 m")";
  const Job job = job_of(with_stock("", ""));
  const auto taken = [&](int cloth) {
    return *page::with_advice(with_stock(stock, stock), job, change::ToClothLength{ClothId(cloth), 200, 2700});
  };
  CHECK(taken(0) == with_stock(more, stock));
  CHECK(taken(1) == with_stock(stock, more));
}

TEST_CASE("a length that saves cloth is written, or aimed at") {
  const std::string text = R"({ "lengths": { "a": { "from": "40 cm" }, "b": "50 cm", "c": { "is": 50, "keep": false } },
    "joins": [{ "name": "j", "long": "a", "band": "22 cm" }] })";
  const auto saved = [&](int length) {
    const Saving saving{LengthId(length), -20, 480, ClothId(0), 100};
    return values_of(*page::with_advice(text, job_of(text), saving))["lengths"].dump();
  };
  CHECK(saved(0) == R"({"a":{"from":"40 cm","aim":"48 cm"},"b":"50 cm","c":{"is":50,"keep":false}})");
  CHECK(saved(1) == R"({"a":{"from":"40 cm"},"b":"48 cm","c":{"is":50,"keep":false}})");
  CHECK(saved(2) == R"({"a":{"from":"40 cm"},"b":"50 cm","c":{"is":48,"keep":false}})");
  CHECK(
      fault_of_change(text, "", page::TakeSaving{7}).fault.what.starts_with("there is no saving 7 in a plan that has"));
}

namespace {

/// How much of a cloth is bought, by its name.
double bought_of(const Plan &plan, const SharedText &name) {
  const auto cloth = std::find_if(plan.cloth.begin(), plan.cloth.end(),
                                  [&](const ClothPlan &each) { return each.cloth.name == name; });
  return cloth == plan.cloth.end() ? 0 : cloth->buy;
}

} // namespace

TEST_CASE("every saving of a job taken up in its text gives the length it says, within limits, and saves as much") {
  int taken = 0;
  for (const std::string &text : good_job_texts()) {
    const Job job = job_of(text);
    const Plan before = plan_of(job);
    for (std::size_t n = 0; n < before.savings.size(); ++n) {
      const Saving &saving = before.savings[n];
      const std::string after = changed_to(text, "", page::TakeSaving{static_cast<int>(n)});
      INFO(job[saving.at].name << " " << saving.to << "\n" << text << "\n---\n" << after);
      const Plan saved = plan_of(job_of(after));
      REQUIRE(saved.verdict == Verdict::within_limits);
      REQUIRE(std::fabs(*saved.lengths.at(static_cast<std::size_t>(saving.at.at)).is - saving.to) < 1e-6);
      ++taken;
      // A saving leaves the other lengths as they are; where there is so much of a cloth they are chosen anew, and fuller.
      const Cloth cloth = cloths_of(job).cloths.at(static_cast<std::size_t>(saving.cloth.at));
      if (cloth.stock) continue;
      CHECK(bought_of(before, cloth.name) - bought_of(saved, cloth.name) == Approx(saving.saves));
    }
  }
  CHECK(taken > 3);
}

TEST_CASE("a remedy that is not there is a fault, and so is a job that has none to offer") {
  const std::string good = R"({ "joins": [{ "name": "a", "long": "52 cm", "band": "22 cm" }] })";
  CHECK(fault_of_change(good, "", TakeRemedy{0}).fault.what == "there is no remedy 0 in a plan that has 0");
  CHECK(fault_of_change(good, "", TakeRemedy{-1}).fault.what == "there is no remedy -1 in a plan that has 0");
  CHECK(fault_of_change(R"({ "joins": [{ "name": "a", "long": "52 cm" }] })", "", TakeRemedy{0}).pointer == "/joins/0");
  const std::string refused = R"({ "joins": [{ "name": "a", "long": "52 cm", "band": "22 cm",
    "segments": [{ "spread": { "fade": ["20 cm", "20 cm"] } }] }] })";
  CHECK(fault_of_change(refused, "", TakeRemedy{0}).pointer == "/joins/0/segments/0/spread/fade");
}
