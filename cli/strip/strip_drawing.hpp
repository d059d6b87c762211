// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/drawing/drawing.hpp"
#include "cli/strip/parts.hpp"
#include "cli/strip/strip.hpp"

/// One part of a strip at true scale, with the words above it.
namespace gatherwright::paper {

struct PartDrawing {
  Group group;       ///< its top left corner at 0, 0
  double height = 0; ///< words included
};

/// Words above what is drawn, whole: the title, and what follows it on the same line where there is room, else below.
struct Caption {
  Group words; ///< the top left corner at 0, 0
  double height = 0;
};

Caption caption_of(const std::string &title, const std::string &after, double width);

/// `number` from 1 of `count` parts. A millimetre of the edge is one of the page; what is shown begins at x = 0.
PartDrawing part_drawing(const Strip &strip, const Part &part, int number, int count, double page_width);

/// The signs of both kinds of mark, and of a stretch that takes fullness: for strips, drawn edges and the legend.
/// A mark's sign stands on an edge at `foot`, the edge's cloth lying towards `inwards`, a direction of length 1.
std::vector<Item> reference_sign(Point foot, Point inwards, double reach);
std::vector<Item> pin_sign(Point foot, Point inwards, double reach);

/// The stretch between two places that is not plain, as a bar so high.
std::vector<Item> fullness_bar(Point corner, double width, double height);

/// What the joint between two parts is called: A to Z, then AA and so on, from 1.
std::string joint_called(int joint);

/// A letter in a lozenge, where two parts are laid one on the other.
std::vector<Item> lozenge(Point middle, const std::string &letter);

} // namespace gatherwright::paper
