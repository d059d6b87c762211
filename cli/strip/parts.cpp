// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/strip/parts.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace gatherwright::paper {

namespace {

/// Gaps that differ by less are the same.
constexpr double same_gap = 1e-6;

constexpr std::size_t fewest_saved = 2;

/// Equal parts of one stretch, each overlapping the next.
bool add_parts(std::vector<Part> &parts, double from, double to, double room) {
  const double whole = to - from;
  const double count = std::max(1.0, std::ceil((whole - overlap) / (room - overlap) - 1e-9));
  if (!(count <= most_parts)) return false;
  const double length = (whole + (count - 1) * overlap) / count;
  for (int i = 0; i < static_cast<int>(count); ++i) {
    const double start = from + i * (length - overlap);
    parts.push_back({.from = start, .to = start + length, .joins_before = i > 0, .joins_after = i + 1 < count});
  }
  return true;
}

/// Marks `first` to `last`, all gaps between them alike and none but the outer ones a reference mark.
struct Run {
  std::size_t first = 0;
  std::size_t last = 0;
};

/// The longest even run.
Run even_run(const std::vector<StripMark> &marks) {
  Run best;
  Run run;
  const auto length = [&](const Run &of) { return marks[of.last].at - marks[of.first].at; };
  for (std::size_t i = 1; i < marks.size(); ++i) {
    const double gap = marks[i].at - marks[i - 1].at;
    const bool goes_on = run.last > run.first && !marks[i - 1].reference &&
                         std::fabs(gap - (marks[run.first + 1].at - marks[run.first].at)) < same_gap;
    if (!goes_on) run.first = i - 1;
    run.last = i;
    if (length(run) > length(best)) best = run;
  }
  return best;
}

/// The parts with those of an even run laid again and again; none where there would be too many.
std::vector<Part> parts_with_run(const Strip &strip, const Run &run, double room) {
  const double start = strip.marks[run.first].at;
  const double gap = strip.marks[run.first + 1].at - start;
  if (!(gap > 0)) return {};
  const auto gaps = static_cast<double>(run.last - run.first);
  const double at_once = std::max(1.0, std::min(std::floor(room / gap), gaps));
  const double times = std::floor(gaps / at_once);
  const double end = strip.marks[run.first + static_cast<std::size_t>(times * at_once)].at;
  const double to = strip.length + strip.after;
  std::vector<Part> parts;
  if (start > -strip.before + same_gap && !add_parts(parts, -strip.before, start, room)) return {};
  const std::size_t before = parts.size();
  if (!add_parts(parts, start, start + at_once * gap, room)) return {};
  for (std::size_t i = before; i < parts.size(); ++i) {
    parts[i].times = static_cast<int>(times);
    parts[i].marks_on = static_cast<int>(at_once);
    parts[i].group_parts = static_cast<int>(parts.size() - before);
  }
  if (to > end + same_gap && !add_parts(parts, end, to, room)) return {};
  return parts;
}

} // namespace

std::vector<Part> parts_of(const Strip &strip, double room) {
  if (!(strip.length > 0)) return {};
  const double from = -strip.before;
  const double to = strip.length + strip.after;
  std::vector<Part> once;
  if (!add_parts(once, from, to, room)) once.clear();
  if (once.size() == 1 || strip.marks.size() < 2) return once;
  const std::vector<Part> again = parts_with_run(strip, even_run(strip.marks), room);
  const bool saves = !again.empty() && (once.empty() || again.size() + fewest_saved <= once.size());
  return saves ? again : once;
}

} // namespace gatherwright::paper
