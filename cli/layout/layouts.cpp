// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/layout/layouts.hpp"

#include "cli/layout/layout_pages.hpp"
#include "cli/report/pieces_words.hpp"
#include "cli/report/short_names.hpp"

#include <optional>
#include <vector>

namespace gatherwright::paper {

namespace {

Document pages(const Job &job, std::span<const ClothPlan> cloths, std::span<const WearersPieces> pieces,
               std::span<const std::string> wearers, const std::vector<std::string> &warnings, PaperSize size) {
  const std::optional<Job> short_named = report::with_short_names(job);
  const Job &told = short_named ? *short_named : job;
  std::vector<LayoutAsked> asked;
  for (const ClothPlan &cloth : cloths)
    asked.push_back({{.job = told, .cloth = cloth, .pieces = pieces, .wearers = wearers},
                     {report::cloth_said(told, cloth, cloths.size() == 1)}});
  return layout_pages(told, asked, warnings, size);
}

} // namespace

Document layouts(const Job &job, const Plan &plan, PaperSize size) {
  const WearersPieces pieces = pieces_of(plan);
  std::vector<std::string> warnings;
  if (const std::string wide = report::not_laid(job, plan); !wide.empty()) warnings.push_back(wide);
  return pages(job, plan.cloth, std::span(&pieces, 1), {}, warnings, size);
}

Document layouts(const Job &job, std::span<const ClothPlan> cloths, std::span<const WearersPieces> pieces,
                 std::span<const std::string> wearers, PaperSize size) {
  return pages(job, cloths, pieces, wearers, {}, size);
}

} // namespace gatherwright::paper
