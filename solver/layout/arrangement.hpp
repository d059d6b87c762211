// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/layout/layout.hpp"
#include "solver/layout/problem.hpp"

#include <optional>
#include <span>
#include <vector>

namespace gatherwright::layout {

/// How the rectangles of a layout lie to one another, behind or beside: rectangles of other sizes can be laid alike,
/// and then take as much of the strip as is said here, without any search.
class Arrangement {
public:
  /// Nothing where rounding hides how the layout is cut.
  static std::optional<Arrangement> of(const Problem &problem, const Layout &layout);

  struct Extent {
    double across = 0;
    double along = 0;
  };
  /// Of as many rectangles as it was made of, in the same order and as often, with these sizes.
  Extent extent(std::span<const Rectangle> rectangles) const;

private:
  /// Parts lie in a row; a node comes after its parts.
  struct Node {
    std::optional<std::size_t> rectangle; ///< else a row
    bool turned = false;
    Run run = Run::along; ///< in which its parts follow each other
    std::vector<int> parts;
  };
  struct Box;

  std::optional<int> divide(std::vector<Box> boxes, const Extent &lost);
  std::optional<int> divide(std::vector<Box> &boxes, Run run, const Extent &lost);

  std::vector<Node> nodes_;
};

} // namespace gatherwright::layout
