// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/picture/fold.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>

namespace gatherwright::paper {

namespace {

constexpr double narrowest = 45; ///< a cloth of garments drawn narrower than this is hard to read
constexpr std::size_t most_columns = 8;
constexpr std::size_t most_pages = 30;
constexpr double least_filled = 1.0 / 3;
constexpr double most_emptied = 1.0 / 6; ///< of a column, so that one piece less lies in two

class Folding {
public:
  Folding(double width, double length, const std::vector<Break> &breaks, const FoldRoom &room)
      : width_(width), length_(length), breaks_(breaks), room_(room) {}

  Folded fold() const {
    Choice best;
    for (std::size_t columns = 1; columns <= most_columns; ++columns)
      best = std::max(best, within(columns, 1));
    if (best.scale * width_ < narrowest) best = on_pages(best);
    return set(best);
  }

private:
  struct Choice {
    double scale = 0;
    std::size_t columns = 1; ///< of a page

    bool operator<(const Choice &other) const { return scale < other.scale; }
  };

  /// At which a cloth is as wide as a column; never larger than life.
  double widest(std::size_t columns) const {
    const double n = static_cast<double>(columns);
    const double column = (room_.width - (n - 1) * between_columns) / n - room_.beside;
    return std::clamp(column / width_, 1e-9 / width_, 1.0);
  }

  /// Of a column that begins there and holds so much of the cloth.
  Break end_of(double from, double held) const {
    if (length_ - from <= held * (1 + 1e-9)) return {length_, 0};
    const auto at = [](double place, const Break &each) { return place < each.at; };
    const auto first = std::upper_bound(breaks_.begin(), breaks_.end(), from + least_filled * held, at);
    Break end{from + held, 1};
    double worst = std::numeric_limits<double>::infinity();
    for (auto each = first; each != breaks_.end() && each->at <= from + held; ++each) {
      const double bad = static_cast<double>(each->divides) * most_emptied * held + (from + held - each->at);
      if (bad > worst) continue;
      worst = bad;
      end = *each;
    }
    return end;
  }

  bool goes_into(std::size_t columns, double scale) const {
    double from = 0;
    for (std::size_t i = 0; i < columns && from < length_; ++i)
      from = end_of(from, room_.height / scale).at;
    return from >= length_;
  }

  /// The largest scale at which so many columns on each of so many pages take it all.
  Choice within(std::size_t columns, std::size_t pages) const {
    double high = widest(columns);
    if (goes_into(columns * pages, high)) return {high, columns};
    double low = std::min(high, room_.height / length_);
    constexpr int halvings = 24;
    for (int i = 0; i < halvings; ++i) {
      const double middle = (low + high) / 2;
      (goes_into(columns * pages, middle) ? low : high) = middle;
    }
    return {low, columns};
  }

  /// As many columns as can be read, or more and smaller where that takes too many pages. What is no smaller on one
  /// page stays there.
  Choice on_pages(const Choice &on_one) const {
    std::size_t columns = 1;
    while (columns < most_columns && widest(columns + 1) * width_ >= narrowest)
      ++columns;
    Choice best{widest(columns), columns};
    if (!goes_into(columns * most_pages, best.scale)) {
      best = {};
      for (columns = 1; columns <= most_columns; ++columns)
        best = std::max(best, within(columns, most_pages));
    }
    return on_one < best ? best : on_one;
  }

  /// How much of the cloth each column holds at most: on one page columns are as even as divides the fewest pieces.
  double held_by(const Choice &chosen) const {
    const double most = room_.height / chosen.scale;
    const double least = length_ / static_cast<double>(chosen.columns);
    double best = most;
    if (least >= most) return best;
    std::size_t fewest = std::numeric_limits<std::size_t>::max();
    constexpr int tries = 32;
    for (int i = 0; i <= tries; ++i) {
      const double held = least + (most - least) * i / tries;
      double from = 0;
      std::size_t divided = 0;
      for (std::size_t column = 0; column < chosen.columns && from < length_; ++column) {
        const Break end = end_of(from, held);
        divided += end.divides;
        from = end.at;
      }
      if (from < length_ || divided >= fewest) continue;
      fewest = divided;
      best = held;
    }
    return best;
  }

  Folded set(const Choice &chosen) const {
    Folded folded{chosen.scale, {}};
    const double held = held_by(chosen);
    double from = 0;
    while (from < length_) {
      if (folded.pages.empty() || folded.pages.back().size() == chosen.columns) folded.pages.emplace_back();
      const double to = end_of(from, held).at;
      folded.pages.back().push_back({from, to});
      from = to;
    }
    return folded;
  }

  double width_;
  double length_;
  const std::vector<Break> &breaks_;
  const FoldRoom &room_;
};

} // namespace

Folded folded(double width, double length, const std::vector<Break> &breaks, const FoldRoom &room) {
  return Folding(width, length, breaks, room).fold();
}

} // namespace gatherwright::paper
