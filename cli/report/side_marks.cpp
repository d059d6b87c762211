// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/report/side_marks.hpp"

#include "cli/words/figures.hpp"
#include "cli/words/listed.hpp"
#include "cli/words/names.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>
#include <unordered_map>

namespace gatherwright::report {

namespace {

constexpr std::size_t most_parts_listed = 4;  ///< of these each pin is told: it takes no more room
constexpr std::size_t fewest_told_halved = 5; ///< marks told: of fewer, a half takes as much room

const Mark &of_join(const Plan &plan, const PieceMark &mark) {
  return plan.joins.at(static_cast<std::size_t>(mark.edge.join.at)).marks.at(static_cast<std::size_t>(mark.mark));
}

/// Lengths on a side that differ by no more than rounding.
bool same_on_side(double a, double b, double side) {
  return std::fabs(a - b) <= 1e-9 * std::fmax(1, side);
}

/// From one mark of a run to another in equal steps, if it is so.
std::optional<double> equal_step(const SideRun &run, std::size_t from, std::size_t to, double side) {
  const double first = run.marks[from].exact;
  const double step = (run.marks[to].exact - first) / static_cast<double>(to - from);
  for (std::size_t i = from + 1; i < to; ++i)
    if (!same_on_side(run.marks[i].exact - first, static_cast<double>(i - from) * step, side)) return std::nullopt;
  return step;
}

/// The mark after this one that is told whatever comes between: the next reference mark, or the last.
std::size_t next_told(const Plan &plan, const SideRun &run, std::size_t from) {
  std::size_t to = from + 1;
  while (to + 1 < run.marks.size() && !of_join(plan, run.marks[to]).reference)
    ++to;
  return to;
}

bool reads_alike(const Plan &plan, const SideRun &run, double length) {
  const std::size_t last = run.marks.size() - 1;
  for (std::size_t i = 0; i <= last / 2; ++i) {
    const PieceMark &one = run.marks[i];
    const PieceMark &other = run.marks[last - i];
    if (of_join(plan, one).reference != of_join(plan, other).reference ||
        !same_on_side(one.exact + other.exact, length, length))
      return false;
  }
  return true;
}

/// Leaves the second half out, where it saves anything and the middle parts the two.
void halve(const Plan &plan, const SideRun &run, double length, ToldMarks &marks) {
  if (marks.told.size() < fewest_told_halved || !reads_alike(plan, run, length)) return;
  const std::size_t middle = (run.marks.size() - 1) / 2;
  const auto beyond =
      std::find_if(marks.told.begin(), marks.told.end(), [&](const auto &told) { return told.mark > middle; });
  ToldMarks::Told &last = *std::prev(beyond);
  if (marks.told.end() - beyond < 2 || (last.parts && last.mark != middle)) return;
  last.parts.reset(); // they are the other half's
  marks.told.erase(beyond, marks.told.end());
  marks.half = true;
}

std::string place_of(const Job &job, const Plan &plan, const PieceMark &mark) {
  const std::string place = words::place(mark.tape, job.tape());
  const std::string name = words::mark_called(job[mark.edge.join], of_join(plan, mark));
  return name.empty() ? place : fmt::format("{} {}", place, words::printable(name));
}

/// " (right shoulder, gathers end)": names of the half left out that are others than those at the same places
/// of the half told, as they come from the other end; empty where there are none or too many.
std::string other_names(const Job &job, const Plan &plan, const SideRun &run, std::size_t last_told) {
  constexpr std::size_t most_named = 8;
  const Join &join = job[run.edge.join];
  std::vector<std::string> names;
  for (std::size_t i = run.marks.size() - 1; i > last_told; --i) {
    const Mark &mark = of_join(plan, run.marks[i]);
    const std::string name = words::mark_called(join, mark);
    if (!words::mark_is_named(join, mark)) continue;
    if (name == words::mark_called(join, of_join(plan, run.marks[run.marks.size() - 1 - i]))) continue;
    names.push_back(words::printable(name));
  }
  return names.empty() || names.size() > most_named ? "" : fmt::format(" ({})", fmt::join(names, ", "));
}

} // namespace

std::vector<SideRun> side_runs(const PiecePlan &piece) {
  std::vector<SideRun> runs;
  std::map<std::tuple<Side, EdgeAt, int>, std::size_t> goes_on; // by the mark that would be a run's next
  for (const PieceMark &mark : piece.marks) {
    const auto run = goes_on.find({mark.side, mark.edge, mark.mark});
    const std::size_t at = run == goes_on.end() ? runs.size() : run->second;
    if (run == goes_on.end())
      runs.push_back({mark.side, mark.edge, {}});
    else
      goes_on.erase(run);
    runs[at].marks.push_back(mark);
    goes_on.insert_or_assign({mark.side, mark.edge, mark.mark + 1}, at);
  }
  return runs;
}

ToldMarks told_marks(const Job &job, const Plan &plan, const SideRun &run, double length, Pins pins) {
  ToldMarks marks;
  for (std::size_t n = 0; n < run.marks.size();) {
    ToldMarks::Told told{n, std::nullopt, std::nullopt};
    std::size_t next = n + 1;
    if (pins == Pins::needed && next < run.marks.size() && of_join(plan, run.marks[n]).reference) {
      const std::size_t to = next_told(plan, run, n);
      const auto step = to - n > most_parts_listed ? equal_step(run, n, to, length) : std::nullopt;
      const bool folded = folding_gives(to - n);
      if (step && (folded || on_tape(*step, job.tape()))) {
        told.parts = to - n;
        if (!folded) told.each = step;
        next = to;
      }
    }
    marks.told.push_back(told);
    n = next;
  }
  if (pins == Pins::needed) halve(plan, run, length, marks);
  return marks;
}

std::string marks_said(const Job &job, const Plan &plan, const SideRun &run, const ToldMarks &told, std::size_t most) {
  std::string text;
  const std::size_t shown = std::min(told.told.size(), most);
  const bool all = shown == told.told.size();
  for (std::size_t i = 0; i < shown; ++i) {
    const auto &[mark, parts, each] = told.told[i];
    if (i > 0 && !told.told[i - 1].parts) text += ", ";
    text += place_of(job, plan, run.marks[mark]);
    if (!parts || (i + 1 == shown && !all)) continue;
    text += fmt::format(", then {} {}parts ", *parts, each ? "" : "equal ");
    if (each) text += fmt::format("of {} ", words::length(*each, job.tape()));
    text += "to ";
  }
  if (!all) {
    const std::size_t left = run.marks.size() - (shown > 0 ? told.told[shown - 1].mark + 1 : 0);
    return text + fmt::format("{}{} left out here; gatherwright plan --json tells all of them", shown > 0 ? "; " : "",
                              left == 1 ? "1 mark is" : fmt::format("{} marks are", left));
  }
  if (told.half)
    text += fmt::format("; the other half the same from the {}{}", runs_across(run.side) ? "right" : "bottom",
                        other_names(job, plan, run, told.told.back().mark));
  return text;
}

namespace {

/// The sides of one piece that are marked alike.
struct AlikeSides {
  PieceId piece;
  std::vector<std::string> sides;
};

struct Alike {
  std::string says;
  std::vector<AlikeSides> places;
};

std::string places_said(const Job &job, const std::vector<AlikeSides> &places) {
  std::vector<std::string> said;
  for (const AlikeSides &place : places)
    said.push_back(fmt::format("{}, {}", words::where(job, place.piece), words::listed(place.sides)));
  return fmt::format("{}", fmt::join(said, "; "));
}

/// What one side has of one edge.
struct SideSaid {
  Side side;
  EdgeAt edge;
  std::string says;
};

/// The sides of one piece; two parts of an edge on one side are told together. `room`: how many marks may still be
/// told, those told here taken off.
std::vector<SideSaid> sides_of(const Job &job, const Plan &plan, const PiecePlan &piece, Pins pins, std::size_t &room) {
  std::vector<SideSaid> said;
  for (const SideRun &run : side_runs(piece)) {
    const double length = runs_across(run.side) ? piece.cut_across.exact : piece.cut_along.exact;
    const ToldMarks told = told_marks(job, plan, run, length, pins);
    const std::string marks = marks_said(job, plan, run, told, room);
    room -= std::min(room, told.told.size());
    if (!said.empty() && said.back().side == run.side && said.back().edge == run.edge)
      said.back().says += "; " + marks;
    else
      said.push_back(
          {run.side, run.edge,
           fmt::format("{}, {}: {}", words::where(job, run.edge.join), words::edge_called(run.edge.edge), marks)});
  }
  return said;
}

} // namespace

std::vector<SidesSaid> sides_said(const Job &job, const Plan &plan, Pins pins, std::size_t most) {
  std::vector<Alike> alike;
  std::unordered_map<std::string, std::size_t> known;
  for (std::size_t i = 0; i < plan.pieces.size(); ++i) {
    const PieceId piece(static_cast<int>(i));
    for (const SideSaid &side : sides_of(job, plan, plan.pieces[i], pins, most)) {
      const auto [same, is_new] = known.emplace(side.says, alike.size());
      if (is_new) alike.push_back({side.says, {}});
      std::vector<AlikeSides> &places = alike[same->second].places;
      if (places.empty() || places.back().piece != piece) places.push_back({piece, {}});
      places.back().sides.emplace_back(words::side_called(side.side));
    }
  }
  std::vector<SidesSaid> said;
  for (const Alike &each : alike)
    said.push_back({places_said(job, each.places), each.says});
  return said;
}

} // namespace gatherwright::report
