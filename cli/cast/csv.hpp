// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/outcome.hpp"

#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

/// Comma-separated values as RFC 4180 has them, in UTF-8; or parted by semicolons or tabs, as spreadsheets write them
/// where a comma stands before decimals.
namespace gatherwright::cli::cast {

/// A fault within a row. Columns count from 1; 0 is the row as a whole.
struct CsvFault {
  long long line = 0;
  std::size_t column = 0;
  Fault fault;
};

struct CsvCell {
  std::string text;
  long long line = 0; ///< at which it begins, from 1
};

/// What a cell says, without the spaces round it. Other blanks stay: a name with one that cannot be told from a space
/// is at fault for it.
std::string_view without_spaces(std::string_view cell);

/// One row. Rows count from 1 as a spreadsheet counts them, empty ones with the rest; lines are those of the file, and
/// more than the rows where a cell holds several.
struct CsvRow {
  long long row = 0;
  long long line = 0;
  std::vector<CsvCell> cells;
  std::vector<CsvFault> faults;
  char parted_by = ',';
};

/// A figure as a cell holds it, without spaces around it; with a point before its decimals where commas part no cells.
std::string figure_in(const CsvRow &row, std::size_t cell);

/// Whether a text begins as a spreadsheet's own file does: as a zip archive, or as the older kind.
bool is_spreadsheet(std::string_view beginning);

/// What is wrong with such a file.
Fault spreadsheet_fault();

/// Fills a piece of memory from where the text comes from and says how much it got: 0 at the end.
using ReadBytes = std::function<std::size_t(char *, std::size_t)>;

/// Reads rows one after another and holds no more than one. A cell may stand in quotes, with quotes in it doubled, and
/// then hold commas and line ends; rows end with CRLF or LF, the last one with or without; a byte order mark at the
/// start is skipped, and so are rows of empty cells alone, and empty cells beyond the last of the first row that is
/// not. The first separator of the first row, outside quotes, parts all cells.
///
/// Told within the row: a quote inside a cell that is not quoted, text after a closing quote, a carriage return by
/// itself, NUL, what is no UTF-8. After a quote that is never closed, or a row above `longest_row` or with more than
/// `most_cells`, nothing more is read.
class CsvReader {
public:
  static constexpr std::size_t longest_row = 1 << 20; ///< bytes
  static constexpr std::size_t most_cells = 10'000;   ///< of a row: each takes memory, also an empty one

  explicit CsvReader(ReadBytes read) : read_(std::move(read)) {}

  /// The next row into `row`, whose memory is used again; false after the last.
  bool next(CsvRow &row);

  /// Whether what comes first is a spreadsheet's own file. Before any row is read.
  bool at_spreadsheet();

private:
  void read_row(CsvRow &row);
  void find_separator();
  bool at_cell_end() { return peek() == separator_ || at_row_end(); }
  int peek(std::size_t ahead = 0);
  int take();
  bool begin_row(CsvRow &row);
  void read_cell(CsvRow &row);
  void read_quoted(CsvRow &row, CsvCell &cell);
  void read_plain(CsvRow &row, CsvCell &cell);
  void add(CsvRow &row, CsvCell &cell, int byte);
  bool at_row_end();
  void take_row_end();
  void refuse(CsvRow &row, long long line, Fault fault);
  void give_up(CsvRow &row, long long line, Fault fault);

  ReadBytes read_;
  std::vector<char> piece_;
  std::size_t at_ = 0;
  std::size_t end_ = 0;
  long long row_ = 0;
  long long line_ = 1;
  std::size_t bytes_ = 0;            ///< of the row at hand
  std::size_t used_ = 0;             ///< cells of the row at hand
  std::optional<std::size_t> width_; ///< cells of the first row, up to the last that is not empty
  char separator_ = ',';
  bool started_ = false;
  bool ended_ = false;
};

/// A text as one cell: in quotes where it must be. A spreadsheet takes a cell that begins with = + - @, or with one of
/// these in full width, a tab or a carriage return for a formula and works it out, so such a text gets an apostrophe
/// before it.
std::string csv_cell(std::string_view text);

} // namespace gatherwright::cli::cast
