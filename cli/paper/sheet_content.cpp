// SPDX-License-Identifier: GPL-3.0-or-later
#include "paper/sheet_content.hpp"

#include "report/join_words.hpp"
#include "report/mark_table.hpp"
#include "report/plan_words.hpp"
#include "words/figures.hpp"
#include "words/names.hpp"

#include <fmt/format.h>

namespace gatherwright::paper {

namespace {

using report::Table;
using words::printable;

/// Lengths of one sort, each with how far it may move.
Table lengths(const Job &job, const Plan &plan, bool found) {
  Table table({{"", "length", Table::Align::left}, {"", "between seams"}, {"", "room", Table::Align::left}});
  for (std::size_t i = 0; i < plan.lengths.size(); ++i) {
    const LengthPlan &planned = plan.lengths[i];
    if (planned.found != found || !planned.known) continue;
    table.row({printable(job.lengths.at(i).name), words::length(planned.is, job.tape()), report::room(job, planned)});
  }
  return table;
}

Table edges_of_joins(const Job &job, const Plan &plan) {
  Table table({{"", "join", Table::Align::left},
               {"", "long edge", Table::Align::left},
               {"", "band", Table::Align::left},
               {"", "fullness"},
               {"", "make", Table::Align::left},
               {"", "verdict", Table::Align::left}});
  for (std::size_t i = 0; i < plan.joins.size(); ++i) {
    const JoinPlan &planned = plan.joins[i];
    const Join &asked = job.joins.at(i);
    std::string make = report::made(asked);
    make = make.empty() ? "1" : make.substr(std::string_view("make ").size());
    table.row({printable(asked.name), report::edge_said(job, asked.long_edge, planned.long_length),
               report::edge_said(job, asked.band, planned.band), words::decimals(planned.long_length / planned.band, 2),
               make, fmt::format("{} {}", sign(planned.verdict), words::verdict(planned.verdict))});
  }
  return table;
}

std::vector<SheetTable> to_cut(const Job &job, const Plan &plan) {
  std::vector<SheetTable> tables;
  const auto add = [&](std::string_view caption, Table table) {
    if (!table.cells().empty()) tables.push_back({std::string(caption), std::move(table)});
  };
  add("Lengths found", lengths(job, plan, true));
  add("Lengths given", lengths(job, plan, false));
  add("Edges to sew together", edges_of_joins(job, plan));
  return tables;
}

std::vector<std::string> of_the_picture(const Join &asked, const JoinPlan &planned) {
  std::vector<std::string> said;
  if (asked.closed) said.emplace_back("A ring: its end meets its start, at mark 0.");
  if (planned.drawn_long && planned.drawn_band)
    said.emplace_back("Both edges are drawn curves; they are straightened here.");
  else if (planned.drawn_long || planned.drawn_band)
    said.push_back(
        fmt::format("The {} is a drawn curve; it is straightened here.", planned.drawn_long ? "long edge" : "band"));
  return said;
}

void add(std::vector<std::string> &said, std::string sentence) {
  if (!sentence.empty()) said.push_back(std::move(sentence));
}

JoinSheet join_sheet(const Job &job, int join, const JoinPlan &planned) {
  const Join &asked = job.joins.at(join);
  const std::string name = printable(asked.name);
  report::StretchesSaid stretches = report::stretches(job, asked, planned);
  add(stretches.stretches, std::move(stretches.in_this_cloth));
  const report::MirroredSaid mirrored = report::mirrored(asked, planned);
  JoinSheet sheet{.join = join,
                  .heading = name,
                  .made = report::made(asked),
                  .verdict = planned.verdict,
                  .edges = report::edges(job, join, planned),
                  .stretches = std::move(stretches.stretches),
                  .of_the_picture = of_the_picture(asked, planned),
                  .fullest = report::fullest(asked, planned),
                  .marks = {"Marks of " + name, report::mark_table(job, asked, planned, planned.marks, false)},
                  .below_marks = {},
                  .mirrored = mirrored.says,
                  .marks_mirrored = std::nullopt,
                  .below_mirrored = {},
                  .working = report::gathering(job, asked, planned)};
  add(sheet.below_marks, report::back_to_start(job, asked, planned));
  add(sheet.below_marks, report::from_cut_edges(job, planned.marks));
  if (mirrored.elsewhere) {
    sheet.marks_mirrored = {"Marks of " + name + ", the mirrored one",
                            report::mark_table(job, asked, planned, planned.marks_mirrored, true)};
    add(sheet.below_mirrored, report::from_cut_edges(job, planned.marks_mirrored));
  }
  sheet.working.push_back(report::pins(asked, planned));
  return sheet;
}

std::vector<std::string> rules(const Job &job, const Plan &plan) {
  std::vector<std::string> said;
  for (const report::RuleSaid &rule : report::rules_said(job, plan))
    said.push_back(fmt::format("{} {} {}", rule.holds ? "✓" : "✗", rule.holds ? "holds:" : "BROKEN:", rule.says));
  return said;
}

} // namespace

std::string_view sign(Verdict verdict) {
  switch (verdict) {
  case Verdict::within_limits:
    return "✓";
  case Verdict::too_scant:
  case Verdict::too_full:
    return "!";
  case Verdict::rule_broken:
  case Verdict::cannot_be_gathered:
  case Verdict::rules_conflict:
    break;
  }
  return "✗";
}

bool can_be_drawn(const JoinPlan &planned) {
  constexpr double most = 1e9;
  return planned.long_length > 0 && planned.band > 0 && planned.long_length < most && planned.band < most &&
         planned.long_length / planned.band < most;
}

Sheet sheet_of(const Job &job, const Plan &plan) {
  const bool titled = job.title && !job.title->empty();
  Sheet sheet{.title = titled ? printable(*job.title) + ": worksheet" : "Worksheet",
              .heading = titled ? printable(*job.title) : "Worksheet",
              .verdict = plan.verdict,
              .meaning = std::string(report::meaning(plan.verdict)),
              .wrong = {"What is wrong", report::what_is_wrong(job, plan)},
              .mend = {std::string(report::what_would_do_heading(plan)), report::what_would_do(job, plan)},
              .between_seams = "",
              .to_cut = to_cut(job, plan),
              .rules = {"Rules", rules(job, plan)},
              .joins = {},
              .between_marks = report::off_tape(job, plan) ? std::string(report::between_marks) : "",
              .notes = {"Notes", report::notes_said(job, plan)},
              .cautions = {"Cautions", report::cautions_said(job, plan)}};
  if (!sheet.to_cut.empty()) sheet.between_seams = report::between_seams;
  for (int join = 0; join < static_cast<int>(plan.joins.size()); ++join)
    sheet.joins.push_back(join_sheet(job, join, plan.joins[join]));
  return sheet;
}

} // namespace gatherwright::paper
