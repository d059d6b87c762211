// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/piece/layouts.hpp"

#include "gatherwright/bounds.hpp"
#include "solver/layout/lay.hpp"
#include "solver/mark/rounding.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

namespace gatherwright {

namespace piece {

namespace {

/// Layouts of so many cloths may each take all that one may; of more each takes less.
constexpr std::int64_t whole_budgets = 4;

/// Where a rectangle comes from.
struct Source {
  PieceId piece;
  int wearer = 0;
};

/// What is to be laid on one cloth.
struct ToLay {
  layout::Problem problem;
  std::vector<Source> sources;  ///< of each rectangle
  std::optional<PieceId> first; ///< of the pieces
};

/// What is within rounding of the cloth's width is as wide as it, so that nothing of it is over.
layout::Rectangle rectangle_of(const Piece &piece, const WearersPieces::Size &size, double usable) {
  layout::Rectangle rectangle{size.across, size.along, piece.cut, piece.turn};
  double &least = piece.turn && rectangle.along < rectangle.across ? rectangle.along : rectangle.across;
  least = std::min(least, usable);
  return rectangle;
}

double area_of(const layout::Problem &problem) {
  double area = 0;
  for (const layout::Rectangle &rectangle : problem.rectangles)
    area += rectangle.count * rectangle.across * rectangle.along;
  return area;
}

Cut cut_of(const layout::Cut &cut) {
  const auto run = cut.run == layout::Run::across ? Cut::Run::across : Cut::Run::along;
  return {run, cut.at, cut.from, cut.to};
}

/// Copies of a piece are counted through all rectangles of a wearer that are made of it: there is one.
ClothPlan plan_of(const Cloth &cloth, const ToLay &to_lay, const layout::Layout &laid, double tape_step) {
  ClothPlan plan;
  plan.cloth = cloth;
  plan.usable = to_lay.problem.width;
  plan.length = laid.length;
  plan.bound = laid.bound;
  plan.shortest = laid.shortest || laid.length - laid.bound < tape_step;
  plan.used = area_of(to_lay.problem) / (laid.length * plan.usable);
  plan.buy = laid.length / (1 - cloth.shrinkage.along);
  plan.buy_by_step = std::ceil(plan.buy / cloth.sold_by.mm - mark::on_step) * cloth.sold_by.mm;
  if (cloth.stock) plan.stock = StockPlan{cloth.stock->is.mm, cloth.stock->is.mm - plan.buy, true};
  for (const layout::Placement &at : laid.placements) {
    const Source &source = to_lay.sources[at.rectangle];
    plan.lay.push_back({.piece = source.piece,
                        .copy = at.copy,
                        .wearer = source.wearer,
                        .across = at.across,
                        .along = at.along,
                        .turned = at.turned});
  }
  for (const layout::Cut &cut : laid.cuts)
    plan.cuts.push_back(cut_of(cut));
  return plan;
}

/// The shortest layout that is found; where that is longer than the cloth there is, one that is not, if it is found.
layout::Layout within_stock(const Cloth &cloth, const layout::Problem &problem, const layout::Budget &budget) {
  layout::Layout laid = layout::lay(problem, budget);
  if (!cloth.stock || laid.shortest) return laid;
  const double most = cloth.stock->is.mm * (1 - cloth.shrinkage.along);
  if (laid.length <= most) return laid;
  layout::Fitting fitting = layout::fits(problem, most, budget);
  if (!fitting.layout) return laid;
  if (laid.bound <= fitting.layout->bound) return *std::move(fitting.layout);
  fitting.layout->bound = std::min(laid.bound, fitting.layout->length);
  return *std::move(fitting.layout);
}

std::vector<ToLay> sorted_by_cloth(const Job &job, const Cloths &cloths, std::span<const WearersPieces> wearers) {
  std::vector<ToLay> to_lay(cloths.cloths.size());
  for (std::size_t c = 0; c < to_lay.size(); ++c)
    to_lay[c].problem.width = usable(cloths.cloths[c]).value_or(0);
  for (int w = 0; w < static_cast<int>(wearers.size()); ++w)
    for (int p = 0; p < static_cast<int>(wearers[w].sizes.size()); ++p) {
      ToLay &on = to_lay[cloths.of_piece[p]];
      if (!on.first) on.first = PieceId(p);
      const WearersPieces::Size &size = wearers[w].sizes[p];
      if (size.too_wide) continue;
      on.problem.rectangles.push_back(rectangle_of(job.pieces[p], size, on.problem.width));
      on.sources.push_back({PieceId(p), w});
    }
  return to_lay;
}

} // namespace

layout::Problem problem_of(const Job &job, const Cloths &cloths, ClothId at,
                           std::span<const WearersPieces::Size> sizes) {
  layout::Problem problem;
  problem.width = usable(cloths.cloths[at.at]).value_or(0);
  for (std::size_t p = 0; p < sizes.size(); ++p)
    if (cloths.of_piece[p] == at.at && !sizes[p].too_wide)
      problem.rectangles.push_back(rectangle_of(job.pieces[p], sizes[p], problem.width));
  return problem;
}

layout::Budget budget_of_one(std::size_t cloths) {
  layout::Budget budget;
  const auto count = static_cast<std::int64_t>(cloths);
  if (count <= whole_budgets) return budget;
  budget.proving = budget.proving * whole_budgets / count;
  budget.searching = budget.searching * whole_budgets / count;
  return budget;
}

WearersPieces::Size cut_sizes(const Job &job, PieceId piece, const Sizes &sizes) {
  return {sizes.cut_across(), sizes.cut_along(), too_wide(job, piece, sizes).has_value()};
}

Laid lay(const Job &job, std::span<const WearersPieces> wearers) {
  const Cloths cloths = cloths_of(job);
  const std::vector<ToLay> to_lay = sorted_by_cloth(job, cloths, wearers);
  const layout::Budget budget = budget_of_one(to_lay.size());
  Laid laid;
  for (int c = 0; c < static_cast<int>(to_lay.size()); ++c) {
    using Why = note::NotLaid::Why;
    const ToLay &on = to_lay[c];
    if (!cloths.cloths[c].width)
      laid.not_laid.push_back({*on.first, Why::no_width});
    else if (on.problem.rectangles.empty())
      laid.not_laid.push_back({*on.first, Why::too_wide});
    else if (layout::misfit(on.problem))
      laid.not_laid.push_back({*on.first, Why::lost});
    else
      laid.cloth.push_back(
          plan_of(cloths.cloths[c], on, within_stock(cloths.cloths[c], on.problem, budget), job.tape_step.mm));
  }
  return laid;
}

} // namespace piece

std::optional<std::vector<ClothPlan>> lay_together(const Job &job, std::span<const WearersPieces> wearers) {
  std::int64_t count = 0;
  for (const WearersPieces &wearer : wearers)
    for (std::size_t p = 0; p < wearer.sizes.size(); ++p)
      count += job.pieces[p].cut;
  if (count > bounds::most_cut) return std::nullopt;
  return std::move(piece::lay(job, wearers).cloth);
}

} // namespace gatherwright
