// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/sheet/sheet.hpp"

#include "cli/report/short_names.hpp"
#include "cli/sheet/html_parts.hpp"
#include "cli/sheet/pieces_html.hpp"
#include "cli/sheet/sheet_content.hpp"
#include "cli/sheet/sheet_style.hpp"

#include <fmt/format.h>

namespace gatherwright::paper {

namespace {

void head(Html &html, const Sheet &sheet) {
  html.markup("<!DOCTYPE html>\n").open("html", "lang=\"en\"").open("head");
  html.markup("<meta charset=\"utf-8\"/>\n<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n");
  html.element("title", sheet.title);
  html.markup("<style>").markup(sheet_style);
  if (sheet.pieces) html.markup(pieces_style);
  html.markup("</style>\n").close("head");
}

void what_to_cut(Html &html, const Job &job, const Plan &plan, const Sheet &sheet) {
  if (!has_anything_to_cut(sheet)) return;
  html.open("section", "aria-labelledby=\"cut\"");
  sizes_to_cut(html, sheet);
  if (sheet.pieces) pieces(html, both_widths, job, plan, *sheet.pieces);
  html.close("section");
}

void join_section(Html &html, const JoinShown &join) {
  const std::string id = fmt::format("join-{}", join.sheet.join + 1);
  html.open("section", fmt::format("class=\"join\" aria-labelledby=\"{}\"", id));
  // In print, on one page.
  html.open("div", "class=\"lead\"");
  join_words(html, join.sheet, id);
  join_figure(html, join);
  html.close("div");
  as_drawn(html, join);
  curve(html, join);
  marks(html, join.sheet);
  working(html, join.sheet);
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
    join_section(html, {job, plan, join, both_widths});
  if (!sheet.joins_left_out.empty()) html.element("p", sheet.joins_left_out);
  if (!sheet.between_marks.empty()) html.element("p", sheet.between_marks);
  list(html, "h2", sheet.notes);
  list(html, "h2", sheet.cautions);
  html.close("main").close("body").close("html");
  return html.take();
}

} // namespace gatherwright::paper
