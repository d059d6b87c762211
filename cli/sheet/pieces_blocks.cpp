// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/sheet/pieces_blocks.hpp"

#include "cli/picture/layout_picture.hpp"
#include "cli/picture/piece_picture.hpp"
#include "cli/sheet/sheet_blocks.hpp"
#include "gatherwright/lay.hpp"

#include <algorithm>
#include <array>
#include <optional>
#include <vector>

namespace gatherwright::paper {

namespace {

constexpr double above_picture = 2;
constexpr double heading_high = 10; ///< with the gap before it

void put_sentence(PageFlow &flow, const std::string &sentence) {
  if (!sentence.empty()) flow.paragraph(sentence);
}

/// One piece, or two beside each other.
struct PictureRow {
  Page left;
  std::optional<Page> right;

  double height() const { return right ? std::max(left.height, right->height) : left.height; }
};

std::vector<PictureRow> picture_rows(const PageFlow &flow, const Job &job, const Plan &plan,
                                     const std::vector<PieceId> &pieces) {
  std::vector<PictureRow> rows;
  const double half = flow.half_width();
  bool room_beside = false;
  for (const PieceId piece : pieces) {
    const bool beside = tells_every_mark(job, plan, piece, PieceShown::first, half);
    Page picture = piece_picture(job, plan, piece, PieceShown::first, beside ? half : flow.width());
    if (beside && room_beside)
      rows.back().right = std::move(picture);
    else
      rows.push_back({std::move(picture), std::nullopt});
    room_beside = beside && !rows.back().right;
  }
  return rows;
}

void put_marks(PageFlow &flow, const Job &job, const Plan &plan, const PiecesSheet &sheet) {
  if (sheet.marked.empty() && sheet.left_out.empty()) return;
  const std::vector<PictureRow> rows = picture_rows(flow, job, plan, sheet.marked);
  flow.small_heading(marks_on_pieces, rows.empty() ? first_lines : above_picture + rows.front().height());
  for (const PictureRow &row : rows) {
    flow.keep_together(above_picture + row.height());
    flow.gap(above_picture);
    if (row.right)
      flow.figures(row.left, *row.right);
    else
      flow.figure(row.left);
  }
  put_sentence(flow, sheet.left_out);
  put_sentence(flow, sheet.others_of_pairs);
}

/// A layout as large as is of use: on what is left of this page, with how it is cut below it or not, where that is not
/// much smaller than on a page of its own.
DrawnLayout layout(const PageFlow &flow, const words::LaidCloth &laid, double over, double under) {
  constexpr double lowest = 100;      // that a layout may be asked to be
  constexpr double hardly_less = 0.8; // of the scale
  const double whole = flow.height() - over - above_picture;
  const double left = flow.room() - heading_high - over - above_picture;
  DrawnLayout largest = drawn_layout(laid, flow.width(), whole);
  for (const double highest : {left - under, left, whole - under}) {
    if (highest < lowest || highest > whole) continue;
    DrawnLayout drawn = drawn_layout(laid, flow.width(), highest);
    if (drawn.pages.size() <= 1 && drawn.scale >= hardly_less * largest.scale) return drawn;
  }
  return largest;
}

void put_cloth(PageFlow &flow, const Job &job, const Plan &plan, const ClothSheet &sheet) {
  const std::array pieces{pieces_of(plan)};
  const double words = flow.height_of_paragraph(sheet.buy);
  const double steps = flow.height_of_list(sheet.steps);
  if (!sheet.drawn) {
    flow.small_heading(sheet.heading, words);
    flow.paragraph(sheet.buy);
    flow.paragraph(sheet.not_drawn);
    flow.list(sheet.steps, "•");
    return;
  }
  const DrawnLayout drawn =
      layout(flow, {.job = job, .cloth = plan.cloth.at(sheet.cloth), .pieces = pieces}, words + heading_high, steps);
  flow.small_heading(sheet.heading, words + above_picture + drawn.pages.front().height);
  flow.paragraph(sheet.buy);
  for (const Page &picture : drawn.pages) {
    flow.gap(above_picture);
    flow.figure(picture);
  }
  flow.list(sheet.steps, "•");
}

} // namespace

void put_sizes(PageFlow &flow, const PiecesSheet &sheet) {
  flow.paragraph(sheet.of_all_sizes);
  put_table(flow, sheet.sizes);
  put_sentence(flow, sheet.between_seams);
}

void put_pieces(PageFlow &flow, const Job &job, const Plan &plan, const PiecesSheet &sheet) {
  put_marks(flow, job, plan, sheet);
  for (const ClothSheet &each : sheet.cloths)
    put_cloth(flow, job, plan, each);
  put_sentence(flow, sheet.cloths_left_out);
  put_sentence(flow, sheet.too_wide);
}

} // namespace gatherwright::paper
