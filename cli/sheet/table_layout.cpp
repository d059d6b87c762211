// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/sheet/table_layout.hpp"

#include "cli/drawing/type.hpp"

#include <algorithm>
#include <string_view>

namespace gatherwright::paper {

namespace {

using report::after_point;
using report::Table;

constexpr double narrowest = 16;
constexpr std::size_t most_lines = 12; ///< of a cell: a row must fit a page

} // namespace

TableLayout::TableLayout(const Table &table, double width, TableType type) : table_(table), type_(type) {
  measure();
  fit(width);
}

double TableLayout::strong_width(std::string_view text) const {
  return text_width(text, type_.size, true);
}

/// Cells may be bold, and are measured so.
void TableLayout::measure() {
  for (const std::size_t of : table_.filled()) {
    const Table::Column &headed = table_.headed()[of];
    Column column{.of = of};
    column.width = std::max(strong_width(headed.heading), headed.reaches ? 0 : strong_width(headed.above));
    double before = 0;
    for (const auto &row : table_.cells()) {
      const std::string after = headed.align == Table::Align::point ? after_point(row[of]) : std::string();
      column.after_point = std::max(column.after_point, text_width(after, type_.size));
      before = std::max(before, strong_width(row[of]) - strong_width(after));
    }
    column.width = std::max(column.width, before + column.after_point);
    columns_.push_back(column);
  }
}

void TableLayout::fit(double width) {
  const auto taken = [this] {
    double sum = type_.between * static_cast<double>(columns_.size() - 1);
    for (const Column &column : columns_)
      sum += column.width;
    return sum;
  };
  while (!columns_.empty() && taken() > width) {
    Column *widest = nullptr;
    for (Column &column : columns_)
      if (table_.headed()[column.of].align == Table::Align::left && column.width > narrowest &&
          (widest == nullptr || column.width > widest->width))
        widest = &column;
    if (widest == nullptr) break;
    // A little at a time, so that two wide ones end alike.
    widest->width = std::max({narrowest, widest->width - (taken() - width), widest->width * 0.95});
  }
  double left = 0;
  for (Column &column : columns_) {
    column.left = left;
    left += column.width + type_.between;
  }
}

double TableLayout::width() const {
  return columns_.empty() ? 0 : columns_.back().left + columns_.back().width;
}

double TableLayout::head_height() const {
  const auto two = [this](const Column &column) { return !table_.headed()[column.of].above.empty(); };
  return type_.line_high * (std::any_of(columns_.begin(), columns_.end(), two) ? 2 : 1) + type_.row_air;
}

/// A row of a mark with a name.
bool TableLayout::is_bold(std::size_t row) const {
  return table_.headed().front().heading == "no" && !table_.cells()[row][1].empty();
}

std::vector<std::string> TableLayout::cell_lines(std::size_t row, const Column &column) const {
  const std::string &cell = table_.cells()[row][column.of];
  if (table_.headed()[column.of].align != Table::Align::left) return {cell};
  std::vector<std::string> lines = broken(cell, column.width + 0.01, type_.size, is_bold(row));
  if (lines.size() > most_lines) {
    lines.resize(most_lines);
    lines.back() = fitted(lines.back() + "……", column.width, type_.size, is_bold(row));
  }
  return lines;
}

double TableLayout::row_height(std::size_t row) const {
  std::size_t most = 1;
  for (const Column &column : columns_)
    most = std::max(most, cell_lines(row, column).size());
  return type_.line_high * static_cast<double>(most) + type_.row_air;
}

Group TableLayout::head(Point at) const {
  Group group{.role = Role::row, .label = "", .items = {}};
  const double base = at.y + head_height() - type_.row_air - 1;
  for (const Column &column : columns_) {
    const Table::Column &headed = table_.headed()[column.of];
    const bool left = headed.align == Table::Align::left;
    Group cell{.role = Role::head_cell, .label = "", .items = {}};
    const double x = at.x + column.left + (left ? 0 : column.width);
    const Anchor anchor = left ? Anchor::start : Anchor::end;
    if (!headed.above.empty())
      cell.items.push_back({Text{.at = {headed.reaches ? at.x + column.left : x, base - type_.line_high},
                                 .says = headed.above,
                                 .size = type_.size,
                                 .bold = !headed.reaches,
                                 .anchor = headed.reaches ? Anchor::start : anchor,
                                 .tone = headed.reaches ? Tone::soft : Tone::ink}});
    cell.items.push_back(
        {Text{.at = {x, base}, .says = headed.heading, .size = type_.size, .bold = true, .anchor = anchor}});
    group.items.push_back({std::move(cell)});
  }
  group.items.push_back({segment({at.x, base + 1.2}, {at.x + width(), base + 1.2}, 0.4)});
  return group;
}

Group TableLayout::row(std::size_t row, Point at) const {
  Group group{.role = Role::row, .label = "", .items = {}};
  const bool strong = is_bold(row);
  for (const Column &column : columns_) {
    Group cell{.role = Role::cell, .label = "", .items = {}};
    const bool bold = strong && column.of < 2;
    double base = at.y + type_.line_high - type_.row_air / 2;
    for (const std::string &line : cell_lines(row, column)) {
      double x = at.x + column.left;
      if (const Table::Align align = table_.headed()[column.of].align; align != Table::Align::left) {
        x += column.width - text_width(line, type_.size, bold);
        if (align == Table::Align::point) x -= column.after_point - text_width(after_point(line), type_.size);
      }
      cell.items.push_back({Text{.at = {x, base}, .says = line, .size = type_.size, .bold = bold}});
      base += type_.line_high;
    }
    group.items.push_back({std::move(cell)});
  }
  const double foot = at.y + row_height(row);
  group.items.push_back({segment({at.x, foot}, {at.x + width(), foot}, 0.1, Tone::soft)});
  return group;
}

} // namespace gatherwright::paper
