// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/strip/strip.hpp"

#include "cli/report/mark_table.hpp"
#include "cli/report/shown_marks.hpp"
#include "cli/words/figures.hpp"
#include "cli/words/names.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace gatherwright::paper {

namespace {

/// Places this near are one.
constexpr double same_place = 1e-6;

std::string pieces_called(const Join &join, Pieces pieces) {
  if (!join.mirrored) return join.make > 1 ? "; every piece" : "";
  const std::string_view pair = join.make > 2 ? "each pair" : "the pair";
  switch (pieces) {
  case Pieces::all:
    return fmt::format("; both pieces of {}", pair);
  case Pieces::first_of_pair:
    return fmt::format("; the first piece of {}", pair);
  case Pieces::mirrored:
    break;
  }
  return fmt::format("; the mirrored piece of {}", pair);
}

std::vector<StripStretch> stretches_of(const Join &join, const std::vector<Mark> &marks, MarkPlace Mark::*edge,
                                       double length) {
  std::vector<StripStretch> stretches;
  for (std::size_t i = 0; i + (join.closed ? 0 : 1) < marks.size(); ++i) {
    const Segment &segment = join.segments.at(marks[i].segment);
    StripStretch stretch{(marks[i].*edge).tape, i + 1 < marks.size() ? (marks[i + 1].*edge).tape : length,
                         std::string(words::worked(segment.kind)), !takes_fullness(segment.kind)};
    const bool goes_on = !stretches.empty() && !marks[i].reference;
    if (goes_on)
      stretches.back().to = stretch.to;
    else
      stretches.push_back(std::move(stretch));
  }
  return stretches;
}

std::string allowance(double mm, const Tape &tape) {
  return mm > 0 ? words::fine_length(mm, tape) + " allowance" : "";
}

/// Pins that the table tells as equal parts stand where folding puts them, between the marks at either side.
void set_equal_parts(std::vector<StripMark> &shown, const report::ShownMarks &told, double length, const Tape &tape) {
  for (const report::EqualParts &parts : told.parts) {
    const double start = shown[parts.from].at;
    const double end = parts.to < shown.size() ? shown[parts.to].at : length;
    for (std::size_t n = parts.from + 1; n < parts.to; ++n) {
      const double share = static_cast<double>(n - parts.from) / static_cast<double>(parts.to - parts.from);
      shown[n].at = start + (end - start) * share;
      shown[n].reading = words::place(shown[n].at, tape);
    }
  }
}

/// The half that stands for both, up to the mark in the middle; the whole where there is none, or nothing before it.
void halve(Strip &strip, const Join &join, const JoinPlan &planned) {
  const std::size_t last = report::last_of_half(join, planned);
  if (report::opposite(join, planned, last) != last || !(strip.marks[last].at > 0)) return;
  strip.length = strip.marks[last].at;
  strip.after = 0;
  strip.after_called.clear();
  strip.marks.resize(last + 1);
  std::erase_if(strip.stretches, [&](const StripStretch &stretch) { return stretch.from >= strip.length; });
  strip.stretches.back().to = std::min(strip.stretches.back().to, strip.length);
  strip.title += "; one half, the other half the same, from the other end";
  strip.brief += ", one half";
}

Strip strip(const Job &job, const JoinPlan &planned, const Join &join, bool band, Pieces pieces) {
  const std::vector<Mark> &marks = pieces == Pieces::mirrored ? planned.marks_mirrored.value() : planned.marks;
  const auto edge = band ? &Mark::band : &Mark::long_edge;
  Strip made;
  made.title = edge_called(job, join, planned, band, pieces);
  made.brief = fmt::format("{}: {}", words::printable(join.name), band ? "band" : "long edge");
  if (pieces == Pieces::mirrored) made.brief += ", mirrored";
  made.length = band ? planned.band : planned.long_length;
  if (const auto &ends = band ? planned.band_ends : planned.long_ends) {
    const bool turned = pieces == Pieces::mirrored;
    made.before = (*ends)[turned ? 1 : 0];
    made.after = (*ends)[turned ? 0 : 1];
    made.before_called = allowance(made.before, job.tape());
    made.after_called = allowance(made.after, job.tape());
  }
  const report::ShownMarks shown = report::shown_marks(job, join, planned, marks, report::Pins::needed);
  made.marks = strip_marks(job, join, planned, marks, edge, shown.half);
  set_equal_parts(made.marks, shown, made.length, job.tape());
  if (join.closed) {
    StripMark again = made.marks.front();
    again.at = made.length;
    again.reading = words::place(made.length, job.tape());
    again.name += again.name == "start" ? " again" : ", start again";
    made.marks.push_back(again);
  }
  made.stretches = stretches_of(join, marks, edge, made.length);
  if (shown.half) halve(made, join, planned);
  return made;
}

} // namespace

std::vector<StripMark> strip_marks(const Job &job, const Join &join, const JoinPlan &planned,
                                   const std::vector<Mark> &marks, MarkPlace Mark::*edge, bool half) {
  const bool mirrored = planned.marks_mirrored && &marks == &*planned.marks_mirrored;
  std::vector<StripMark> shown;
  for (std::size_t i = 0; i < marks.size(); ++i)
    shown.push_back({(marks[i].*edge).tape, static_cast<int>(i),
                     report::mark_said(join, planned, marks, i, mirrored, half),
                     words::place((marks[i].*edge).tape, job.tape()), marks[i].reference});
  return shown;
}

bool marked_alike(const Join &join, const JoinPlan &planned, MarkPlace Mark::*edge) {
  const auto name = [&](const Mark &mark) {
    return words::mark_is_named(join, mark) ? words::mark_called(join, mark) : std::string();
  };
  const std::vector<Mark> &mirrored = planned.marks_mirrored.value();
  const bool alike = report::reads_alike(join, planned);
  return std::equal(
      planned.marks.begin(), planned.marks.end(), mirrored.begin(), mirrored.end(), [&](const Mark &a, const Mark &b) {
        return (alike || (std::fabs((a.*edge).tape - (b.*edge).tape) < same_place && name(a) == name(b))) &&
               a.reference == b.reference;
      });
}

std::string edge_called(const Job &job, const Join &join, const JoinPlan &planned, bool band, Pieces pieces) {
  const std::string name = words::edge_named(job, band ? join.band : join.long_edge);
  const std::string length = words::length(band ? planned.band : planned.long_length, job.tape());
  return fmt::format("{}: {}{}{}{}", band ? "Band" : "Long edge", words::printable(name), name.empty() ? "" : ", ",
                     length, pieces_called(join, pieces));
}

std::string made_in_words(const Join &join) {
  if (join.make == 1) return "";
  if (!join.mirrored) return fmt::format("make {}", join.make);
  return join.make == 2 ? "make 2, a mirrored pair" : fmt::format("make {}, in mirrored pairs", join.make);
}

std::vector<Strip> strips_of(const Job &job, const JoinPlan &planned, int join) {
  const Join &sewn = job.joins.at(join);
  std::vector<Strip> strips;
  for (const bool band : {true, false}) {
    const Edge &edge = band ? sewn.band : sewn.long_edge;
    if (edge.drawn()) continue;
    const auto &ends = band ? planned.band_ends : planned.long_ends;
    const auto ends_differ = [&] { return ends && (*ends)[0] != (*ends)[1]; };
    const bool alike = !planned.marks_mirrored ||
                       (marked_alike(sewn, planned, band ? &Mark::band : &Mark::long_edge) && !ends_differ());
    strips.push_back(strip(job, planned, sewn, band, alike ? Pieces::all : Pieces::first_of_pair));
    if (!alike) strips.push_back(strip(job, planned, sewn, band, Pieces::mirrored));
  }
  return strips;
}

} // namespace gatherwright::paper
