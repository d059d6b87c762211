// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/sheet/page_flow.hpp"

#include "cli/drawing/type.hpp"
#include "cli/sheet/table_layout.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace gatherwright::paper {

namespace {

constexpr double side = 14;
constexpr double top = 14;
constexpr double bottom = 20; ///< with the foot in it
constexpr double foot_base = 12;
constexpr double text_size = 3.5;
constexpr double between_figures = 6;
constexpr double indent = 4.5;
constexpr double base_of_line = 3.7; ///< from the top of a line

/// Lines of one text, each but the last with the space it was broken at, so that it is read out and copied whole.
std::vector<std::string> with_spaces(std::vector<std::string> lines) {
  for (std::size_t i = 0; i + 1 < lines.size(); ++i)
    lines[i] += ' ';
  return lines;
}

Group tagged(Role role) {
  return {.role = role, .label = "", .items = {}};
}

} // namespace

PageFlow::PageFlow(PaperSize size, std::string title, Setting setting)
    : size_(size), title_(std::move(title)), line_high_(setting == Setting::close ? 4.5 : 4.9),
      paragraph_gap_(setting == Setting::close ? 1 : 1.6), heading_gap_(setting == Setting::close ? 4 : 6) {
  begin_page();
}

void PageFlow::begin_page() {
  pages_.push_back(page_of(size_));
  y_ = top;
}

double PageFlow::width() const {
  return pages_.back().width - 2 * side;
}

double PageFlow::room() const {
  return pages_.back().height - bottom - y_;
}

double PageFlow::height() const {
  return pages_.back().height - bottom - top;
}

void PageFlow::keep_together(double millimetres) {
  if (room() < millimetres && y_ > top) begin_page();
}

void PageFlow::gap(double millimetres) {
  if (y_ > top) y_ += millimetres;
}

std::vector<std::string> PageFlow::lines(std::string_view text, double by) const {
  return with_spaces(broken(text, width() - by, text_size));
}

void PageFlow::title(std::string_view text) {
  Group group = tagged(Role::title);
  constexpr double size = 7.5;
  for (const std::string &line : with_spaces(broken(text, width(), size, true))) {
    group.items.push_back({Text{.at = {side, y_ + size}, .says = line, .size = size, .bold = true}});
    y_ += size * 1.2;
  }
  y_ += 3;
  add({std::move(group)});
}

void PageFlow::sized_heading(std::string_view text, double size, double before, double with) {
  const std::vector<std::string> said = with_spaces(broken(text, width(), size, true));
  keep_together(before + size * 1.25 * static_cast<double>(said.size()) + 1 + with);
  gap(before);
  Group group = tagged(Role::heading);
  for (const std::string &line : said) {
    group.items.push_back({Text{.at = {side, y_ + size}, .says = line, .size = size, .bold = true}});
    y_ += size * 1.25;
  }
  y_ += 1;
  add({std::move(group)});
}

void PageFlow::heading(std::string_view text, double with) {
  sized_heading(text, 5.2, heading_gap_, with);
}

void PageFlow::small_heading(std::string_view text, double with) {
  sized_heading(text, 3.9, heading_gap_ / 2, with);
}

double PageFlow::height_of_paragraph(std::string_view text) const {
  return static_cast<double>(lines(text, 0).size()) * line_high_ + paragraph_gap_;
}

/// With its caption, headings and the gap before it.
double PageFlow::height_of_rows(const TableLayout &layout, std::size_t rows) const {
  double sum = line_high_ + 1 + layout.head_height() + 2;
  for (std::size_t row = 0; row < rows; ++row)
    sum += layout.row_height(row);
  return sum;
}

double PageFlow::height_of_table(const report::Table &table) const {
  return height_of_rows(TableLayout(table, width()), table.cells().size());
}

double PageFlow::height_of_list(const std::vector<std::string> &sentences) const {
  double sum = paragraph_gap_;
  for (const std::string &sentence : sentences)
    sum += static_cast<double>(lines(sentence, indent).size()) * line_high_;
  return sum;
}

void PageFlow::paragraph(std::string_view text) {
  Group group = tagged(Role::paragraph);
  for (const std::string &line : lines(text, 0)) {
    if (room() < line_high_) {
      add({std::move(group)});
      group = tagged(Role::paragraph);
      begin_page();
    }
    group.items.push_back({Text{.at = {side, y_ + base_of_line}, .says = line, .size = text_size}});
    y_ += line_high_;
  }
  add({std::move(group)});
  y_ += paragraph_gap_;
}

void PageFlow::list(const std::vector<std::string> &sentences, std::string_view bullet) {
  Group group = tagged(Role::list);
  for (const std::string &sentence : sentences) {
    Group item = tagged(Role::list_item);
    bool first = true;
    for (const std::string &line : lines(sentence, bullet.empty() ? 0 : indent)) {
      if (room() < line_high_) {
        if (!item.items.empty()) group.items.push_back({std::move(item)});
        if (!group.items.empty()) add({std::move(group)});
        group = tagged(Role::list);
        item = tagged(Role::list_item);
        begin_page();
      }
      if (first && !bullet.empty())
        item.items.push_back(
            {Text{.at = {side, y_ + base_of_line}, .says = std::string(bullet) + " ", .size = text_size}});
      first = false;
      const double left = side + (bullet.empty() ? 0 : indent);
      item.items.push_back({Text{.at = {left, y_ + base_of_line}, .says = line, .size = text_size}});
      y_ += line_high_;
    }
    group.items.push_back({std::move(item)});
  }
  add({std::move(group)});
  y_ += paragraph_gap_;
}

void PageFlow::table(std::string_view caption, const report::Table &table) {
  const TableLayout layout(table, width());
  const auto begin = [&](std::string_view called) {
    Group group = tagged(Role::table);
    const std::string shown = fitted(called, width(), text_size, true);
    add({Group{.role = Role::paragraph,
               .label = "",
               .items = {{Text{.at = {side, y_ + base_of_line}, .says = shown, .size = text_size, .bold = true}}}}});
    y_ += line_high_ + 1;
    group.items.push_back({layout.head({side, y_})});
    y_ += layout.head_height();
    return group;
  };
  const std::size_t rows = table.cells().size();
  const double whole = height_of_rows(layout, rows);
  keep_together(whole <= height() ? whole : height_of_rows(layout, std::min<std::size_t>(rows, 3)));
  gap(2);
  Group group = begin(caption);
  for (std::size_t row = 0; row < rows; ++row) {
    if (room() < layout.row_height(row)) {
      add({std::move(group)});
      begin_page();
      group = begin(fmt::format("{}, continued", caption));
    }
    group.items.push_back({layout.row(row, {side, y_})});
    y_ += layout.row_height(row);
  }
  add({std::move(group)});
  y_ += 2 + paragraph_gap_;
}

void PageFlow::put_figure(const Page &drawing, double left) {
  Group group{.role = Role::figure, .label = drawing.label, .items = drawing.items};
  move_by(group.items, {left, y_});
  add({std::move(group)});
}

void PageFlow::figure(const Page &drawing) {
  keep_together(drawing.height);
  put_figure(drawing, side);
  y_ += drawing.height + paragraph_gap_;
}

double PageFlow::half_width() const {
  return (width() - between_figures) / 2;
}

void PageFlow::figures(const Page &left, const Page &right) {
  const double high = std::max(left.height, right.height);
  keep_together(high);
  put_figure(left, side);
  put_figure(right, side + half_width() + between_figures);
  y_ += high + paragraph_gap_;
}

void PageFlow::boxed(std::string_view strong, std::string_view text, bool alarming) {
  constexpr double size = 5;
  constexpr double air = 3;
  const std::vector<std::string> said = with_spaces(broken(text, width() - 2 * air, text_size));
  const double high = size * 1.3 + line_high_ * static_cast<double>(said.size()) + 2 * air - 1;
  keep_together(high);
  const Tone tone = alarming ? Tone::alarm : Tone::ink;
  Line box = rectangle({side, y_}, width(), high, alarming ? 1 : 0.5);
  box.tone = tone;
  add({std::move(box)});
  Group group = tagged(Role::paragraph);
  double base = y_ + air + size * 0.8;
  group.items.push_back(
      {Text{.at = {side + air, base}, .says = std::string(strong) + " ", .size = size, .bold = true, .tone = tone}});
  base += size * 0.4 + 0.5;
  for (const std::string &line : said) {
    base += line_high_;
    group.items.push_back({Text{.at = {side + air, base - 1}, .says = line, .size = text_size}});
  }
  add({std::move(group)});
  y_ += high + 3;
}

Document PageFlow::take() {
  constexpr double size = 3;
  for (std::size_t i = 0; i < pages_.size(); ++i) {
    Page &page = pages_[i];
    page.label = fmt::format("page {} of {}", i + 1, pages_.size());
    const double base = page.height - foot_base;
    const double number = text_width(page.label, size);
    page.items.push_back({segment({side, base - 4.5}, {page.width - side, base - 4.5}, 0.15, Tone::soft)});
    page.items.push_back(
        {Text{.at = {side, base}, .says = fitted(title_, page.width - 2 * side - number - 5, size), .size = size}});
    page.items.push_back(
        {Text{.at = {page.width - side, base}, .says = page.label, .size = size, .anchor = Anchor::end}});
  }
  return {.title = title_, .pages = std::move(pages_)};
}

} // namespace gatherwright::paper
