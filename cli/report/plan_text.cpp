// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/report/plan_text.hpp"

#include "cli/report/join_text.hpp"
#include "cli/report/pieces_text.hpp"
#include "cli/report/pieces_words.hpp"
#include "cli/report/plan_words.hpp"
#include "cli/report/short_names.hpp"
#include "cli/words/columns.hpp"
#include "cli/words/figures.hpp"
#include "cli/words/names.hpp"

#include <fmt/format.h>

namespace gatherwright::report {

namespace {

using words::printable;

std::string items(const std::vector<std::string> &sentences) {
  std::string lines;
  for (const std::string &sentence : sentences)
    lines += wrapped(sentence, "  - ", "    ", text_width);
  return lines;
}

std::string section(std::string_view title, const std::string &lines, const Ink &ink) {
  return lines.empty() ? "" : "\n" + ink.strong(title) + "\n" + lines;
}

std::string head(const Job &job, const Plan &plan, const Ink &ink) {
  std::string text;
  if (job.title && !job.title->empty()) text += wrapped(ink.strong(printable(*job.title)), "", "", text_width);
  text +=
      wrapped(fmt::format("Verdict: {}; {}.", ink.verdict(plan.verdict, words::verdict(plan.verdict, standing(plan))),
                          meaning(plan.verdict)),
              "", "", text_width);
  for (const std::string &caution : first_cautions_said(job, plan))
    text += wrapped(fmt::format("{} {}", ink.strong("Caution:"), caution), "", "  ", text_width);
  return text;
}

/// "Make the sleeve 52 cm between seams; anything from 45 cm to 60 cm will do."
std::string found_lengths(const Job &job, const Plan &plan, const Ink &ink) {
  const std::vector<bool> are_sizes = are_sizes_of_pieces(job, plan);
  std::string lines;
  for (std::size_t i = 0; i < plan.lengths.size(); ++i) {
    const LengthPlan &planned = plan.lengths[i];
    if (!planned.found || !planned.is || are_sizes[i]) continue;
    const std::string length = words::length(*planned.is, job.tape());
    const std::string may = room(job, planned);
    lines += wrapped(fmt::format("Make the {} {} between seams{}.", printable(job.lengths[i].name), ink.strong(length),
                                 may.empty() ? may : "; " + may),
                     "  ", "    ", text_width);
  }
  return lines;
}

std::string given_lengths(const Job &job, const Plan &plan) {
  const std::vector<bool> are_sizes = are_sizes_of_pieces(job, plan);
  std::string lines;
  for (std::size_t i = 0; i < plan.lengths.size(); ++i) {
    const LengthPlan &planned = plan.lengths[i];
    if (planned.found || !planned.is || are_sizes[i]) continue;
    const std::string may = room(job, planned);
    lines += wrapped(fmt::format("{} is {}{}.", printable(job.lengths[i].name), words::length(*planned.is, job.tape()),
                                 may.empty() ? may : "; " + may),
                     "  ", "    ", text_width);
  }
  return lines;
}

std::string rules(const Job &job, const Plan &plan) {
  std::string lines;
  for (const RuleSaid &rule : rules_said(job, plan))
    lines += wrapped(fmt::format("{} {}", rule.holds ? "holds " : "BROKEN", rule.says), "  ", "         ", text_width);
  return lines;
}

} // namespace

std::string plan_text(const Job &whole, const Plan &plan, const Ink &ink, const Say &say, Pins pins) {
  const std::optional<Job> short_named = with_short_names(whole);
  const Job &job = short_named ? *short_named : whole;
  const std::string found = found_lengths(job, plan, ink);
  const std::string given = given_lengths(job, plan);
  std::string text = head(job, plan, ink);
  text += section("What is wrong", items(what_is_wrong(job, plan)), ink);
  text += section(what_would_do_heading(plan), items(what_would_do(job, plan)), ink);
  text += pieces_text(job, plan, ink, pins);
  if (!(found.empty() && given.empty() && plan.joins.empty()))
    text += "\n" + wrapped(of_all_lengths(plan), "", "", text_width);
  text += section("Lengths found", found, ink);
  text += section("Lengths given", given, ink);
  text += section("Rules", rules(job, plan), ink);
  std::size_t rows_left = most_rows;
  for (int join = 0; join < static_cast<int>(plan.joins.size()); ++join) {
    text += "\n" + join_text(job, plan, join, ink, rows_left, pins);
    say_if_long(text, say);
  }
  if (off_tape(job, plan)) text += fmt::format("\n  {}\n", between_marks);
  text += section("Notes", items(notes_said(job, plan)), ink);
  text += section("Cautions", items(cautions_said(job, plan)), ink);
  return text;
}

} // namespace gatherwright::report
