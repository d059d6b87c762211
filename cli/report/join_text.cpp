// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/report/join_text.hpp"

#include "cli/report/join_words.hpp"
#include "cli/report/mark_table.hpp"
#include "cli/report/plan_text.hpp"
#include "cli/words/columns.hpp"
#include "cli/words/names.hpp"

#include <fmt/format.h>

#include <algorithm>

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

/// As many rows as there is room for, and which marks are left out.
std::string table(const Job &job, const Join &asked, const JoinPlan &planned, const std::vector<Mark> &marks,
                  bool is_mirrored, std::size_t &room) {
  const std::size_t shown = std::min(marks.size(), room);
  room -= shown;
  std::string text;
  if (shown > 0) text = mark_table(job, asked, planned, marks, is_mirrored, shown).lines(margin, text_width);
  if (shown < marks.size())
    text += paragraph(fmt::format("Marks {} to {} are left out here; gatherwright plan --json tells all of them.",
                                  shown, marks.size() - 1));
  return text;
}

std::string marks_of(const Job &job, const Join &asked, const JoinPlan &planned, std::size_t &room) {
  return table(job, asked, planned, planned.marks, false, room) + paragraph(back_to_start(job, asked, planned)) +
         paragraph(from_cut_edges(job, planned.marks));
}

std::string marks_of_mirrored(const Job &job, const Join &asked, const JoinPlan &planned, std::size_t &room) {
  const MirroredSaid said = mirrored(asked, planned);
  if (!said.elsewhere) return paragraph(said.says);
  const std::vector<Mark> &marks = planned.marks_mirrored.value();
  return "\n" + paragraph(said.says) + table(job, asked, planned, marks, true, room) +
         paragraph(from_cut_edges(job, marks));
}

} // namespace

std::string join_text(const Job &job, const Plan &plan, int join, const Ink &ink, std::size_t &room) {
  const Join &asked = job.joins.at(join);
  const JoinPlan &planned = plan.joins.at(join);
  std::string text = heading(job, join, planned, ink) + how_full(job, asked, planned) + "\n";
  text += marks_of(job, asked, planned, room);
  text += marks_of_mirrored(job, asked, planned, room) + "\n";
  for (const std::string &said : gathering(job, asked, planned))
    text += paragraph(said);
  return text + paragraph(pins(asked, planned));
}

} // namespace gatherwright::report
