// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/drawing/drawing.hpp"
#include "gatherwright/job.hpp"

/// How the ways of working a stretch are told apart in a picture, without colour.
namespace gatherwright::paper {

/// A strip of cloth whose seam is its lower side.
struct ClothStrip {
  double left = 0;
  double right = 0;
  double top = 0;
  double seam = 0;
};

/// Strokes within the strip, no outline: upright ones for gathers, a zigzag for gauging, a casing with its cord for
/// draw, few slanted ones for ease, none where it is plain.
std::vector<Item> stretch_pattern(Kind kind, const ClothStrip &strip);

} // namespace gatherwright::paper
