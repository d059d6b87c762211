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

std::string how_full(const Job &job, const Plan &plan, int join) {
  const StretchesSaid said = stretches(job, job.joins.at(join), plan.joins.at(join));
  std::string text;
  for (const std::string &stretch : said.stretches)
    text += wrapped(stretch, margin, "    ", text_width);
  return limits_are_as_before(job, plan, join) ? text : text + paragraph(said.in_this_cloth);
}

/// Marks of a piece, and whether there is a table among them.
struct MarksSaid {
  bool tabled = false;
  std::string text;
};

/// As many rows as there is room for, and which marks are left out.
MarksSaid table(const Job &job, const Join &asked, const JoinPlan &planned, const std::vector<Mark> &marks,
                bool is_mirrored, std::size_t &room, Pins told) {
  const ShownMarks wanted = shown_marks(job, asked, planned, marks, told);
  const std::size_t shown = std::min(wanted.rows.size(), room);
  room -= shown;
  MarksSaid said{shown > 0 && !all_in_words(wanted), ""};
  if (said.tabled)
    said.text = mark_table(job, asked, planned, marks, is_mirrored, wanted, shown).lines(margin, text_width);
  if (shown < wanted.rows.size()) {
    said.text += paragraph(fmt::format("Marks {} to {} are left out here; gatherwright plan --json tells all of them.",
                                       wanted.rows[shown].mark, marks.size() - 1));
    return said;
  }
  for (const std::string &sentence : instead_of_marks(job, asked, marks, wanted))
    said.text += paragraph(sentence);
  return said;
}

/// A table stands between blank lines, words do not.
std::string marks_of(const Job &job, const Join &asked, const JoinPlan &planned, std::size_t &room, Pins told) {
  const MarksSaid marks = table(job, asked, planned, planned.marks, false, room, told);
  std::string text =
      marks.text + paragraph(back_to_start(job, asked, planned, told)) + paragraph(from_cut_edges(job, planned.marks));
  const MirroredSaid other = mirrored(asked, planned);
  if (!other.elsewhere) {
    text += paragraph(other.says);
    return marks.tabled ? "\n" + text + "\n" : text;
  }
  const std::vector<Mark> &mirrored_marks = planned.marks_mirrored.value();
  return "\n" + text + "\n" + paragraph(other.says) +
         table(job, asked, planned, mirrored_marks, true, room, told).text +
         paragraph(from_cut_edges(job, mirrored_marks)) + "\n";
}

/// Rows, thread, cord and pins.
std::string how_to_run(const Job &job, const Plan &plan, int join) {
  const Join &asked = job.joins.at(join);
  const JoinPlan &planned = plan.joins.at(join);
  std::string text;
  for (const std::string &said : gathering(job, asked, planned, rows_are_as_before(job, plan, join)))
    text += said + " ";
  return paragraph(text + pins(asked, planned));
}

} // namespace

std::string join_text(const Job &job, const Plan &plan, int join, const Ink &ink, std::size_t &room, Pins told) {
  const Join &asked = job.joins.at(join);
  const JoinPlan &planned = plan.joins.at(join);
  const std::string text = heading(job, join, planned, ink) + how_full(job, plan, join);
  if (is_wrong_way_round(plan, join)) return text + paragraph(no_marks_so);
  return text + marks_of(job, asked, planned, room, told) + how_to_run(job, plan, join);
}

} // namespace gatherwright::report
