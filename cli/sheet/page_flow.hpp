// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/drawing/drawing.hpp"
#include "cli/report/table.hpp"

#include <string>
#include <string_view>
#include <vector>

/// Text, tables and pictures set one below another on as many pages as they take.
namespace gatherwright::paper {

class TableLayout;

/// How much air there is between lines and between what stands one below another.
enum class Setting { airy, close };

/// The breaks: a table's row, a picture and a paragraph's line are never cut; a heading stays with what follows it; a
/// table stands on one page where a page holds it, and one that goes on has its headings again.
class PageFlow {
public:
  PageFlow(PaperSize size, std::string title, Setting setting = Setting::airy);

  double width() const;  ///< of what is set, between the margins
  double room() const;   ///< left on this page
  double height() const; ///< of a whole page's room

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

  PaperSize size_;
  std::string title_;
  double line_high_;
  double paragraph_gap_;
  double heading_gap_;
  std::vector<Page> pages_;
  double y_ = 0; ///< top of what comes next
};

} // namespace gatherwright::paper
