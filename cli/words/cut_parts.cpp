// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/words/cut_parts.hpp"

#include <algorithm>
#include <limits>
#include <numeric>
#include <tuple>
#include <utility>

namespace gatherwright::words {

namespace {

using Run = Cut::Run;

/// A part with the one cut that divides it, as the cloth lists them.
struct Node {
  LayPart part;
  double right = 0; ///< where it ends, as the cuts have it
  double end = 0;
  std::size_t parent = 0; ///< of the first its own
  std::optional<std::size_t> cut = {};
  std::size_t first = 0; ///< where it is cut, the half nearer the corner, and the other
  std::size_t second = 0;

  bool holds(double across, double along) const {
    return across >= part.across && across < right && along >= part.along && along < end;
  }
};

class Halves {
public:
  explicit Halves(const ClothPlan &cloth) : cloth_(cloth) {
    constexpr double no_end = std::numeric_limits<double>::infinity();
    nodes_.push_back({{0, 0, cloth.usable, cloth.length}, no_end, no_end});
    for (std::size_t cut = 0; cut < cloth.cuts.size(); ++cut)
      divide(cut);
    place();
  }

  const std::vector<Node> &nodes() const { return nodes_; }

private:
  /// The undivided part in which a point lies. It is looked for from where the last one was: what follows one another
  /// mostly lies side by side, and a lay of many bands is as deep as it has bands.
  std::size_t holding(double across, double along) {
    while (at_ != 0 && !nodes_[at_].holds(across, along))
      at_ = nodes_[at_].parent;
    while (nodes_[at_].cut) {
      const Cut &cut = cloth_.cuts[*nodes_[at_].cut];
      at_ = (cut.run == Run::across ? along : across) < cut.at ? nodes_[at_].first : nodes_[at_].second;
    }
    return at_;
  }

  void divide(std::size_t number) {
    const Cut &cut = cloth_.cuts[number];
    const double middle = (cut.from + cut.to) / 2;
    const bool across = cut.run == Run::across;
    const std::size_t at = across ? holding(middle, cut.at) : holding(cut.at, middle);
    Node first = nodes_[at];
    first.parent = at;
    Node second = first;
    if (across) {
      first.end = second.part.along = cut.at;
      first.part.length = cut.at - first.part.along;
      second.part.length -= first.part.length;
    } else {
      first.right = second.part.across = cut.at;
      first.part.width = cut.at - first.part.across;
      second.part.width -= first.part.width;
    }
    nodes_[at].cut = number;
    nodes_[at].first = nodes_.size();
    nodes_[at].second = nodes_.size() + 1;
    nodes_.push_back(first);
    nodes_.push_back(second);
  }

  /// A piece has the corner of its part; a little inside, no rounding takes it for its neighbour's.
  void place() {
    std::vector<std::size_t> order(cloth_.lay.size());
    std::iota(order.begin(), order.end(), 0);
    std::sort(order.begin(), order.end(), [this](std::size_t a, std::size_t b) {
      const Placement &one = cloth_.lay[a];
      const Placement &other = cloth_.lay[b];
      return std::tie(one.along, one.across, a) < std::tie(other.along, other.across, b);
    });
    constexpr double inside = 1e-9; // a share, as of a layout's rounding
    const double in = inside * std::min(cloth_.length, cloth_.usable);
    for (const std::size_t number : order) {
      const Placement &placed = cloth_.lay[number];
      nodes_[holding(placed.across + in, placed.along + in)].part.placement = number;
    }
  }

  const ClothPlan &cloth_;
  std::vector<Node> nodes_;
  std::size_t at_ = 0;
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
