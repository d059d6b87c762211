// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/sheet/html_blocks.hpp"

#include "cli/drawing/svg.hpp"
#include "cli/report/table.hpp"
#include "gatherwright/unit.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace gatherwright::paper {

namespace {

using report::Table;

/// What a figure is short of the longest in its column after the point, so that all line up by it: added where it is
/// not seen, read or copied.
class PointRest {
public:
  PointRest(const Table &table, std::size_t column) {
    if (table.headed()[column].align != Table::Align::point) return;
    for (const auto &row : table.cells())
      if (std::string after = report::after_point(row[column]); after.size() > longest_.size())
        longest_ = std::move(after);
  }

  std::string attribute_for(const std::string &cell) const {
    const std::size_t has = report::after_point(cell).size();
    if (cell.empty() || has >= longest_.size()) return "";
    std::string rest;
    for (const char each : std::string_view(longest_).substr(has))
      rest += each == ' ' ? std::string("\u00a0") : std::string(1, each);
    return attribute("data-rest", rest);
  }

private:
  std::string longest_;
};

std::string alignment(const Table::Column &column) {
  return column.align == Table::Align::left ? "" : " class=\"figure\"";
}

std::string heading_of(const Table::Column &column) {
  const bool both = !column.above.empty() && !column.heading.empty();
  return fmt::format("{}{}{}", column.above, both ? " " : "", column.heading);
}

/// The heading before a figure that stands by itself: without the unit of its column or what reaches over several.
std::string heading_alone(const Table::Column &column) {
  const bool is_unit =
      std::any_of(all_units.begin(), all_units.end(), [&](Unit unit) { return name(unit) == column.heading; });
  if (column.reaches) return column.heading;
  return is_unit && !column.above.empty() ? column.above : heading_of(column);
}

/// Headings in one row, or in two where some stand under one that reaches over them.
void table_head(Html &html, const Table &table, const std::vector<std::size_t> &shown) {
  const auto &headed = table.headed();
  const auto reaching =
      std::find_if(shown.begin(), shown.end(), [&](std::size_t column) { return headed[column].reaches; });
  html.open("thead").open("tr");
  for (auto at = shown.begin(); at != reaching; ++at) {
    const Table::Column &column = headed[*at];
    html.element("th", heading_of(column),
                 fmt::format("scope=\"col\"{}{}", reaching == shown.end() ? "" : " rowspan=\"2\"", alignment(column)));
  }
  if (reaching != shown.end()) {
    html.element("th", headed[*reaching].above,
                 fmt::format("scope=\"colgroup\" class=\"over\" colspan=\"{}\"", shown.end() - reaching));
    html.close("tr").open("tr");
    for (auto at = reaching; at != shown.end(); ++at)
      html.element("th", headed[*at].heading, "scope=\"col\"" + alignment(headed[*at]));
  }
  html.close("tr").close("thead");
}

/// Columns of a table of marks that a phone has room for side by side: of one with more, each row goes on below itself.
constexpr std::size_t most_of_marks = 8;

std::string_view class_of(RowsOf rows, std::size_t columns) {
  switch (rows) {
  case RowsOf::lengths:
    return "class=\"lengths\"";
  case RowsOf::pieces:
    return "class=\"pieces\"";
  case RowsOf::joins:
    return "class=\"stacked\"";
  case RowsOf::marks:
  case RowsOf::mirrored_marks:
    break;
  }
  constexpr std::size_t few = 5; // for which there is room in larger letters
  return columns > most_of_marks ? "class=\"marks folded\""
         : columns <= few        ? "class=\"marks few\""
                                 : "class=\"marks\"";
}

} // namespace

void list(Html &html, std::string_view level, const SheetList &said, std::string_view of) {
  if (said.sentences.empty()) return;
  html.element(level, said.heading);
  items(html, said.sentences, of);
}

void paragraph(Html &html, const std::string &sentence) {
  if (!sentence.empty()) html.element("p", sentence);
}

void paragraphs(Html &html, const std::vector<std::string> &sentences) {
  for (const std::string &sentence : sentences)
    html.element("p", sentence);
}

void items(Html &html, const std::vector<std::string> &sentences, std::string_view of) {
  html.open("ul", of);
  for (const std::string &sentence : sentences)
    html.element("li", sentence);
  html.close("ul");
}

void table(Html &html, const SheetTable &captioned, std::size_t heads, RowsOf rows) {
  const Table &table = captioned.table;
  if (table.cells().empty()) {
    if (!captioned.left_out.empty()) html.element("p", fmt::format("{}: {}", captioned.caption, captioned.left_out));
    return;
  }
  const std::vector<std::size_t> shown = table.filled();
  std::vector<PointRest> rests;
  for (std::size_t column = 0; column < table.headed().size(); ++column)
    rests.emplace_back(table, column);
  html.open("div", "class=\"scroll\" role=\"region\" tabindex=\"0\"" + attribute("aria-label", captioned.caption));
  html.open("table", class_of(rows, shown.size())).element("caption", captioned.caption);
  table_head(html, table, shown);
  html.open("tbody");
  const bool of_marks = rows == RowsOf::marks || rows == RowsOf::mirrored_marks;
  for (const auto &row : table.cells()) {
    // Its number is a mark's first cell.
    html.open("tr", rows == RowsOf::marks ? attribute("data-mark", row.front()) : "");
    const bool named = of_marks && !row[1].empty();
    for (const std::size_t column : shown) {
      std::string attributes = alignment(table.headed()[column]) + rests[column].attribute_for(row[column]);
      if (rows == RowsOf::joins || (of_marks && shown.size() > most_of_marks))
        attributes += attribute("data-head", heading_alone(table.headed()[column]));
      if (column == heads)
        html.element("th", row[column],
                     std::string("scope=\"row\" class=\"")
                         .append(named ? "named " : "")
                         .append(table.headed()[column].align == Table::Align::left ? "\"" : "figure\""));
      else if (named && column == 1)
        html.markup("<td class=\"name\"><b>").markup(escaped(row[column])).markup("</b></td>\n");
      else
        html.element("td", row[column], attributes);
    }
    html.close("tr");
  }
  html.close("tbody").close("table").close("div");
  if (!captioned.left_out.empty()) html.element("p", captioned.left_out);
}

void figure(Html &html, Widths widths, const std::function<Page(double)> &draw,
            const std::vector<std::string> &caption) {
  html.open("figure");
  for (const PictureWidth &each : widths) {
    html.open("div", fmt::format("class=\"{}\"", each.shown));
    html.markup(svg_element(draw(each.width)));
    html.close("div");
  }
  for (const std::string &sentence : caption)
    html.element("figcaption", sentence);
  html.close("figure");
}

} // namespace gatherwright::paper
