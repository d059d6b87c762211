// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/sheet/pieces_blocks.hpp"

#include "cli/picture/layout_picture.hpp"
#include "cli/sheet/piece_rows.hpp"
#include "cli/sheet/sheet_blocks.hpp"
#include "gatherwright/plan.hpp"

#include <array>
#include <vector>

namespace gatherwright::paper {

namespace {

constexpr double above_picture = 2;
constexpr double heading_high = 10; ///< with the gap before it

void put_sentence(PageFlow &flow, const std::string &sentence) {
  if (!sentence.empty()) flow.paragraph(sentence);
}

void put_row(PageFlow &flow, const PieceRow &row) {
  const auto column = [](const std::vector<PieceRow::Shown> &pieces) {
    return [&pieces](PageFlow &at) {
      for (std::size_t i = 0; i < pieces.size(); ++i) {
        if (i > 0) at.gap(above_picture);
        at.figure(pieces[i].picture);
      }
    };
  };
  flow.keep_together(above_picture + row.height());
  flow.gap(above_picture);
  if (row.right.empty())
    column(row.left)(flow);
  else
    flow.beside(column(row.left), flow.half_width(), column(row.right));
}

void put_marks(PageFlow &flow, const Job &job, const Plan &plan, const PiecesSheet &sheet) {
  if (sheet.marked.empty() && sheet.left_out.empty()) return;
  // Two rows are to stand on a page with what is said over them.
  const double over = heading_high + flow.height_of_paragraph(sheet.signs);
  const PieceRoom beside{flow.half_width(), (flow.height() - over) / 2 - 2 * above_picture};
  const PieceRoom alone{flow.width(), 0.6 * flow.height()};
  const std::vector<PieceRow> rows = piece_rows(job, plan, sheet.marked, beside, alone);
  flow.small_heading(marks_on_pieces,
                     rows.empty() ? first_lines
                                  : flow.height_of_paragraph(sheet.signs) + above_picture + rows.front().height());
  if (!rows.empty()) flow.paragraph(sheet.signs);
  for (const PieceRow &row : rows)
    put_row(flow, row);
  put_sentence(flow, sheet.left_out);
  put_sentence(flow, sheet.others_of_pairs);
}

/// A cloth's heading, how much of it to buy, its layout and how it is cut.
class PutCloth {
public:
  PutCloth(PageFlow &flow, const Job &job, const Plan &plan, const ClothSheet &sheet)
      : flow_(flow), sheet_(sheet), pieces_{pieces_of(plan)}, laid_{.job = job,
                                                                    .cloth = plan.cloth.at(sheet.cloth),
                                                                    .pieces = pieces_},
        above_(heading_high + flow.height_of_paragraph(sheet.buy) + above_picture) {}

  /// As large as is of use: on what is left of this page, with the steps below it or not, where that is not much
  /// smaller than on a page of its own; closely set also beside the steps.
  void put(Setting setting) {
    if (!sheet_.drawn) {
      head(flow_.height_of_paragraph(sheet_.buy));
      flow_.paragraph(sheet_.not_drawn);
      steps(flow_);
      return;
    }
    const DrawnLayout largest = drawn_layout(laid_, flow_.width(), flow_.height() - above_);
    const double under = flow_.height_of_list(sheet_.steps);
    const double left = flow_.room() - above_;
    if (one_below_other(left - under, largest) || one_below_other(left, largest)) return;
    if (setting == Setting::close && beside(left, largest)) return;
    if (one_below_other(flow_.height() - above_ - under, largest)) return;
    put_below(largest);
  }

private:
  void head(double with) {
    flow_.small_heading(sheet_.heading, with);
    flow_.paragraph(sheet_.buy);
  }
  void steps(PageFlow &flow) const { flow.list(sheet_.steps, "•"); }

  bool one_below_other(double highest, const DrawnLayout &largest) {
    constexpr double hardly_smaller = 0.7;
    if (highest < lowest) return false;
    const DrawnLayout drawn = drawn_layout(laid_, flow_.width(), highest);
    if (drawn.pages.size() > 1 || drawn.scale < hardly_smaller * largest.scale) return false;
    put_below(drawn);
    return true;
  }

  void put_below(const DrawnLayout &drawn) {
    head(flow_.height_of_paragraph(sheet_.buy) + above_picture + drawn.pages.front().height);
    for (const Page &picture : drawn.pages) {
      flow_.gap(above_picture);
      flow_.figure(picture);
    }
    steps(flow_);
  }

  /// On what is left of this page, in as wide a column as leaves room for the steps.
  bool beside(double room, const DrawnLayout &largest) {
    constexpr double still_read = 0.4;
    if (room < lowest) return false;
    for (const double share : {0.72, 0.68, 0.64, 0.6, 0.56, 0.52}) {
      const double wide = share * flow_.width();
      const double rest = flow_.width() - wide - PageFlow::between_columns;
      if (flow_.height_of([this](PageFlow &at) { steps(at); }, rest) > room) continue;
      const DrawnLayout drawn = drawn_layout(laid_, wide, room);
      if (drawn.pages.size() > 1 || drawn.scale < still_read * largest.scale) return false;
      head(flow_.height_of_paragraph(sheet_.buy) + room);
      flow_.gap(above_picture);
      flow_.beside([&drawn](PageFlow &at) { at.figure(drawn.pages.front()); }, wide,
                   [this](PageFlow &at) { steps(at); });
      return true;
    }
    return false;
  }

  static constexpr double lowest = 100; ///< that a layout may be asked to be

  PageFlow &flow_;
  const ClothSheet &sheet_;
  std::array<WearersPieces, 1> pieces_;
  words::LaidCloth laid_;
  double above_; ///< the layout
};

} // namespace

void put_sizes(PageFlow &flow, const PiecesSheet &sheet) {
  flow.paragraph(sheet.of_all_sizes);
  put_table(flow, sheet.sizes);
  put_sentence(flow, sheet.between_seams);
}

void put_pieces(PageFlow &flow, const Job &job, const Plan &plan, const PiecesSheet &sheet, Setting setting) {
  for (const ClothSheet &each : sheet.cloths)
    PutCloth(flow, job, plan, each).put(setting);
  put_sentence(flow, sheet.cloths_left_out);
  put_sentence(flow, sheet.too_wide);
  put_marks(flow, job, plan, sheet);
}

} // namespace gatherwright::paper
