// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/layout/drawn.hpp"

#include <algorithm>
#include <tuple>

namespace gatherwright::layout {

namespace {

/// A node and the part of the strip it is cut from.
struct Part {
  int node = 0;
  Ticks across = 0; ///< its corner
  Ticks along = 0;
  Ticks width = 0;
  Ticks length = 0;
};

/// The rectangles of each kind that have no place yet, the next one last.
std::vector<std::vector<Placement>> waiting(const Problem &problem, const Grid &grid) {
  std::vector<std::vector<Placement>> copies(grid.strip.kinds.size());
  for (std::size_t i = problem.rectangles.size(); i-- > 0;)
    for (int copy = problem.rectangles[i].count; copy >= 1; --copy)
      copies[grid.source[i].kind].push_back({i, copy, 0, 0, grid.source[i].turned});
  return copies;
}

class Drawing {
public:
  Drawing(const Problem &problem, const Grid &grid, const Tree &tree)
      : grid_(grid), tree_(tree), width_(problem.width), waiting_(waiting(problem, grid)) {}

  Layout draw() {
    std::vector<Part> parts;
    if (!tree_.empty()) parts.push_back({tree_.root, 0, 0, grid_.strip.width, tree_.along()});
    while (!parts.empty()) {
      Part part = parts.back();
      parts.pop_back();
      trim(part);
      divide(part, parts);
    }
    layout_.length = grid_.along.length(tree_.along());
    std::sort(layout_.placements.begin(), layout_.placements.end(), [](const Placement &a, const Placement &b) {
      return std::tie(a.rectangle, a.copy) < std::tie(b.rectangle, b.copy);
    });
    return std::move(layout_);
  }

private:
  double across(Ticks at) const { return at == grid_.strip.width ? width_ : grid_.across.length(at); }
  double along(Ticks at) const { return grid_.along.length(at); }

  void cut_across(const Part &part, Ticks at) {
    layout_.cuts.push_back({Run::across, along(at), across(part.across), across(part.across + part.width)});
  }
  void cut_along(const Part &part, Ticks at) {
    layout_.cuts.push_back({Run::along, across(at), along(part.along), along(part.along + part.length)});
  }

  void trim(Part &part) {
    const Tree::Node &node = tree_.nodes[part.node];
    if (part.length - node.along > grid_.sliver_along) {
      cut_across(part, part.along + node.along);
      part.length = node.along;
    }
    // Cloth is torn across its whole width first, and only then is what is not needed of each part cut off its side.
    const bool torn_next = node.join == Tree::Join::behind && part.width == grid_.strip.width;
    if (!torn_next && part.width - node.across > grid_.sliver_across) {
      cut_along(part, part.across + node.across);
      part.width = node.across;
    }
  }

  void divide(const Part &part, std::vector<Part> &parts) {
    const Tree::Node &node = tree_.nodes[part.node];
    if (node.join == Tree::Join::piece) {
      Placement placed = waiting_[node.first].back();
      waiting_[node.first].pop_back();
      placed.across = across(part.across);
      placed.along = along(part.along);
      placed.turned = placed.turned != node.turned;
      layout_.placements.push_back(placed);
      return;
    }
    Part first = part;
    Part second = part;
    first.node = node.first;
    second.node = node.second;
    if (node.join == Tree::Join::behind) {
      first.length = tree_.nodes[node.first].along;
      second.along += first.length;
      second.length -= first.length;
      cut_across(part, second.along);
    } else {
      first.width = tree_.nodes[node.first].across;
      second.across += first.width;
      second.width -= first.width;
      cut_along(part, second.across);
    }
    parts.push_back(second);
    parts.push_back(first);
  }

  const Grid &grid_;
  const Tree &tree_;
  double width_;
  std::vector<std::vector<Placement>> waiting_;
  Layout layout_;
};

} // namespace

Layout drawn(const Problem &problem, const Grid &grid, const Tree &tree) {
  return Drawing(problem, grid, tree).draw();
}

} // namespace gatherwright::layout
