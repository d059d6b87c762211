// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/report/join_text.hpp"

#include "cli/report/join_words.hpp"
#include "cli/report/mark_table.hpp"
#include "cli/report/plan_text.hpp"
#include "cli/report/plan_words.hpp"
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
  else if (planned.standing == Standing::only_just)
    text += ": " + words::verdict(planned.verdict, planned.standing);
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
                  bool is_mirrored, std::size_t &room, Pins told) {
  const ShownMarks wanted = shown_marks(job, asked, planned, marks, told);
  const std::size_t shown = std::min(wanted.rows.size(), room);
  room -= shown;
  std::string text;
  const bool all_in_words = wanted.rows.size() == 1 && !wanted.parts.empty(); // a ring of equal parts
  if (shown > 0 && !all_in_words)
    text = mark_table(job, asked, planned, marks, is_mirrored, wanted, shown).lines(margin, text_width);
  if (shown < wanted.rows.size())
    return text + paragraph(fmt::format("Marks {} to {} are left out here; gatherwright plan --json tells all of them.",
                                        wanted.rows[shown].mark, marks.size() - 1));
  for (const std::string &said : instead_of_marks(job, asked, marks, wanted))
    text += paragraph(said);
  return text;
}

std::string marks_of(const Job &job, const Join &asked, const JoinPlan &planned, std::size_t &room, Pins told) {
  return table(job, asked, planned, planned.marks, false, room, told) +
         paragraph(back_to_start(job, asked, planned, told)) + paragraph(from_cut_edges(job, planned.marks));
}

std::string marks_of_mirrored(const Job &job, const Join &asked, const JoinPlan &planned, std::size_t &room,
                              Pins told) {
  const MirroredSaid said = mirrored(asked, planned);
  if (!said.elsewhere) return paragraph(said.says);
  const std::vector<Mark> &marks = planned.marks_mirrored.value();
  return "\n" + paragraph(said.says) + table(job, asked, planned, marks, true, room, told) +
         paragraph(from_cut_edges(job, marks));
}

} // namespace

std::string join_text(const Job &job, const Plan &plan, int join, const Ink &ink, std::size_t &room, Pins told) {
  const Join &asked = job.joins.at(join);
  const JoinPlan &planned = plan.joins.at(join);
  std::string text = heading(job, join, planned, ink) + how_full(job, asked, planned) + "\n";
  if (is_wrong_way_round(plan, join)) return text + paragraph(no_marks_so);
  text += marks_of(job, asked, planned, room, told);
  text += marks_of_mirrored(job, asked, planned, room, told) + "\n";
  for (const std::string &said : gathering(job, asked, planned))
    text += paragraph(said);
  return text + paragraph(pins(asked, planned));
}

} // namespace gatherwright::report
