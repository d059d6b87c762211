// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/sheet/piece_rows.hpp"

#include <algorithm>
#include <utility>

namespace gatherwright::paper {

namespace {

constexpr double between_pictures = 3;

double height_of(const std::vector<PieceRow::Shown> &column) {
  double sum = 0;
  for (const PieceRow::Shown &shown : column)
    sum += shown.picture.height + (sum > 0 ? between_pictures : 0);
  return sum;
}

/// The column of the row that has room for a picture so high, if one has.
std::vector<PieceRow::Shown> *column_for(PieceRow &row, double high) {
  constexpr double hardly_higher = 12;
  if (row.over_both) return nullptr;
  if (row.right.empty()) return &row.right;
  std::vector<PieceRow::Shown> &lower = height_of(row.left) < height_of(row.right) ? row.left : row.right;
  return height_of(lower) + between_pictures + high <= row.height() + hardly_higher ? &lower : nullptr;
}

} // namespace

double PieceRow::height() const {
  return std::max(height_of(left), height_of(right));
}

std::vector<PieceRow> piece_rows(const Job &job, const Plan &plan, const std::vector<PieceId> &pieces, PieceRoom column,
                                 PieceRoom both) {
  std::vector<PieceRow> rows;
  for (const PieceId piece : pieces) {
    const bool over_both = !tells_every_mark(job, plan, piece, PieceShown::first, column);
    Page picture =
        piece_picture(job, plan, piece, PieceShown::first, over_both ? both : column, Signs::explained_elsewhere);
    auto *beside = over_both || rows.empty() ? nullptr : column_for(rows.back(), picture.height);
    if (beside != nullptr)
      beside->push_back({piece, std::move(picture)});
    else
      rows.push_back({{{piece, std::move(picture)}}, {}, over_both});
  }
  return rows;
}

} // namespace gatherwright::paper
