// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/join_text.hpp"

#include "report/columns.hpp"
#include "report/join_words.hpp"
#include "report/mark_table.hpp"
#include "report/plan_text.hpp"
#include "words/names.hpp"

#include <fmt/format.h>

namespace gatherwright::report {

namespace {

constexpr std::string_view margin = "  ";

std::string paragraph(std::string_view text) {
  return text.empty() ? "" : wrapped(text, margin, margin, text_width);
}

std::string heading(const Job &job, int join, const JoinPlan &planned, const Ink &ink) {
  const Join &asked = job.joins.at(join);
  std::string text = ink.strong(words::printable(asked.name));
  if (const std::string pieces = made(asked); !pieces.empty()) text += fmt::format(" ({})", pieces);
  if (planned.verdict != Verdict::within_limits)
    text += ": " + ink.verdict(planned.verdict, words::verdict(planned.verdict));
  return wrapped(text, "", margin, text_width) + paragraph(edges(job, join, planned));
}

std::string how_full(const Job &job, const Join &asked, const JoinPlan &planned) {
  const StretchesSaid said = stretches(job, asked, planned);
  std::string text;
  for (const std::string &stretch : said.stretches)
    text += wrapped(stretch, margin, "    ", text_width);
  return text + paragraph(said.in_this_cloth);
}

std::string marks_of(const Job &job, const Join &asked, const JoinPlan &planned) {
  return mark_table(job, asked, planned, planned.marks, false).lines(margin, text_width) +
         paragraph(back_to_start(job, asked, planned)) + paragraph(from_cut_edges(job, planned.marks));
}

std::string marks_of_mirrored(const Job &job, const Join &asked, const JoinPlan &planned) {
  const MirroredSaid said = mirrored(asked, planned);
  if (!said.elsewhere) return paragraph(said.says);
  return "\n" + paragraph(said.says) +
         mark_table(job, asked, planned, planned.marks_mirrored, true).lines(margin, text_width) +
         paragraph(from_cut_edges(job, planned.marks_mirrored));
}

} // namespace

std::string join_text(const Job &job, const Plan &plan, int join, const Ink &ink) {
  const Join &asked = job.joins.at(join);
  const JoinPlan &planned = plan.joins.at(join);
  std::string text = heading(job, join, planned, ink) + how_full(job, asked, planned) + "\n" +
                     marks_of(job, asked, planned) + marks_of_mirrored(job, asked, planned) + "\n";
  for (const std::string &said : gathering(job, asked, planned))
    text += paragraph(said);
  return text + paragraph(pins(asked, planned));
}

} // namespace gatherwright::report
