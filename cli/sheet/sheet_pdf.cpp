// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/sheet/sheet.hpp"

#include "cli/picture/fullness_picture.hpp"
#include "cli/picture/join_picture.hpp"
#include "cli/report/short_names.hpp"
#include "cli/sheet/page_flow.hpp"
#include "cli/sheet/sheet_content.hpp"
#include "cli/words/names.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace gatherwright::paper {

namespace {

/// Room that must be left for a heading and the first of what it stands over.
constexpr double first_lines = 12;

std::string with_sign(Verdict verdict) {
  return fmt::format("{} {}", sign(verdict), words::verdict(verdict));
}

void list(PageFlow &flow, const SheetList &said, std::string_view bullet = "•") {
  if (said.sentences.empty()) return;
  flow.heading(said.heading, first_lines);
  flow.list(said.sentences, bullet);
}

void table(PageFlow &flow, const SheetTable &captioned) {
  if (!captioned.table.cells().empty()) flow.table(captioned.caption, captioned.table);
  if (captioned.left_out.empty()) return;
  flow.paragraph(captioned.table.cells().empty() ? fmt::format("{}: {}", captioned.caption, captioned.left_out)
                                                 : captioned.left_out);
}

void what_to_cut(PageFlow &flow, const Sheet &sheet) {
  if (sheet.to_cut.empty() && sheet.rules.sentences.empty()) return;
  flow.heading("What to cut", first_lines + 20);
  if (!sheet.between_seams.empty()) flow.paragraph(sheet.between_seams);
  for (const SheetTable &each : sheet.to_cut)
    table(flow, each);
  if (sheet.rules.sentences.empty()) return;
  flow.small_heading(sheet.rules.heading, first_lines);
  flow.list(sheet.rules.sentences, "");
}

/// A picture with its sentences under it, on one page.
void figure(PageFlow &flow, const Page &drawing, const std::vector<std::string> &caption) {
  double needed = drawing.height + 4;
  for (const std::string &sentence : caption)
    needed += flow.height_of_paragraph(sentence);
  flow.keep_together(needed);
  flow.gap(2);
  flow.figure(drawing);
  for (const std::string &sentence : caption)
    flow.paragraph(sentence);
}

void join(PageFlow &flow, const Job &job, const Plan &plan, const JoinSheet &sheet) {
  const Join &asked = job.joins.at(sheet.join);
  const JoinPlan &planned = plan.joins.at(sheet.join);
  const std::string heading = sheet.made.empty() ? sheet.heading : fmt::format("{} ({})", sheet.heading, sheet.made);
  const bool drawn = sheet.drawn;
  const Page picture = drawn ? join_picture(job, asked, planned, flow.width()) : Page{};
  const double words = flow.height_of_paragraph(sheet.edges) + flow.height_of_list(sheet.stretches);
  // The words and the picture they are about are seen together.
  const double both = words + (drawn ? picture.height + first_lines : 0);
  flow.heading(heading, both + 16 < flow.height() ? both : first_lines);
  if (sheet.verdict != Verdict::within_limits)
    flow.boxed(with_sign(sheet.verdict), sheet.edges, true);
  else
    flow.paragraph(sheet.edges);
  flow.list(sheet.stretches, "•");
  if (drawn) figure(flow, picture, sheet.of_the_picture);
  if (drawn && !sheet.fullest.empty()) figure(flow, *fullness_picture(asked, planned, flow.width()), {sheet.fullest});
  table(flow, sheet.marks);
  for (const std::string &sentence : sheet.below_marks)
    flow.paragraph(sentence);
  if (!sheet.mirrored.empty()) flow.paragraph(sheet.mirrored);
  if (sheet.marks_mirrored) table(flow, *sheet.marks_mirrored);
  for (const std::string &sentence : sheet.below_mirrored)
    flow.paragraph(sentence);
  if (sheet.working.empty()) return;
  flow.small_heading("How to run it", flow.height_of_paragraph(sheet.working.front()));
  for (const std::string &sentence : sheet.working)
    flow.paragraph(sentence);
}

} // namespace

PdfOutcome sheet_pdf(const Job &whole, const Plan &plan, PaperSize size, report::Pins pins) {
  const std::optional<Job> short_named = report::with_short_names(whole);
  const Job &job = short_named ? *short_named : whole;
  const Sheet sheet = sheet_of(job, plan, room_on_pages, pins);
  PageFlow flow(size, sheet.title);
  flow.title(sheet.heading);
  flow.boxed(fmt::format("{} {}", sign(sheet.verdict), sheet.judged), sheet.meaning,
             sheet.verdict != Verdict::within_limits);
  for (const std::string &caution : sheet.first_cautions)
    flow.boxed("Caution", caution, true);
  list(flow, sheet.wrong);
  list(flow, sheet.mend);
  what_to_cut(flow, sheet);
  for (const JoinSheet &each : sheet.joins)
    join(flow, job, plan, each);
  if (!sheet.joins_left_out.empty()) flow.paragraph(sheet.joins_left_out);
  if (!sheet.between_marks.empty()) flow.paragraph(sheet.between_marks);
  list(flow, sheet.notes);
  list(flow, sheet.cautions);
  return pdf(flow.take());
}

} // namespace gatherwright::paper
