// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/sheet/sheet.hpp"
#include "cli/words/figures.hpp"
#include "cli/words/names.hpp"
#include "tests/cli/sheet/sheet_files.hpp"
#include "tests/cli/sheet/sheet_jobs.hpp"

#include <catch2/catch.hpp>
#include <pugixml.hpp>

#include <algorithm>
#include <cmath>
#include <utility>

using namespace gatherwright;
using paper::PaperSize;
using paper::sheet_pdf;

namespace {

bool holds(std::string_view text, std::string_view part) {
  return text.find(part) != std::string_view::npos;
}

std::string bytes_of(const sheet_jobs::Planned &planned, PaperSize size = PaperSize::a4,
                     report::Pins pins = report::Pins::needed) {
  const paper::PdfOutcome made = sheet_pdf(planned.job, planned.plan, size, pins);
  INFO((made ? std::string() : made.fault().what));
  REQUIRE(made);
  return *made;
}

std::string text_of(const std::string &pdf) {
  const sheet_files::Folder folder;
  return sheet_files::said_by("pdftotext -layout '" + folder.write("sheet.pdf", pdf) + "' -");
}

/// A line of the table of marks: its number, and on the same line its name and places.
bool has_row(const std::string &text, const std::vector<std::string> &cells) {
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find('\n', at), text.size());
    std::string_view line = std::string_view(text).substr(at, end - at);
    at = end + 1;
    line.remove_prefix(std::min(line.find_first_not_of(" \f"), line.size()));
    bool all = line.starts_with(cells.front() + " ");
    for (const std::string &cell : cells) {
      const std::size_t found = line.find(cell);
      all = all && found != std::string_view::npos;
      if (all) line.remove_prefix(found + cell.size());
    }
    if (all) return true;
  }
  return false;
}

} // namespace

TEST_CASE("the pages have the verdict and every mark with its number, name and places") {
  for (const auto &planned : {sheet_jobs::smock(), sheet_jobs::worked("44-mirrored-inches")}) {
    const std::string text = text_of(bytes_of(planned, PaperSize::a4, report::Pins::every));
    CHECK(holds(text, "within limits"));
    CHECK(holds(text, "All lengths are between seams; allowances come on top."));
    for (std::size_t join = 0; join < planned.plan.joins.size(); ++join) {
      CHECK(holds(text, "Marks of " + planned.job.joins[join].name));
      const std::vector<Mark> &marks = planned.plan.joins[join].marks;
      for (std::size_t n = 0; n < marks.size(); ++n) {
        std::vector<std::string> cells{std::to_string(n), words::mark_called(planned.job.joins[join], marks[n]),
                                       words::place(marks[n].band.tape, planned.job.tape()),
                                       words::place(marks[n].long_edge.tape, planned.job.tape())};
        INFO(cells[0] << " " << cells[1] << " " << cells[2] << " " << cells[3] << "\n" << text);
        CHECK(has_row(text, cells));
      }
    }
  }
}

TEST_CASE("the pages of a bad plan begin with what is wrong and what would mend it") {
  auto planned = sheet_jobs::planned(sheet_jobs::too_full_text);
  const std::string text = text_of(bytes_of(planned));
  CHECK(holds(text, "<script>alert(1)</script>\"&'"));
  CHECK(text.find("too full") < text.find("What is wrong"));
  CHECK(text.find("What is wrong") < text.find("What would put it right"));
  CHECK(text.find("What would put it right") < text.find("What to cut"));
  CHECK(holds(text, "page 1 of "));
}

TEST_CASE("a conflict stands in place of joins on paper too") {
  const std::string text = text_of(bytes_of(sheet_jobs::worked("36-rules-against-each-other")));
  CHECK(holds(text, "rules conflict"));
  CHECK(holds(text, "These cannot all hold:"));
  CHECK_FALSE(holds(text, "Marks of"));
}

TEST_CASE("nothing stands in the margins, and a long table goes on over the page with whole rows") {
  const auto planned = sheet_jobs::planned(R"({ "title": "A very long frill", "marks": { "parts": 150 },
    "fabric": { "weight": "120 g/m2" },
    "joins": [{ "name": "frill", "long": "60 m", "band": "30 m", "make": 3,
      "segments": [{ "name": "a stretch with a name as long as a whole sentence, and then longer by some words more" }] }] })");
  for (const PaperSize size : {PaperSize::a4, PaperSize::letter}) {
    const sheet_files::Folder folder;
    const std::string file = folder.write("sheet.pdf", bytes_of(planned, size, report::Pins::every));
    const std::string boxes = sheet_files::said_by("pdftotext -bbox '" + file + "' -");
    pugi::xml_document document;
    REQUIRE(document.load_string(boxes.c_str()));
    int pages = 0;
    constexpr double margin = 10 * 72 / 25.4 - 0.5;
    for (const pugi::xpath_node &each : document.select_nodes("//page")) {
      ++pages;
      const double width = each.node().attribute("width").as_double();
      const double height = each.node().attribute("height").as_double();
      CHECK(width == Approx(size == PaperSize::a4 ? 595.276 : 612).margin(0.01));
      CHECK(height == Approx(size == PaperSize::a4 ? 841.89 : 792).margin(0.01));
      for (const pugi::xml_node &word : each.node().children("word")) {
        INFO(word.text().get());
        CHECK(word.attribute("xMin").as_double() >= margin);
        CHECK(word.attribute("xMax").as_double() <= width - margin);
        CHECK(word.attribute("yMin").as_double() >= margin);
        CHECK(word.attribute("yMax").as_double() <= height - margin);
      }
    }
    CHECK(pages > 3);
    const std::string text = text_of(bytes_of(planned, size, report::Pins::every));
    CHECK(holds(text, "Marks of frill, continued"));
    CHECK(holds(text, "page 1 of " + std::to_string(pages)));
    CHECK(holds(text, "page " + std::to_string(pages) + " of " + std::to_string(pages)));
    for (std::size_t n = 0; n <= 150; ++n)
      CHECK(has_row(text,
                    {std::to_string(n), words::place(planned.plan.joins[0].marks[n].band.tape, planned.job.tape())}));
  }
}

TEST_CASE("the pictures of a join with few marks stand beside each other, those of one with many below each other") {
  const auto tops = [](const sheet_jobs::Planned &planned) {
    const sheet_files::Folder folder;
    const std::string boxes =
        sheet_files::said_by("pdftotext -bbox '" + folder.write("sheet.pdf", bytes_of(planned)) + "' -");
    pugi::xml_document document;
    REQUIRE(document.load_string(boxes.c_str()));
    // The headings of the two: "long edge: 40 cm" and "fullness along the band".
    const auto edge = document.select_node("//word[text()='edge:'][preceding-sibling::word[1]='long']").node();
    const auto curve = document.select_node("//word[text()='along'][preceding-sibling::word[1]='fullness']").node();
    REQUIRE(edge);
    REQUIRE(curve);
    return std::pair(edge.attribute("yMin").as_double(), curve.attribute("yMin").as_double());
  };
  const auto job_with = [](int parts) {
    return sheet_jobs::planned(R"({ "fabric": { "weight": "120 g/m2" }, "marks": { "parts": )" + std::to_string(parts) +
                               R"( }, "joins": [{ "name": "cuff", "long": "40 cm", "band": "20 cm" }] })");
  };
  const auto few = tops(job_with(8));
  CHECK(few.first == Approx(few.second).margin(0.5));
  const auto many = tops(job_with(80));
  CHECK(std::fabs(many.first - many.second) > 20);
}

TEST_CASE("the same job gives the same pages") {
  const auto planned = sheet_jobs::smock();
  CHECK(bytes_of(planned) == bytes_of(planned));
}
