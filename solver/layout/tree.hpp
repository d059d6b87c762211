// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/layout/strip.hpp"

#include <cstdint>
#include <vector>

namespace gatherwright::layout {

/// Rectangles joined two and two, one behind the other along the strip or side by side, which is just what edge-to-edge
/// cuts can take apart. A node comes after its parts.
struct Tree {
  enum class Join : std::uint8_t { piece, behind, beside };
  struct Node {
    Join join = Join::piece;
    bool turned = false;
    int first = 0;  ///< a node; of a piece, its kind
    int second = 0; ///< a node
    Ticks across = 0;
    Ticks along = 0;
  };
  std::vector<Node> nodes;
  int root = -1; ///< below 0 where there is nothing

  bool empty() const { return root < 0; }
  Ticks across() const { return empty() ? 0 : nodes[root].across; }
  Ticks along() const { return empty() ? 0 : nodes[root].along; }
  Ticks across_of(int node) const { return nodes[node].across; }
  Ticks along_of(int node) const { return nodes[node].along; }

  int piece(const Strip &strip, int kind, bool turned) {
    const Kind &of = strip.kinds[kind];
    nodes.push_back({Join::piece, turned, kind, 0, turned ? of.along : of.across, turned ? of.across : of.along});
    return static_cast<int>(nodes.size()) - 1;
  }
  /// Either part may be below 0: nothing.
  int join(Join how, int first, int second) {
    if (first < 0) return second;
    if (second < 0) return first;
    const Node a = nodes[first];
    const Node b = nodes[second];
    const bool behind = how == Join::behind;
    nodes.push_back({how, false, first, second, behind ? std::max(a.across, b.across) : a.across + b.across,
                     behind ? a.along + b.along : std::max(a.along, b.along)});
    return static_cast<int>(nodes.size()) - 1;
  }
  /// Takes over another tree's nodes; its root here.
  int graft(const Tree &other) {
    const int offset = static_cast<int>(nodes.size());
    for (Node node : other.nodes) {
      if (node.join != Join::piece) {
        node.first += offset;
        node.second += offset;
      }
      nodes.push_back(node);
    }
    return other.empty() ? -1 : other.root + offset;
  }
};

} // namespace gatherwright::layout
