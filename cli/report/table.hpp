// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace gatherwright::report {

/// Of a figure, what comes after its whole units, from the point or the space before its fraction on: ".8" of "4.8",
/// " 3/4" of "24 3/4" and of "3/4", nothing of "22".
std::string after_point(std::string_view figure);

/// A table of short cells in columns as wide as their widest cell.
class Table {
public:
  /// `point`: figures of a length, one under the other by their point, or by the space before their fraction.
  enum class Align { left, right, point };

  /// What becomes of a column where the table is too wide: first those to be shortened have their cells cut, down to a
  /// few columns; then those to be left out are, the last of them first.
  enum class When { kept, shortened, left_out };

  /// A column with its heading, of one or two lines. Where the upper one `reaches`, it begins at the column's left and
  /// goes on over those after it.
  struct Column {
    std::string above;
    std::string heading;
    Align align = Align::right;
    When too_wide = When::kept;
    bool reaches = false;
  };

  explicit Table(std::vector<Column> headed) : columns_(std::move(headed)) {}

  /// Cells of one row, as many as there are columns.
  void row(std::vector<std::string> cells) { rows_.push_back(std::move(cells)); }

  const std::vector<Column> &headed() const { return columns_; }
  const std::vector<std::vector<std::string>> &cells() const { return rows_; }

  /// Columns in which some cell has something.
  std::vector<std::size_t> filled() const;

  /// Columns in which every cell is empty are left out. Lines have no space at their ends; two stand between columns.
  /// Each line is at most `width` columns wide, unless those that are kept are wider by themselves.
  std::string lines(std::string_view indent, int width);

private:
  void line_up_points();
  std::vector<int> widths() const;
  std::vector<int> fitted(int margin, int width) const;
  std::string upper_heading(std::string_view indent, const std::vector<int> &widths, int width) const;

  std::vector<Column> columns_;
  std::vector<std::vector<std::string>> rows_;
};

} // namespace gatherwright::report
