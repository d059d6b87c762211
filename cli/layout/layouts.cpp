// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/layout/layouts.hpp"

#include "cli/layout/layout_pages.hpp"
#include "cli/report/pieces_words.hpp"
#include "gatherwright/lay.hpp"

#include <span>
#include <string>
#include <vector>

namespace gatherwright::paper {

Document layouts(const Job &job, const Plan &plan, PaperSize size) {
  const WearersPieces pieces = pieces_of(plan);
  std::vector<LayoutAsked> asked;
  for (const ClothPlan &cloth : plan.cloth)
    asked.push_back({{.job = job, .cloth = cloth, .pieces = std::span(&pieces, 1)},
                     {report::cloth_said(job, cloth, plan.cloth.size() == 1)}});
  std::vector<std::string> warnings;
  if (const std::string wide = report::not_laid(job, plan); !wide.empty()) warnings.push_back(wide);
  return layout_pages(job, asked, warnings, size);
}

} // namespace gatherwright::paper
