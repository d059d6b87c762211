// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/sheet/sheet.hpp"
#include "cli/sheet/sheet_style.hpp"
#include "cli/words/findings.hpp"
#include "cli/words/names.hpp"
#include "tests/cli/report/sample.hpp"
#include "tests/cli/sheet/html_page.hpp"
#include "tests/cli/sheet/sheet_jobs.hpp"

#include <catch2/catch.hpp>
#include <pugixml.hpp>

#include <array>
#include <charconv>
#include <cmath>
#include <cstring>
#include <locale>

using namespace gatherwright;
using gatherwright::tests::holds;
using html_page::all;
using html_page::parsed;
using html_page::text_of;
using paper::sheet_html;

namespace {

/// "--ink: #2b2520" of the block that follows `after`.
std::array<double, 3> colour(std::string_view after, std::string_view name) {
  const std::string_view style = paper::sheet_style;
  const std::size_t block = style.find(after);
  REQUIRE(block != std::string_view::npos);
  const std::size_t at = style.find("--" + std::string(name) + ": #", block);
  REQUIRE(at != std::string_view::npos);
  std::string_view digits = style.substr(at + name.size() + 5);
  digits = digits.substr(0, digits.find(';'));
  REQUIRE((digits.size() == 3 || digits.size() == 6));
  std::array<double, 3> channels{};
  for (std::size_t i = 0; i < 3; ++i) {
    const std::string pair = digits.size() == 3 ? std::string(2, digits[i]) : std::string(digits.substr(2 * i, 2));
    int value = 0;
    std::from_chars(pair.data(), pair.data() + 2, value, 16);
    channels[i] = value / 255.0;
  }
  return channels;
}

// Relative luminance and contrast of WCAG 2.1.
double luminance(const std::array<double, 3> &colour) {
  const auto linear = [](double c) { return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4); };
  return 0.2126 * linear(colour[0]) + 0.7152 * linear(colour[1]) + 0.0722 * linear(colour[2]);
}

double contrast(const std::array<double, 3> &a, const std::array<double, 3> &b) {
  const double bright = std::max(luminance(a), luminance(b));
  const double dark = std::min(luminance(a), luminance(b));
  return (bright + 0.05) / (dark + 0.05);
}

} // namespace

TEST_CASE("the sheet is well-formed, with a row for every mark and a caption for every table") {
  const auto [job, plan] = sheet_jobs::smock();
  const pugi::xml_document page = parsed(sheet_html(job, plan, report::Pins::every));
  const auto joins = all(page, "//section[@class='join']");
  REQUIRE(joins.size() == plan.joins.size());
  for (std::size_t join = 0; join < joins.size(); ++join) {
    const auto tables = all(joins[join], ".//table");
    REQUIRE(tables.size() == 1);
    CHECK(tables[0].child("caption").text().get() == "Marks of " + job.joins[join].name);
    const auto rows = all(tables[0], "tbody/tr");
    REQUIRE(rows.size() == plan.joins[join].marks.size());
    for (std::size_t n = 0; n < rows.size(); ++n) {
      CHECK(rows[n].child("th").text().get() == std::to_string(n));
      CHECK(std::string(rows[n].child("th").attribute("scope").value()) == "row");
      CHECK(text_of(rows[n].child("td")) == words::mark_called(job.joins[join], plan.joins[join].marks[n]));
    }
  }
}

TEST_CASE("the sheet tells a screen reader what everything is") {
  const auto [job, plan] = sheet_jobs::smock();
  const pugi::xml_document page = parsed(sheet_html(job, plan));
  CHECK(std::string(page.child("html").attribute("lang").value()) == "en");
  CHECK(std::string(page.child("html").child("head").child("title").text().get()) == "Porter's smock: worksheet");
  CHECK(all(page, "//main").size() == 1);
  CHECK(all(page, "//h1").size() == 1);
  // Headings go down by one level at most.
  int level = 0;
  for (const pugi::xml_node &heading : all(page, "//h1|//h2|//h3")) {
    const int own = heading.name()[1] - '0';
    CHECK(own <= level + 1);
    level = own;
  }
  for (const pugi::xml_node &section : all(page, "//section"))
    CHECK(all(section, (".//h2[@id='" + std::string(section.attribute("aria-labelledby").value()) + "']").c_str())
              .size() == 1);
  for (const pugi::xml_node &picture : all(page, "//svg")) {
    CHECK(std::string(picture.attribute("role").value()) == "img");
    CHECK(std::strlen(picture.attribute("aria-label").value()) > 60);
  }
  for (const pugi::xml_node &head : all(page, "//th"))
    CHECK(head.attribute("scope"));
  for (const pugi::xml_node &table : all(page, "//table"))
    CHECK(table.child("caption"));
}

TEST_CASE("a bad plan says what is wrong and what would mend it before anything else") {
  const auto [job, plan] = sheet_jobs::planned(sheet_jobs::too_full_text);
  const pugi::xml_document page = parsed(sheet_html(job, plan));
  const auto headings = all(page, "//h2");
  REQUIRE(headings.size() > 3);
  CHECK(std::string(headings[0].text().get()) == "What is wrong");
  CHECK(std::string(headings[1].text().get()).starts_with("What would put it right"));
  CHECK(std::string(headings[2].text().get()) == "What to cut");
  const auto mended = all(page, "//main/ul[2]/li");
  REQUIRE(mended.size() == plan.remedies.size());
  for (std::size_t i = 0; i < mended.size(); ++i)
    CHECK(mended[i].text().get() == words::remedy(job, plan.remedies[i]));
  const std::string verdict = text_of(all(page, "//header/p")[0]);
  CHECK(holds(verdict, "too full"));
  CHECK(holds(verdict, "!"));
}

TEST_CASE("where the rules conflict the sheet says so in place of joins") {
  const auto [job, plan] = sheet_jobs::worked("36-rules-against-each-other");
  const std::string html = sheet_html(job, plan);
  const pugi::xml_document page = parsed(html);
  CHECK(all(page, "//section[@class='join']").empty());
  CHECK(std::string(all(page, "//main/ul/li")[0].text().get()) == words::conflict(job, plan.conflict.value()));
}

TEST_CASE("names stay text, whatever they are") {
  const auto [job, plan] = sheet_jobs::planned(sheet_jobs::too_full_text);
  const std::string html = sheet_html(job, plan);
  CHECK_FALSE(holds(html, "<script"));
  CHECK_FALSE(holds(html, "<b>into"));
  const pugi::xml_document page = parsed(html);
  CHECK(std::string(all(page, "//h1")[0].text().get()) == "<script>alert(1)</script>\"&'");
  for (const char *name : {"</style><script>", "\"onload=\"alert(1)", "a\x01\x1b[7m\xff", "\xe2\x80\xae袖口 A\xcc\x88",
                           "]]>", "<!--", "&amp;&#0;", "\xef\xbf\xbf"})
    CHECK(parsed(sheet_html(sample::renamed(sample::job(), name), sample::plan())).child("html"));
}

TEST_CASE("the sheet asks for nothing from anywhere and runs nothing") {
  for (const std::string &html :
       {sheet_html(sheet_jobs::smock().job, sheet_jobs::smock().plan), sheet_html(sample::job(), sample::plan())}) {
    for (const char *asks : {"src=", "href=", "url(", "@import", "http:", "https:", "<script", "<link", "<iframe"}) {
      INFO(asks);
      CHECK_FALSE(holds(html, asks));
    }
    const pugi::xml_document page = parsed(html);
    for (const pugi::xml_node &node : all(page, "//*"))
      for (const pugi::xml_attribute &attribute : node.attributes())
        CHECK_FALSE(std::string(attribute.name()).starts_with("on"));
  }
}

TEST_CASE("the sheet's texts stand out from what is behind them, by day, by lamplight and in print") {
  for (const std::string_view scheme : {":root", "prefers-color-scheme: dark", "@media print"})
    for (const std::string_view behind : {"paper", "pale"})
      for (const std::string_view text : {"ink", "soft", "accent", "alarm"}) {
        INFO(scheme << ": " << text << " on " << behind);
        CHECK(contrast(colour(scheme, text), colour(scheme, behind)) >= 4.5);
      }
}

TEST_CASE("the same job gives the same sheet, in every locale") {
  const auto [job, plan] = sheet_jobs::smock();
  const std::string html = sheet_html(job, plan);
  struct CommaPoint : std::numpunct<char> {
    char do_decimal_point() const override { return ','; }
    std::string do_grouping() const override { return "\3"; }
  };
  const std::locale before = std::locale::global(std::locale(std::locale::classic(), new CommaPoint));
  const std::string again = sheet_html(job, plan);
  std::locale::global(before);
  CHECK(html == again);
}

TEST_CASE("lengths beyond all sewing give a sheet without a figure that is none") {
  for (const char *edges : {R"("long": "99999 m", "band": "0.001 mm")", R"("long": "0.001 mm", "band": "90000 m")",
                            R"("long": "99999 m", "band": "10 cm")"}) {
    const auto [job, plan] =
        sheet_jobs::planned(std::string(R"({ "marks": { "parts": 4 }, "joins": [{ "name": "odd", )") + edges + "}] }");
    const std::string html = sheet_html(job, plan);
    parsed(html);
    for (const char *none : {"nan", ">inf", " inf", "\"inf", "-inf"}) {
      INFO(edges << " " << none);
      CHECK_FALSE(holds(html, none));
    }
  }
}

TEST_CASE("a ring and a drawn edge are said to be so beside their pictures") {
  const auto ring = sheet_jobs::worked("42-ring");
  CHECK(holds(sheet_html(ring.job, ring.plan), "A ring: its end meets its start"));
  const auto drawn = sheet_jobs::worked("122-neckline-and-cap");
  CHECK(holds(sheet_html(drawn.job, drawn.plan), "The long edge is a drawn curve; it is straightened here."));
  CHECK(holds(sheet_html(drawn.job, drawn.plan), "The band is a drawn curve; it is straightened here."));
}

TEST_CASE("the mirrored piece has its marks in a table of its own where they lie elsewhere") {
  const auto [job, plan] = sheet_jobs::worked("44-mirrored-inches");
  const pugi::xml_document page = parsed(sheet_html(job, plan));
  const auto tables = all(page, "//section[@class='join']//table");
  REQUIRE(tables.size() == 2);
  CHECK(std::string(tables[1].child("caption").text().get()).ends_with(", the mirrored one"));
  CHECK(all(tables[1], "tbody/tr").size() == plan.joins[0].marks_mirrored.value().size());
}
