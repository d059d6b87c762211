// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/sheet/sheet.hpp"
#include "cli/words/figures.hpp"
#include "cli/words/names.hpp"
#include "tests/cli/sheet/sheet_files.hpp"
#include "tests/cli/sheet/sheet_jobs.hpp"
#include "tests/holds.hpp"

#include <catch2/catch.hpp>
#include <pugixml.hpp>

#include <algorithm>
#include <cmath>

using namespace gatherwright;
using gatherwright::tests::holds;
using paper::PaperSize;
using paper::sheet_pdf;

namespace {

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

/// A line of the table of marks: its number, and on the same line its name and places. What stands in the column of the
/// page before it may come first.
bool has_row(const std::string &text, const std::vector<std::string> &cells) {
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find('\n', at), text.size());
    const std::string line = " " + text.substr(at, end - at) + " ";
    at = end + 1;
    for (std::size_t from = line.find(" " + cells.front() + " "); from != std::string::npos;
         from = line.find(" " + cells.front() + " ", from + 1)) {
      std::string_view rest = std::string_view(line).substr(from);
      bool all = true;
      for (const std::string &cell : cells) {
        const std::size_t found = rest.find(cell);
        all = all && found != std::string_view::npos;
        if (all) rest.remove_prefix(found + cell.size());
      }
      if (all) return true;
    }
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

namespace {

/// Words of the pages with their boxes.
pugi::xml_document boxes_of(const sheet_jobs::Planned &planned) {
  const sheet_files::Folder folder;
  const std::string boxes =
      sheet_files::said_by("pdftotext -bbox '" + folder.write("sheet.pdf", bytes_of(planned)) + "' -");
  pugi::xml_document document;
  REQUIRE(document.load_string(boxes.c_str()));
  return document;
}

} // namespace

TEST_CASE("a join with few marks has a picture and its table beside each other on one page") {
  const auto planned = sheet_jobs::planned(R"({ "fabric": { "weight": "120 g/m2" }, "marks": { "parts": 8 },
    "joins": [{ "name": "cuff", "long": "40 cm", "band": "20 cm" }] })");
  const pugi::xml_document document = boxes_of(planned);
  CHECK(document.select_nodes("//page").size() == 1);
  // "fullness along the band" over a picture, "Marks of cuff" over the table.
  const auto picture = document.select_node("//word[text()='fullness'][following-sibling::word[1]='along']").node();
  const auto table = document.select_node("//word[text()='Marks'][following-sibling::word[1]='of']").node();
  REQUIRE(picture);
  REQUIRE(table);
  CHECK(table.attribute("xMin").as_double() > picture.attribute("xMax").as_double());
}

TEST_CASE("a smock takes four pages, or five that are shorter, and no text on them is smaller than 7 points") {
  const auto planned = sheet_jobs::smock();
  for (const auto &[size, pages] : {std::pair(PaperSize::a4, 4), std::pair(PaperSize::letter, 5)}) {
    const sheet_files::Folder folder;
    const std::string file = folder.write("sheet.pdf", bytes_of(planned, size));
    pugi::xml_document document;
    constexpr int zoom = 3; // the most; sizes are rounded to whole pixels
    const std::string types = sheet_files::said_by("pdftohtml -xml -i -stdout -zoom 3 '" + file + "'");
    REQUIRE(document.load_string(types.c_str()));
    CHECK(document.select_nodes("//page").size() == static_cast<std::size_t>(pages));
    const auto fonts = document.select_nodes("//fontspec");
    CHECK(fonts.size() > 5);
    for (const pugi::xpath_node &font : fonts)
      CHECK(font.node().attribute("size").as_int() >= 7 * zoom);
  }
}

TEST_CASE("the same job gives the same pages") {
  const auto planned = sheet_jobs::smock();
  CHECK(bytes_of(planned) == bytes_of(planned));
}
