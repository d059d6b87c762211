// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/advice/moved.hpp"

namespace gatherwright::advice {

Moved::Moved(const Job &job, const Plan &plan) : job_(job), planned_(job.symbols()) {
  for (std::size_t m = 0; m < job.measures.size(); ++m)
    planned_[m] = job.measures[m].is.mm;
  if (job.fabric.width) planned_[job.symbol_of_cloth_width()] = job.fabric.width->mm;
  for (std::size_t i = 0; i < job.lengths.size(); ++i)
    planned_[job.symbol_of(LengthId(static_cast<int>(i)))] = *plan.lengths[i].is;
  values_ = planned_;
}

void Moved::move(const Dependence &on_it, double value) {
  for (const int symbol : moved_)
    values_[symbol] = planned_[symbol];
  moved_.clear();
  for (const int length : on_it.lengths) {
    const int symbol = moved_.emplace_back(job_.symbol_of(LengthId(length)));
    if (length == on_it.lengths.front())
      values_[symbol] = value;
    else if (const Formula *is = job_.lengths[length].fixed())
      values_[symbol] = this->value(*is).value_or(values_[symbol]);
  }
}

std::optional<piece::Sizes> Moved::sizes(PieceId at) const {
  const Piece &piece = job_[at];
  const auto across = value(piece.across);
  const auto along = value(piece.along);
  if (!across || !along) return std::nullopt;
  piece::Sizes sizes{*across, *along, {}, {}};
  for (const Side side : all_sides) {
    const std::optional<Formula> &allowance = piece.allowance[side] ? piece.allowance[side] : job_.allowance;
    const auto is = allowance ? value(*allowance) : 0;
    if (!is) return std::nullopt;
    sizes.allowance[side] = *is;
  }
  return sizes;
}

} // namespace gatherwright::advice
