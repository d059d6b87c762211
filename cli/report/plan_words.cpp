// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/report/plan_words.hpp"

#include "cli/report/known.hpp"
#include "cli/words/figures.hpp"
#include "cli/words/findings.hpp"
#include "cli/words/names.hpp"
#include "cli/words/notes.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <unordered_map>

namespace gatherwright::report {

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

bool off_tape(const Job &job, const Plan &plan) {
  const Tape tape = job.tape();
  const auto is_off = [&tape](double place) {
    const double steps = place / tape.step.mm;
    return steps != std::round(steps) && words::place(place, tape).front() == '~';
  };
  const auto any_off = [&is_off](const std::vector<Mark> &marks) {
    return std::any_of(marks.begin(), marks.end(),
                       [&](const Mark &mark) { return is_off(mark.long_edge.tape) || is_off(mark.band.tape); });
  };
  return std::any_of(plan.joins.begin(), plan.joins.end(), [&](const JoinPlan &join) {
    return any_off(join.marks) || (join.marks_mirrored && any_off(*join.marks_mirrored));
  });
}

std::vector<std::string> what_is_wrong(const Job &job, const Plan &plan) {
  std::vector<std::string> said;
  if (plan.conflict) said.push_back(words::conflict(job, *plan.conflict));
  for (const Finding &finding : plan.findings)
    said.push_back(words::finding(job, finding));
  return said;
}

std::vector<std::string> what_would_do(const Job &job, const Plan &plan) {
  std::vector<std::string> said;
  for (const Remedy &remedy : plan.remedies)
    said.push_back(words::remedy(job, remedy));
  return said;
}

std::string_view what_would_do_heading(const Plan &plan) {
  return plan.remedies.size() > 1 ? "What would put it right (one of these)" : "What would put it right";
}

namespace {

/// A room without the words that make it a sentence.
struct RoomSaid {
  std::string_view before; ///< of a range
  std::string_view from;   ///< of one with a lower end
  std::string what;
  bool will = true; ///< the length as it is lies in it
};

RoomSaid room_said(const Job &job, double is, const Interval &room) {
  const auto &[least, high] = room;
  const std::optional<double> low = least && *least > 0 ? least : std::nullopt; // nothing is shorter than 0
  const Tape tape = job.tape();
  const bool inside = (!low || is >= *low - 1e-6) && (!high || is <= *high + 1e-6);
  if (low && high) {
    // The first and the last step in it; within a millionth of a step is on it, as everywhere on the tape.
    const double first = std::ceil(*low / tape.step.mm - 1e-6);
    const double last = std::floor(*high / tape.step.mm + 1e-6);
    if (first < last)
      return {"anything ", "from ",
              fmt::format("{} to {}", words::length_up(*low, tape), words::length_down(*high, tape)), inside};
    const bool one_step = first == last;
    const bool elsewhere = one_step && std::fabs(is / tape.step.mm - first) > 1e-6;
    if (inside && !elsewhere) return {"", "", "no other", true};
    return {"", "", one_step ? words::length_up(*low, tape) : words::figure_between(*low, *high, tape), inside};
  }
  if (high) return {"anything ", "", fmt::format("up to {}", words::length_down(*high, tape)), inside};
  if (low) return {"anything ", "from ", fmt::format("{} up", words::length_up(*low, tape)), inside};
  return {"", "", "any length", true};
}

} // namespace

std::string room(const Job &job, const LengthPlan &planned) {
  if (!planned.room || !planned.is) return "";
  const RoomSaid said = room_said(job, *planned.is, *planned.room);
  return fmt::format("{}{}{} {}", said.before, said.from, said.what, said.will ? "will do" : "would do");
}

std::string room_brief(const Job &job, const LengthPlan &planned) {
  if (!planned.room || !planned.is) return "";
  const RoomSaid said = room_said(job, *planned.is, *planned.room);
  return said.will ? said.what : said.what + " would do";
}

std::vector<RuleSaid> rules_said(const Job &job, const Plan &plan) {
  std::vector<RuleSaid> said;
  for (std::size_t i = 0; i < plan.rules.size(); ++i) {
    const RulePlan &planned = plan.rules[i];
    if (!rule_known(plan, planned)) continue;
    const Rule &rule = job.rules.at(i);
    const words::Pair sides = planned.holds ? words::sides_that_hold(planned.left, planned.right, job.tape())
                                            : words::lengths(planned.left, planned.right, job.tape());
    const std::string_view against = rule.holds.relation == Relation::at_most    ? "at most"
                                     : rule.holds.relation == Relation::at_least ? "at least"
                                                                                 : "exactly";
    const std::string told = fmt::format("{}, {} {} wanted", sides.measured, against, sides.limit);
    said.push_back({planned.holds, fmt::format("{}: {}.", words::printable(rule.name), told), told, i});
  }
  return said;
}

namespace {

JoinId join_of(const note::FoundByFolding &note) {
  const auto *stretch = std::get_if<SegmentAt>(&note.at);
  return stretch ? stretch->join : std::get<JoinId>(note.at);
}

/// Whether its marks are told as equal parts and how to fold them, so that a note that folding finds them says it
/// twice.
bool folding_is_told(const Job &job, const Plan &plan, const note::FoundByFolding &note, Pins pins) {
  const auto *stretch = std::get_if<SegmentAt>(&note.at);
  const JoinId at = join_of(note);
  const JoinPlan &planned = plan.joins.at(at.at);
  const ShownMarks shown = shown_marks(job, job[at], planned, planned.marks, pins);
  return !shown.parts.empty() && std::none_of(shown.rows.begin(), shown.rows.end(), [&](const ShownMark &row) {
    const Mark &mark = planned.marks[row.mark];
    return !mark.reference && (!stretch || mark.segment == stretch->segment);
  });
}

/// Whether it stands elsewhere or, of marks that are left out, is of no use.
bool is_left_out(const Job &job, const Plan &plan, const Note &note, Pins pins) {
  if (std::holds_alternative<note::RuleBroken>(note)) return true; // it stands among what is wrong
  const auto *folding = std::get_if<note::FoundByFolding>(&note);
  return folding && (is_wrong_way_round(plan, join_of(*folding).at) || folding_is_told(job, plan, *folding, pins));
}

/// Of several joins, whether these are all of them.
bool are_all_joins(const Job &job, const std::vector<std::string> &places) {
  if (places.size() < 2 || places.size() != job.joins.size()) return false;
  for (int join = 0; join < static_cast<int>(places.size()); ++join)
    if (places[join] != words::where(job, JoinId(join))) return false;
  return true;
}

} // namespace

std::vector<std::string> notes_said(const Job &job, const Plan &plan, Pins pins) {
  std::vector<std::pair<std::string, std::vector<std::string>>> said;
  std::unordered_map<std::string, std::size_t> known;
  for (const Note &note : plan.notes) {
    if (is_left_out(job, plan, note, pins)) continue;
    std::string says = words::note_says(job, plan, note);
    const std::string place = words::note_place(job, note);
    const auto [same, is_new] = known.emplace(says, said.size());
    if (is_new) said.emplace_back(std::move(says), std::vector<std::string>());
    if (!place.empty()) said[same->second].second.push_back(place);
  }
  std::vector<std::string> sentences;
  sentences.reserve(said.size());
  for (auto &[says, places] : said)
    sentences.push_back(
        words::note_of(are_all_joins(job, places) ? std::vector<std::string>{"every join"} : places, says));
  return sentences;
}

namespace {

bool comes_first(const Caution &caution) {
  const auto *cord = std::get_if<caution::Cord>(&caution);
  return cord && cord->of_a_child;
}

/// Pins of marks that are told.
long long pins_told(const Job &job, const Plan &plan) {
  long long pins = words::pins_in_all(job, plan);
  for (int join = 0; join < static_cast<int>(plan.joins.size()); ++join)
    if (is_wrong_way_round(plan, join)) pins -= static_cast<long long>(plan.joins[join].pins) * job.joins.at(join).make;
  return pins;
}

std::vector<std::string> said_of(const Job &job, const Plan &plan, bool first) {
  std::vector<std::string> said;
  for (const Caution &caution : plan.cautions) {
    if (comes_first(caution) != first) continue;
    if (!std::holds_alternative<caution::Pins>(caution))
      said.push_back(words::caution(job, plan, caution));
    else if (const long long pins = pins_told(job, plan); pins > 0)
      said.push_back(words::pins_counted(pins));
  }
  return said;
}

} // namespace

std::vector<std::string> first_cautions_said(const Job &job, const Plan &plan) {
  return said_of(job, plan, true);
}

std::vector<std::string> cautions_said(const Job &job, const Plan &plan) {
  return said_of(job, plan, false);
}

std::optional<Standing> standing(const Plan &plan) {
  std::optional<Standing> least;
  if (plan.verdict != Verdict::within_limits) return least;
  for (const JoinPlan &join : plan.joins)
    if (join.standing) least = least ? std::min(*least, *join.standing) : *join.standing;
  return least;
}

bool is_wrong_way_round(const Plan &plan, int join) {
  return std::any_of(plan.findings.begin(), plan.findings.end(), [&](const Finding &finding) {
    const auto *less = std::get_if<finding::LessThanBand>(&finding);
    return less && less->swapped && less->at.join == JoinId(join);
  });
}

std::string of_all_lengths(const Plan &plan) {
  std::string said(between_seams);
  if (std::any_of(plan.lengths.begin(), plan.lengths.end(),
                  [](const LengthPlan &each) { return each.room && each.is; }))
    said += " Where others will do too, each will if nothing else changes.";
  return said;
}

} // namespace gatherwright::report
