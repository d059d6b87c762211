// SPDX-License-Identifier: GPL-3.0-or-later
// A list of wearers: read in pieces of one size and of another it must come out the same, every cell must be UTF-8
// unless a fault says that it is not, and what is written of it must read back.

#include "cli/cast/csv.hpp"
#include "cli/cast/file_names.hpp"
#include "cli/cast/wearers.hpp"

#include <algorithm>
#include <cstdint>
#include <cstdlib>
#include <cstring>

using namespace gatherwright;
using namespace gatherwright::cli::cast;

namespace {

ReadBytes in_pieces(std::string_view text, std::size_t piece) {
  return [text, piece, at = std::size_t{0}](char *into, std::size_t most) mutable {
    const std::size_t count = std::min({piece, most, text.size() - at});
    if (count > 0) std::memcpy(into, text.data() + at, count);
    at += count;
    return count;
  };
}

std::vector<CsvRow> rows_of(std::string_view text, std::size_t piece) {
  CsvReader reader(in_pieces(text, piece));
  std::vector<CsvRow> rows;
  for (CsvRow row; reader.next(row);)
    rows.push_back(row);
  return rows;
}

bool same(const CsvRow &a, const CsvRow &b) {
  const auto cells = [](const CsvCell &x, const CsvCell &y) { return x.text == y.text && x.line == y.line; };
  const auto faults = [](const CsvFault &x, const CsvFault &y) {
    return x.line == y.line && x.column == y.column && x.fault == y.fault;
  };
  return a.row == b.row && a.line == b.line &&
         std::equal(a.cells.begin(), a.cells.end(), b.cells.begin(), b.cells.end(), cells) &&
         std::equal(a.faults.begin(), a.faults.end(), b.faults.begin(), b.faults.end(), faults);
}

void check_written(const CsvRow &row) {
  std::string text;
  for (const CsvCell &cell : row.cells)
    text += (text.empty() ? "" : ",") + csv_cell("c" + cell.text);
  const std::vector<CsvRow> again = rows_of(text, 5);
  if (again.size() != 1 || !again[0].faults.empty() || again[0].cells.size() != row.cells.size()) std::abort();
  for (std::size_t i = 0; i < row.cells.size(); ++i)
    if (again[0].cells[i].text != "c" + row.cells[i].text) std::abort();
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char *>(data), size);
  const std::vector<CsvRow> rows = rows_of(text, 65536);
  const std::vector<CsvRow> again = rows_of(text, 3);
  if (!std::equal(rows.begin(), rows.end(), again.begin(), again.end(), same)) std::abort();
  Job job;
  job.measures = {{"wrist", {170}}, {"neck", {400}}};
  Header header;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    if (!rows[i].faults.empty()) continue;
    check_written(rows[i]);
    std::vector<CsvFault> faults;
    if (i == 0) {
      header = read_header(rows[i], job, faults);
      continue;
    }
    const Wearer wearer = read_wearer(rows[i], header, job, faults);
    if (!fault_of_name(wearer.name) && folded(folded(wearer.name)) != folded(wearer.name)) std::abort();
    if (faults.empty()) dress(job, job, wearer);
  }
  return 0;
}
