// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/sheet/pieces_content.hpp"

#include "cli/picture/key.hpp"
#include "cli/report/pieces_words.hpp"
#include "cli/words/cutting.hpp"
#include "cli/words/names.hpp"
#include "gatherwright/plan.hpp"

#include <fmt/format.h>

#include <array>
#include <utility>

namespace gatherwright::paper {

namespace {

/// Of cutting one cloth: more than that is followed on the picture.
constexpr std::size_t most_steps = 40;

/// A row a piece, the lines of its allowances in one cell.
SheetTable sizes(const Job &job, const Plan &plan, Filling &filling) {
  const report::Table told = report::sizes(job, plan);
  std::vector<FilledTable::Row> rows;
  for (const FilledTable::Row &row : told.cells())
    if (const bool goes_on = row[1].empty(); !goes_on)
      rows.push_back(row);
    else
      rows.back().back().append(" ").append(row.back());
  FilledTable table("Pieces", report::Table(told.headed()), filling);
  for (const FilledTable::Row &row : rows)
    table.add(row.front(), [&row](FilledTable::Row &cells) { cells = row; });
  return std::move(table).take();
}

/// The pictures of marks for which there is room; what is said of the others.
void add_marked(PiecesSheet &sheet, const Job &job, const Plan &plan, Filling &filling) {
  std::vector<PieceId> not_drawn;
  for (int i = 0; i < static_cast<int>(plan.pieces.size()); ++i) {
    const std::size_t marks = plan.pieces[i].marks.size();
    if (marks > 0) (filling.has_room_for_piece(marks) ? sheet.marked : not_drawn).emplace_back(i);
  }
  if (not_drawn.empty()) return;
  const std::string first = words::where(job, not_drawn.front());
  sheet.left_out =
      not_drawn.size() == 1
          ? fmt::format("The marks of {} are not drawn here, {}.", first, to_keep_it_short)
          : fmt::format("The marks of {} and of {} more {} are not drawn here, {}.", first, not_drawn.size() - 1,
                        not_drawn.size() == 2 ? "piece" : "pieces", to_keep_it_short);
}

ClothSheet cloth_sheet(const Job &job, const Plan &plan, std::size_t cloth, Filling &filling) {
  const ClothPlan &planned = plan.cloth[cloth];
  const std::array pieces{pieces_of(plan)};
  const bool drawn = filling.has_room_for_layout(planned.lay.size());
  return {.cloth = cloth,
          .heading = "Cutting " + report::cloth_called_short(planned.cloth),
          .buy = report::cloth_said(job, planned, plan.cloth.size() == 1),
          .drawn = drawn,
          .not_drawn = drawn ? ""
                             : fmt::format("Its {} pieces are too many to be drawn here; gatherwright plan --layout "
                                           "draws how they lie.",
                                           planned.lay.size()),
          .steps =
              filling.sentences(words::cutting_said({.job = job, .cloth = planned, .pieces = pieces}, most_steps))};
}

void add_cloths(PiecesSheet &sheet, const Job &job, const Plan &plan, Filling &filling) {
  for (std::size_t cloth = 0; cloth < plan.cloth.size(); ++cloth) {
    if (!filling.has_room_for_cloth()) {
      const std::size_t more = plan.cloth.size() - cloth;
      sheet.cloths_left_out =
          fmt::format("{} more {} left out here, from {} on, {}.", more, more == 1 ? "cloth is" : "cloths are",
                      report::cloth_called_short(plan.cloth[cloth].cloth), to_keep_it_short);
      return;
    }
    sheet.cloths.push_back(cloth_sheet(job, plan, cloth, filling));
  }
}

} // namespace

std::optional<PiecesSheet> pieces_sheet(const Job &job, const Plan &plan, Filling &filling) {
  if (plan.pieces.empty()) return std::nullopt;
  PiecesSheet sheet{.of_all_sizes = report::of_all_sizes(job, plan),
                    .sizes = sizes(job, plan, filling),
                    .between_seams = cut_short(report::sizes_between_seams(job, plan)),
                    .marked = {},
                    .signs = fmt::format("Solid lines are cut edges, dashed ones seam lines; a triangle is a named "
                                         "mark, a circle a pin. Distances{} are from the cut corner at the left or "
                                         "the top.",
                                         read_in(job.unit)),
                    .left_out = "",
                    .others_of_pairs = report::others_of_pairs(job, plan),
                    .cloths = {},
                    .cloths_left_out = "",
                    .too_wide = report::not_laid(job, plan),
                    .savings = filling.sentences(report::savings_said(job, plan))};
  add_marked(sheet, job, plan, filling);
  add_cloths(sheet, job, plan, filling);
  return sheet;
}

} // namespace gatherwright::paper
