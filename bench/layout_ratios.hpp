// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace gatherwright::bench {

/// Five rectangles laid, over GLPK's branch and cut on a model of edge-to-edge cuts, both to the optimum; summed over
/// problems.
void layout_vs_glpk();

/// The summed lengths of the published sets as laid, over those of stb_rect_pack's skyline in as much time: of each set
/// it packs one seeded order after another until ours has ended, and keeps the shortest. It need not cut edge to edge.
void layout_sum_vs_skyline();

/// Length over bound, in the mean: of sets of six garments, and of casts of 800 rectangles, where the bound is the
/// larger of the area's and that of bars.
void layout_gaps();

/// Time for a rectangle of a cast of 800 over that of a cast of 80.
void layout_growth();

} // namespace gatherwright::bench
