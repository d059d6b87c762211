// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/cloth/gathers.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <utility>

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

void lay_along(std::span<const Gap> gaps, const Run &run, Places &place) {
  place.assign(run.gaps + 1, 0.0);
  for (std::size_t i = 0; i < run.gaps; ++i)
    place[i + 1] = place[i] + gaps[(run.first + i) % gaps.size()].long_length;
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

/// Gaps [first, last) as the fewest threads within `limit`: of all such ways that with the least sum of their squares.
class Evened {
public:
  Evened(const Places &place, std::size_t first, std::size_t last, double limit)
      : place_(place), limit_(limit), last_(last) {
    find_ends(first);
    find_sums();
  }

  /// Appends where the threads start: of ways as good as the best, that whose first thread is the longer.
  void append_to(std::vector<std::size_t> &starts) const {
    std::size_t from = earliest_.front();
    for (std::size_t thread = 1; thread < earliest_.size(); ++thread) {
      starts.push_back(from);
      const double as_good = with_ties(sum(thread - 1, from));
      std::size_t to = latest_[thread];
      while (to > earliest_[thread] && !(reaches(from, to) && squared(from, to) + sum(thread, to) <= as_good))
        --to;
      from = to;
    }
  }

private:
  bool reaches(std::size_t from, std::size_t to) const { return place_[to] - place_[from] <= limit_; }
  double squared(std::size_t from, std::size_t to) const {
    return (place_[to] - place_[from]) * (place_[to] - place_[from]);
  }
  /// Of what comes after thread `thread`, which ends at `at`.
  double sum(std::size_t thread, std::size_t at) const { return sums_[thread][at - earliest_[thread]]; }

  /// Where each thread may end, the start of the first being the end of none before it. As there are no fewer threads,
  /// each may end only behind where the one before it may: so all these places together are no more than the gaps.
  void find_ends(std::size_t first) {
    for (std::size_t from = first; from < last_;) {
      latest_.push_back(from);
      ++from; // a gap is within the limit
      while (from < last_ && reaches(latest_.back(), from + 1))
        ++from;
    }
    latest_.push_back(last_);
    earliest_.assign(latest_.size(), first);
    earliest_.back() = last_;
    for (std::size_t thread = latest_.size() - 1; thread-- > 1;) {
      std::size_t from = earliest_[thread + 1];
      while (from > first && reaches(from - 1, earliest_[thread + 1]))
        --from;
      earliest_[thread] = from;
    }
  }

  void find_sums() {
    sums_.resize(latest_.size());
    sums_.back() = {0};
    for (std::size_t thread = latest_.size() - 1; thread-- > 0;) {
      sums_[thread].assign(latest_[thread] - earliest_[thread] + 1, std::numeric_limits<double>::infinity());
      best(thread, earliest_[thread], latest_[thread], earliest_[thread + 1], latest_[thread + 1]);
    }
  }

  /// The sums at the ends from `low` to `high` of a thread, the next ending from `next_low` to `next_high`: where one
  /// starts later the best next end is no earlier, since squares are convex, so that the middle one parts the others.
  void best(std::size_t thread, std::size_t low, std::size_t high, std::size_t next_low, std::size_t next_high) {
    const std::size_t middle = low + (high - low) / 2;
    double &least = sums_[thread][middle - earliest_[thread]];
    std::size_t at = next_low;
    for (std::size_t next = next_low; next <= next_high && reaches(middle, next); ++next) {
      const double total = squared(middle, next) + sum(thread + 1, next);
      if (total < least) {
        least = total;
        at = next;
      }
    }
    if (middle > low) best(thread, low, middle - 1, next_low, at);
    if (middle < high) best(thread, middle + 1, high, at, next_high);
  }

  const Places &place_;
  double limit_;
  std::size_t last_;
  std::vector<std::size_t> earliest_, latest_; ///< where each thread may end; first, where the first starts
  std::vector<std::vector<double>> sums_;      ///< least, of the threads behind each of these places
};

/// Where the threads of a run start, as indices of its gaps.
std::vector<std::size_t> starts_of(const Places &place, double longest) {
  struct Piece {
    std::size_t first;
    std::size_t last;
  };
  const double limit = with_ties(longest);
  if (place.back() <= limit && std::is_sorted(place.begin(), place.end())) return {0}; // one thread does, as mostly
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
    Evened(place, piece.first, piece.last, std::min(with_ties(shortest), limit)).append_to(starts);
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
  const std::vector<Run> runs = runs_of(gaps, closed);
  std::vector<Thread> found;
  found.reserve(runs.size());
  Places place;
  for (const Run &run : runs) {
    lay_along(gaps, run, place);
    const std::vector<std::size_t> starts = starts_of(place, longest);
    for (std::size_t i = 0; i < starts.size(); ++i) {
      const std::size_t last = i + 1 < starts.size() ? starts[i + 1] : run.gaps;
      double stretch = 0;
      for (std::size_t gap = starts[i]; gap < last; ++gap)
        stretch += gaps[(run.first + gap) % gaps.size()].long_length;
      const std::size_t from = (run.first + starts[i]) % gaps.size();
      const std::size_t end = run.first + last;
      const std::size_t to = closed ? end % gaps.size() : end;
      found.push_back({static_cast<int>(from), static_cast<int>(to), stretch + 2 * tail, stitches_in(stretch, stitch)});
    }
  }
  std::sort(found.begin(), found.end(), [](const Thread &left, const Thread &right) { return left.from < right.from; });
  return found;
}

namespace {

/// What rows keep to on a tape, millimetres; inches as eighths and sixteenths, so that 9.525 mm is the double written
/// so.
struct RowSteps {
  double first;         ///< from the cut edge, where no allowance says it; a narrower allowance does not count
  double apart;         ///< each from the next
  double within;        ///< the last from the stitching line
  double from_cut_edge; ///< at least
};
constexpr RowSteps in_metric{6, 4, 2, 3};
constexpr RowSteps in_inches{25.4 / 4, 25.4 / 8, 25.4 / 16, 25.4 / 8};

} // namespace

Rows rows_at(int rows, const SeamOfRows &seam) {
  const RowSteps &steps = seam.inches ? in_inches : in_metric;
  const double allowance = seam.allowance;
  Rows placed;
  placed.at.reserve(static_cast<std::size_t>(std::max(rows, 0)));
  const double last = allowance - steps.within;
  const bool within = allowance >= steps.first * (1 - tie);
  const double room = last - steps.from_cut_edge;
  const bool evenly = rows > 1 && steps.apart * (rows - 1) > with_ties(room);
  const double apart = evenly ? room / (rows - 1) : steps.apart;
  for (int row = 0; row < rows; ++row) {
    if (within)
      placed.at.push_back(last - apart * (rows - 1 - row));
    else // rounded once
      placed.at.push_back(seam.inches ? 254.0 * (2 + row) / 80 : 6.0 + 4.0 * row);
  }
  if (!(allowance > 0)) return placed;
  for (const double at : placed.at)
    placed.from_seam.push_back(allowance - at);
  return placed;
}

int rows_of(const Gathering &gathering, bool gauged) {
  return gathering.rows.value_or(gauged ? 3 : 2);
}

std::optional<GatheringPlan> gathering_plan(std::span<const Gap> gaps, bool closed, const Gathering &gathering,
                                            bool gauged, const SeamOfRows &seam) {
  if (std::none_of(gaps.begin(), gaps.end(), [](const Gap &gap) { return gap.gathered; })) return std::nullopt;
  GatheringPlan plan;
  plan.stitch = gathering.stitch.mm;
  plan.rows = rows_of(gathering, gauged);
  Rows rows = rows_at(plan.rows, seam);
  plan.at = std::move(rows.at);
  plan.from_seam = std::move(rows.from_seam);
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
