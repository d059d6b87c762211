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
  return lines.empty() ? "" : ink.strong(title) + "\n" + lines;
}

/// What is read together, set apart by a blank line.
std::string part(const std::string &text) {
  return text.empty() ? "" : "\n" + text;
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

std::string sentence(std::string_view text) {
  return wrapped(text, "  ", "    ", text_width);
}

/// "Make the sleeve 52 cm; anything from 45 cm to 60 cm will do." for each length of one sort whose room is known, and
/// all others together: "cuff is 22 cm, gusset 13 cm, slit 5 cm."
std::string lengths(const Job &job, const Plan &plan, bool found, const Ink &ink) {
  const std::vector<bool> are_sizes = are_sizes_of_pieces(job, plan);
  std::string lines;
  std::vector<std::string> others;
  for (std::size_t i = 0; i < plan.lengths.size(); ++i) {
    const LengthPlan &planned = plan.lengths[i];
    if (planned.found.has_value() != found || !planned.is || are_sizes[i]) continue;
    const std::string may = room(job, planned);
    const bool goes_on = may.empty() && !others.empty();
    const std::string length = words::length(*planned.is, job.tape());
    const std::string said =
        fmt::format("{}{}{} {}",
                    !found    ? ""
                    : goes_on ? "the "
                              : "Make the ",
                    printable(job.lengths[i].name), found || goes_on ? "" : " is", found ? ink.strong(length) : length);
    if (may.empty())
      others.push_back(said);
    else
      lines += sentence(fmt::format("{}; {}.", said, may));
  }
  return others.empty() ? lines : lines + sentence(fmt::format("{}.", fmt::join(others, ", ")));
}

std::string rules(const Job &job, const Plan &plan) {
  std::string lines;
  for (const RuleSaid &rule : rules_said(job, plan))
    lines += wrapped(fmt::format("{} {}", rule.holds ? "holds " : "BROKEN", rule.says), "  ", "         ", text_width);
  return lines;
}

/// The lengths and what must hold between them.
std::string what_to_cut(const Job &job, const Plan &plan, const Ink &ink) {
  const std::string given = section("Lengths found", lengths(job, plan, true, ink), ink) +
                            section("Lengths given", lengths(job, plan, false, ink), ink);
  const bool any = !(given.empty() && plan.joins.empty());
  return (any ? wrapped(of_all_lengths(plan), "", "", text_width) : "") + given +
         section("Rules", rules(job, plan), ink);
}

} // namespace

std::string paragraph(std::string_view text) {
  return text.empty() ? "" : wrapped(text, margin, margin, text_width);
}

std::string plan_text(const Job &whole, const Plan &plan, const Ink &ink, const Say &say, Pins pins) {
  const std::optional<Job> short_named = with_short_names(whole);
  const Job &job = short_named ? *short_named : whole;
  std::string text = head(job, plan, ink);
  text += part(section("What is wrong", items(what_is_wrong(job, plan)), ink));
  text += part(section(what_would_do_heading(plan), items(what_would_do(job, plan)), ink));
  text += pieces_text(job, plan, ink, pins);
  text += part(what_to_cut(job, plan, ink));
  std::size_t rows_left = most_rows;
  for (int join = 0; join < static_cast<int>(plan.joins.size()); ++join) {
    text += part(join_text(job, plan, join, ink, rows_left, pins));
    say_if_long(text, say);
  }
  if (off_tape(job, plan)) text += part(fmt::format("  {}\n", between_marks));
  text += part(section("Notes", items(notes_said(job, plan, pins)), ink) +
               section("Cautions", items(cautions_said(job, plan)), ink));
  return text;
}

} // namespace gatherwright::report
