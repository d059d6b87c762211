// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/drawing/drawing.hpp"
#include "cli/words/cutting.hpp"

#include <span>
#include <string>
#include <vector>

/// Layouts by themselves, to lie beside the cloth while it is cut.
namespace gatherwright::paper {

/// A cloth's layout, and sentences that stand over it: how much to buy, how much of it is used.
struct LayoutAsked {
  words::LaidCloth laid;
  std::vector<std::string> said;
};

/// Upright pages, each with the job's title, the cloth and its picture as large as there is room; a new page for each
/// cloth, and as many as its picture takes. Below a picture of one page stand the steps in words, where there is room
/// for them or they take no more than a third of the page. `warnings` stand on every page. No pages where there is no
/// cloth.
Document layout_pages(const Job &job, std::span<const LayoutAsked> cloths, const std::vector<std::string> &warnings,
                      PaperSize size);

} // namespace gatherwright::paper
