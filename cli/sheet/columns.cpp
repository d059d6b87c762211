// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/sheet/columns.hpp"

#include <algorithm>
#include <optional>

namespace gatherwright::paper {

namespace {

constexpr double hardly_higher = 3; ///< millimetres

constexpr double too_narrow = 1e9; ///< high, for what does not go into a column

std::vector<double> heights(const PageFlow &flow, const Blocks &blocks, double width) {
  std::vector<double> all;
  all.reserve(blocks.size());
  for (const Block &block : blocks)
    all.push_back(block.least_width > width + 1e-6 ? too_narrow : flow.height_of(block.set, width));
  return all;
}

} // namespace

Sharing shared_out(const std::vector<double> &left, const std::vector<double> &right) {
  const std::size_t blocks = left.size();
  const std::size_t shared = std::min(blocks, most_shared);
  std::optional<Sharing> best;
  double best_counted = 0;
  for (std::size_t chosen = 0; chosen < std::size_t{1} << shared; chosen += 2) { // the first is at the left
    Sharing sharing{std::vector<bool>(blocks), 0};
    double high_left = 0;
    double high_right = 0;
    bool read_down = true;
    for (std::size_t i = 0; i < blocks; ++i) {
      const bool at_right = (chosen >> std::min(i, shared - 1)) % 2 != 0;
      read_down = read_down && (i == 0 || at_right || !sharing.at_right[i - 1]);
      sharing.at_right[i] = at_right;
      (at_right ? high_right : high_left) += at_right ? right[i] : left[i];
    }
    sharing.height = std::max(high_left, high_right);
    const double counted = sharing.height + (read_down ? 0 : hardly_higher);
    if (best && counted >= best_counted) continue;
    best_counted = counted;
    best = std::move(sharing);
  }
  return best.value_or(Sharing{});
}

Columns::Columns(const PageFlow &flow, Blocks blocks, double left_width)
    : blocks_(std::move(blocks)), left_width_(left_width) {
  const double whole = flow.width();
  sharing_ = shared_out(heights(flow, blocks_, left_width),
                        heights(flow, blocks_, whole - left_width - PageFlow::between_columns));
  double all_below = 0;
  for (const Block &block : blocks_)
    all_below += flow.height_of(block.set, whole);
  const bool any_at_right =
      std::find(sharing_.at_right.begin(), sharing_.at_right.end(), true) != sharing_.at_right.end();
  beside_ = any_at_right && sharing_.height < all_below && sharing_.height <= flow.height();
  height_ = beside_ ? sharing_.height : all_below;
}

PageFlow::Content Columns::column(bool right) const {
  return [this, right](PageFlow &flow) {
    for (std::size_t i = 0; i < blocks_.size(); ++i)
      if (sharing_.at_right[i] == right) blocks_[i].set(flow);
  };
}

void Columns::set(PageFlow &flow) const {
  if (!beside_) {
    for (const Block &block : blocks_)
      block.set(flow);
    return;
  }
  flow.keep_together(height_);
  flow.beside(column(false), left_width_, column(true));
}

void Rows::add(Columns columns) {
  height_ += columns.height();
  rows_.push_back(std::move(columns));
}

void Rows::set(PageFlow &flow) const {
  for (const Columns &row : rows_)
    row.set(flow);
}

const Rows &lowest(const std::vector<Rows> &several) {
  return *std::min_element(several.begin(), several.end(),
                           [](const Rows &a, const Rows &b) { return a.height() < b.height(); });
}

} // namespace gatherwright::paper
