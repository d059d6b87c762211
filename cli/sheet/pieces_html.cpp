// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/sheet/pieces_html.hpp"

#include "cli/drawing/svg.hpp"
#include "cli/picture/layout_picture.hpp"
#include "cli/picture/piece_picture.hpp"
#include "cli/sheet/html_blocks.hpp"
#include "cli/sheet/piece_rows.hpp"
#include "gatherwright/plan.hpp"

#include <fmt/format.h>

#include <array>
#include <utility>
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

void marks(Html &html, const Job &job, const Plan &plan, const PiecesSheet &sheet) {
  if (sheet.marked.empty() && sheet.left_out.empty()) return;
  html.element("h3", marks_on_pieces);
  if (!sheet.marked.empty()) paragraph(html, sheet.signs);
  for (const PieceRow &row : piece_rows(job, plan, sheet.marked, beside, {wide.width, highest_alone})) {
    if (row.over_both) {
      const PieceId piece = row.left.front().piece;
      figure(html,
             [&](double width) {
               return piece_picture(job, plan, piece, PieceShown::first, {width, highest_alone},
                                    Signs::explained_elsewhere);
             },
             {});
      continue;
    }
    html.open("div", "class=\"beside\"");
    column(html, row.left);
    column(html, row.right);
    html.close("div");
  }
  paragraph(html, sheet.left_out);
  paragraph(html, sheet.others_of_pairs);
}

/// How high a layout may be: with its heading it fits a printed page, and in a hand it is not folded over columns
/// before it is very long.
constexpr double highest_wide = 215;
constexpr double highest_narrow = 480;

/// Each picture of a long layout is a figure by itself, so that none is parted in print.
void layout(Html &html, const words::LaidCloth &laid) {
  for (const auto &[each, highest] : {std::pair(wide, highest_wide), std::pair(narrow, highest_narrow)})
    for (const Page &picture : layout_pictures(laid, each.width, highest))
      html.open("figure", fmt::format("class=\"{}\"", each.shown)).markup(svg_element(picture)).close("figure");
}

void cloth(Html &html, const Job &job, const Plan &plan, const ClothSheet &sheet) {
  const std::array pieces{pieces_of(plan)};
  html.open("div", "class=\"cloth\"").element("h3", sheet.heading);
  paragraph(html, sheet.buy);
  paragraph(html, sheet.not_drawn);
  if (sheet.drawn) layout(html, {.job = job, .cloth = plan.cloth.at(sheet.cloth), .pieces = pieces});
  items(html, sheet.steps);
  html.close("div");
}

} // namespace

void sizes_of_pieces(Html &html, const PiecesSheet &sheet) {
  paragraph(html, sheet.of_all_sizes);
  table(html, sheet.sizes, 0, RowsOf::pieces);
  paragraph(html, sheet.between_seams);
}

void pieces(Html &html, const Job &job, const Plan &plan, const PiecesSheet &sheet) {
  for (const ClothSheet &each : sheet.cloths)
    cloth(html, job, plan, each);
  paragraph(html, sheet.cloths_left_out);
  paragraph(html, sheet.too_wide);
  marks(html, job, plan, sheet);
}

} // namespace gatherwright::paper
