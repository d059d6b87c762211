// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/cli/commands/command_test.hpp"

#include "tests/where.hpp"
#include <algorithm>

#include <catch2/catch.hpp>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>
#include <regex>
#include <string>
#include <vector>

// Jobs and the essential numbers of their plans, worked by a separate program in another language: tests/data/worked.

using namespace command_test;
using namespace gatherwright::cli;
using nlohmann::json;

namespace {

const std::string folder = test_data("worked/");

/// Names with the folder they lie in, "pieces/05-inches".
std::vector<std::string> cases(bool bad) {
  std::vector<std::string> names;
  const std::string ending = ".job.json";
  for (const auto &entry : std::filesystem::recursive_directory_iterator(folder)) {
    const std::string file = entry.path().filename().string();
    const std::string name = entry.path().lexically_relative(folder).string();
    if (file.size() > ending.size() && file.ends_with(ending) && file.starts_with("bad-") == bad)
      names.push_back(name.substr(0, name.size() - ending.size()));
  }
  std::sort(names.begin(), names.end());
  return names;
}

/// Two computations of the same number agree to 1e-6 of it; of what should be nothing, to a billionth of a unit.
bool same(double a, double b) {
  return std::abs(a - b) <= 1e-6 * std::max({std::abs(a), std::abs(b), 1e-3});
}

void compare(const json &wanted, const json &got, const std::string &at, std::vector<std::string> &faults) {
  const auto differ = [&] { faults.push_back(at + ": wanted " + wanted.dump() + ", got " + got.dump()); };
  if (wanted.is_object()) {
    if (!got.is_object()) return differ();
    for (const auto &[key, value] : wanted.items()) {
      if (value.is_null()) {
        if (got.contains(key)) faults.push_back(at + "/" + key + ": should not be there");
      } else if (!got.contains(key)) {
        faults.push_back(at + "/" + key + ": is missing");
      } else {
        compare(value, got[key], at + "/" + key, faults);
      }
    }
  } else if (wanted.is_array()) {
    if (!got.is_array() || got.size() != wanted.size()) return differ();
    json left = wanted;
    json right = got;
    if (at.ends_with("/conflict")) {
      std::sort(left.begin(), left.end());
      std::sort(right.begin(), right.end());
    }
    for (std::size_t i = 0; i < left.size(); ++i)
      compare(left[i], right[i], at + "/" + std::to_string(i), faults);
  } else if (wanted.is_number() && got.is_number()) {
    if (!same(wanted.get<double>(), got.get<double>())) differ();
  } else if (wanted != got) {
    // An end of a room that has no bound is null on both sides.
    differ();
  }
}

/// Takes away what is a case's own and no part of a plan.
void leave_essential(json &wanted) {
  for (const char *own : {"noted", "cautioned", "changes", "never", "unsure", "told", "cloths", "rects", "corner",
                          "first", "good", "lays", "sizes", "names", "stock"})
    if (wanted.is_object()) wanted.erase(own);
  if (wanted.is_structured())
    for (json &inner : wanted)
      leave_essential(inner);
}

/// Findings that must be among those of the plan; `widths` is how many it must say the piece could be made of.
void compare_told(const json &wanted, const json &plan, std::vector<std::string> &faults) {
  for (json told : wanted.value("told", json::array())) {
    const std::string says = told.contains("widths") ? "from " + told["widths"].dump() + " widths" : "";
    told.erase("widths");
    const auto is_it = [&](const json &finding) {
      std::vector<std::string> differences;
      compare(told, finding, "", differences);
      return differences.empty() && gatherwright::tests::holds(finding["says"].get<std::string>(), says);
    };
    if (std::none_of(plan["findings"].begin(), plan["findings"].end(), is_it))
      faults.push_back("no finding is " + told.dump() + " " + says);
  }
}

/// Every length or edge that alone puts the whole job right, and none that does not.
void compare_changes(const json &wanted, const json &plan, std::vector<std::string> &faults) {
  if (!wanted.contains("changes")) return;
  json remedies = json::object();
  for (const json &remedy : plan["remedies"])
    if (!remedy.contains("join")) remedies[remedy["change"].get<std::string>()] = remedy;
  for (const auto &[name, change] : wanted["changes"].items()) {
    if (!remedies.contains(name)) {
      faults.push_back("no remedy changes " + name);
      continue;
    }
    const double to = remedies[name]["to"];
    if (std::none_of(change["to"].begin(), change["to"].end(), [&](const json &step) { return same(step, to); }))
      faults.push_back("the remedy of " + name + " goes to " + std::to_string(to));
    if (!same(remedies[name]["by"].get<double>(), to - change["is"].get<double>()))
      faults.push_back("the remedy of " + name + " is by another figure");
  }
  const json unsure = wanted.value("unsure", json::array());
  for (const auto &[name, remedy] : remedies.items()) {
    if (name == "cloth weight" || name == "stitch" || name == "kind") continue;
    if (!wanted["changes"].contains(name) && std::find(unsure.begin(), unsure.end(), name) == unsure.end())
      faults.push_back(name + " is said to put the job right");
  }
  for (const json &name : wanted.value("never", json::array()))
    if (remedies.contains(name.get<std::string>())) faults.push_back(name.get<std::string>() + " must never change");
}

} // namespace

TEST_CASE("worked cases come out as they were worked") {
  const std::vector<std::string> names = cases(false);
  REQUIRE(names.size() >= 25);
  for (const std::string &name : names) {
    INFO(name);
    const json wanted = json::parse(contents(folder + name + ".expected.json"));
    const Answer answer = run({"plan", folder + name + ".job.json", "--json"});
    CHECK(static_cast<int>(answer.status) == wanted["exit"]);
    REQUIRE_FALSE(answer.out.empty());
    const json plan = json::parse(answer.out);
    json essential = wanted["plan"];
    leave_essential(essential);
    std::vector<std::string> faults;
    compare(essential, plan, "", faults);
    compare_changes(wanted["plan"], plan, faults);
    compare_told(wanted["plan"], plan, faults);
    const std::vector<std::string> none; // compared with, so that they are shown
    CHECK(faults == none);
    if (wanted["plan"].value("noted", false)) CHECK_FALSE(plan["notes"].empty());
    if (wanted["plan"].value("cautioned", false)) CHECK_FALSE(plan["cautions"].empty());
  }
}

TEST_CASE("worked jobs that cannot be used are told so in the words wanted") {
  const std::vector<std::string> names = cases(true);
  REQUIRE(names.size() >= 8);
  for (const std::string &name : names) {
    INFO(name);
    std::vector<std::string> wanted = lines_of(contents(folder + name + ".expected.txt"));
    REQUIRE(wanted.size() >= 2);
    const Answer answer = run({"plan", folder + name + ".job.json"});
    CHECK(answer.status == Status::unusable);
    CHECK(answer.out.empty());
    // The expression ignores case within its one group.
    std::string expression = wanted[1];
    const std::size_t group = expression.find("(?i:");
    REQUIRE(group != std::string::npos);
    expression.replace(group, 4, "(?:");
    const std::regex pattern(expression, std::regex::icase);
    const std::vector<std::string> lines = lines_of(answer.err);
    CHECK(std::any_of(lines.begin(), lines.end(),
                      [&](const std::string &line) { return std::regex_search(line, pattern); }));
    const int count = wanted.size() > 2 ? std::stoi(wanted[2]) : 1;
    if (count > 0) CHECK(static_cast<int>(lines.size()) == count);
  }
}
