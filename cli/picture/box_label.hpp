// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/drawing/drawing.hpp"
#include "cli/drawing/extent.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

/// Words inside a box that stay inside it, and places that are still free.
namespace gatherwright::paper {

/// A few lines of text about the middle of a box, the first bold.
struct BoxLabel {
  std::vector<std::string> lines;
  double size = 0;
  bool turned = false; ///< they read from the bottom up
};

/// The first of some wordings, the best first, that goes into a box: in the largest type that it does, upright or else
/// turned. Nothing where none does in a type that can still be read.
std::optional<BoxLabel> label_within(const std::vector<std::vector<std::string>> &wordings, double width,
                                     double height);

std::vector<Item> drawn_label(const BoxLabel &label, Point middle);
/// With a little air round it.
Box extent_of(const BoxLabel &label, Point middle);

/// What is taken on a page, found again by where it is, so that a page of thousands of words takes no longer for each.
class Taken {
public:
  Taken(double width, double height);

  bool leaves(const Box &box) const;
  void take(const Box &box);

private:
  struct Cells {
    std::size_t left, right, top, bottom;
  };
  Cells cells(const Box &box) const;

  std::size_t across_;
  std::size_t down_;
  std::vector<std::vector<Box>> boxes_;
};

} // namespace gatherwright::paper
