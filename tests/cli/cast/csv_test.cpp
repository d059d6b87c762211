// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/cast/csv.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cstring>
#include <random>

using namespace gatherwright::cli::cast;

namespace {

/// The text in pieces of so many bytes, so that every border falls within a piece and between two.
ReadBytes in_pieces(std::string text, std::size_t piece) {
  return [text = std::move(text), piece, at = std::size_t{0}](char *into, std::size_t most) mutable {
    const std::size_t count = std::min({piece, most, text.size() - at});
    std::memcpy(into, text.data() + at, count);
    at += count;
    return count;
  };
}

struct Read {
  std::vector<std::vector<std::string>> rows;
  std::vector<std::string> faults; ///< "line:column: what"
  std::vector<long long> row_numbers, lines;
};

Read read(const std::string &text, std::size_t piece = 7) {
  Read all;
  CsvReader reader(in_pieces(text, piece));
  CsvRow row;
  while (reader.next(row)) {
    all.row_numbers.push_back(row.row);
    all.lines.push_back(row.line);
    auto &cells = all.rows.emplace_back();
    for (const CsvCell &cell : row.cells)
      cells.push_back(cell.text);
    for (const CsvFault &fault : row.faults)
      all.faults.push_back(std::to_string(fault.line) + ":" + std::to_string(fault.column) + ": " + fault.fault.what);
  }
  return all;
}

using Rows = std::vector<std::vector<std::string>>;

} // namespace

TEST_CASE("rows are read as RFC 4180 has them, wherever the pieces of the file end") {
  for (const std::size_t piece : {1, 2, 3, 5, 1000}) {
    CAPTURE(piece);
    CHECK(read("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n", piece).rows == Rows{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}});
    CHECK(read("a,b\nc,d", piece).rows == Rows{{"a", "b"}, {"c", "d"}});
    CHECK(read("\"aaa\",\"b\r\nbb\",\"c\"\"c\"\r\n", piece).rows == Rows{{"aaa", "b\r\nbb", "c\"c"}});
    CHECK(read("\xEF\xBB\xBF\"a\",b\n", piece).rows == Rows{{"a", "b"}});
    CHECK(read("a,b,c\n\"\",x,\n", piece).rows == Rows{{"a", "b", "c"}, {"", "x", ""}});
    CHECK(read("a,\"b,c\"\n\r\n\n d ,e\n", piece).rows == Rows{{"a", "b,c"}, {" d ", "e"}});
    CHECK(read("", piece).rows.empty());
    CHECK(read("\n\r\n", piece).rows.empty());
    CHECK(read("\"\"", piece).rows.empty());
    CHECK(read("a;b\nc,d;e\n", piece).rows == Rows{{"a", "b"}, {"c,d", "e"}});
    CHECK(read("\"a;,b\"\tc;\nd;e\tf\n", piece).rows == Rows{{"a;,b", "c;"}, {"d;e", "f"}});
    CHECK(read("a,b;c\nd,e;f\n", piece).rows == Rows{{"a", "b;c"}, {"d", "e;f"}});
    CHECK(read("a,b,,\nc,d,,\ne,,\nf\n,\n, ,\n", piece).rows == Rows{{"a", "b"}, {"c", "d"}, {"e", ""}, {"f"}});
  }
}

TEST_CASE("a comma before decimals is a point where commas part no cells") {
  const auto figures = [](const std::string &text) {
    CsvReader reader(in_pieces(text, 7));
    CsvRow row;
    REQUIRE(reader.next(row)); // which names the columns
    REQUIRE(reader.next(row));
    std::vector<std::string> all;
    for (std::size_t i = 0; i < row.cells.size(); ++i)
      all.push_back(figure_in(row, i));
    return all;
  };
  CHECK(figures("a;b;c;d\n17,5;,5 cm; 6 3/4 in ;a,b") == std::vector<std::string>{"17.5", ".5 cm", "6 3/4 in", "a,b"});
  CHECK(figures("a,b\n\"17,5\",a") == std::vector<std::string>{"17,5", "a"});
}

TEST_CASE("rows and lines are counted apart, empty ones with the rest") {
  const Read all = read("a,b\n\"x\ny\n\",c\n\nd,e");
  CHECK(all.row_numbers == std::vector<long long>{1, 2, 4});
  CHECK(all.lines == std::vector<long long>{1, 2, 6});
}

TEST_CASE("what is no CSV is told with its line and column, and the rest is read") {
  for (const std::size_t piece : {1, 4, 1000}) {
    CAPTURE(piece);
    CHECK(read("a,b\nc,5\"x\"\nd,e\n", piece).faults ==
          std::vector<std::string>{"2:2: there is a quote in a cell that does not begin with one"});
    CHECK(read("a,\"b\"c,d\n", piece).faults == std::vector<std::string>{"1:2: there is text after the closing quote"});
    CHECK(read("a,b\nc,\"d\n\n\ne,f\n", piece).faults ==
          std::vector<std::string>{"2:2: the quote that begins this cell is never closed"});
    CHECK(read("a\rb,c\n", piece).faults == std::vector<std::string>{"1:1: there is a carriage return by itself"});
    CHECK(read("a,b\r", piece).faults == std::vector<std::string>{"1:2: there is a carriage return by itself"});
    CHECK(read("a\n\xff\n\xEF\xBB,x\n", piece).faults ==
          std::vector<std::string>{"2:1: this is not UTF-8", "3:1: this is not UTF-8"});
    CHECK(read(std::string("a,b\0b\n", 6), piece).faults ==
          std::vector<std::string>{"1:2: there is a NUL in this cell"});
  }
}

TEST_CASE("a row without an end is given up, and memory with it") {
  const auto check = [](const std::string &text, std::string_view told) {
    const Read all = read(text, 65536);
    REQUIRE(all.faults.size() == 1);
    CHECK(all.faults.front().find(told) != std::string::npos);
    REQUIRE(all.rows.size() == 2);
    CHECK(all.rows[1].size() <= CsvReader::most_cells + 1);
  };
  check("a\n\"" + std::string(3 << 20, 'x'), "more than a million bytes");
  check("a\n" + std::string(3 << 20, ','), "more than 10,000 cells");
  CHECK(read("a\n" + std::string(CsvReader::most_cells - 1, ',') + "\nb", 65536).faults.empty());
}

TEST_CASE("what is written reads back the same") {
  std::mt19937_64 random(20240229);
  const std::string some = "ab,\"\r\n \xC3\xA9;x";
  for (int i = 0; i < 500; ++i) {
    Rows rows(1 + random() % 3);
    std::string text;
    for (auto &row : rows) {
      row.resize(2 + random() % 3);
      for (auto &cell : row) {
        cell = "c"; // not the beginning of a formula
        for (std::size_t n = random() % 8; n > 0; --n)
          if (const std::size_t at = random() % some.size(); at != 7 && at != 8) cell += some[at];
        text += (&cell == &row.front() ? "" : ",") + csv_cell(cell);
      }
      text += random() % 2 == 0 ? "\n" : "\r\n";
    }
    const Read all = read(text, 1 + random() % 9);
    CHECK(all.faults.empty());
    CHECK(all.rows == rows);
  }
}

TEST_CASE("what a spreadsheet would work out is written as a text") {
  CHECK(csv_cell("=1+1") == "'=1+1");
  CHECK(csv_cell("+1") == "'+1");
  CHECK(csv_cell("-1") == "'-1");
  CHECK(csv_cell("@SUM(A1)") == "'@SUM(A1)");
  CHECK(csv_cell("\tx") == "\"'\tx\"");
  CHECK(csv_cell("\rx") == "\"'\rx\"");
  CHECK(csv_cell("=HYPERLINK(\"x\",\"y\")") == "\"'=HYPERLINK(\"\"x\"\",\"\"y\"\")\"");
  for (const std::string full_width : {"＝1+1", "＋1", "－1", "＠SUM(A1)"})
    CHECK(csv_cell(full_width) == "'" + full_width);
  for (const std::string text : {"Anna = B", "Anna ＝ B", "１＋１", "＜", "？"})
    CHECK(csv_cell(text) == text);
}
