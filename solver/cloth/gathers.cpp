// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/cloth/gathers.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>

namespace gatherwright::cloth {
namespace {

/// Lengths and counts closer than this are equal: sums over ten thousand gaps err by some 1e-12 of themselves.
constexpr double tie = 1e-9;

double with_ties(double length) {
  return length * (1 + tie);
}

/// Neighbouring gathered gaps of a join, the first of them and how many; on a ring they may pass its start.
struct Run {
  std::size_t first = 0;
  std::size_t gaps = 0;
};

/// The gaps of one run, as places along it: gap i lies between `place[i]` and `place[i + 1]`.
using Places = std::vector<double>;

std::vector<Run> runs_of(std::span<const Gap> gaps, bool closed) {
  std::size_t first = 0; // of the walk round a ring: behind a gap that is not gathered, or its start
  if (closed) {
    while (first < gaps.size() && gaps[first].gathered)
      ++first;
    if (first == gaps.size()) first = 0;
  }
  std::vector<Run> runs;
  bool within = false;
  for (std::size_t walked = 0; walked < gaps.size(); ++walked) {
    const std::size_t gap = (first + walked) % gaps.size();
    if (gaps[gap].gathered && !within) runs.push_back({gap, 0});
    within = gaps[gap].gathered;
    if (within) ++runs.back().gaps;
  }
  return runs;
}

Places places_along(std::span<const Gap> gaps, const Run &run) {
  Places place(run.gaps + 1, 0.0);
  for (std::size_t i = 0; i < run.gaps; ++i)
    place[i + 1] = place[i] + gaps[(run.first + i) % gaps.size()].long_length;
  return place;
}

/// Threads that each take as much as `limit` lets them: how many, and the longest of them.
struct Filled {
  std::size_t count = 0;
  double longest = 0;
};

/// Fills gaps [first, last), each of which is within `limit`.
Filled fill(const Places &place, std::size_t first, std::size_t last, double limit) {
  Filled filled;
  for (std::size_t from = first; from < last;) {
    std::size_t to = from + 1;
    while (to < last && place[to + 1] - place[from] <= limit)
      ++to;
    filled.longest = std::max(filled.longest, place[to] - place[from]);
    ++filled.count;
    from = to;
  }
  return filled;
}

/// The least limit with which gaps [first, last) still take no more threads than with `limit`.
double shortest_limit(const Places &place, std::size_t first, std::size_t last, double limit) {
  const std::size_t count = fill(place, first, last, limit).count;
  double low = (place[last] - place[first]) / static_cast<double>(count);
  for (std::size_t i = first; i < last; ++i)
    low = std::max(low, place[i + 1] - place[i]);
  if (const Filled even = fill(place, first, last, with_ties(low)); even.count <= count) return even.longest;
  double high = limit;
  // Halving ends at the tie: what is shorter by less counts as equal.
  while (high - low > 0.1 * tie * high) {
    const double middle = 0.5 * (low + high);
    (fill(place, first, last, middle).count <= count ? high : low) = middle;
  }
  return fill(place, first, last, high).longest;
}

/// Appends the starts of threads over gaps [first, last): the fewest within `limit`, breaking as early as can be.
void break_early(const Places &place, std::size_t first, std::size_t last, double limit,
                 std::vector<std::size_t> &starts) {
  std::vector<std::size_t> needed(last - first + 1, 0); // threads from a gap to the end
  for (std::size_t from = last, reach = last; from-- > first;) {
    while (reach > from + 1 && place[reach] - place[from] > limit)
      --reach;
    needed[from - first] = needed[reach - first] + 1;
  }
  for (std::size_t from = first; from < last;) {
    starts.push_back(from);
    std::size_t to = from + 1;
    while (needed[to - first] >= needed[from - first])
      ++to;
    from = to;
  }
}

/// Where the threads of a run start, as indices of its gaps.
std::vector<std::size_t> starts_of(const Places &place, double longest) {
  struct Piece {
    std::size_t first;
    std::size_t last;
  };
  const double limit = with_ties(longest);
  const std::size_t gaps = place.size() - 1;
  std::vector<Piece> pieces; // between gaps that are too long by themselves
  std::vector<std::size_t> starts;
  std::size_t first = 0;
  for (std::size_t i = 0; i <= gaps; ++i) {
    const bool too_long = i < gaps && place[i + 1] - place[i] > limit;
    if (i < gaps && !too_long) continue;
    if (first < i) pieces.push_back({first, i});
    if (too_long) starts.push_back(i);
    first = i + 1;
  }
  double shortest = 0;
  for (const Piece &piece : pieces)
    shortest = std::max(shortest, shortest_limit(place, piece.first, piece.last, limit));
  for (const Piece &piece : pieces)
    break_early(place, piece.first, piece.last, std::min(with_ties(shortest), limit), starts);
  std::sort(starts.begin(), starts.end());
  return starts;
}

} // namespace

int stitches_in(double stretch, double stitch) {
  const double exact = stretch / stitch;
  if (!(exact > 0)) return 0;
  const double whole = std::round(exact);
  const double count = std::abs(exact - whole) <= tie ? whole : std::ceil(exact);
  constexpr int most = std::numeric_limits<int>::max();
  return count < most ? static_cast<int>(count) : most;
}

std::vector<Thread> threads(std::span<const Gap> gaps, bool closed, double stitch, double longest, double tail) {
  std::vector<Thread> found;
  for (const Run &run : runs_of(gaps, closed)) {
    std::vector<std::size_t> starts = starts_of(places_along(gaps, run), longest);
    starts.push_back(run.gaps);
    for (std::size_t i = 0; i + 1 < starts.size(); ++i) {
      double stretch = 0;
      for (std::size_t gap = starts[i]; gap < starts[i + 1]; ++gap)
        stretch += gaps[(run.first + gap) % gaps.size()].long_length;
      const std::size_t from = (run.first + starts[i]) % gaps.size();
      const std::size_t end = run.first + starts[i + 1];
      const std::size_t to = closed ? end % gaps.size() : end;
      found.push_back({static_cast<int>(from), static_cast<int>(to), stretch + 2 * tail, stitches_in(stretch, stitch)});
    }
  }
  std::sort(found.begin(), found.end(), [](const Thread &left, const Thread &right) { return left.from < right.from; });
  return found;
}

std::vector<double> row_places(int rows, bool inches) {
  std::vector<double> places;
  places.reserve(static_cast<std::size_t>(std::max(rows, 0)));
  for (int row = 0; row < rows; ++row)
    // Inches as eighths, rounded once, so that 9.525 mm is the double written so.
    places.push_back(inches ? 254.0 * (2 + row) / 80 : 6.0 + 4.0 * row);
  return places;
}

int rows_of(const Gathering &gathering, bool gauged) {
  return gathering.rows.value_or(gauged ? 3 : 2);
}

std::optional<GatheringPlan> gathering_plan(std::span<const Gap> gaps, bool closed, const Gathering &gathering,
                                            bool gauged, bool inches) {
  if (std::none_of(gaps.begin(), gaps.end(), [](const Gap &gap) { return gap.gathered; })) return std::nullopt;
  GatheringPlan plan;
  plan.stitch = gathering.stitch.mm;
  plan.rows = rows_of(gathering, gauged);
  plan.at = row_places(plan.rows, inches);
  plan.threads = threads(gaps, closed, gathering.stitch.mm, gathering.longest.mm, gathering.tail.mm);
  for (const Thread &thread : plan.threads) {
    plan.thread += plan.rows * thread.cut;
    plan.stitches += std::min(thread.stitches, std::numeric_limits<int>::max() - plan.stitches);
  }
  return plan;
}

CartridgeFolds cartridge_folds(double long_length, double band, double stitch) {
  const int stitches = stitches_in(long_length, stitch);
  const int folds = stitches / 2 + stitches % 2;
  return {folds, stitch, folds > 0 ? band / folds : 0.0};
}

double cord(double long_length, double tail) {
  return long_length + 2 * tail;
}

} // namespace gatherwright::cloth
