// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/sheet/sheet.hpp"

#include "cli/drawing/svg.hpp"
#include "cli/picture/drawn_edge_picture.hpp"
#include "cli/picture/fullness_picture.hpp"
#include "cli/picture/join_picture.hpp"
#include "cli/report/short_names.hpp"
#include "cli/sheet/html.hpp"
#include "cli/sheet/html_blocks.hpp"
#include "cli/sheet/pieces_html.hpp"
#include "cli/sheet/sheet_content.hpp"
#include "cli/sheet/sheet_style.hpp"
#include "cli/words/names.hpp"

#include <fmt/format.h>

namespace gatherwright::paper {

namespace {

/// Columns of words that a phone has room for side by side.
constexpr std::size_t most_beside = 3;

bool is_bad(Verdict verdict) {
  return verdict != Verdict::within_limits;
}

void head(Html &html, const Sheet &sheet) {
  html.markup("<!DOCTYPE html>\n").open("html", "lang=\"en\"").open("head");
  html.markup("<meta charset=\"utf-8\"/>\n<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n");
  html.element("title", sheet.title);
  html.markup("<style>").markup(sheet_style);
  if (sheet.pieces) html.markup(pieces_style);
  html.markup("</style>\n").close("head");
}

void verdict(Html &html, const Sheet &sheet) {
  html.markup(
      fmt::format("<p class=\"verdict{}\"><strong><span class=\"sign\" aria-hidden=\"true\">{}</span> {}</strong>; "
                  "{}.</p>\n",
                  is_bad(sheet.verdict) ? " bad" : "", sign(sheet.verdict), sheet.judged, escaped(sheet.meaning)));
  for (const std::string &caution : sheet.first_cautions)
    html.markup(fmt::format("<p class=\"verdict bad\"><strong>Caution</strong>: {}</p>\n", escaped(caution)));
}

void what_to_cut(Html &html, const Job &job, const Plan &plan, const Sheet &sheet) {
  if (!sheet.pieces && sheet.to_cut.empty() && sheet.rules.sentences.empty()) return;
  html.open("section", "aria-labelledby=\"cut\"");
  html.element("h2", "What to cut", "id=\"cut\"");
  if (sheet.pieces) sizes_of_pieces(html, *sheet.pieces);
  paragraph(html, sheet.between_seams);
  for (const SheetTable &each : sheet.to_cut)
    table(html, each, 0, each.table.filled().size() > most_beside ? RowsOf::joins : RowsOf::lengths);
  list(html, "h3", sheet.rules, "class=\"rules\"");
  if (sheet.pieces) pieces(html, job, plan, *sheet.pieces);
  html.close("section");
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
  items(html, join.stretches);
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
  what_to_cut(html, job, plan, sheet);
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
