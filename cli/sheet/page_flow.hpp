// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/drawing/drawing.hpp"
#include "cli/report/table.hpp"
#include "cli/sheet/table_layout.hpp"

#include <functional>
#include <string>
#include <string_view>
#include <vector>

/// Text, tables and pictures set one below another on as many pages as they take.
namespace gatherwright::paper {

/// How large it is set, and how much air there is between lines and between what stands one below another. No text is
/// smaller than 2.7 mm, 7.7 points.
enum class Setting { airy, close };

/// The breaks: a table's row, a picture and a paragraph's line are never cut; a heading stays with what follows it; a
/// table stands on one page where a page holds it, and one that goes on has its headings again.
class PageFlow {
public:
  PageFlow(PaperSize size, std::string title, Setting setting = Setting::airy);

  /// What is set one thing below another.
  using Content = std::function<void(PageFlow &)>;

  /// What it takes of a column so wide, with the gap before it.
  double height_of(const Content &content, double width) const;

  /// Two contents in columns beside each other, on one page, which must hold them.
  void beside(const Content &left, double left_width, const Content &right);
  static constexpr double between_columns = 6;

  double width() const;  ///< of what is set, between the margins or in the column
  double room() const;   ///< left on this page
  double height() const; ///< of a whole page's room
  std::size_t pages() const { return pages_.size(); }

  /// Begins a new page where less is left, unless this one is still empty.
  void keep_together(double millimetres);
  void gap(double millimetres);
  void title(std::string_view text);

  /// `with`: millimetres of what follows that must stand on the same page.
  void heading(std::string_view text, double with);
  void small_heading(std::string_view text, double with);
  void paragraph(std::string_view text);
  void list(const std::vector<std::string> &sentences, std::string_view bullet);
  void table(std::string_view caption, const report::Table &table);
  void figure(const Page &drawing);

  /// Two beside each other, each no wider than `half_width`.
  void figures(const Page &left, const Page &right);
  double half_width() const;
  double table_width(const report::Table &table) const; ///< that it takes where there is room for all of it

  /// A word that stands out, with what it means, in a box; `alarming` in a heavier one.
  void boxed(std::string_view strong, std::string_view text, bool alarming);

  double height_of_paragraph(std::string_view text) const;
  double height_of_table(const report::Table &table) const; ///< with its caption
  double height_of_list(const std::vector<std::string> &sentences) const;

  /// All pages, each with its number and the title at its foot.
  Document take();

private:
  void begin_page();
  double height_of_rows(const TableLayout &layout, std::size_t rows) const;
  void put_figure(const Page &drawing, double left);
  void add(Item item) { pages_.back().items.push_back(std::move(item)); }
  void sized_heading(std::string_view text, double size, double before, double with);
  std::vector<std::string> lines(std::string_view text, double indent) const;

  /// Sizes and gaps of a setting, in millimetres.
  struct Measures {
    double side;
    double top;
    double bottom; ///< with the foot in it
    double foot_base;
    double text;
    double line_high;
    double base_of_line; ///< from the top of a line
    double paragraph_gap;
    double title;
    double heading;
    double small_heading;
    double heading_gap;
    double box_air;
    double box_strong;
    TableType table;
  };
  static Measures measures(Setting setting);

  /// Where it is set on the page: between the margins, or in a column.
  struct Column {
    double left;
    double width;
    double top;
    bool endless = false; ///< no page ends it: it is set to be measured
  };

  PaperSize size_;
  std::string title_;
  Setting setting_;
  Measures is_;
  Column column_{};
  std::vector<Page> pages_;
  double y_ = 0; ///< top of what comes next
};

} // namespace gatherwright::paper
