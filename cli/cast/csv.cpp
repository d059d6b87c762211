// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/cast/csv.hpp"

#include "gatherwright/text.hpp"

#include <algorithm>
#include <array>
#include <utility>

namespace gatherwright::cli::cast {

namespace {

constexpr int nothing = -1; ///< in place of a byte: the end
constexpr std::size_t piece_size = 65536;
constexpr std::size_t byte_order_mark = 3; ///< bytes

const Fault too_long{"this row goes on for more than a million bytes", "see whether a quote is left open before here"};

const Fault too_many_cells{"this row has more than 10,000 cells", "write a list with fewer columns"};

constexpr std::size_t most_faults = 20; ///< of a row

bool is_utf8(std::string_view text) {
  for (std::size_t at = 0; at < text.size();) {
    const Character character = character_at(text, at);
    if (!character.valid) return false;
    at += character.bytes;
  }
  return true;
}

} // namespace

std::string_view without_spaces(std::string_view cell) {
  const std::size_t first = cell.find_first_not_of(' ');
  return first == std::string_view::npos ? std::string_view()
                                         : cell.substr(first, cell.find_last_not_of(' ') + 1 - first);
}

/// A byte not yet taken: the next, or one further on.
int CsvReader::peek(std::size_t ahead) {
  while (end_ - at_ <= ahead && !ended_) {
    piece_.resize(piece_size);
    std::copy(piece_.begin() + static_cast<std::ptrdiff_t>(at_), piece_.begin() + static_cast<std::ptrdiff_t>(end_),
              piece_.begin());
    end_ -= std::exchange(at_, 0);
    const std::size_t got = read_(piece_.data() + end_, piece_.size() - end_);
    end_ += got;
    ended_ = got == 0;
  }
  return at_ + ahead < end_ ? static_cast<unsigned char>(piece_[at_ + ahead]) : nothing;
}

int CsvReader::take() {
  const int byte = peek();
  if (byte == nothing) return nothing;
  ++at_;
  ++bytes_;
  if (byte == '\n') ++line_;
  return byte;
}

void CsvReader::refuse(CsvRow &row, long long line, Fault fault) {
  if (row.faults.size() >= most_faults) return;
  // One of a kind is enough for a cell.
  if (!row.faults.empty() && row.faults.back().column == used_ && row.faults.back().fault == fault) return;
  row.faults.push_back({line, used_, std::move(fault)});
}

void CsvReader::give_up(CsvRow &row, long long line, Fault fault) {
  refuse(row, line, std::move(fault));
  at_ = end_;
  ended_ = true;
}

/// Whether there is one more row that is not empty.
bool CsvReader::begin_row(CsvRow &row) {
  if (!std::exchange(started_, true) && peek() == 0xEF && peek(1) == 0xBB && peek(2) == 0xBF) at_ += byte_order_mark;
  for (;;) {
    if (peek() == nothing) return false;
    row.row = ++row_;
    row.line = line_;
    bytes_ = 0;
    if (!at_row_end()) return true;
    take_row_end();
  }
}

bool CsvReader::at_row_end() {
  const int byte = peek();
  return byte == nothing || byte == '\n' || (byte == '\r' && peek(1) == '\n');
}

void CsvReader::take_row_end() {
  if (peek() == '\r') take();
  take();
}

void CsvReader::add(CsvRow &row, CsvCell &cell, int byte) {
  if (byte == 0) refuse(row, line_, {"there is a NUL in this cell", "save the file as CSV in UTF-8"});
  cell.text += static_cast<char>(byte);
  if (bytes_ > longest_row) give_up(row, cell.line, too_long);
}

void CsvReader::read_quoted(CsvRow &row, CsvCell &cell) {
  take();
  for (;;) {
    const int byte = take();
    if (byte == nothing) {
      if (bytes_ <= longest_row)
        refuse(row, cell.line,
               {"the quote that begins this cell is never closed", "write \" after its last character"});
      return;
    }
    if (byte != '"') {
      add(row, cell, byte);
      continue;
    }
    if (peek() != '"') break;
    take();
    add(row, cell, '"');
  }
  if (at_cell_end()) return;
  refuse(row, line_, {"there is text after the closing quote", "put all of the cell in quotes, a quote in it twice"});
  read_plain(row, cell);
}

void CsvReader::read_plain(CsvRow &row, CsvCell &cell) {
  while (!at_cell_end()) {
    const int byte = take();
    if (byte == '\r') refuse(row, line_, {"there is a carriage return by itself", "end rows with CRLF or LF"});
    if (byte == '"')
      refuse(row, line_,
             {"there is a quote in a cell that does not begin with one",
              "put all of the cell in quotes, a quote in it twice: \"5' 10\"\"\""});
    add(row, cell, byte);
  }
}

void CsvReader::read_cell(CsvRow &row) {
  if (used_ == row.cells.size()) row.cells.emplace_back();
  CsvCell &cell = row.cells[used_++];
  cell.text.clear();
  cell.line = line_;
  if (peek() == '"')
    read_quoted(row, cell);
  else
    read_plain(row, cell);
}

/// What stands first of a comma, a semicolon and a tab, outside quotes.
void CsvReader::find_separator() {
  constexpr std::size_t looked_at = 4096; // bytes: the first column has a short name
  bool quoted = false;
  for (std::size_t ahead = 0; ahead < looked_at; ++ahead) {
    const int byte = peek(ahead);
    if (byte == nothing || (!quoted && byte == '\n')) return;
    if (byte == '"') quoted = !quoted;
    if (quoted || (byte != ',' && byte != ';' && byte != '\t')) continue;
    separator_ = static_cast<char>(byte);
    return;
  }
}

bool CsvReader::at_spreadsheet() {
  std::string beginning;
  for (std::size_t ahead = 0; ahead < 4 && peek(ahead) != nothing; ++ahead)
    beginning += static_cast<char>(peek(ahead));
  return is_spreadsheet(beginning);
}

void CsvReader::read_row(CsvRow &row) {
  do {
    read_cell(row);
    if (bytes_ > longest_row) give_up(row, row.line, too_long);
    if (used_ > most_cells) give_up(row, row.line, too_many_cells);
  } while (peek() == separator_ && take() == separator_);
  take_row_end();
}

bool CsvReader::next(CsvRow &row) {
  const auto is_empty = [&](std::size_t cell) { return without_spaces(row.cells[cell].text).empty(); };
  do {
    row.faults.clear();
    used_ = 0;
    if (!begin_row(row)) return false;
    if (!width_) find_separator();
    row.parted_by = separator_;
    read_row(row);
    while (used_ > width_.value_or(0) && used_ > 0 && is_empty(used_ - 1))
      --used_;
    if (row.faults.empty() && std::all_of(row.cells.begin(), row.cells.begin() + static_cast<std::ptrdiff_t>(used_),
                                          [](const CsvCell &cell) { return without_spaces(cell.text).empty(); }))
      used_ = 0;
  } while (used_ == 0 && row.faults.empty());
  if (used_ == 0) used_ = 1; // what is wrong with an empty cell is told of it
  if (!width_) width_ = used_;
  row.cells.resize(used_);
  for (std::size_t i = 0; i < used_ && row.faults.size() < most_faults; ++i)
    if (!is_utf8(row.cells[i].text))
      row.faults.push_back({row.cells[i].line, i + 1, {"this is not UTF-8", "save the file as CSV in UTF-8"}});
  return true;
}

std::string figure_in(const CsvRow &row, std::size_t cell) {
  std::string figure(without_spaces(row.cells[cell].text));
  if (row.parted_by == ',') return figure;
  const auto is_digit = [](char c) { return c >= '0' && c <= '9'; };
  for (std::size_t i = 0; i + 1 < figure.size(); ++i)
    if (figure[i] == ',' && is_digit(figure[i + 1]) && (i == 0 || is_digit(figure[i - 1]))) figure[i] = '.';
  return figure;
}

Fault spreadsheet_fault() {
  return {"this is a spreadsheet's own file and no text", "save the list from the spreadsheet as CSV in UTF-8"};
}

bool is_spreadsheet(std::string_view beginning) {
  return beginning.starts_with("PK\x03\x04") || beginning.starts_with("\xd0\xcf\x11\xe0");
}

std::string csv_cell(std::string_view text) {
  constexpr std::array<std::string_view, 10> formula_begins{"=",      "+",      "-",      "@",  "\uff1d",
                                                            "\uff0b", "\uff0d", "\uff20", "\t", "\r"};
  std::string cell;
  if (std::any_of(formula_begins.begin(), formula_begins.end(),
                  [&](std::string_view beginning) { return text.starts_with(beginning); }))
    cell += '\'';
  cell += text;
  if (cell.find_first_of(",;\t\"\r\n") == std::string::npos) return cell;
  std::string quoted = "\"";
  for (const char c : cell) {
    if (c == '"') quoted += '"';
    quoted += c;
  }
  return quoted += '"';
}

} // namespace gatherwright::cli::cast
