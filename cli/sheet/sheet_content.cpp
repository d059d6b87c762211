// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/sheet/sheet_content.hpp"

#include "cli/picture/drawn_edge_picture.hpp"
#include "cli/report/join_words.hpp"
#include "cli/report/mark_table.hpp"
#include "cli/report/pieces_words.hpp"
#include "cli/report/plan_words.hpp"
#include "cli/sheet/filling.hpp"
#include "cli/sheet/pieces_content.hpp"
#include "cli/words/figures.hpp"
#include "cli/words/names.hpp"

#include <fmt/format.h>

#include <utility>

namespace gatherwright::paper {

namespace {

using report::Table;
using words::printable;

std::size_t rows_of(const Join &asked, const std::vector<Mark> &marks, const report::ShownMarks &shown) {
  std::size_t rows = 0;
  for (const report::ShownMark &row : shown.rows)
    rows += row_with(words::mark_called(asked, marks[row.mark]).size());
  return rows;
}

/// Which marks there is no room for: the first `shown` rows are in the table.
std::string marks_left_out(const report::ShownMarks &wanted, std::size_t shown, std::size_t all) {
  if (shown == wanted.rows.size()) return "";
  return fmt::format("Marks {} to {} are left out here, {}.", wanted.rows[shown].mark, all - 1, to_keep_it_short);
}

SheetTable marks(std::string caption, const Job &job, const Join &asked, const JoinPlan &planned, bool mirrored,
                 Filling &filling, report::Pins pins, std::vector<std::string> &below) {
  const std::vector<Mark> &all = mirrored ? planned.marks_mirrored.value() : planned.marks;
  const report::ShownMarks wanted = report::shown_marks(job, asked, planned, all, pins);
  std::size_t shown = 0;
  while (shown < wanted.rows.size() && filling.row(words::mark_called(asked, all[wanted.rows[shown].mark]).size()))
    ++shown;
  if (shown == wanted.rows.size())
    for (std::string &said : report::instead_of_marks(job, asked, all, wanted))
      below.push_back(std::move(said));
  const std::size_t rows = report::all_in_words(wanted) ? 0 : shown;
  return {std::move(caption), report::mark_table(job, asked, planned, all, mirrored, wanted, rows),
          marks_left_out(wanted, shown, all.size())};
}

using Row = FilledTable::Row;

/// Unless nothing wanted to stand in it.
void take(FilledTable filled, std::vector<SheetTable> &into, bool told_by_joins = false) {
  SheetTable made = std::move(filled).take();
  made.told_by_joins = told_by_joins;
  if (!made.table.cells().empty() || !made.left_out.empty()) into.push_back(std::move(made));
}

/// Lengths of one sort, each with how far it may move; those of pieces are told with them.
void add_lengths(std::vector<SheetTable> &tables, std::string caption, const Job &job, const Plan &plan, bool found,
                 Filling &filling) {
  const std::vector<bool> are_sizes = report::are_sizes_of_pieces(job, plan);
  FilledTable rows(std::move(caption),
                   Table({{"", "length", Table::Align::left},
                          {"between", "seams"},
                          {"", std::string(report::room_heading), Table::Align::left}}),
                   filling);
  for (std::size_t i = 0; i < plan.lengths.size(); ++i) {
    const LengthPlan &planned = plan.lengths[i];
    if (planned.found.has_value() != found || !planned.is || are_sizes[i]) continue;
    rows.add(printable(job.lengths.at(i).name), [&](Row &row) {
      row.push_back(words::length(*planned.is, job.tape()));
      row.push_back(report::room_brief(job, planned));
    });
  }
  take(std::move(rows), tables);
}

void add_edges_of_joins(std::vector<SheetTable> &tables, const Job &job, const Plan &plan, Filling &filling) {
  Table table({{"", "join", Table::Align::left},
               {"", "long edge", Table::Align::left},
               {"", "band", Table::Align::left},
               {"", "fullness"},
               {"", "make", Table::Align::left},
               {"", "verdict", Table::Align::left}});
  FilledTable rows("Edges to sew together", std::move(table), filling);
  for (std::size_t i = 0; i < plan.joins.size(); ++i) {
    const JoinPlan &planned = plan.joins[i];
    const Join &asked = job.joins.at(i);
    rows.add(printable(asked.name), [&](Row &row) {
      row.push_back(report::edge_said(job, asked.long_edge, planned.long_length));
      row.push_back(report::edge_said(job, asked.band, planned.band));
      row.push_back(words::ratio(planned.long_length / planned.band));
      const std::string make = report::made(asked);
      row.push_back(make.empty() ? "1" : make.substr(std::string_view("make ").size()));
      row.push_back(fmt::format("{} {}", sign(planned.verdict), words::verdict(planned.verdict, planned.standing)));
    });
  }
  take(std::move(rows), tables, true);
}

std::vector<SheetTable> to_cut(const Job &job, const Plan &plan, Filling &filling) {
  std::vector<SheetTable> tables;
  add_lengths(tables, "Lengths found", job, plan, true, filling);
  add_lengths(tables, "Lengths given", job, plan, false, filling);
  add_edges_of_joins(tables, job, plan, filling);
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

/// The drawn edges that there is room to show; of another the words say that it is not.
std::vector<AsDrawn> as_drawn(const JoinPlan &planned, Filling &filling, std::vector<std::string> &said) {
  std::vector<AsDrawn> shown;
  for (const WhichEdge edge : {WhichEdge::long_edge, WhichEdge::band}) {
    const std::optional<DrawnPlan> &drawn = edge == WhichEdge::band ? planned.drawn_band : planned.drawn_long;
    if (!drawn || !drawn->outline) continue;
    const std::string_view called = words::edge_called(edge);
    const std::size_t points = points_as_drawn(planned, edge);
    if (points == 0 || !filling.has_room_for_outline(points)) {
      said.push_back(fmt::format("The {} as it is drawn is too long a line to be shown here.", called));
      continue;
    }
    std::string caption = fmt::format("The {} as it is drawn", called);
    if (drawn->garment) caption += fmt::format("; the garment lies {}", report::lies(*drawn->garment));
    caption += planned.marks_mirrored ? ". The mirrored piece is the same turned over." : ".";
    shown.push_back({edge, std::move(caption)});
  }
  return shown;
}

void add(std::vector<std::string> &said, std::string sentence) {
  if (!sentence.empty()) said.push_back(std::move(sentence));
}

/// How full each stretch is, and what the cloth takes where the join before does not tell the same.
std::vector<std::string> stretches(const Job &job, const Plan &plan, int join, Filling &filling) {
  report::StretchesSaid said = report::stretches(job, job.joins.at(join), plan.joins.at(join));
  if (!report::limits_are_as_before(job, plan, join)) add(said.stretches, std::move(said.in_this_cloth));
  return filling.sentences(std::move(said.stretches));
}

JoinSheet join_sheet(const Job &job, const Plan &plan, int join, Filling &filling, report::Pins pins) {
  const Join &asked = job.joins.at(join);
  const JoinPlan &planned = plan.joins.at(join);
  const std::string name = printable(asked.name);
  const report::MirroredSaid mirrored = report::mirrored(asked, planned);
  const bool drawn = can_be_drawn(planned) && filling.has_room_for_picture(planned.segments.size());
  JoinSheet sheet{.join = join,
                  .heading = name,
                  .made = report::made(asked),
                  .verdict = planned.verdict,
                  .edges = report::edges(job, join, planned),
                  .stretches = stretches(job, plan, join, filling),
                  .drawn = drawn,
                  .of_the_picture = of_the_picture(asked, planned),
                  .as_drawn = {},
                  .fullest = cut_short(report::fullest(asked, planned)),
                  .marks = {"", Table(std::vector<Table::Column>()), ""},
                  .below_marks = {},
                  .mirrored = mirrored.says,
                  .marks_mirrored = std::nullopt,
                  .below_mirrored = {},
                  .working = filling.sentences(
                      report::gathering(job, asked, planned, report::rows_are_as_before(job, plan, join)))};
  if (drawn) sheet.as_drawn = as_drawn(planned, filling, sheet.of_the_picture);
  sheet.marks = marks("Marks of " + name, job, asked, planned, false, filling, pins, sheet.below_marks);
  add(sheet.below_marks, report::back_to_start(job, asked, planned, pins));
  add(sheet.below_marks, report::from_cut_edges(job, planned.marks));
  if (mirrored.elsewhere) {
    sheet.marks_mirrored = marks("Marks of " + name + ", the mirrored one", job, asked, planned, true, filling, pins,
                                 sheet.below_mirrored);
    add(sheet.below_mirrored, report::from_cut_edges(job, planned.marks_mirrored.value()));
  }
  sheet.working.push_back(report::pins(asked, planned));
  return sheet;
}

/// Of a join whose edges are the wrong way round: what is said of it, and no more.
JoinSheet without_marks(const Job &job, const Plan &plan, int join, Filling &filling) {
  const std::string name = printable(job.joins.at(join).name);
  const JoinPlan &planned = plan.joins.at(join);
  return {
      .join = join,
      .heading = name,
      .made = report::made(job.joins.at(join)),
      .verdict = planned.verdict,
      .edges = report::edges(job, join, planned),
      .stretches = stretches(job, plan, join, filling),
      .drawn = false,
      .of_the_picture = {},
      .as_drawn = {},
      .fullest = "",
      .marks = {"Marks of " + name, Table(std::vector<Table::Column>{{"", "no"}}), std::string(report::no_marks_so)},
      .below_marks = {},
      .mirrored = "",
      .marks_mirrored = std::nullopt,
      .below_mirrored = {},
      .working = {}};
}

std::vector<std::string> rules(const Job &job, const Plan &plan) {
  std::vector<std::string> said;
  for (const report::RuleSaid &rule : report::rules_said(job, plan))
    said.push_back(fmt::format("{} {}", rule.holds ? "✓" : "✗ BROKEN:", rule.says));
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
  constexpr std::size_t most_stretches = 500; // of some 0.4 mm each on paper
  return planned.long_length > 0 && planned.band > 0 && planned.long_length < most && planned.band < most &&
         planned.long_length / planned.band < most && planned.segments.size() <= most_stretches;
}

namespace {

void add_joins(Sheet &sheet, const Job &job, const Plan &plan, Filling &filling, report::Pins pins) {
  const int all = static_cast<int>(plan.joins.size());
  for (int join = 0; join < all; ++join) {
    const JoinPlan &planned = plan.joins[join];
    const Join &asked = job.joins.at(join);
    const std::size_t tables = report::mirrored(asked, planned).elsewhere ? 2 : 1;
    if (!filling.has_room_for_join(
            tables * rows_of(asked, planned.marks, report::shown_marks(job, asked, planned, planned.marks, pins)),
            join == 0)) {
      sheet.joins_left_out =
          fmt::format("{} more {} left out here, from {} on, {}.", all - join,
                      all - join == 1 ? "join is" : "joins are", printable(asked.name), to_keep_it_short);
      return;
    }
    sheet.joins.push_back(report::is_wrong_way_round(plan, join) ? without_marks(job, plan, join, filling)
                                                                 : join_sheet(job, plan, join, filling, pins));
  }
}

} // namespace

Sheet sheet_of(const Job &job, const Plan &plan, const SheetRoom &room, report::Pins pins) {
  Filling filling(room);
  const bool titled = job.title && !job.title->empty();
  Sheet sheet{
      .title = titled ? printable(*job.title) + ": worksheet" : "Worksheet",
      .heading = titled ? printable(*job.title) : "Worksheet",
      .verdict = plan.verdict,
      .judged = words::verdict(plan.verdict, report::standing(plan)),
      .meaning = std::string(report::meaning(plan.verdict)),
      .first_cautions = report::first_cautions_said(job, plan),
      .wrong = {"What is wrong", filling.sentences(report::what_is_wrong(job, plan))},
      .mend = {std::string(report::what_would_do_heading(plan)), filling.sentences(report::what_would_do(job, plan))},
      .pieces = pieces_sheet(job, plan, filling),
      .between_seams = "",
      .to_cut = to_cut(job, plan, filling),
      .rules = {"Rules", filling.sentences(rules(job, plan))},
      .joins = {},
      .joins_left_out = "",
      .between_marks = report::off_tape(job, plan) ? std::string(report::between_marks) : "",
      .notes = {"Notes", filling.sentences(report::notes_said(job, plan, pins))},
      .cautions = {"Cautions", report::cautions_said(job, plan)}};
  if (!sheet.to_cut.empty()) sheet.between_seams = report::of_all_lengths(plan);
  add_joins(sheet, job, plan, filling, pins);
  return sheet;
}

} // namespace gatherwright::paper
