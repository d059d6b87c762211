// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/drawing/drawing.hpp"
#include "cli/words/cutting.hpp"

#include <vector>

namespace gatherwright::paper {

/// A cloth's layout as it is drawn on squared paper, to one scale: selvedges at the sides, the cut end at the top, the
/// warp down the page; each piece with its name, its copy where there are several, whose it is where there are many
/// wearers, and its cut size; cuts with their numbers from 1, in the order of the cloth's list; what is left over
/// hatched. Beside the cloth stands how far each cut across the whole width is from the cut end.
///
/// A long lay is cut at such cuts into columns that stand side by side, read from the left, and where it would still be
/// drawn too small to read goes over several pages. In a piece with no room for its name stands a letter that is
/// explained below; where not even that has room, nothing does, and so with numbers of cuts. Each page is `width`
/// millimetres wide and as high as it takes, `highest` at most (at least 100); all have one scale. The label says in
/// words what it shows.
std::vector<Page> layout_pictures(const words::LaidCloth &laid, double width, double highest);

/// Those pictures with their scale, page to cloth.
struct DrawnLayout {
  std::vector<Page> pages;
  double scale = 1;
};
DrawnLayout drawn_layout(const words::LaidCloth &laid, double width, double highest);

} // namespace gatherwright::paper
