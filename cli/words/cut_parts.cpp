// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/words/cut_parts.hpp"

#include <algorithm>
#include <utility>

namespace gatherwright::words {

namespace {

using Run = Cut::Run;

/// A part with the one cut that divides it, as the cloth lists them.
struct Node {
  LayPart part;
  std::optional<std::size_t> cut = {};
  std::size_t first = 0; ///< where it is cut, the half nearer the corner, and the other
  std::size_t second = 0;
};

class Halves {
public:
  explicit Halves(const ClothPlan &cloth) : cloth_(cloth) {
    nodes_.push_back({{0, 0, cloth.usable, cloth.length}});
    for (std::size_t cut = 0; cut < cloth.cuts.size(); ++cut)
      divide(cut);
    for (std::size_t placed = 0; placed < cloth.lay.size(); ++placed)
      place(placed);
  }

  const std::vector<Node> &nodes() const { return nodes_; }

private:
  /// The undivided part in which a point lies.
  std::size_t holding(double across, double along) const {
    std::size_t at = 0;
    while (nodes_[at].cut) {
      const Cut &cut = cloth_.cuts[*nodes_[at].cut];
      at = (cut.run == Run::across ? along : across) < cut.at ? nodes_[at].first : nodes_[at].second;
    }
    return at;
  }

  void divide(std::size_t number) {
    const Cut &cut = cloth_.cuts[number];
    const double middle = (cut.from + cut.to) / 2;
    const bool across = cut.run == Run::across;
    const std::size_t at = across ? holding(middle, cut.at) : holding(cut.at, middle);
    Node first{nodes_[at].part};
    Node second = first;
    if (across) {
      first.part.length = cut.at - first.part.along;
      second.part.along = cut.at;
      second.part.length -= first.part.length;
    } else {
      first.part.width = cut.at - first.part.across;
      second.part.across = cut.at;
      second.part.width -= first.part.width;
    }
    nodes_[at].cut = number;
    nodes_[at].first = nodes_.size();
    nodes_[at].second = nodes_.size() + 1;
    nodes_.push_back(first);
    nodes_.push_back(second);
  }

  /// A piece has the corner of its part; a little inside, no rounding takes it for its neighbour's.
  void place(std::size_t number) {
    const Placement &placed = cloth_.lay[number];
    constexpr double inside = 1e-9; // a share, as of a layout's rounding
    const std::size_t at =
        holding(placed.across + inside * cloth_.usable, placed.along + inside * std::min(cloth_.length, cloth_.usable));
    nodes_[at].part.placement = number;
  }

  const ClothPlan &cloth_;
  std::vector<Node> nodes_;
};

/// A node to be made a part, and the part.
struct Waiting {
  std::size_t node = 0;
  std::size_t part = 0;
};

class Flattening {
public:
  Flattening(const ClothPlan &cloth, const std::vector<Node> &nodes) : cloth_(cloth), nodes_(nodes) {}

  CutParts flat() && {
    found_.parts.push_back(nodes_.front().part);
    std::vector<Waiting> waiting{{0, 0}};
    while (!waiting.empty()) {
      const Waiting next = waiting.back();
      waiting.pop_back();
      if (nodes_[next.node].cut) step(next, waiting);
    }
    return std::move(found_);
  }

private:
  /// All cuts one way, from the part's first half to its last.
  void step(Waiting of, std::vector<Waiting> &waiting) {
    CutStep step{of.part, cloth_.cuts[*nodes_[of.node].cut].run, {}, {}};
    std::vector<std::size_t> open{of.node};
    std::vector<Waiting> out;
    while (!open.empty()) {
      const std::size_t at = open.back();
      open.pop_back();
      const Node &node = nodes_[at];
      if (node.cut && cloth_.cuts[*node.cut].run == step.run) {
        step.cuts.push_back(*node.cut);
        open.push_back(node.second);
        open.push_back(node.first);
        continue;
      }
      step.parts.push_back(found_.parts.size());
      out.push_back({at, found_.parts.size()});
      found_.parts.push_back(node.part);
    }
    std::sort(step.cuts.begin(), step.cuts.end(),
              [this](std::size_t a, std::size_t b) { return cloth_.cuts[a].at < cloth_.cuts[b].at; });
    found_.parts[of.part].step = found_.steps.size();
    found_.steps.push_back(std::move(step));
    waiting.insert(waiting.end(), out.rbegin(), out.rend());
  }

  const ClothPlan &cloth_;
  const std::vector<Node> &nodes_;
  CutParts found_;
};

} // namespace

CutParts cut_parts(const ClothPlan &cloth) {
  const Halves halves(cloth);
  return Flattening(cloth, halves.nodes()).flat();
}

} // namespace gatherwright::words
