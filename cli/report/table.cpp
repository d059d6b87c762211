// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/report/table.hpp"

#include "cli/words/columns.hpp"

#include <algorithm>
#include <numeric>

namespace gatherwright::report {

namespace {

constexpr int between_columns = 2;
constexpr int least_shortened = 8;

int total(const std::vector<int> &widths, int indent) {
  const auto shown = std::count_if(widths.begin(), widths.end(), [](int width) { return width > 0; });
  return indent + std::accumulate(widths.begin(), widths.end(), 0) +
         between_columns * std::max(0, static_cast<int>(shown) - 1);
}

/// A cell cut and filled up to so many columns.
void add_aligned(std::string &line, const std::string &cell, int width, bool left) {
  const int natural = columns(cell);
  const std::string cut = natural > width ? cut_to(cell, width) : std::string();
  const std::string &shown = natural > width ? cut : cell;
  const int taken = natural > width ? columns(cut) : natural;
  const auto free = static_cast<std::size_t>(std::max(0, width - taken));
  if (!left) line.append(free, ' ');
  line += shown;
  if (left) line.append(free, ' ');
}

} // namespace

std::string after_point(std::string_view figure) {
  if (const std::size_t point = figure.find_first_of(". "); point != std::string_view::npos)
    return std::string(figure.substr(point));
  return figure.find('/') == std::string_view::npos ? "" : " " + std::string(figure);
}

std::vector<std::size_t> Table::filled() const {
  std::vector<std::size_t> filled;
  for (std::size_t i = 0; i < columns_.size(); ++i)
    if (std::any_of(rows_.begin(), rows_.end(), [i](const auto &row) { return !row[i].empty(); })) filled.push_back(i);
  return filled;
}

/// Fills up what comes after the point, so that cells line up by it when they are set to the right.
void Table::line_up_points() {
  for (std::size_t i = 0; i < columns_.size(); ++i) {
    if (columns_[i].align != Align::point) continue;
    const auto after = [&](const std::vector<std::string> &row) {
      return static_cast<int>(after_point(row[i]).size());
    };
    // A fraction alone stands where the others have theirs.
    for (auto &row : rows_)
      if (row[i].find('/') != std::string::npos && row[i].find(' ') == std::string::npos) row[i].insert(0, 1, ' ');
    int longest = 0;
    for (const auto &row : rows_)
      longest = std::max(longest, after(row));
    for (auto &row : rows_)
      if (!row[i].empty()) row[i].append(static_cast<std::size_t>(longest - after(row)), ' ');
  }
}

/// 0 for a column with nothing in it.
std::vector<int> Table::widths() const {
  std::vector<int> widths(columns_.size(), 0);
  for (const auto &row : rows_)
    for (std::size_t i = 0; i < widths.size(); ++i)
      widths[i] = std::max(widths[i], columns(row[i]));
  for (std::size_t i = 0; i < widths.size(); ++i)
    if (widths[i] > 0)
      widths[i] =
          std::max({widths[i], columns_[i].reaches ? 0 : columns(columns_[i].above), columns(columns_[i].heading)});
  return widths;
}

/// Shortens, then drops, then lets what was shortened have the room that came free.
std::vector<int> Table::fitted(int margin, int width) const {
  const std::vector<int> natural = widths();
  std::vector<int> fitted = natural;
  const auto shorten = [&] {
    for (std::size_t i = 0; i < fitted.size(); ++i)
      if (columns_[i].too_wide == When::shortened && natural[i] > 0) {
        fitted[i] = natural[i];
        fitted[i] -= std::clamp(total(fitted, margin) - width, 0, std::max(0, natural[i] - least_shortened));
      }
  };
  shorten();
  for (std::size_t i = fitted.size(); i-- > 0 && total(fitted, margin) > width;)
    if (columns_[i].too_wide == When::left_out) fitted[i] = 0;
  shorten();
  return fitted;
}

std::string Table::upper_heading(std::string_view indent, const std::vector<int> &widths, int width) const {
  std::string text(indent);
  int place = columns(indent);
  for (std::size_t i = 0; i < widths.size(); ++i) {
    if (widths[i] == 0) continue;
    const std::string &above = columns_[i].above;
    if (!above.empty()) {
      text = left_aligned(text, columns_[i].reaches ? place : place + widths[i] - columns(above));
      text += above;
    }
    place += widths[i] + between_columns;
  }
  // What reaches over columns that were left out may reach too far.
  return text.find_first_not_of(' ') == std::string::npos ? "" : cut_to(text, width) + '\n';
}

std::string Table::lines(std::string_view indent, int width) {
  line_up_points();
  const std::vector<int> widths = fitted(columns(indent), width);

  std::string out;
  const auto line = [&](const auto &cell_of) {
    const std::size_t start = out.size();
    out += indent;
    bool first = true;
    for (std::size_t i = 0; i < widths.size(); ++i) {
      if (widths[i] == 0) continue;
      if (!first) out.append(between_columns, ' ');
      first = false;
      add_aligned(out, cell_of(i), widths[i], columns_[i].align == Align::left);
    }
    const std::size_t last = out.find_last_not_of(' ');
    out.resize(last == std::string::npos || last < start ? start : last + 1);
    if (out.size() > start) out += '\n';
  };
  out += upper_heading(indent, widths, width);
  line([&](std::size_t i) -> const std::string & { return columns_[i].heading; });
  for (const auto &row : rows_)
    line([&](std::size_t i) -> const std::string & { return row[i]; });
  return out;
}

} // namespace gatherwright::report
