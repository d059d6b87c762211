// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/layout/drawn.hpp"

#include <algorithm>
#include <tuple>
#include <utility>
#include <vector>

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

/// The same layout, its parts joined so that of those that lie in a row the one nearest the start is cut off first.
/// Parts of a row that is narrower than another row it is part of stay together: what is beside them is cut off once.
class InOrder {
public:
  explicit InOrder(const Tree &tree) : tree_(tree), rows_(tree.nodes.size()), used_(tree.nodes.size()) {
    if (tree.empty()) return;
    mark();
    for (std::size_t n = 0; n < tree.nodes.size(); ++n)
      if (used_[n].in_tree) make(static_cast<int>(n));
    made_.root = joined(tree.root);
  }

  const Tree &tree() const { return made_; }

private:
  struct Used {
    bool in_tree = false;
    bool torn_off = false; ///< across the whole strip
  };

  /// Nodes come after their parts.
  void mark() {
    used_[tree_.root] = {true, true};
    for (int n = tree_.root; n >= 0; --n) {
      const Tree::Node &node = tree_.nodes[n];
      if (!used_[n].in_tree || node.join == Tree::Join::piece) continue;
      for (const int part : {node.first, node.second})
        used_[part] = {true, used_[n].torn_off && node.join == Tree::Join::behind};
    }
  }

  void make(int n) {
    const Tree::Node &node = tree_.nodes[n];
    if (node.join == Tree::Join::piece) {
      made_.nodes.push_back(node);
      rows_[n] = {static_cast<int>(made_.nodes.size()) - 1};
      return;
    }
    rows_[n] = row_within(node.first, n);
    const std::vector<int> behind = row_within(node.second, n);
    rows_[n].insert(rows_[n].end(), behind.begin(), behind.end());
  }

  /// The parts of a node as parts of the one it is in: its row, where that goes on in it, else itself.
  std::vector<int> row_within(int part, int whole) {
    const Tree::Node &node = tree_.nodes[part];
    const Tree::Node &of = tree_.nodes[whole];
    const bool as_wide = of.join == Tree::Join::behind ? node.across == of.across : node.along == of.along;
    const bool torn_off = used_[whole].torn_off && of.join == Tree::Join::behind;
    if (node.join == of.join && (as_wide || torn_off)) return std::move(rows_[part]);
    return {joined(part)};
  }

  int joined(int n) {
    const Tree::Join how = tree_.nodes[n].join;
    const std::vector<int> &row = rows_[n];
    int last = -1;
    for (std::size_t end = row.size(); end > 0;) {
      const std::size_t first = used_[n].torn_off ? first_alike(row, end) : end - 1;
      int alike = -1;
      for (std::size_t i = first; i < end; ++i)
        alike = made_.join(how, alike, row[i]);
      last = made_.join(how, alike, last);
      end = first;
    }
    return last;
  }

  /// Where many of one size end a row, the first of them: they are torn off one after another before any is cut up.
  std::size_t first_alike(const std::vector<int> &row, std::size_t end) const {
    constexpr std::size_t many = 3;
    const auto is_like_last = [&](int part) {
      const Tree::Node &one = made_.nodes[part];
      const Tree::Node &other = made_.nodes[row[end - 1]];
      return one.along == other.along && one.across == other.across;
    };
    std::size_t first = end - 1;
    while (first > 0 && is_like_last(row[first - 1]))
      --first;
    return end - first >= many ? first : end - 1;
  }

  const Tree &tree_;
  Tree made_;
  std::vector<std::vector<int>> rows_; ///< of each node: the made ones that lie in a row in it
  std::vector<Used> used_;
};

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
  const InOrder in_order(tree);
  return Drawing(problem, grid, in_order.tree()).draw();
}

} // namespace gatherwright::layout
