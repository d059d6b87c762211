// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/sheet/sheet.hpp"

#include "cli/picture/drawn_edge_picture.hpp"
#include "cli/picture/fullness_picture.hpp"
#include "cli/picture/join_picture.hpp"
#include "cli/report/short_names.hpp"
#include "cli/sheet/page_flow.hpp"
#include "cli/sheet/pieces_blocks.hpp"
#include "cli/sheet/sheet_blocks.hpp"
#include "cli/sheet/sheet_close.hpp"
#include "cli/sheet/sheet_content.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <string>
#include <vector>

namespace gatherwright::paper {

namespace {

/// Sets a sentence on the page of the table it leads to, where a page holds both.
void lead_to(PageFlow &flow, const std::string &sentence, const report::Table &table) {
  const double both = flow.height_of_paragraph(sentence) + flow.height_of_table(table);
  if (both <= flow.height()) flow.keep_together(both);
}

void what_to_cut(PageFlow &flow, const Job &job, const Plan &plan, const Sheet &sheet) {
  if (!sheet.pieces && sheet.to_cut.empty() && sheet.rules.sentences.empty()) return;
  flow.heading("What to cut", first_lines + 20);
  if (sheet.pieces) put_sizes(flow, *sheet.pieces);
  if (!sheet.between_seams.empty()) flow.paragraph(sheet.between_seams);
  for (const SheetTable &each : sheet.to_cut)
    put_table(flow, each);
  if (!sheet.rules.sentences.empty()) {
    flow.small_heading(sheet.rules.heading, first_lines);
    flow.list(sheet.rules.sentences, "");
  }
  if (sheet.pieces) put_pieces(flow, job, plan, *sheet.pieces, Setting::airy);
}

/// A picture with its sentences under it, on one page.
void figure(PageFlow &flow, const Page &drawing, const std::vector<std::string> &caption) {
  flow.keep_together(drawing.height + 4 + height_of(flow, caption));
  flow.gap(2);
  flow.figure(drawing);
  put_paragraphs(flow, caption);
}

/// Whether the join and the curve of its fullness are as easily read at half the width: every mark has its line, and
/// no edge is shown as drawn between them.
bool go_beside(const JoinSheet &sheet, const JoinPlan &planned, double half_width) {
  constexpr double between_marks = 2.5;
  constexpr double between_names = 5;
  const auto named =
      std::count_if(planned.marks.begin(), planned.marks.end(), [](const Mark &mark) { return mark.reference; });
  return sheet.drawn && sheet.as_drawn.empty() && !sheet.fullest.empty() &&
         static_cast<double>(planned.marks.size()) * between_marks < half_width &&
         static_cast<double>(named) * between_names < half_width;
}

/// The pictures of a join, of the widths at which they stand.
struct JoinPictures {
  bool beside = false;
  std::optional<Page> join;
  std::optional<Page> curve;

  double first_height() const {
    if (!join) return 0;
    return beside ? std::max(join->height, curve->height) : join->height;
  }
};

JoinPictures pictures(const PageFlow &flow, const Job &job, const JoinSheet &sheet, const JoinPlan &planned) {
  if (!sheet.drawn) return {};
  const Join &asked = job.joins.at(sheet.join);
  const bool beside = go_beside(sheet, planned, flow.half_width());
  const double width = beside ? flow.half_width() : flow.width();
  return {beside, join_picture(job, asked, planned, width),
          sheet.fullest.empty() ? std::nullopt : fullness_picture(asked, planned, width)};
}

void put_pictures(PageFlow &flow, const Job &job, const JoinSheet &sheet, const JoinPlan &planned,
                  const JoinPictures &shown) {
  if (!shown.join) return;
  if (shown.beside) {
    std::vector<std::string> caption = sheet.of_the_picture;
    caption.push_back(sheet.fullest);
    flow.keep_together(shown.first_height() + 4 + height_of(flow, caption));
    flow.gap(2);
    flow.figures(*shown.join, *shown.curve);
    put_paragraphs(flow, caption);
    return;
  }
  figure(flow, *shown.join, sheet.of_the_picture);
  for (const AsDrawn &each : sheet.as_drawn)
    figure(flow, drawn_edge_picture(job, job.joins.at(sheet.join), planned, each.edge, flow.width()), {each.caption});
  if (shown.curve) figure(flow, *shown.curve, {sheet.fullest});
}

void put_join(PageFlow &flow, const Job &job, const Plan &plan, const JoinSheet &sheet) {
  const JoinPlan &planned = plan.joins.at(sheet.join);
  const JoinPictures shown = pictures(flow, job, sheet, planned);
  const double words = flow.height_of_paragraph(sheet.edges) + flow.height_of_list(sheet.stretches);
  // The words and the picture they are about are seen together.
  const double both = words + (shown.join ? shown.first_height() + first_lines : 0);
  flow.heading(join_heading(sheet), both + 16 < flow.height() ? both : first_lines);
  put_words(flow, sheet);
  put_pictures(flow, job, sheet, planned, shown);
  put_table(flow, sheet.marks);
  put_paragraphs(flow, sheet.below_marks);
  if (sheet.marks_mirrored) lead_to(flow, sheet.mirrored, sheet.marks_mirrored->table);
  if (!sheet.mirrored.empty()) flow.paragraph(sheet.mirrored);
  if (sheet.marks_mirrored) put_table(flow, *sheet.marks_mirrored);
  put_paragraphs(flow, sheet.below_mirrored);
  if (sheet.working.empty()) return;
  flow.small_heading("How to run it", flow.height_of_paragraph(sheet.working.front()));
  put_paragraphs(flow, sheet.working);
}

/// One thing below another.
Document set_airy(const Job &job, const Plan &plan, const Sheet &sheet, PaperSize size) {
  PageFlow flow(size, sheet.title, Setting::airy);
  put_head(flow, sheet);
  put_list(flow, sheet.wrong);
  put_list(flow, sheet.mend);
  what_to_cut(flow, job, plan, sheet);
  for (const JoinSheet &each : sheet.joins)
    put_join(flow, job, plan, each);
  if (!sheet.joins_left_out.empty()) flow.paragraph(sheet.joins_left_out);
  if (!sheet.between_marks.empty()) flow.paragraph(sheet.between_marks);
  put_list(flow, sheet.notes);
  put_list(flow, sheet.cautions);
  return flow.take();
}

} // namespace

PdfOutcome sheet_pdf(const Job &whole, const Plan &plan, PaperSize size, report::Pins pins) {
  const std::optional<Job> short_named = report::with_short_names(whole);
  const Job &job = short_named ? *short_named : whole;
  const Sheet sheet = sheet_of(job, plan, room_on_pages, pins);
  const Document airy = set_airy(job, plan, sheet, size);
  if (airy.pages.size() == 1) return pdf(airy); // no page to save
  const Document close = set_close(job, plan, sheet, size);
  return pdf(close.pages.size() < airy.pages.size() ? close : airy);
}

} // namespace gatherwright::paper
