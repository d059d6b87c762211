// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/sheet/fragments.hpp"
#include "cli/sheet/sheet.hpp"
#include "tests/cli/sheet/html_page.hpp"
#include "tests/cli/sheet/sheet_jobs.hpp"
#include "tests/good_jobs.hpp"

#include <catch2/catch.hpp>

#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

using namespace gatherwright;
using gatherwright::tests::holds;
using html_page::all;
using html_page::parsed;
using html_page::text_of;
using paper::Fragment;
using paper::sheet_fragments;

namespace {

/// Fragments one after another, as a page that is XML.
pugi::xml_document together(const std::vector<Fragment> &fragments) {
  std::string page = "<main>";
  for (const Fragment &fragment : fragments)
    page += "<div id=\"fragment-" + fragment.name + "\">" + *fragment.html + "</div>";
  return parsed(page + "</main>");
}

/// All that is said, with every run of white space as one space.
std::string said(const pugi::xml_node &node) {
  std::string words;
  for (const char c : text_of(node))
    if (c != ' ' && c != '\n')
      words += c;
    else if (!words.empty() && words.back() != ' ')
      words += ' ';
  return words;
}

void leave_out(pugi::xml_node page, const char *path) {
  for (const pugi::xml_node &each : all(page, path))
    each.parent().remove_child(each);
}

std::vector<sheet_jobs::Planned> planned_jobs() {
  std::vector<sheet_jobs::Planned> made;
  for (Job &job : tests::good_jobs()) {
    Plan plan = tests::plan_of(job, {.profile = true, .outlines = true});
    made.push_back({std::move(job), std::move(plan)});
  }
  return made;
}

} // namespace

TEST_CASE("fragments say what the sheet says, in its order, and draw one width") {
  for (const auto &[job, plan] : planned_jobs())
    for (const auto &[shown, other] : {std::pair(paper::wide, paper::narrow), std::pair(paper::narrow, paper::wide)}) {
      pugi::xml_document sheet = parsed(paper::sheet_html(job, plan));
      leave_out(sheet, "//head");
      leave_out(sheet, "//h1");
      leave_out(sheet, ("//*[@class='" + std::string(other.shown) + "']").c_str());
      const pugi::xml_document page = together(sheet_fragments(job, plan, shown));
      CHECK(said(page) == said(sheet));
      CHECK(all(page, "//svg").size() == all(sheet, "//svg").size());
    }
}

TEST_CASE("every fragment has a name of its own and says something, and none has a style") {
  for (const auto &[job, plan] : planned_jobs()) {
    std::set<std::string> names;
    for (const Fragment &fragment : sheet_fragments(job, plan, paper::wide)) {
      CHECK(names.insert(fragment.name).second);
      CHECK(!fragment.html->empty());
      const pugi::xml_document page = parsed("<div>" + *fragment.html + "</div>");
      CHECK(all(page, "//*[@style] | //style | //script").empty());
    }
  }
}

TEST_CASE("each stretch and each mark is found in picture, curve and table by its number") {
  for (const auto &[job, plan] : planned_jobs())
    for (const Fragment &fragment : sheet_fragments(job, plan, paper::wide)) {
      constexpr std::string_view of_a_join = "join-";
      if (!fragment.name.starts_with(of_a_join)) continue;
      const std::size_t number = std::stoul(fragment.name.substr(of_a_join.size())) - 1;
      const JoinPlan &join = plan.joins.at(number);
      const std::vector<Segment> &asked = job.joins.at(number).segments;
      const pugi::xml_document page = parsed("<div>" + *fragment.html + "</div>");
      const auto numbers = [&](const char *path, const char *attribute) {
        std::set<std::size_t> found;
        for (const pugi::xml_node &each : all(page, path))
          found.insert(each.attribute(attribute).as_uint());
        return found;
      };
      const std::set<std::size_t> stretches = numbers("//*[@data-stretch]", "data-stretch");
      const std::set<std::size_t> marks = numbers("//*[@data-mark]", "data-mark");
      if (!stretches.empty()) CHECK(*stretches.rbegin() < join.segments.size());
      if (!marks.empty()) CHECK(*marks.rbegin() < join.marks.size());
      if (fragment.name.ends_with("-picture")) {
        for (std::size_t i = 0; i < join.segments.size(); ++i)
          if (asked[i].kind != Kind::flat && join.segments[i].long_length > 0) CHECK(stretches.contains(i));
        for (std::size_t n = 0; n < join.marks.size(); ++n)
          if (join.marks[n].reference) CHECK(marks.contains(n));
      }
      // A row's number and the number that it is found by are one.
      if (fragment.name.ends_with("-marks"))
        for (const pugi::xml_node &row : all(page, "//tr[@data-mark]"))
          CHECK(text_of(all(row, "*").front()) == row.attribute("data-mark").value());
    }
}
