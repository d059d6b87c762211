// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/layout/arrangement.hpp"

#include <algorithm>

namespace gatherwright::layout {

struct Arrangement::Box {
  double from[2]; ///< across, along
  double to[2];
  std::size_t rectangle;
  bool turned;
};

std::optional<Arrangement> Arrangement::of(const Problem &problem, const Layout &layout) {
  std::vector<Box> boxes;
  for (const Placement &at : layout.placements) {
    const Rectangle &is = problem.rectangles[at.rectangle];
    const double across = at.turned ? is.along : is.across;
    const double along = at.turned ? is.across : is.along;
    boxes.push_back({{at.across, at.along}, {at.across + across, at.along + along}, at.rectangle, at.turned});
  }
  Arrangement made;
  const Extent lost{problem.width * rounding, layout.length * rounding};
  if (boxes.empty() || !made.divide(std::move(boxes), lost)) return std::nullopt;
  return made;
}

std::optional<int> Arrangement::divide(std::vector<Box> boxes, const Extent &lost) {
  if (boxes.size() == 1) {
    nodes_.push_back({boxes[0].rectangle, boxes[0].turned, Run::along, {}});
    return static_cast<int>(nodes_.size()) - 1;
  }
  for (const Run run : {Run::along, Run::across})
    if (const auto row = divide(boxes, run, lost)) return row;
  return std::nullopt;
}

/// The boxes as a row of as many parts as there are; nothing where there is but one.
std::optional<int> Arrangement::divide(std::vector<Box> &boxes, Run run, const Extent &lost) {
  const int way = run == Run::along ? 1 : 0;
  const double within = run == Run::along ? lost.along : lost.across;
  std::sort(boxes.begin(), boxes.end(), [&](const Box &a, const Box &b) { return a.from[way] < b.from[way]; });
  std::vector<std::vector<Box>> parts;
  double end = -1;
  for (const Box &box : boxes) {
    if (parts.empty() || box.from[way] >= end - within) parts.emplace_back();
    parts.back().push_back(box);
    end = std::max(end, box.to[way]);
  }
  if (parts.size() == 1) return std::nullopt;
  Node row;
  row.run = run;
  for (std::vector<Box> &part : parts) {
    const auto made = divide(std::move(part), lost);
    if (!made) return std::nullopt;
    row.parts.push_back(*made);
  }
  nodes_.push_back(std::move(row));
  return static_cast<int>(nodes_.size()) - 1;
}

Arrangement::Extent Arrangement::extent(std::span<const Rectangle> rectangles) const {
  std::vector<Extent> extents;
  for (const Node &node : nodes_) {
    Extent extent;
    if (node.rectangle) {
      const Rectangle &is = rectangles[*node.rectangle];
      extent = node.turned ? Extent{is.along, is.across} : Extent{is.across, is.along};
    }
    for (const int part : node.parts) {
      const Extent &of = extents[part];
      const bool along = node.run == Run::along;
      extent.across = along ? std::max(extent.across, of.across) : extent.across + of.across;
      extent.along = along ? extent.along + of.along : std::max(extent.along, of.along);
    }
    extents.push_back(extent);
  }
  return extents.back();
}

} // namespace gatherwright::layout
