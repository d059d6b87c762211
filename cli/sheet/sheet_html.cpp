// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/sheet/sheet.hpp"

#include "cli/drawing/svg.hpp"
#include "cli/picture/drawn_edge_picture.hpp"
#include "cli/picture/fullness_picture.hpp"
#include "cli/picture/join_picture.hpp"
#include "cli/report/short_names.hpp"
#include "cli/sheet/html.hpp"
#include "cli/sheet/sheet_content.hpp"
#include "cli/sheet/sheet_style.hpp"
#include "cli/words/names.hpp"
#include "gatherwright/unit.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace gatherwright::paper {

namespace {

using report::Table;

/// Widths of pictures in millimetres, on a desk or in print and in a hand.
struct PictureWidth {
  std::string_view shown; ///< its class
  double width = 0;
};
constexpr std::array picture_widths{PictureWidth{"wide", 184}, PictureWidth{"narrow", 94}};

/// Columns of words that a phone has room for side by side.
constexpr std::size_t most_beside = 3;

bool is_bad(Verdict verdict) {
  return verdict != Verdict::within_limits;
}

void list(Html &html, std::string_view level, const SheetList &said, std::string_view of = {}) {
  if (said.sentences.empty()) return;
  html.element(level, said.heading);
  html.open("ul", of);
  for (const std::string &sentence : said.sentences)
    html.element("li", sentence);
  html.close("ul");
}

void paragraphs(Html &html, const std::vector<std::string> &sentences) {
  for (const std::string &sentence : sentences)
    html.element("p", sentence);
}

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

/// What a table's rows are: lengths; joins, each of which on a phone is a few lines of its own; marks, of which those
/// with a name stand out.
enum class RowsOf { lengths, joins, marks };

/// Columns of a table of marks that a phone has room for side by side: of one with more, each row goes on below itself.
constexpr std::size_t most_of_marks = 8;

std::string_view class_of(RowsOf rows, std::size_t columns) {
  switch (rows) {
  case RowsOf::lengths:
    return "class=\"lengths\"";
  case RowsOf::joins:
    return "class=\"stacked\"";
  case RowsOf::marks:
    break;
  }
  return columns > most_of_marks ? "class=\"marks folded\"" : "class=\"marks\"";
}

/// Column `heads` is what each row is about.
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
  for (const auto &row : table.cells()) {
    html.open("tr");
    const bool named = rows == RowsOf::marks && !row[1].empty();
    for (const std::size_t column : shown) {
      std::string attributes = alignment(table.headed()[column]) + rests[column].attribute_for(row[column]);
      if (rows == RowsOf::joins || (rows == RowsOf::marks && shown.size() > most_of_marks))
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

void head(Html &html, const Sheet &sheet) {
  html.markup("<!DOCTYPE html>\n").open("html", "lang=\"en\"").open("head");
  html.markup("<meta charset=\"utf-8\"/>\n<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n");
  html.element("title", sheet.title);
  html.markup("<style>").markup(sheet_style).markup("</style>\n").close("head");
}

void verdict(Html &html, const Sheet &sheet) {
  html.markup(
      fmt::format("<p class=\"verdict{}\"><strong><span class=\"sign\" aria-hidden=\"true\">{}</span> {}</strong>; "
                  "{}.</p>\n",
                  is_bad(sheet.verdict) ? " bad" : "", sign(sheet.verdict), sheet.judged, escaped(sheet.meaning)));
  for (const std::string &caution : sheet.first_cautions)
    html.markup(fmt::format("<p class=\"verdict bad\"><strong>Caution</strong>: {}</p>\n", escaped(caution)));
}

void what_to_cut(Html &html, const Sheet &sheet) {
  if (sheet.to_cut.empty() && sheet.rules.sentences.empty()) return;
  html.open("section", "aria-labelledby=\"cut\"");
  html.element("h2", "What to cut", "id=\"cut\"");
  if (!sheet.between_seams.empty()) html.element("p", sheet.between_seams);
  for (const SheetTable &each : sheet.to_cut)
    table(html, each, 0, each.table.filled().size() > most_beside ? RowsOf::joins : RowsOf::lengths);
  list(html, "h3", sheet.rules, "class=\"rules\"");
  html.close("section");
}

/// Drawn twice, for two widths, of which the style sheet shows one.
template <class Draw> void figure(Html &html, const Draw &draw, const std::vector<std::string> &caption) {
  html.open("figure");
  for (const PictureWidth &each : picture_widths) {
    html.open("div", fmt::format("class=\"{}\"", each.shown));
    html.markup(svg_element(draw(each.width)));
    html.close("div");
  }
  for (const std::string &sentence : caption)
    html.element("figcaption", sentence);
  html.close("figure");
}

/// The heading, what is to be said and the picture of it: in print, on one page.
void lead(Html &html, const Job &job, const Plan &plan, const JoinSheet &join, const std::string &id) {
  html.open("div", "class=\"lead\"");
  html.markup(fmt::format("<h2 id=\"{}\">{}", id, escaped(join.heading)));
  if (!join.made.empty()) html.markup(fmt::format(" <span class=\"made\">({})</span>", escaped(join.made)));
  html.markup("</h2>\n");
  if (is_bad(join.verdict))
    html.markup(fmt::format("<p class=\"bad-word\"><span class=\"sign\" aria-hidden=\"true\">{}</span> {}</p>\n",
                            sign(join.verdict), words::verdict(join.verdict)));
  html.element("p", join.edges);
  html.open("ul");
  for (const std::string &stretch : join.stretches)
    html.element("li", stretch);
  html.close("ul");
  const Join &asked = job.joins.at(join.join);
  const JoinPlan &planned = plan.joins.at(join.join);
  if (join.drawn)
    figure(
        html, [&](double width) { return join_picture(job, asked, planned, width); }, join.of_the_picture);
  html.close("div");
}

void join_section(Html &html, const Job &job, const Plan &plan, const JoinSheet &join) {
  const std::string id = fmt::format("join-{}", join.join + 1);
  html.open("section", fmt::format("class=\"join\" aria-labelledby=\"{}\"", id));
  lead(html, job, plan, join, id);
  const JoinPlan &planned = plan.joins.at(join.join);
  for (const AsDrawn &each : join.as_drawn)
    figure(html,
           [&](double width) { return drawn_edge_picture(job, job.joins.at(join.join), planned, each.edge, width); },
           {each.caption});
  if (join.drawn && !join.fullest.empty())
    figure(html, [&](double width) { return *fullness_picture(job.joins.at(join.join), planned, width); },
           {join.fullest});
  table(html, join.marks, 0, RowsOf::marks);
  paragraphs(html, join.below_marks);
  if (!join.mirrored.empty()) html.element("p", join.mirrored);
  if (join.marks_mirrored) table(html, *join.marks_mirrored, 0, RowsOf::marks);
  paragraphs(html, join.below_mirrored);
  if (!join.working.empty()) html.element("h3", "How to run it");
  paragraphs(html, join.working);
  html.close("section");
}

} // namespace

std::string sheet_html(const Job &whole, const Plan &plan, report::Pins pins) {
  const std::optional<Job> short_named = report::with_short_names(whole);
  const Job &job = short_named ? *short_named : whole;
  const Sheet sheet = sheet_of(job, plan, {}, pins);
  Html html;
  head(html, sheet);
  html.open("body").open("header").element("h1", sheet.heading);
  verdict(html, sheet);
  html.close("header").open("main");
  list(html, "h2", sheet.wrong);
  list(html, "h2", sheet.mend);
  what_to_cut(html, sheet);
  for (const JoinSheet &join : sheet.joins)
    join_section(html, job, plan, join);
  if (!sheet.joins_left_out.empty()) html.element("p", sheet.joins_left_out);
  if (!sheet.between_marks.empty()) html.element("p", sheet.between_marks);
  list(html, "h2", sheet.notes);
  list(html, "h2", sheet.cautions);
  html.close("main").close("body").close("html");
  return html.take();
}

} // namespace gatherwright::paper
