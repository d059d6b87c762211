// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/sheet/page_flow.hpp"

#include <catch2/catch.hpp>

#include <string>
#include <vector>

using namespace gatherwright;
using namespace gatherwright::paper;
using report::Table;

namespace {

Table table_of(int rows) {
  Table table({{"", "mark", Table::Align::left}, {"", "place"}});
  for (int i = 0; i < rows; ++i)
    table.row({"mark", std::to_string(i)});
  return table;
}

/// Rows of tables, headings included.
std::size_t rows_in(const std::vector<Item> &items) {
  std::size_t rows = 0;
  for (const Item &item : items)
    if (const auto *group = std::get_if<Group>(&item.is))
      rows += (group->role == Role::row ? 1 : 0) + rows_in(group->items);
  return rows;
}

std::vector<std::size_t> rows_on_pages(PageFlow flow) {
  std::vector<std::size_t> rows;
  for (const Page &page : flow.take().pages)
    rows.push_back(rows_in(page.items));
  return rows;
}

} // namespace

TEST_CASE("a table stands on one page where a page holds it, wherever it begins") {
  for (int lines = 0; lines < 40; ++lines) {
    PageFlow flow(PaperSize::a4, "sheet");
    for (int i = 0; i < lines; ++i)
      flow.paragraph("a line");
    const double room = flow.room();
    const Table table = table_of(20);
    const double whole = flow.height_of_table(table);
    REQUIRE(whole < flow.height());
    flow.table("Marks", table);
    const std::vector<std::size_t> rows = rows_on_pages(flow);
    INFO(lines << " lines before it");
    CHECK(rows == (whole <= room ? std::vector<std::size_t>{21} : std::vector<std::size_t>{0, 21}));
  }
}

TEST_CASE("a table that no page holds begins where there is room for its first rows, and has its headings again") {
  PageFlow flow(PaperSize::a4, "sheet");
  flow.paragraph("a line");
  flow.table("Marks", table_of(100));
  const std::vector<std::size_t> rows = rows_on_pages(flow);
  REQUIRE(rows.size() > 1);
  CHECK(rows.front() > 3);
  std::size_t all = 0;
  for (const std::size_t on_page : rows) {
    CHECK(on_page > 1);
    all += on_page;
  }
  CHECK(all == 100 + rows.size());
}

TEST_CASE("a page that is set close holds more lines, and no narrower ones") {
  PageFlow airy(PaperSize::letter, "sheet");
  PageFlow close(PaperSize::letter, "sheet", Setting::close);
  CHECK(airy.width() <= close.width());
  for (int i = 0; i < 44; ++i) {
    airy.paragraph("a line");
    close.paragraph("a line");
  }
  CHECK(airy.take().pages.size() == 2);
  CHECK(close.take().pages.size() == 1);
}
