// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/report/pieces_words.hpp"
#include "cli/sheet/sheet.hpp"
#include "cli/sheet/sheet_content.hpp"
#include "cli/words/cutting.hpp"
#include "cli/words/figures.hpp"
#include "tests/cli/sheet/html_page.hpp"
#include "tests/cli/sheet/sheet_files.hpp"
#include "tests/cli/sheet/sheet_jobs.hpp"
#include "tests/good_jobs.hpp"
#include "tests/outcomes.hpp"

#include <catch2/catch.hpp>
#include <pugixml.hpp>

#include <algorithm>
#include <array>

using namespace gatherwright;
using gatherwright::tests::holds;
using html_page::all;
using html_page::parsed;
using html_page::text_of;
using paper::PaperSize;
using paper::sheet_html;
using paper::sheet_of;

namespace {

std::vector<sheet_jobs::Planned> jobs_with_pieces() {
  return {sheet_jobs::smock(),
          sheet_jobs::planned_file(in_project("cli/start/collar.jsonc")),
          sheet_jobs::planned_file(in_project("cli/start/frill.jsonc")),
          sheet_jobs::worked("pieces/05-inches"),
          sheet_jobs::worked("pieces/18-wider-than-the-cloth"),
          sheet_jobs::worked("pieces/24-part-of-a-ring"),
          sheet_jobs::worked("pieces/31-buy-on-the-step-after-the-wash"),
          sheet_jobs::worked("pieces/38-savings-in-two-cloths")};
}

std::size_t marked(const Plan &plan) {
  return static_cast<std::size_t>(std::count_if(plan.pieces.begin(), plan.pieces.end(),
                                                [](const PiecePlan &piece) { return !piece.marks.empty(); }));
}

std::vector<std::string> labels(const pugi::xml_node &of, const char *path) {
  std::vector<std::string> found;
  for (const pugi::xml_node &picture : all(of, path))
    found.emplace_back(picture.attribute("aria-label").value());
  return found;
}

std::size_t begin_with(const std::vector<std::string> &texts, const std::string &beginning) {
  return static_cast<std::size_t>(
      std::count_if(texts.begin(), texts.end(), [&](const std::string &text) { return text.starts_with(beginning); }));
}

std::size_t count(std::string_view text, std::string_view part) {
  std::size_t found = 0;
  for (std::size_t at = text.find(part); at != std::string_view::npos; at = text.find(part, at + part.size()))
    ++found;
  return found;
}

pugi::xml_document boxes_of(const sheet_jobs::Planned &planned, PaperSize size) {
  const paper::PdfOutcome made = sheet_pdf(planned.job, planned.plan, size);
  REQUIRE(made);
  const sheet_files::Folder folder;
  const std::string boxes = sheet_files::said_by("pdftotext -bbox '" + folder.write("sheet.pdf", *made) + "' -");
  pugi::xml_document document;
  REQUIRE(document.load_string(boxes.c_str()));
  return document;
}

} // namespace

TEST_CASE("the sheet has every piece with its cut size") {
  for (const auto &[job, plan] : jobs_with_pieces()) {
    const pugi::xml_document page = parsed(sheet_html(job, plan));
    const auto rows = all(page, "//table[@class='pieces']/tbody/tr");
    REQUIRE(rows.size() == plan.pieces.size());
    for (std::size_t i = 0; i < rows.size(); ++i) {
      CHECK(rows[i].child("th").text().get() == job.pieces[i].name);
      const auto cells = all(rows[i], "td");
      REQUIRE(cells.size() >= 3);
      CHECK(holds(text_of(cells[0]), std::to_string(job.pieces[i].cut)));
      CHECK(text_of(cells[1]) == words::place(plan.pieces[i].cut_across.tape, job.tape()));
      CHECK(text_of(cells[2]) == words::place(plan.pieces[i].cut_along.tape, job.tape()));
    }
  }
}

TEST_CASE("a length that is a piece's size stands with the pieces alone") {
  for (const auto &[job, plan] : jobs_with_pieces()) {
    const std::vector<bool> are_sizes = report::are_sizes_of_pieces(job, plan);
    const pugi::xml_document page = parsed(sheet_html(job, plan));
    std::vector<std::string> told;
    for (const pugi::xml_node &head : all(page, "//table[@class='lengths']/tbody/tr/th"))
      told.emplace_back(head.text().get());
    for (std::size_t i = 0; i < job.lengths.size(); ++i)
      CHECK(std::count(told.begin(), told.end(), job.lengths[i].name) == (are_sizes[i] ? 0 : 1));
  }
}

TEST_CASE("each piece with marks has its picture, and each cloth its layout for both widths and its cutting") {
  for (const auto &[job, plan] : jobs_with_pieces()) {
    const pugi::xml_document page = parsed(sheet_html(job, plan));
    const pugi::xml_node cut = all(page, "//section[@aria-labelledby='cut']").at(0);
    // On both widths where it is drawn for each, once where one drawing serves both.
    const std::vector<std::string> everywhere = labels(cut, ".//figure/svg | .//figure/div[@class='wide']/svg");
    for (std::size_t i = 0; i < plan.pieces.size(); ++i) {
      const std::string name = "Picture: " + job.pieces[i].name;
      const std::size_t drawn = begin_with(everywhere, name + ":") + begin_with(everywhere, name + ",");
      CHECK(drawn == (plan.pieces[i].marks.empty() ? 0 : 1));
    }
    CHECK(begin_with(labels(cut, ".//figure[@class='wide']/svg"), "Picture: how ") == plan.cloth.size());
    CHECK(begin_with(labels(cut, ".//figure[@class='narrow']/svg"), "Picture: how ") == plan.cloth.size());
    const std::array pieces{pieces_of(plan)};
    const auto cloths = all(cut, "div[@class='cloth']");
    REQUIRE(cloths.size() == plan.cloth.size());
    for (std::size_t i = 0; i < cloths.size(); ++i) {
      CHECK(text_of(cloths[i].child("h3")) == "Cutting " + report::cloth_called_short(plan.cloth[i].cloth));
      std::vector<std::string> steps;
      for (const pugi::xml_node &item : all(cloths[i], "ul/li"))
        steps.push_back(text_of(item));
      CHECK(steps == words::cutting_said({.job = job, .cloth = plan.cloth[i], .pieces = pieces}));
    }
  }
}

TEST_CASE("the sheet tells of cutting in the order of the work, and of the wash once a cloth") {
  const auto [job, plan] = sheet_jobs::smock();
  const std::string html = sheet_html(job, plan);
  const std::array order{html.find(">Pieces<"), html.find(">Lengths given<"), html.find(">Cutting "),
                         html.find(">Marks on the pieces<"), html.find("class=\"join\"")};
  CHECK(std::is_sorted(order.begin(), order.end()));
  CHECK(order.back() != std::string::npos);
  CHECK(count(html, "Wash it first") == plan.cloth.size());
}

TEST_CASE("a piece that is left out of its cloth is named on the sheet") {
  const auto [job, plan] = sheet_jobs::worked("pieces/18-wider-than-the-cloth");
  CHECK(holds(sheet_html(job, plan), "Too wide for their cloth, and left out of this: curtain."));
}

TEST_CASE("a sheet without pieces has nothing of them, not even their style") {
  const auto [job, plan] = sheet_jobs::worked("44-mirrored-inches");
  const std::string html = sheet_html(job, plan);
  for (const char *of_pieces : {".beside", ">Pieces<", "Cutting ", "Marks on the pieces"})
    CHECK_FALSE(holds(html, of_pieces));
}

TEST_CASE("pages of pieces and layouts keep their margins, and a smock's are four") {
  for (const auto &planned : jobs_with_pieces())
    for (const PaperSize size : {PaperSize::a4, PaperSize::letter}) {
      const pugi::xml_document boxes = boxes_of(planned, size);
      constexpr double margin = 10 * 72 / 25.4 - 0.5;
      for (const pugi::xml_node &page : all(boxes, "//page"))
        for (const pugi::xml_node &word : page.children("word")) {
          INFO(word.text().get());
          CHECK(word.attribute("xMin").as_double() >= margin);
          CHECK(word.attribute("xMax").as_double() <= page.attribute("width").as_double() - margin);
          CHECK(word.attribute("yMin").as_double() >= margin);
          CHECK(word.attribute("yMax").as_double() <= page.attribute("height").as_double() - margin);
        }
    }
  const auto smock = sheet_jobs::planned_file(in_project("cli/start/smock.jsonc"));
  CHECK(all(boxes_of(smock, PaperSize::a4), "//page").size() <= 4);
}

TEST_CASE("a layout stands on the page of its cloth's heading") {
  for (const auto &planned : jobs_with_pieces()) {
    const pugi::xml_document boxes = boxes_of(planned, PaperSize::a4);
    std::size_t headings = 0;
    for (const pugi::xml_node &page : all(boxes, "//page")) {
      const auto cutting = all(page, "word[text()='Cutting']").size();
      headings += cutting;
      // "cut end" at the top of the cloth.
      const auto ends = all(page, "word[text()='cut'][following-sibling::word[1]='end']").size();
      CHECK(ends >= cutting);
    }
    CHECK(headings == planned.plan.cloth.size());
  }
}

TEST_CASE("nothing of pieces is left out on the sheet of what people sew") {
  for (const auto &[job, plan] : jobs_with_pieces())
    for (const paper::SheetRoom &room : {paper::SheetRoom{}, paper::room_on_pages}) {
      const paper::PiecesSheet pieces = sheet_of(job, plan, room).pieces.value();
      CHECK(pieces.sizes.left_out.empty());
      CHECK(pieces.marked.size() == marked(plan));
      CHECK(pieces.left_out.empty());
      CHECK(pieces.cloths_left_out.empty());
      for (const paper::ClothSheet &cloth : pieces.cloths)
        CHECK((cloth.drawn && cloth.not_drawn.empty()));
    }
}

TEST_CASE("pieces, their marks and cloths beyond the room of a sheet are told where they would stand") {
  const auto [job, plan] = sheet_jobs::worked("pieces/38-savings-in-two-cloths");
  const std::string so = ", to keep the sheet short; gatherwright plan --json tells all of them.";
  const auto made = [&job = job, &plan = plan](const paper::SheetRoom &room) {
    return sheet_of(job, plan, room).pieces.value();
  };
  const paper::PiecesSheet few_rows = made({.rows = 1});
  CHECK(few_rows.sizes.table.cells().size() == 1);
  CHECK(few_rows.sizes.left_out == "2 more are left out here" + so);
  const std::size_t marks = plan.pieces[1].marks.size();
  CHECK(made({.piece_marks = marks}).marked == std::vector{PieceId(1)});
  for (const paper::SheetRoom &room : {paper::SheetRoom{.pieces = 0}, paper::SheetRoom{.piece_marks = marks - 1}}) {
    CHECK(made(room).marked.empty());
    CHECK(made(room).left_out == "The marks of sleeve are not drawn here" + so);
  }
  const paper::PiecesSheet one_cloth = made({.cloths = 1});
  CHECK(one_cloth.cloths.size() == 1);
  CHECK(one_cloth.cloths_left_out == "1 more cloth is left out here, from porter's drill on" + so);
  // The bodies have room, the three pieces of the other cloth have not.
  const paper::PiecesSheet one_drawn = made({.placements = 4});
  REQUIRE(one_drawn.cloths.size() == 2);
  CHECK(one_drawn.cloths[0].drawn);
  CHECK_FALSE(one_drawn.cloths[1].drawn);
  CHECK(one_drawn.cloths[1].not_drawn ==
        "Its 3 pieces are too many to be drawn here; gatherwright plan --layout draws how they lie.");
  const auto smock = sheet_jobs::smock();
  CHECK(sheet_of(smock.job, smock.plan, {.pieces = 2}).pieces->left_out ==
        "The marks of sleeve and of 2 more pieces are not drawn here" + so);
}
