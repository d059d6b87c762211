// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/sheet/html_parts.hpp"

#include "cli/drawing/svg.hpp"
#include "cli/picture/drawn_edge_picture.hpp"
#include "cli/picture/fullness_picture.hpp"
#include "cli/picture/join_picture.hpp"
#include "cli/sheet/pieces_html.hpp"
#include "cli/words/names.hpp"

#include <fmt/format.h>

namespace gatherwright::paper {

namespace {

/// Columns of words that a phone has room for side by side.
constexpr std::size_t most_beside = 3;

bool is_bad(Verdict verdict) {
  return verdict != Verdict::within_limits;
}

} // namespace

void verdict(Html &html, const Sheet &sheet) {
  html.markup(
      fmt::format("<p class=\"verdict{}\"><strong><span class=\"sign\" aria-hidden=\"true\">{}</span> {}</strong>; "
                  "{}.</p>\n",
                  is_bad(sheet.verdict) ? " bad" : "", sign(sheet.verdict), sheet.judged, escaped(sheet.meaning)));
  for (const std::string &caution : sheet.first_cautions)
    html.markup(fmt::format("<p class=\"verdict bad\"><strong>Caution</strong>: {}</p>\n", escaped(caution)));
}

bool has_anything_to_cut(const Sheet &sheet) {
  return sheet.pieces || !sheet.to_cut.empty() || !sheet.rules.sentences.empty();
}

void sizes_to_cut(Html &html, const Sheet &sheet) {
  html.element("h2", "What to cut", "id=\"cut\"");
  if (sheet.pieces) sizes_of_pieces(html, *sheet.pieces);
  paragraph(html, sheet.between_seams);
  for (const SheetTable &each : sheet.to_cut)
    table(html, each, 0, each.table.filled().size() > most_beside ? RowsOf::joins : RowsOf::lengths);
  list(html, "h3", sheet.rules, "class=\"rules\"");
}

void join_words(Html &html, const JoinSheet &join, std::string_view id) {
  html.markup(fmt::format("<h2 id=\"{}\">{}", id, escaped(join.heading)));
  if (!join.made.empty()) html.markup(fmt::format(" <span class=\"made\">({})</span>", escaped(join.made)));
  html.markup("</h2>\n");
  if (is_bad(join.verdict))
    html.markup(fmt::format("<p class=\"bad-word\"><span class=\"sign\" aria-hidden=\"true\">{}</span> {}</p>\n",
                            sign(join.verdict), words::verdict(join.verdict)));
  html.element("p", join.edges);
  items(html, join.stretches);
}

void join_figure(Html &html, const JoinShown &join) {
  if (!join.sheet.drawn) return;
  const auto picture = [&](double width) { return join_picture(join.job, join.asked(), join.planned(), width); };
  figure(html, join.widths, picture, join.sheet.of_the_picture);
}

void as_drawn(Html &html, const JoinShown &join) {
  for (const AsDrawn &each : join.sheet.as_drawn) {
    const auto picture = [&](double width) {
      return drawn_edge_picture(join.job, join.asked(), join.planned(), each.edge, width);
    };
    figure(html, join.widths, picture, {each.caption});
  }
}

void curve(Html &html, const JoinShown &join) {
  if (!join.sheet.drawn || join.sheet.fullest.empty()) return;
  const auto picture = [&](double width) { return *fullness_picture(join.asked(), join.planned(), width); };
  figure(html, join.widths, picture, {join.sheet.fullest});
}

void marks(Html &html, const JoinSheet &join) {
  table(html, join.marks, 0, RowsOf::marks);
  paragraphs(html, join.below_marks);
  if (!join.mirrored.empty()) html.element("p", join.mirrored);
  if (join.marks_mirrored) table(html, *join.marks_mirrored, 0, RowsOf::mirrored_marks);
  paragraphs(html, join.below_mirrored);
}

void working(Html &html, const JoinSheet &join) {
  if (!join.working.empty()) html.element("h3", "How to run it");
  paragraphs(html, join.working);
}

} // namespace gatherwright::paper
