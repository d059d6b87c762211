// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/report/mark_table.hpp"

#include "cli/report/from_cut.hpp"
#include "cli/words/figures.hpp"
#include "cli/words/names.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

namespace gatherwright::report {

namespace {

using words::printable;

std::string cut_cell(const Mark &mark, MarkPlace Mark::*edge, bool shown, const Tape &tape) {
  const MarkPlace &place = mark.*edge;
  return shown && place.cut ? words::place(std::round(*place.cut / tape.step.mm) * tape.step.mm, tape) : "";
}

/// Stretch on each edge from mark n to the next, as marked; a ring's last leads back to its start.
std::pair<double, double> gap_on_tape(const JoinPlan &planned, const std::vector<Mark> &marks, std::size_t n,
                                      std::size_t next) {
  const bool last = next == marks.size();
  const double long_end = last ? planned.long_length : marks[next].long_edge.tape;
  const double band_end = last ? planned.band : marks[next].band.tape;
  return {long_end - marks[n].long_edge.tape, band_end - marks[n].band.tape};
}

/// The segment that the stretch from mark n to the next lies in, by where its middle lies along the band.
std::size_t segment_to_next(const JoinPlan &planned, const std::vector<Mark> &marks, std::size_t n,
                            bool from_other_end) {
  const double end = n + 1 == marks.size() ? planned.band : marks[n + 1].band.exact;
  const double along = (marks[n].band.exact + end) / 2;
  const double middle = from_other_end ? planned.band - along : along;
  const auto holds_it = [&](const SegmentPlan &segment) { return middle <= segment.to; };
  const auto found = std::find_if(planned.segments.begin(), planned.segments.end() - 1, holds_it);
  return static_cast<std::size_t>(found - planned.segments.begin());
}

/// "5 of 12 %": the ease, and the most that works in without a fold.
std::string ease_said(double fullness, double most) {
  const words::Pair ease = words::ease_percents(fullness, most);
  const std::string &measured = ease.measured;
  return measured.substr(0, measured.find(" %")) + " of " + ease.limit;
}

/// Stitches from one mark to another, hole to hole; nothing where some stretch between them has none.
std::optional<double> stitches_between(const std::vector<Mark> &marks, std::size_t from, std::size_t to) {
  double sum = 0;
  for (std::size_t n = from; n < to; ++n) {
    if (!marks[n].stitches_to_next) return std::nullopt;
    sum += *marks[n].stitches_to_next;
  }
  return sum;
}

/// To the nearest whole number; a half goes up, also where rounding took a hair off it, so that like gaps read alike.
double whole(double count) {
  return std::floor(count + 0.5 + 1e-6);
}

/// As the job names it, or by its place.
std::string own_name(const Join &asked, const std::vector<Mark> &marks, std::size_t n, bool from_other_end) {
  const Mark &mark = marks[n];
  if (!from_other_end || !mark.reference || asked.closed || words::mark_is_named(asked, mark))
    return words::mark_called(asked, mark);
  return n == 0 ? "start" : "end";
}

} // namespace

std::string mark_said(const Join &asked, const JoinPlan &planned, const std::vector<Mark> &marks, std::size_t mark,
                      bool from_other_end, bool half) {
  const std::string own = own_name(asked, marks, mark, from_other_end);
  if (!half || own.empty() || mark == 0) return printable(own);
  const std::string other = own_name(asked, marks, opposite(asked, planned, mark), from_other_end);
  return printable(other.empty() || other == own ? own : own + ", " + other);
}

Table mark_table(const Job &job, const Join &asked, const JoinPlan &planned, const std::vector<Mark> &marks,
                 bool from_other_end, const ShownMarks &shown, std::size_t most_rows) {
  const Tape tape = job.tape();
  const std::string unit = inches_strung_to(tape.unit) ? "" : std::string(name(tape.unit));
  const bool cut_varies_long = cut_varies(marks, &Mark::long_edge);
  const bool cut_varies_band = cut_varies(marks, &Mark::band);
  using Align = Table::Align;
  const Align figures = unit.empty() ? Align::right : Align::point;
  Table table({{"", "no"},
               {"", "mark", Align::left, Table::When::shortened},
               {"band", unit, figures},
               {"its cut", "edge", figures},
               {"long edge", unit, figures},
               {"its cut", "edge", figures},
               {"to the next mark", "fullness", Align::right, Table::When::kept, true},
               {"", "to lose", figures, Table::When::left_out},
               {"", "eased in", Align::right, Table::When::left_out},
               {"stitches", "in all", Align::right, Table::When::left_out, true},
               {"", "showing", Align::right, Table::When::left_out}});
  for (std::size_t row = 0; row < std::min(shown.rows.size(), most_rows); ++row) {
    const auto [n, next] = shown.rows[row];
    const Mark &mark = marks[n];
    std::string full;
    std::string lose;
    std::string eased;
    if (mark.fullness_to_next && next) {
      const std::size_t segment = segment_to_next(planned, marks, n, from_other_end);
      const Kind kind = asked.segments.at(segment).kind;
      const bool plain = !takes_fullness(kind);
      const auto [long_gap, band_gap] = gap_on_tape(planned, marks, n, *next);
      full = plain ? "plain" : words::ratio(*mark.fullness_to_next);
      if (!plain)
        lose = words::place(std::round(std::fmax(0, long_gap - band_gap) / tape.step.mm) * tape.step.mm, tape);
      if (told_in_percent(kind)) eased = ease_said(*mark.fullness_to_next, planned.segments[segment].limits.most);
    }
    std::string holes;
    std::string face;
    if (const auto stitches = next ? stitches_between(marks, n, *next) : std::nullopt) {
      holes = words::decimals(whole(*stitches), 0);
      face = words::decimals(whole(*stitches / 2), 0);
    }
    table.row({std::to_string(n), mark_said(asked, planned, marks, n, from_other_end, false),
               words::place(mark.band.tape, tape), cut_cell(mark, &Mark::band, cut_varies_band, tape),
               words::place(mark.long_edge.tape, tape), cut_cell(mark, &Mark::long_edge, cut_varies_long, tape), full,
               lose, eased, holes, face});
  }
  return table;
}

} // namespace gatherwright::report
