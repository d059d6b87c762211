// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/sheet/sheet_blocks.hpp"

#include "cli/words/names.hpp"

#include <fmt/format.h>

namespace gatherwright::paper {

void put_list(PageFlow &flow, const SheetList &said, std::string_view bullet) {
  if (said.sentences.empty()) return;
  flow.heading(said.heading, first_lines);
  flow.list(said.sentences, bullet);
}

void put_table(PageFlow &flow, const SheetTable &captioned) {
  if (!captioned.table.cells().empty()) flow.table(captioned.caption, captioned.table);
  if (captioned.left_out.empty()) return;
  flow.paragraph(captioned.table.cells().empty() ? fmt::format("{}: {}", captioned.caption, captioned.left_out)
                                                 : captioned.left_out);
}

void put_paragraphs(PageFlow &flow, const std::vector<std::string> &sentences) {
  for (const std::string &sentence : sentences)
    flow.paragraph(sentence);
}

double height_of(const PageFlow &flow, const std::vector<std::string> &sentences) {
  double sum = 0;
  for (const std::string &sentence : sentences)
    sum += flow.height_of_paragraph(sentence);
  return sum;
}

std::string join_heading(const JoinSheet &sheet) {
  return sheet.made.empty() ? sheet.heading : fmt::format("{} ({})", sheet.heading, sheet.made);
}

void put_words(PageFlow &flow, const JoinSheet &sheet) {
  if (sheet.verdict != Verdict::within_limits)
    flow.boxed(fmt::format("{} {}", sign(sheet.verdict), words::verdict(sheet.verdict)), sheet.edges, true);
  else
    flow.paragraph(sheet.edges);
  flow.list(sheet.stretches, "•");
}

void put_head(PageFlow &flow, const Sheet &sheet) {
  flow.title(sheet.heading);
  flow.boxed(fmt::format("{} {}", sign(sheet.verdict), sheet.judged), sheet.meaning,
             sheet.verdict != Verdict::within_limits);
  for (const std::string &caution : sheet.first_cautions)
    flow.boxed("Caution", caution, true);
}

} // namespace gatherwright::paper
