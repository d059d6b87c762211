// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/join_text.hpp"

#include "report/columns.hpp"
#include "report/plan_text.hpp"
#include "report/table.hpp"
#include "words/figures.hpp"
#include "words/names.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

namespace gatherwright::report {

namespace {

using words::printable;
using words::to_one;

constexpr std::string_view margin = "  ";

std::string paragraph(std::string_view text) {
  return wrapped(text, margin, margin, text_width);
}

/// "the cuff, 22 cm" or just "22 cm".
std::string edge(const Job &job, const Edge &asked, double mm) {
  const std::string name = words::edge_named(job, asked);
  const std::string length = words::length(mm, job.tape());
  return name.empty() ? length : fmt::format("{}, {}", printable(name), length);
}

std::string heading(const Job &job, int join, const JoinPlan &planned, const Ink &ink) {
  const Join &asked = job.joins.at(join);
  std::string title = words::printable(asked.name);
  std::string made;
  if (asked.make != 1) made = fmt::format(" (make {}{})", asked.make, asked.mirrored ? ", in mirrored pairs" : "");
  if (asked.mirrored && asked.make == 2) made = " (make 2, a mirrored pair)";
  std::string text = ink.strong(title) + made;
  if (planned.verdict != Verdict::within_limits)
    text += ": " + ink.verdict(planned.verdict, words::verdict(planned.verdict));
  text = wrapped(text, "", margin, text_width);
  text +=
      paragraph(fmt::format("Long edge: {}. Band{}: {}. Overall {}{}.", edge(job, asked.long_edge, planned.long_length),
                            join == 0 ? ", the edge it is sewn to" : "", edge(job, asked.band, planned.band),
                            to_one(planned.long_length / planned.band), asked.closed ? ", a ring" : ""));
  return text;
}

/// "1.18 to 2.70"
std::string span(double low, double high) {
  return fmt::format("{} to {}", words::decimals(low, 2), words::decimals(high, 2));
}

/// What the cloth takes of a stretch; ease has its limit beside its figure.
std::string limits(const Segment &asked, const SegmentPlan &planned) {
  if (asked.kind == Kind::flat || asked.kind == Kind::ease) return "";
  return fmt::format("sits well from {}, best near {}", span(planned.limits.least, planned.limits.most),
                     words::decimals(planned.limits.ideal, 2));
}

/// The limits of every gathered stretch, where they are the same for all.
std::string common_limits(const Join &asked, const JoinPlan &planned) {
  std::string common;
  for (std::size_t i = 0; i < planned.segments.size(); ++i) {
    const std::string own = limits(asked.segments.at(i), planned.segments[i]);
    if (own.empty()) continue;
    if (!common.empty() && own != common) return "";
    common = own;
  }
  return common;
}

/// How a stretch is worked and how full it comes out, without its name.
std::string fullness(const Job &job, const Segment &asked, const SegmentPlan &planned, bool limits_told) {
  const Tape tape = job.tape();
  if (asked.kind == Kind::flat) return "plain, " + words::length(planned.band, tape);
  std::string text;
  if (asked.kind == Kind::ease) {
    const words::Pair ease = words::ease_percents(planned.fullness, planned.limits.most);
    text = fmt::format("eased in {} ({} at most)", ease.measured, ease.limit);
  } else {
    text = fmt::format("{} {}", words::worked(asked.kind), to_one(planned.fullness));
  }
  if (planned.verdict != Verdict::within_limits) text += fmt::format(", {}", words::verdict(planned.verdict));
  text += fmt::format(", {} to lose", words::nearest_length(std::fmax(0, planned.long_length - planned.band), tape));
  if (const std::string own = limits(asked, planned); !limits_told && !own.empty()) text += "; " + own;
  if (words::decimals(planned.fullest, 2) != words::decimals(planned.slackest, 2))
    text += fmt::format("; {} along it", span(planned.slackest, planned.fullest));
  if (planned.give) text += fmt::format("; could come out {}", span(planned.give->front(), planned.give->back()));
  if (asked.kind == Kind::gather) text += fmt::format("; the gathers stand {}", words::small_length(planned.ridge));
  if (asked.kind == Kind::gauge)
    text += fmt::format("; {} folds {} deep, one every {}", planned.folds, words::small_length(planned.depth),
                        words::small_length(planned.pitch));
  return text;
}

/// "left front, left back and right back"
std::string listed(const std::vector<std::string> &names) {
  std::string text = names.front();
  for (std::size_t i = 1; i < names.size(); ++i)
    text += (i + 1 == names.size() ? " and " : ", ") + names[i];
  return text;
}

/// Stretches that come out alike are told together.
std::string stretches(const Job &job, const Join &asked, const JoinPlan &planned) {
  struct Told {
    std::string how;
    std::vector<std::string> names;
  };
  const std::string common = common_limits(asked, planned);
  std::vector<Told> told;
  for (std::size_t i = 0; i < planned.segments.size(); ++i) {
    const std::string how = fullness(job, asked.segments.at(i), planned.segments[i], !common.empty());
    const std::string &name = asked.segments[i].name;
    const std::string called = name.empty() ? fmt::format("stretch {}", i + 1) : printable(name);
    const auto same = std::find_if(told.begin(), told.end(), [&](const Told &other) { return other.how == how; });
    if (same != told.end())
      same->names.push_back(called);
    else
      told.push_back({how, {called}});
  }
  std::string text;
  for (const Told &each : told) {
    std::string line = fmt::format("{}: {}{}.", listed(each.names), each.names.size() > 1 ? "each " : "", each.how);
    if (planned.segments.size() == 1 && asked.segments.front().name.empty())
      line = static_cast<char>(each.how.front() - 'a' + 'A') + each.how.substr(1) + ".";
    text += wrapped(line, margin, "    ", text_width);
  }
  if (!common.empty()) text += paragraph(fmt::format("In this cloth it {}.", common));
  return text;
}

/// The one distance of every mark's `cut` from its `tape`, or nothing where it varies, as along a curve.
std::optional<double> cut_from_tape(const std::vector<Mark> &marks, MarkPlace Mark::*edge) {
  std::optional<double> ahead;
  for (const Mark &mark : marks) {
    const MarkPlace &place = mark.*edge;
    if (!place.cut || (ahead && std::fabs(*place.cut - place.tape - *ahead) > 1e-6)) return std::nullopt;
    ahead = *place.cut - place.tape;
  }
  return ahead;
}

bool has_cut(const std::vector<Mark> &marks, MarkPlace Mark::*edge) {
  return std::any_of(marks.begin(), marks.end(), [&](const Mark &mark) { return (mark.*edge).cut.has_value(); });
}

std::string cut_cell(const Mark &mark, MarkPlace Mark::*edge, bool shown, const Tape &tape) {
  const MarkPlace &place = mark.*edge;
  return shown && place.cut ? words::place(std::round(*place.cut / tape.step.mm) * tape.step.mm, tape) : "";
}

/// Stretch on each edge from mark n to the next, as marked; a ring's last leads back to its start.
std::pair<double, double> gap_on_tape(const JoinPlan &planned, const std::vector<Mark> &marks, std::size_t n) {
  const bool last = n + 1 == marks.size();
  const double long_end = last ? planned.long_length : marks[n + 1].long_edge.tape;
  const double band_end = last ? planned.band : marks[n + 1].band.tape;
  return {long_end - marks[n].long_edge.tape, band_end - marks[n].band.tape};
}

/// Whether the stretch from mark n to the next is sewn plain, by where its middle lies along the band.
bool plain_to_next(const Join &asked, const JoinPlan &planned, const std::vector<Mark> &marks, std::size_t n,
                   bool from_other_end) {
  const double end = n + 1 == marks.size() ? planned.band : marks[n + 1].band.exact;
  const double along = (marks[n].band.exact + end) / 2;
  const double middle = from_other_end ? planned.band - along : along;
  const auto holds_it = [&](const SegmentPlan &segment) { return middle <= segment.to; };
  const auto found = std::find_if(planned.segments.begin(), planned.segments.end(), holds_it);
  return found != planned.segments.end() && asked.segments.at(found - planned.segments.begin()).kind == Kind::flat;
}

/// To the nearest whole number; a half goes up, also where rounding took a hair off it, so that like gaps read alike.
double whole(double count) {
  return std::floor(count + 0.5 + 1e-6);
}

std::string mark_table(const Job &job, const Join &asked, const JoinPlan &planned, const std::vector<Mark> &marks,
                       bool from_other_end) {
  const Tape tape = job.tape();
  const std::string unit = tape.unit == Unit::ft || tape.unit == Unit::yd ? "" : std::string(name(tape.unit));
  const bool cut_varies_long = has_cut(marks, &Mark::long_edge) && !cut_from_tape(marks, &Mark::long_edge).has_value();
  const bool cut_varies_band = has_cut(marks, &Mark::band) && !cut_from_tape(marks, &Mark::band).has_value();
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
               {"", "stitches", Align::right, Table::When::left_out},
               {"", "on face", Align::right, Table::When::left_out}});
  for (std::size_t n = 0; n < marks.size(); ++n) {
    const Mark &mark = marks[n];
    std::string full;
    std::string lose;
    if (mark.fullness_to_next) {
      const bool plain = plain_to_next(asked, planned, marks, n, from_other_end);
      const auto [long_gap, band_gap] = gap_on_tape(planned, marks, n);
      full = plain ? "plain" : words::decimals(*mark.fullness_to_next, 2);
      if (!plain)
        lose = words::place(std::round(std::fmax(0, long_gap - band_gap) / tape.step.mm) * tape.step.mm, tape);
    }
    std::string holes;
    std::string face;
    if (mark.stitches_to_next) {
      holes = words::decimals(whole(*mark.stitches_to_next), 0);
      face = words::decimals(whole(*mark.stitches_to_next / 2), 0);
    }
    table.row({std::to_string(n), printable(words::mark_called(asked, mark)), words::place(mark.band.tape, tape),
               cut_cell(mark, &Mark::band, cut_varies_band, tape), words::place(mark.long_edge.tape, tape),
               cut_cell(mark, &Mark::long_edge, cut_varies_long, tape), full, lose, holes, face});
  }
  return table.lines(margin, text_width);
}

std::string back_to_start(const Job &job, const Join &asked, const JoinPlan &planned) {
  if (!asked.closed) return "";
  return paragraph(fmt::format("After mark {} comes mark 0 again, at {} of the band and {} of the long edge.",
                               planned.marks.size() - 1, words::length(planned.band, job.tape()),
                               words::length(planned.long_length, job.tape())));
}

std::string from_cut_edges(const Job &job, const std::vector<Mark> &marks) {
  const auto allowance = [&](MarkPlace Mark::*edge) -> std::string {
    const std::optional<double> ahead = cut_from_tape(marks, edge);
    return ahead && *ahead != 0 ? words::length(*ahead, job.tape()) : "";
  };
  const std::string band = allowance(&Mark::band);
  const std::string long_edge = allowance(&Mark::long_edge);
  if (band.empty() && long_edge.empty()) return "";
  std::string text = "Measuring from the cut end, add ";
  if (band == long_edge)
    text += band;
  else if (band.empty() || long_edge.empty())
    text += band.empty() ? long_edge + " on the long edge" : band + " on the band";
  else
    text += fmt::format("{} on the band and {} on the long edge", band, long_edge);
  return paragraph(text + ".");
}

/// The marks of the piece worked from the other end: a table where they lie elsewhere.
std::string mirrored(const Job &job, const Join &asked, const JoinPlan &planned) {
  const auto &marks = planned.marks;
  const auto &other = planned.marks_mirrored;
  if (other.empty()) return "";
  const auto same_place = [](const Mark &a, const Mark &b) {
    return std::fabs(a.long_edge.tape - b.long_edge.tape) < 1e-6 && std::fabs(a.band.tape - b.band.tape) < 1e-6;
  };
  const auto same_name = [&](const Mark &a, const Mark &b) {
    const auto name = [&](const Mark &mark) {
      return words::mark_is_named(asked, mark) ? words::mark_called(asked, mark) : std::string();
    };
    return name(a) == name(b);
  };
  if (!std::equal(marks.begin(), marks.end(), other.begin(), other.end(), same_place))
    return "\n" + paragraph("The mirrored one, read from its own start:") +
           mark_table(job, asked, planned, other, true) + from_cut_edges(job, other);
  return paragraph(std::equal(marks.begin(), marks.end(), other.begin(), same_name)
                       ? "The mirrored one is marked the same."
                       : "The mirrored one is marked at the same places, its marks in the other order.");
}

/// Distances of the rows: inches for an inch tape, else millimetres.
std::string row_places(const Job &job, const std::vector<double> &at) {
  const bool inches = job.unit == Unit::in || job.unit == Unit::ft || job.unit == Unit::yd;
  const Tape fine{Unit::in, Length{25.4 / 16}};
  std::string text;
  for (std::size_t i = 0; i < at.size(); ++i) {
    text += i == 0 ? "" : i + 1 == at.size() ? " and " : ", ";
    text += inches ? words::length(at[i], fine) : words::small_length(at[i]);
  }
  return text;
}

std::string thread_list(const Job &job, const GatheringPlan &gathering) {
  std::string text;
  for (std::size_t i = 0; i < gathering.threads.size(); ++i) {
    const Thread &thread = gathering.threads[i];
    const bool all_round = thread.from == thread.to;
    text += fmt::format("{}mark {}{} cut {}", i == 0 ? "" : "; ", thread.from,
                        all_round ? " all round" : fmt::format(" to mark {}", thread.to),
                        words::length_up(thread.cut, job.tape()));
  }
  return text;
}

std::string gathering(const Job &job, const Join &asked, const JoinPlan &planned) {
  std::string text;
  if (planned.gathering) {
    const GatheringPlan &rows = *planned.gathering;
    std::string run = fmt::format(
        "Run {} {} of gathering, {} from the cut edge, {} from hole to hole ({} stitches a row).", rows.rows,
        rows.rows == 1 ? "row" : "rows", row_places(job, rows.at), words::small_length(rows.stitch), rows.stitches);
    run += fmt::format(" Thread for each row: {}; {} in all{}.", thread_list(job, rows),
                       words::length_up(rows.thread, job.tape()), asked.make > 1 ? " for one piece" : "");
    text += paragraph(run);
  }
  if (planned.cord)
    text += paragraph(fmt::format("Draw it up on a cord or elastic in a casing, cut {} to begin with.",
                                  words::length_up(*planned.cord, job.tape())));
  return text;
}

std::string pins(const Join &asked, const JoinPlan &planned) {
  std::string text = fmt::format("Pins: {}, one a mark", planned.pins);
  if (asked.make > 1) text += fmt::format("; {} in all", static_cast<long long>(planned.pins) * asked.make);
  return paragraph(text + ".");
}

} // namespace

std::string join_text(const Job &job, const Plan &plan, int join, const Ink &ink) {
  const Join &asked = job.joins.at(join);
  const JoinPlan &planned = plan.joins.at(join);
  return heading(job, join, planned, ink) + stretches(job, asked, planned) + "\n" +
         mark_table(job, asked, planned, planned.marks, false) + back_to_start(job, asked, planned) +
         from_cut_edges(job, planned.marks) + mirrored(job, asked, planned) + "\n" + gathering(job, asked, planned) +
         pins(asked, planned);
}

} // namespace gatherwright::report
