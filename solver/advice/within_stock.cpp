// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/advice/within_stock.hpp"

#include "solver/advice/moved_pieces.hpp"
#include "solver/advice/nearest.hpp"
#include "solver/layout/lay.hpp"
#include "solver/piece/layouts.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

namespace gatherwright::advice {

namespace {

constexpr layout::Budget of_one_value{3'000'000, 1'000'000};

/// Where nothing orders the values of a length so many steps either way are looked at.
constexpr std::int64_t steps_each_way = 60;

/// Without an end of its own a room is looked at so far, in steps: 100 m at the finest of tapes.
constexpr std::int64_t steps_far_off = 1'000'000;

/// A layout fits that is longer by no more than this share.
constexpr double length_rounding = 1e-9;

class NarrowingByStock {
public:
  NarrowingByStock(const Job &job, const Plan &plan, optimum::Work &work)
      : job_(job), work_(work), pieces_(job, plan), cloths_(pieces_.cloths()), step_(job.tape_step.mm) {
    for (const Finding &finding : plan.findings)
      if (const auto *over = std::get_if<finding::OverStock>(&finding)) over_.push_back(over->at.at);
  }

  void narrow(LengthPlan &length, const Dependence &on_it) {
    on_it_ = &on_it;
    is_ = *length.is;
    for (int c = 0; c < static_cast<int>(cloths_.cloths.size()) && length.room; ++c) {
      if (!cloths_.cloths[c].stock || !cloths_.cloths[c].width) continue;
      cloth_ = c;
      const auto [grows, shrinks] = pieces_.ways(on_it, ClothId(cloth_), is_);
      const bool over = std::find(over_.begin(), over_.end(), c) != over_.end();
      if (!grows && !shrinks && over) length.room.reset();
      if (grows || shrinks) narrow_by_cloth(length, grows, shrinks);
    }
  }

private:
  bool fits(double value) {
    const auto sizes = pieces_.sizes_at(*on_it_, value);
    if (!sizes) return false;
    for (std::size_t p = 0; p < sizes->size(); ++p)
      if (cloths_.of_piece[p] == cloth_ && (*sizes)[p].too_wide) return false;
    const layout::Problem problem = piece::problem_of(job_, cloths_, ClothId(cloth_), *sizes);
    if (problem.rectangles.empty()) return true;
    if (layout::misfit(problem)) return false;
    for (const layout::Rectangle &rectangle : problem.rectangles)
      work_.add(rectangle.count);
    if (work_.spent()) return false;
    const Cloth &cloth = cloths_.cloths[cloth_];
    const double most = cloth.stock->is.mm * (1 - cloth.shrinkage.along) * (1 + length_rounding);
    return layout::fits(problem, most, of_one_value).answer == layout::Fitting::Answer::fits;
  }

  bool fits(std::int64_t steps) { return fits(static_cast<double>(steps) * step_); }

  void narrow_by_cloth(LengthPlan &length, bool grows, bool shrinks) {
    Interval &room = *length.room;
    const auto first = static_cast<std::int64_t>(std::ceil(room.low.value_or(0) / step_ - on_step));
    const auto last =
        room.high ? static_cast<std::int64_t>(std::floor(*room.high / step_ + on_step)) : first + steps_far_off;
    const auto nearest = std::clamp(static_cast<std::int64_t>(std::llround(is_ / step_)), first, std::max(first, last));
    const bool as_planned = fits(is_) && first <= last;
    if (!as_planned && (grows == shrinks)) return length.room.reset();
    // From a value that fits towards larger pieces: the smallest pieces of the room where those planned do not fit.
    const auto end_of = [&](bool up) { return up ? last : first; };
    const bool held_up = !as_planned;
    for (const bool up : {false, true}) {
      if (!(up ? grows : shrinks)) continue;
      const bool mixed = grows && shrinks;
      const std::int64_t from = held_up ? end_of(!up) : nearest;
      if (held_up && !fits(from)) return length.room.reset();
      std::int64_t end = end_of(up);
      if (mixed) end = up ? std::min(end, from + steps_each_way) : std::max(end, from - steps_each_way);
      const std::int64_t last_fit = mixed ? last_in_row(from, end) : last_between(from, end);
      if (last_fit == end_of(up)) continue;
      (up ? room.high : room.low) = static_cast<double>(last_fit) * step_;
      length.binds[up ? 1 : 0] = condition::WithinStock{ClothId(cloth_)};
    }
  }

  /// The last that fits on the way from a value to an end, where all before it do.
  std::int64_t last_between(std::int64_t from, std::int64_t end) {
    if (from == end || fits(end)) return end;
    std::int64_t fails_at = end;
    while (std::abs(fails_at - from) > 1) {
      const std::int64_t middle = from + (fails_at - from) / 2;
      (fits(middle) ? from : fails_at) = middle;
    }
    return from;
  }

  std::int64_t last_in_row(std::int64_t from, std::int64_t end) {
    const std::int64_t way = end > from ? 1 : -1;
    while (from != end && fits(from + way))
      from += way;
    return from;
  }

  const Job &job_;
  optimum::Work &work_;
  MovedPieces pieces_;
  const Cloths &cloths_;
  double step_;
  std::vector<int> over_; ///< cloths of which more is taken than there is
  const Dependence *on_it_ = nullptr;
  double is_ = 0;
  int cloth_ = 0;
};

} // namespace

bool keep_within_stock(const Job &job, Plan &plan, const Dependents &dependents, optimum::Work &work) {
  const auto limited = [](const Piece &piece) { return piece.fabric.stock.has_value(); };
  if (std::none_of(job.pieces.begin(), job.pieces.end(), limited)) return true;
  NarrowingByStock narrowing(job, plan, work);
  for (int i = 0; i < static_cast<int>(plan.lengths.size()); ++i) {
    LengthPlan &length = plan.lengths[i];
    if (!length.room) continue;
    if (!work.spent()) narrowing.narrow(length, dependents.of(i));
    if (work.spent()) length.room.reset();
  }
  return !work.spent();
}

} // namespace gatherwright::advice
