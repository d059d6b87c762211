// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/sheet/pieces_html.hpp"

#include "cli/drawing/svg.hpp"
#include "cli/picture/layout_picture.hpp"
#include "cli/picture/piece_picture.hpp"
#include "cli/report/pieces_words.hpp"
#include "cli/sheet/piece_rows.hpp"
#include "gatherwright/plan.hpp"

#include <fmt/format.h>

#include <array>
#include <vector>

namespace gatherwright::paper {

namespace {

/// Of a picture beside another: half of the wide one without what is between them. On a phone it is read as well.
constexpr PieceRoom beside{88, 130};
constexpr double highest_alone = 150;

void column(Html &html, const std::vector<PieceRow::Shown> &pieces) {
  html.open("div");
  for (const PieceRow::Shown &shown : pieces)
    html.open("figure").markup(svg_element(shown.picture)).close("figure");
  html.close("div");
}

void rows_of_pictures(Html &html, Widths widths, const Job &job, const Plan &plan, const PiecesSheet &sheet) {
  for (const PieceRow &row : piece_rows(job, plan, sheet.marked, beside, {wide.width, highest_alone})) {
    if (row.over_both) {
      const PieceId piece = row.left.front().piece;
      const auto picture = [&](double width) {
        return piece_picture(job, plan, piece, PieceShown::first, {width, highest_alone}, Signs::explained_elsewhere);
      };
      figure(html, widths, picture, {});
      continue;
    }
    html.open("div", "class=\"beside\"");
    column(html, row.left);
    column(html, row.right);
    html.close("div");
  }
}

/// How high a layout may be: with its heading it fits a printed page, and in a hand it is not folded over columns
/// before it is very long.
double highest_layout(const PictureWidth &width) {
  return width.shown == wide.shown ? 215 : 480;
}

/// Each picture of a long layout is a figure by itself, so that none is parted in print.
void layout(Html &html, Widths widths, const words::LaidCloth &laid) {
  for (const PictureWidth &each : widths)
    for (const Page &picture : layout_pictures(laid, each.width, highest_layout(each)))
      html.open("figure", fmt::format("class=\"{}\"", each.shown)).markup(svg_element(picture)).close("figure");
}

} // namespace

void cloth(Html &html, Widths widths, const Job &job, const Plan &plan, const ClothSheet &sheet) {
  const std::array pieces{pieces_of(plan)};
  html.open("div", "class=\"cloth\"").element("h3", sheet.heading);
  paragraph(html, sheet.buy);
  paragraph(html, sheet.not_drawn);
  if (sheet.drawn) layout(html, widths, {.job = job, .cloth = plan.cloth.at(sheet.cloth), .pieces = pieces});
  items(html, sheet.steps);
  html.close("div");
}

void sizes_of_pieces(Html &html, const PiecesSheet &sheet) {
  paragraph(html, sheet.of_all_sizes);
  table(html, sheet.sizes, 0, RowsOf::pieces);
  paragraph(html, sheet.between_seams);
}

void savings(Html &html, const Plan &plan, const PiecesSheet &sheet) {
  if (sheet.savings.empty()) return;
  html.element("h3", report::savings_heading(plan));
  items(html, sheet.savings);
}

void on_pieces(Html &html, Widths widths, const Job &job, const Plan &plan, const PiecesSheet &sheet) {
  if (sheet.marked.empty() && sheet.left_out.empty()) return;
  html.element("h3", marks_on_pieces);
  if (!sheet.marked.empty()) paragraph(html, sheet.signs);
  rows_of_pictures(html, widths, job, plan, sheet);
  paragraph(html, sheet.left_out);
  paragraph(html, sheet.others_of_pairs);
}

void pieces(Html &html, Widths widths, const Job &job, const Plan &plan, const PiecesSheet &sheet) {
  for (const ClothSheet &each : sheet.cloths)
    cloth(html, widths, job, plan, each);
  paragraph(html, sheet.cloths_left_out);
  paragraph(html, sheet.too_wide);
  on_pieces(html, widths, job, plan, sheet);
  savings(html, plan, sheet);
}

} // namespace gatherwright::paper
