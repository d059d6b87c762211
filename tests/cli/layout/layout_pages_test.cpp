// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/drawing/extent.hpp"
#include "cli/drawing/svg.hpp"
#include "cli/layout/layout_pages.hpp"
#include "tests/cli/words/laid.hpp"

#include <catch2/catch.hpp>

#include <pugixml.hpp>

#include <string>

using namespace gatherwright;
using namespace gatherwright::paper;

namespace {

/// All words of a page, in the order in which they are read.
void read(const std::vector<Item> &items, std::string &text) {
  for (const Item &item : items)
    if (const auto *words = std::get_if<Text>(&item.is))
      text += words->says + '\n';
    else if (const auto *group = std::get_if<Group>(&item.is))
      read(group->items, text);
}

std::string read(const Page &page) {
  std::string text;
  read(page.items, text);
  return text;
}

void check_margins(const Document &document) {
  for (const Page &page : document.pages) {
    const Box box = extent_of(page.items);
    CHECK(box.left >= 9.5);
    CHECK(box.top >= 8);
    CHECK(box.right <= page.width - 9.5);
    CHECK(box.bottom <= page.height - 9);
  }
}

} // namespace

TEST_CASE("a layout is a page with its cloth, its picture and its steps") {
  laid::Laid smock = laid::smock();
  smock.job.title = "Porters' smock";
  const std::vector<LayoutAsked> asked{{smock.told(), {"Buy 2.5 m of washed linen."}}};
  for (const PaperSize size : {PaperSize::a4, PaperSize::letter}) {
    const Document document = layout_pages(smock.job, asked, {"Read its findings before you cut."}, size);
    REQUIRE(document.pages.size() == 1);
    CHECK(document.title == "Porters' smock: how it is cut");
    const std::string text = read(document.pages[0]);
    for (const std::string_view words : {"Porters' smock: how it is cut", "washed linen", "Buy 2.5 m of washed linen.",
                                         "Read its findings before you cut.", "body 1", "73.5 x 92.5", "cut end",
                                         "Straighten one end on a thread", "page 1 of 1"})
      CHECK(text.find(words) != std::string::npos);
    check_margins(document);
  }
}

TEST_CASE("each cloth begins a page, and a bolt takes several of them") {
  const laid::Laid smock = laid::smock();
  std::vector<double> cast(40, 1.0);
  for (std::size_t i = 0; i < cast.size(); ++i)
    cast[i] += 0.005 * static_cast<double>(i % 20);
  const laid::Laid bolt = laid::lay(laid::smock_pieces(), 1480, cast);
  const std::vector<LayoutAsked> asked{{smock.told(), {}}, {bolt.told(), {"Said of the bolt."}}};
  const Document document = layout_pages(smock.job, asked, {}, PaperSize::a4);
  REQUIRE(document.pages.size() > 3);
  CHECK(read(document.pages[0]).find("Said of the bolt.") == std::string::npos);
  CHECK(read(document.pages[1]).find("Said of the bolt.") != std::string::npos);
  CHECK(read(document.pages[2]).find("Said of the bolt.") == std::string::npos);
  CHECK(read(document.pages[2]).find("porter") != std::string::npos);
  check_margins(document);
}

TEST_CASE("without a cloth there are no pages") {
  CHECK(layout_pages(Job(), {}, {}, PaperSize::a4).pages.empty());
}

TEST_CASE("layouts as SVG stand one below the other, well formed whatever they are called") {
  laid::Laid hostile = laid::smock();
  hostile.job.title = "<&\"' \x01";
  hostile.job.pieces[0].name = "body <b> & \"x\" \xff";
  const std::vector<LayoutAsked> asked{{hostile.told(), {}}, {hostile.told(), {}}};
  const std::string svg = svg_file(layout_pages(hostile.job, asked, {}, PaperSize::a4));
  pugi::xml_document parsed;
  REQUIRE(parsed.load_string(svg.c_str()));
  CHECK(parsed.select_nodes("//*[@role='img']").size() == 2);
  CHECK(parsed.select_nodes("/svg/g").size() == 2);
}
