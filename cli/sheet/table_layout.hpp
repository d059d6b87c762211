// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/drawing/drawing.hpp"
#include "cli/report/table.hpp"

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

/// A table of the report as rows on a page.
namespace gatherwright::paper {

/// How large a table is set: millimetres.
struct TableType {
  double size = 3.1; ///< of its text
  double line_high = 4;
  double row_air = 1;
  double between = 4; ///< columns
};
inline constexpr TableType close_type{.size = 2.8, .line_high = 3.4, .row_air = 0.5, .between = 2.6};

class TableLayout {
public:
  /// Columns are as wide as their widest cell; where they are too wide together, those set to the left give way, the
  /// widest first, and their cells are broken into lines.
  TableLayout(const report::Table &table, double width, TableType type = {});

  double head_height() const;
  double row_height(std::size_t row) const;
  double width() const; ///< taken

  /// The headings, or a row, with its top left corner at `at`; cells with the roles of a table's.
  Group head(Point at) const;
  Group row(std::size_t row, Point at) const;

private:
  struct Column {
    std::size_t of = 0; ///< of the table
    double left = 0;
    double width = 0;
    double after_point = 0; ///< widest of what follows the point
  };

  void measure();
  void fit(double width);
  std::vector<std::string> cell_lines(std::size_t row, const Column &column) const;
  bool is_bold(std::size_t row) const;

  double strong_width(std::string_view text) const;

  const report::Table &table_;
  TableType type_;
  std::vector<Column> columns_;
};

} // namespace gatherwright::paper
