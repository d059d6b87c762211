// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/plan_text.hpp"

#include "report/columns.hpp"
#include "report/join_text.hpp"
#include "report/known.hpp"
#include "words/figures.hpp"
#include "words/findings.hpp"
#include "words/names.hpp"
#include "words/notes.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace gatherwright::report {

namespace {

using words::printable;

std::string_view meaning(Verdict verdict) {
  switch (verdict) {
  case Verdict::within_limits:
    return "mark, pin and sew as below";
  case Verdict::too_scant:
    return "too little to read as gathers";
  case Verdict::too_full:
    return "more than sits well in this cloth";
  case Verdict::rule_broken:
    return "something that must hold does not";
  case Verdict::cannot_be_gathered:
    return "it cannot be sewn as it stands";
  case Verdict::rules_conflict:
    break;
  }
  return "no choice of the free lengths meets all that must hold";
}

std::string item(std::string_view text) {
  return wrapped(text, "  - ", "    ", text_width);
}

std::string section(std::string_view title, const std::string &lines, const Ink &ink) {
  return lines.empty() ? "" : "\n" + ink.strong(title) + "\n" + lines;
}

std::string head(const Job &job, const Plan &plan, const Ink &ink) {
  std::string text;
  if (job.title && !job.title->empty()) text += wrapped(ink.strong(printable(*job.title)), "", "", text_width);
  return text + wrapped(fmt::format("Verdict: {}; {}.", ink.verdict(plan.verdict, words::verdict(plan.verdict)),
                                    meaning(plan.verdict)),
                        "", "", text_width);
}

std::string what_is_wrong(const Job &job, const Plan &plan) {
  std::string lines;
  if (!plan.conflict.empty()) lines += item(words::conflict(job, plan));
  for (const Finding &finding : plan.findings)
    lines += item(words::finding(job, finding));
  return lines;
}

std::string what_would_do(const Job &job, const Plan &plan) {
  std::string lines;
  for (const Remedy &remedy : plan.remedies)
    lines += item(words::remedy(job, remedy));
  return lines;
}

/// How far a length alone may move, each end rounded to the side that holds; empty where nothing is known of it.
std::string room(const Job &job, const LengthPlan &planned) {
  if (!planned.room) return "";
  const auto &[least, high] = *planned.room;
  const std::optional<double> low = least && *least > 0 ? least : std::nullopt; // nothing is shorter than 0
  const Tape tape = job.tape();
  const bool inside = (!low || planned.is >= *low - 1e-6) && (!high || planned.is <= *high + 1e-6);
  const std::string_view would = inside ? "will do" : "would do";
  if (low && high) {
    if (*high - *low < tape.step.mm)
      return inside ? "no other will do" : fmt::format("{} would do", words::length((*low + *high) / 2, tape));
    return fmt::format("anything from {} to {} {}", words::length_up(*low, tape), words::length_down(*high, tape),
                       would);
  }
  if (high) return fmt::format("anything up to {} {}", words::length_down(*high, tape), would);
  if (low) return fmt::format("anything from {} up {}", words::length_up(*low, tape), would);
  return "any length will do";
}

/// "Make the sleeve 52 cm between seams; anything from 45 cm to 60 cm will do."
std::string found_lengths(const Job &job, const Plan &plan, const Ink &ink) {
  std::string lines;
  for (std::size_t i = 0; i < plan.lengths.size(); ++i) {
    const LengthPlan &planned = plan.lengths[i];
    if (!planned.found || !planned.known) continue;
    const std::string length = words::length(planned.is, job.tape());
    const std::string may = room(job, planned);
    lines += wrapped(fmt::format("Make the {} {} between seams{}.", printable(job.lengths[i].name), ink.strong(length),
                                 may.empty() ? may : "; " + may),
                     "  ", "    ", text_width);
  }
  return lines;
}

std::string given_lengths(const Job &job, const Plan &plan) {
  std::string lines;
  for (std::size_t i = 0; i < plan.lengths.size(); ++i) {
    const LengthPlan &planned = plan.lengths[i];
    if (planned.found || !planned.known) continue;
    const std::string may = room(job, planned);
    lines += wrapped(fmt::format("{} is {}{}.", printable(job.lengths[i].name), words::length(planned.is, job.tape()),
                                 may.empty() ? may : "; " + may),
                     "  ", "    ", text_width);
  }
  return lines;
}

std::string rules(const Job &job, const Plan &plan) {
  std::string lines;
  for (std::size_t i = 0; i < plan.rules.size(); ++i) {
    const RulePlan &planned = plan.rules[i];
    if (!rule_known(plan, planned)) continue;
    const Rule &rule = job.rules.at(i);
    const words::Pair sides = words::lengths(planned.left, planned.right, job.tape());
    const std::string_view against = rule.holds.relation == Relation::at_most    ? "at most"
                                     : rule.holds.relation == Relation::at_least ? "at least"
                                                                                 : "exactly";
    lines += wrapped(fmt::format("{} {}: {}, {} {} wanted.", planned.holds ? "holds " : "BROKEN", printable(rule.name),
                                 sides.measured, against, sides.limit),
                     "  ", "         ", text_width);
  }
  return lines;
}

/// What is said of several places is said once.
std::string notes(const Job &job, const Plan &plan) {
  std::vector<std::pair<std::string, std::vector<std::string>>> said;
  for (const Note &note : plan.notes) {
    // It stands among what is wrong.
    if (note.kind == Note::Kind::rule_broken) continue;
    std::string says = words::note_says(job, plan, note);
    const std::string place = words::note_place(job, note);
    auto same = std::find_if(said.begin(), said.end(), [&](const auto &each) { return each.first == says; });
    if (same == said.end()) same = said.emplace(said.end(), std::move(says), std::vector<std::string>());
    if (!place.empty()) same->second.push_back(place);
  }
  std::string lines;
  for (const auto &[says, places] : said)
    lines += item(words::note_of(places, says));
  return lines;
}

std::string cautions(const Job &job, const Plan &plan) {
  std::string lines;
  for (const Caution caution : plan.cautions)
    lines += item(words::caution(job, plan, caution));
  return lines;
}

bool off_tape(const Job &job, const Plan &plan) {
  const Tape tape = job.tape();
  for (const JoinPlan &join : plan.joins)
    for (const std::vector<Mark> *marks : {&join.marks, &join.marks_mirrored})
      for (const Mark &mark : *marks)
        if (words::place(mark.long_edge.tape, tape).front() == '~' || words::place(mark.band.tape, tape).front() == '~')
          return true;
  return false;
}

} // namespace

std::string plan_text(const Job &job, const Plan &plan, const Ink &ink) {
  const std::string found = found_lengths(job, plan, ink);
  const std::string given = given_lengths(job, plan);
  std::string text = head(job, plan, ink);
  text += section("What is wrong", what_is_wrong(job, plan), ink);
  text += section(plan.remedies.size() > 1 ? "What would put it right (one of these)" : "What would put it right",
                  what_would_do(job, plan), ink);
  if (!(found.empty() && given.empty() && plan.joins.empty()))
    text += "\nAll lengths are between seams; allowances come on top.\n";
  text += section("Lengths found", found, ink);
  text += section("Lengths given", given, ink);
  text += section("Rules", rules(job, plan), ink);
  for (int join = 0; join < static_cast<int>(plan.joins.size()); ++join)
    text += "\n" + join_text(job, plan, join, ink);
  if (off_tape(job, plan)) text += "\n  ~ is between two marks of the tape.\n";
  text += section("Notes", notes(job, plan), ink);
  text += section("Cautions", cautions(job, plan), ink);
  return text;
}

} // namespace gatherwright::report
