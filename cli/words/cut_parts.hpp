// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/plan.hpp"

#include <cstddef>
#include <optional>
#include <vector>

/// What the cuts of a layout leave: the parts of the lay, and which steps divide them.
namespace gatherwright::words {

/// A rectangle of the lay, its corner nearest the first selvedge and the cut end. What is neither a piece nor divided
/// is scrap.
struct LayPart {
  double across = 0; ///< of the corner
  double along = 0;
  double width = 0;
  double length = 0;
  std::optional<std::size_t> placement = {}; ///< of the cloth's lay: the part is that piece
  std::optional<std::size_t> step = {};      ///< that divides it

  bool is_scrap() const { return !placement && !step; }
};

/// A part divided by cuts that all run one way, each straight through it.
struct CutStep {
  std::size_t part = 0;
  Cut::Run run = Cut::Run::across;
  std::vector<std::size_t> cuts;  ///< of the cloth's, by place
  std::vector<std::size_t> parts; ///< what comes out, by place: one more than cuts
};

/// Steps in an order in which they can be done: each divides part 0, the whole lay, or what came out of one before. No
/// two in a row of a part and its part run the same way.
struct CutParts {
  std::vector<LayPart> parts;
  std::vector<CutStep> steps;
};

CutParts cut_parts(const ClothPlan &cloth);

} // namespace gatherwright::words
