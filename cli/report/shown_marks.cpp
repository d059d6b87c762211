// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/report/shown_marks.hpp"

#include "cli/report/from_cut.hpp"
#include "cli/words/figures.hpp"
#include "cli/words/names.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace gatherwright::report {

namespace {

constexpr std::size_t most_pins_told = 8; ///< of one stretch
constexpr std::size_t fewest_halved = 5;  ///< rows: of fewer, a half and its sentence take as many lines

/// Lengths that differ by no more than rounding: 1e-9 of the edge.
bool same(double a, double b, double edge) {
  return std::fabs(a - b) <= 1e-9 * std::fmax(1, edge);
}

double place_of(const JoinPlan &planned, const std::vector<Mark> &marks, std::size_t mark, MarkPlace Mark::*edge) {
  if (mark < marks.size()) return (marks[mark].*edge).exact;
  return edge == &Mark::band ? planned.band : planned.long_length;
}

/// How often to fold in half, after folding in `first` parts; nothing where that gives no such number.
struct Folds {
  std::size_t first = 1;
  int halves = 0;
};

std::optional<Folds> folds_for(std::size_t parts) {
  Folds folds{parts, 0};
  for (; folds.first % 2 == 0; folds.first /= 2)
    ++folds.halves;
  if (folds.first > 3) return std::nullopt;
  return folds;
}

/// The reference mark that follows; one more than the last mark for a ring's start.
std::size_t next_reference(const std::vector<Mark> &marks, std::size_t from) {
  std::size_t to = from + 1;
  while (to < marks.size() && !marks[to].reference)
    ++to;
  return to;
}

/// The stretch between two reference marks as equal parts, if it is; `last` may be a ring's start again.
std::optional<EqualParts> equal_parts(const Job &job, const JoinPlan &planned, const std::vector<Mark> &marks,
                                      std::size_t from, std::size_t to) {
  const std::size_t count = to - from;
  if (count <= most_pins_told + 1) return std::nullopt;
  const auto step = [&](MarkPlace Mark::*edge) {
    return (place_of(planned, marks, to, edge) - place_of(planned, marks, from, edge)) / static_cast<double>(count);
  };
  EqualParts parts{from, to, step(&Mark::band), step(&Mark::long_edge), marks[from].stitches_to_next};
  for (std::size_t i = 1; i < count; ++i) {
    const Mark &mark = marks[from + i];
    const auto along = static_cast<double>(i);
    if (!same(mark.band.exact - marks[from].band.exact, along * parts.band, planned.band) ||
        !same(mark.long_edge.exact - marks[from].long_edge.exact, along * parts.long_edge, planned.long_length))
      return std::nullopt;
  }
  const Tape tape = job.tape();
  if (!folds_for(count) && !(on_tape(parts.band, tape) && on_tape(parts.long_edge, tape))) return std::nullopt;
  return parts;
}

bool same_stretch(const SegmentPlan &one, const SegmentPlan &other, Kind kind, Kind other_kind, double edge) {
  return kind == other_kind && same(one.band, other.band, edge) && same(one.long_length, other.long_length, edge);
}

/// Rows of the first half alone, where that saves a line.
void halve(const Join &asked, const JoinPlan &planned, ShownMarks &shown) {
  if (shown.rows.size() < fewest_halved || !reads_alike(asked, planned)) return;
  const std::size_t last = last_of_half(asked, planned);
  const bool in_the_middle = opposite(asked, planned, last) == last;
  const auto beyond = [&](const ShownMark &row) { return row.mark > last; };
  const auto left_out = std::find_if(shown.rows.begin(), shown.rows.end(), beyond);
  if (shown.rows.end() - left_out < 2) return;
  shown.rows.erase(left_out, shown.rows.end());
  std::erase_if(shown.parts,
                [&](const EqualParts &parts) { return in_the_middle ? parts.from >= last : parts.from > last; });
  if (in_the_middle && shown.rows.back().mark == last) shown.rows.back().next.reset(); // that is the other half's
  shown.half = true;
}

std::string fold_said(std::size_t count) {
  const auto folds = folds_for(count);
  if (!folds) return "";
  std::string text = "; fold both edges ";
  if (folds->first == 3) text += folds->halves > 0 ? "in three, then " : "in three";
  if (folds->halves > 0) text += fmt::format("in half {} times", folds->halves);
  return text;
}

/// Between which marks the parts lie, of so many marks: "from mark 1 to mark 17", "all round from mark 0".
std::string reach(const EqualParts &parts, std::size_t marks) {
  if (parts.to < marks) return fmt::format("from mark {} to mark {}", parts.from, parts.to);
  return parts.from == 0 ? "all round from mark 0" : fmt::format("from mark {} round to mark 0 again", parts.from);
}

/// " (12 right shoulder, 17 gathers end)"; empty where there are none or too many.
std::string names_of_half(const Join &asked, const std::vector<Mark> &marks, std::size_t first) {
  constexpr std::size_t most_named = 8;
  std::string names;
  std::size_t named = 0;
  for (std::size_t n = first; n < marks.size(); ++n) {
    if (!words::mark_is_named(asked, marks[n])) continue;
    if (++named > most_named) return "";
    names +=
        fmt::format("{}{} {}", names.empty() ? "" : ", ", n, words::printable(words::mark_called(asked, marks[n])));
  }
  return names.empty() ? "" : " (" + names + ")";
}

} // namespace

bool folding_gives(std::size_t parts) {
  return folds_for(parts).has_value();
}

bool on_tape(double mm, const Tape &tape) {
  return std::fabs(mm / tape.step.mm - std::round(mm / tape.step.mm)) < 1e-6;
}

std::size_t opposite(const Join &asked, const JoinPlan &planned, std::size_t mark) {
  const std::size_t count = planned.marks.size();
  return asked.closed ? (count - mark) % count : count - 1 - mark;
}

std::size_t last_of_half(const Join &asked, const JoinPlan &planned) {
  // A ring's marks go on to its start, which they have once.
  const std::size_t last = planned.marks.size() - (asked.closed ? 0 : 1);
  return last / 2;
}

bool reads_alike(const Join &asked, const JoinPlan &planned) {
  for (const auto &ends : {planned.long_ends, planned.band_ends})
    if (ends && ends->front() != ends->back()) return false;
  const auto &segments = planned.segments;
  for (std::size_t i = 0; i < segments.size(); ++i) {
    const std::size_t other = segments.size() - 1 - i;
    if (!same_stretch(segments[i], segments[other], asked.segments.at(i).kind, asked.segments.at(other).kind,
                      planned.long_length))
      return false;
  }
  const auto &marks = planned.marks;
  for (std::size_t n = asked.closed ? 1 : 0; n < marks.size(); ++n) {
    const Mark &other = marks[opposite(asked, planned, n)];
    if (marks[n].reference != other.reference ||
        !same(marks[n].band.exact + other.band.exact, planned.band, planned.band) ||
        !same(marks[n].long_edge.exact + other.long_edge.exact, planned.long_length, planned.long_length))
      return false;
  }
  const auto varies = [&](MarkPlace Mark::*edge) { return cut_varies(marks, edge); };
  return !varies(&Mark::band) && !varies(&Mark::long_edge);
}

ShownMarks shown_marks(const Job &job, const Join &asked, const JoinPlan &planned, const std::vector<Mark> &marks,
                       Pins pins) {
  const bool folds_help =
      pins == Pins::needed && !cut_varies(marks, &Mark::band) && !cut_varies(marks, &Mark::long_edge);
  ShownMarks shown;
  for (std::size_t n = 0; n < marks.size();) {
    const std::size_t to = marks[n].reference && folds_help ? next_reference(marks, n) : n + 1;
    const bool whole = to < marks.size() || asked.closed;
    const auto parts = whole && to > n + 1 ? equal_parts(job, planned, marks, n, to) : std::nullopt;
    if (parts) shown.parts.push_back(*parts);
    const std::size_t next = parts ? to : n + 1;
    shown.rows.push_back({n, next < marks.size() || asked.closed ? std::optional(next) : std::nullopt});
    n = next;
  }
  if (pins == Pins::needed) halve(asked, planned, shown);
  return shown;
}

bool all_in_words(const ShownMarks &shown) {
  return shown.rows.size() == 1 && !shown.parts.empty();
}

std::vector<std::string> instead_of_marks(const Job &job, const Join &asked, const std::vector<Mark> &marks,
                                          const ShownMarks &shown) {
  std::vector<std::string> said;
  for (const EqualParts &parts : shown.parts) {
    const std::size_t count = parts.to - parts.from;
    std::string text =
        fmt::format("{} equal parts {}: each {} of the band and {} of the long edge", count, reach(parts, marks.size()),
                    words::fine_length(parts.band, job.tape()), words::fine_length(parts.long_edge, job.tape()));
    if (parts.stitches) text += fmt::format(", {} stitches", words::decimals(std::round(*parts.stitches), 0));
    said.push_back(text + fold_said(count) + ".");
  }
  if (shown.half)
    said.push_back(fmt::format("Marks {} to {}: the other half the same, from the other end{}.",
                               shown.rows.back().mark + 1, marks.size() - 1,
                               names_of_half(asked, marks, shown.rows.back().mark + 1)));
  return said;
}

} // namespace gatherwright::report
