// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/sheet/page_flow.hpp"

#include "cli/drawing/type.hpp"
#include "cli/sheet/table_layout.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace gatherwright::paper {

namespace {

constexpr double indent = 4.5;

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

PageFlow::Measures PageFlow::measures(Setting setting) {
  if (setting == Setting::close)
    return {.side = 12,
            .top = 11,
            .bottom = 16.5,
            .foot_base = 11,
            .text = 2.9,
            .line_high = 3.7,
            .base_of_line = 3,
            .paragraph_gap = 0.7,
            .title = 6,
            .heading = 4.4,
            .small_heading = 3.3,
            .heading_gap = 3.4,
            .box_air = 1.6,
            .box_strong = 4,
            .table = close_type};
  return {.side = 14,
          .top = 14,
          .bottom = 20,
          .foot_base = 12,
          .text = 3.5,
          .line_high = 4.9,
          .base_of_line = 3.7,
          .paragraph_gap = 1.6,
          .title = 7.5,
          .heading = 5.2,
          .small_heading = 3.9,
          .heading_gap = 6,
          .box_air = 3,
          .box_strong = 5,
          .table = {}};
}

PageFlow::PageFlow(PaperSize size, std::string title, Setting setting)
    : size_(size), title_(std::move(title)), setting_(setting), is_(measures(setting)) {
  begin_page();
}

void PageFlow::begin_page() {
  pages_.push_back(page_of(size_));
  column_ = {.left = is_.side, .width = pages_.back().width - 2 * is_.side, .top = is_.top};
  y_ = column_.top;
}

double PageFlow::height_of(const Content &content, double width) const {
  PageFlow apart(size_, "", setting_);
  apart.column_.width = width;
  apart.column_.endless = true;
  constexpr double of_something_above = 1e-6; // so that the gap before it counts
  apart.y_ += of_something_above;
  content(apart);
  return apart.y_ - apart.column_.top;
}

void PageFlow::beside(const Content &left, double left_width, const Content &right) {
  const Column whole = column_;
  const double top = y_;
  column_ = {.left = whole.left, .width = left_width, .top = top};
  left(*this);
  const double left_end = y_;
  const double taken = left_width + between_columns;
  column_ = {.left = whole.left + taken, .width = whole.width - taken, .top = top};
  y_ = top;
  right(*this);
  column_ = whole;
  y_ = std::max(y_, left_end);
}

double PageFlow::width() const {
  return column_.width;
}

double PageFlow::room() const {
  constexpr double without_end = 1e9;
  return column_.endless ? without_end : pages_.back().height - is_.bottom - y_;
}

double PageFlow::height() const {
  return pages_.back().height - is_.bottom - is_.top;
}

void PageFlow::keep_together(double millimetres) {
  if (room() < millimetres && y_ > column_.top) begin_page();
}

void PageFlow::gap(double millimetres) {
  if (y_ > column_.top) y_ += millimetres;
}

std::vector<std::string> PageFlow::lines(std::string_view text, double by) const {
  return with_spaces(broken(text, width() - by, is_.text));
}

void PageFlow::title(std::string_view text) {
  Group group = tagged(Role::title);
  const double size = is_.title;
  for (const std::string &line : with_spaces(broken(text, width(), size, true))) {
    group.items.push_back({Text{.at = {column_.left, y_ + size}, .says = line, .size = size, .bold = true}});
    y_ += size * 1.2;
  }
  y_ += size * 0.4;
  add({std::move(group)});
}

void PageFlow::sized_heading(std::string_view text, double size, double before, double with) {
  const std::vector<std::string> said = with_spaces(broken(text, width(), size, true));
  keep_together(before + size * 1.25 * static_cast<double>(said.size()) + 1 + with);
  gap(before);
  Group group = tagged(Role::heading);
  for (const std::string &line : said) {
    group.items.push_back({Text{.at = {column_.left, y_ + size}, .says = line, .size = size, .bold = true}});
    y_ += size * 1.25;
  }
  y_ += 1;
  add({std::move(group)});
}

void PageFlow::heading(std::string_view text, double with) {
  sized_heading(text, is_.heading, is_.heading_gap, with);
}

void PageFlow::small_heading(std::string_view text, double with) {
  sized_heading(text, is_.small_heading, is_.heading_gap / 2, with);
}

double PageFlow::height_of_paragraph(std::string_view text) const {
  return static_cast<double>(lines(text, 0).size()) * is_.line_high + is_.paragraph_gap;
}

/// With its caption, headings and the gap before it.
double PageFlow::height_of_rows(const TableLayout &layout, std::size_t rows) const {
  double sum = is_.line_high + 1 + layout.head_height() + 2;
  for (std::size_t row = 0; row < rows; ++row)
    sum += layout.row_height(row);
  return sum;
}

double PageFlow::height_of_table(const report::Table &table) const {
  return height_of_rows(TableLayout(table, width(), is_.table), table.cells().size());
}

double PageFlow::table_width(const report::Table &table) const {
  constexpr double all_of_it = 1e9;
  return TableLayout(table, all_of_it, is_.table).width();
}

double PageFlow::height_of_list(const std::vector<std::string> &sentences) const {
  double sum = is_.paragraph_gap;
  for (const std::string &sentence : sentences)
    sum += static_cast<double>(lines(sentence, indent).size()) * is_.line_high;
  return sum;
}

void PageFlow::paragraph(std::string_view text) {
  Group group = tagged(Role::paragraph);
  for (const std::string &line : lines(text, 0)) {
    if (room() < is_.line_high) {
      add({std::move(group)});
      group = tagged(Role::paragraph);
      begin_page();
    }
    group.items.push_back({Text{.at = {column_.left, y_ + is_.base_of_line}, .says = line, .size = is_.text}});
    y_ += is_.line_high;
  }
  add({std::move(group)});
  y_ += is_.paragraph_gap;
}

void PageFlow::list(const std::vector<std::string> &sentences, std::string_view bullet) {
  Group group = tagged(Role::list);
  for (const std::string &sentence : sentences) {
    Group item = tagged(Role::list_item);
    bool first = true;
    for (const std::string &line : lines(sentence, bullet.empty() ? 0 : indent)) {
      if (room() < is_.line_high) {
        if (!item.items.empty()) group.items.push_back({std::move(item)});
        if (!group.items.empty()) add({std::move(group)});
        group = tagged(Role::list);
        item = tagged(Role::list_item);
        begin_page();
      }
      if (first && !bullet.empty())
        item.items.push_back(
            {Text{.at = {column_.left, y_ + is_.base_of_line}, .says = std::string(bullet) + " ", .size = is_.text}});
      first = false;
      const double left = column_.left + (bullet.empty() ? 0 : indent);
      item.items.push_back({Text{.at = {left, y_ + is_.base_of_line}, .says = line, .size = is_.text}});
      y_ += is_.line_high;
    }
    group.items.push_back({std::move(item)});
  }
  add({std::move(group)});
  y_ += is_.paragraph_gap;
}

void PageFlow::table(std::string_view caption, const report::Table &table) {
  const TableLayout layout(table, width(), is_.table);
  const auto begin = [&](std::string_view called) {
    Group group = tagged(Role::table);
    const std::string shown = fitted(called, width(), is_.text, true);
    add({Group{.role = Role::paragraph,
               .label = "",
               .items = {{Text{
                   .at = {column_.left, y_ + is_.base_of_line}, .says = shown, .size = is_.text, .bold = true}}}}});
    y_ += is_.line_high + 1;
    group.items.push_back({layout.head({column_.left, y_})});
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
    group.items.push_back({layout.row(row, {column_.left, y_})});
    y_ += layout.row_height(row);
  }
  add({std::move(group)});
  y_ += 2 + is_.paragraph_gap;
}

void PageFlow::put_figure(const Page &drawing, double left) {
  Group group{.role = Role::figure, .label = drawing.label, .items = drawing.items};
  move_by(group.items, {left, y_});
  add({std::move(group)});
}

void PageFlow::figure(const Page &drawing) {
  keep_together(drawing.height);
  put_figure(drawing, column_.left);
  y_ += drawing.height + is_.paragraph_gap;
}

double PageFlow::half_width() const {
  return (width() - between_columns) / 2;
}

void PageFlow::figures(const Page &left, const Page &right) {
  const double high = std::max(left.height, right.height);
  keep_together(high);
  put_figure(left, column_.left);
  put_figure(right, column_.left + half_width() + between_columns);
  y_ += high + is_.paragraph_gap;
}

/// The word and what it means on one line where there is room, as closely set pages have it, else one below the other.
void PageFlow::boxed(std::string_view strong, std::string_view text, bool alarming) {
  const double size = is_.box_strong;
  const double air = is_.box_air;
  const double beyond_word = text_width(strong, size, true) + 2.5;
  const bool one_line = setting_ == Setting::close && beyond_word + text_width(text, is_.text) <= width() - 2 * air;
  const std::vector<std::string> said = with_spaces(broken(text, width() - 2 * air, is_.text));
  const double lines_high = is_.line_high * static_cast<double>(said.size());
  const double high = one_line ? size + 2 * air : size * 1.3 + lines_high + 2 * air - 1;
  keep_together(high);
  const Tone tone = alarming ? Tone::alarm : Tone::ink;
  Line box = rectangle({column_.left, y_}, width(), high, alarming ? 1 : 0.5);
  box.tone = tone;
  add({std::move(box)});
  Group group = tagged(Role::paragraph);
  const double left = column_.left + air;
  double base = y_ + air + size * 0.8;
  group.items.push_back(
      {Text{.at = {left, base}, .says = std::string(strong) + " ", .size = size, .bold = true, .tone = tone}});
  if (one_line) {
    group.items.push_back({Text{.at = {left + beyond_word, base}, .says = std::string(text), .size = is_.text}});
  } else {
    base += size * 0.4 - 0.5;
    for (const std::string &line : said) {
      base += is_.line_high;
      group.items.push_back({Text{.at = {left, base}, .says = line, .size = is_.text}});
    }
  }
  add({std::move(group)});
  y_ += high + is_.paragraph_gap * 2;
}

Document PageFlow::take() {
  constexpr double size = 2.9;
  const double side = is_.side;
  for (std::size_t i = 0; i < pages_.size(); ++i) {
    Page &page = pages_[i];
    page.label = fmt::format("page {} of {}", i + 1, pages_.size());
    const double base = page.height - is_.foot_base;
    const double number = text_width(page.label, size);
    page.items.push_back({segment({side, base - 4}, {page.width - side, base - 4}, 0.15, Tone::soft)});
    page.items.push_back(
        {Text{.at = {side, base}, .says = fitted(title_, page.width - 2 * side - number - 5, size), .size = size}});
    page.items.push_back(
        {Text{.at = {page.width - side, base}, .says = page.label, .size = size, .anchor = Anchor::end}});
  }
  return {.title = title_, .pages = std::move(pages_)};
}

} // namespace gatherwright::paper
