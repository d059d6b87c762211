// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/cast/wearer_files.hpp"

#include "cli/press/pdf.hpp"
#include "cli/report/plan_json.hpp"
#include "cli/sheet/sheet.hpp"
#include "cli/strip/strips.hpp"

#include <utility>

namespace gatherwright::cli::cast {

namespace {

/// The job as it is called on paper that lies among that of others.
Job named_for(const Job &job, std::string_view wearer) {
  Job named = job;
  named.title = (job.title ? *job.title + ", " : "") + std::string(wearer);
  return named;
}

} // namespace

PlanSettings settings_for(const OnPaper &wanted) {
  return {.profile = wanted.sheet, .outlines = wanted.strips || wanted.sheet, .advice = true};
}

Outcome<std::vector<WearerFile>> files_of(const Job &job, const Plan &plan, std::string_view wearer,
                                          const OnPaper &wanted) {
  std::vector<WearerFile> files;
  files.push_back({".json", report::plan_json(job, plan, false)});
  if (!wanted.strips && !wanted.sheet) return files;
  const Job named = named_for(job, wearer);
  if (wanted.strips && !plan.joins.empty()) {
    paper::PdfOutcome strips = paper::pdf(paper::strips(named, plan, wanted.size));
    if (!strips) return strips.fault();
    files.push_back({".strips.pdf", *std::move(strips)});
  }
  if (wanted.sheet) files.push_back({".sheet.html", paper::sheet_html(named, plan)});
  return files;
}

} // namespace gatherwright::cli::cast
