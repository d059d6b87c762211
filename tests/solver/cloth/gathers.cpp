// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/cloth/gathers.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <limits>
#include <numeric>
#include <random>
#include <tuple>

using namespace gatherwright;
using namespace gatherwright::cloth;

namespace {

std::vector<Gap> gathered(std::initializer_list<double> lengths) {
  std::vector<Gap> gaps;
  for (const double length : lengths)
    gaps.push_back({length, true});
  return gaps;
}

void append(std::vector<Gap> &gaps, int count, double length, bool is_gathered) {
  gaps.insert(gaps.end(), static_cast<std::size_t>(count), Gap{length, is_gathered});
}

using Ends = std::vector<std::pair<int, int>>;

Ends ends(const std::vector<Thread> &threads) {
  Ends found;
  for (const Thread &thread : threads)
    found.emplace_back(thread.from, thread.to);
  return found;
}

Ends broken(const std::vector<Gap> &gaps, bool closed, double longest) {
  return ends(threads(gaps, closed, 4, longest, 0));
}

/// Every way to break a run of whole-number lengths: number of threads, longest of those that could be within, sum of
/// squares, then the lengths themselves, the longer first.
std::vector<std::size_t> best_breaks(const std::vector<double> &run, double longest) {
  using Rank = std::tuple<std::size_t, double, double, std::vector<double>, std::vector<std::size_t>>;
  std::optional<Rank> best;
  for (unsigned choice = 0; choice < (1u << (run.size() - 1)); ++choice) {
    std::vector<std::size_t> starts{0};
    for (std::size_t i = 1; i < run.size(); ++i)
      if (choice & (1u << (i - 1))) starts.push_back(i);
    bool allowed = true;
    double most = 0;
    double squares = 0;
    std::vector<double> shortfalls; // the longer the less
    for (std::size_t i = 0; i < starts.size(); ++i) {
      const std::size_t end = i + 1 < starts.size() ? starts[i + 1] : run.size();
      const double length = std::accumulate(run.begin() + static_cast<std::ptrdiff_t>(starts[i]),
                                            run.begin() + static_cast<std::ptrdiff_t>(end), 0.0);
      if (length <= longest) most = std::max(most, length);
      squares += length * length;
      shortfalls.push_back(-length);
      allowed = allowed && (length <= longest || end == starts[i] + 1);
    }
    const Rank rank{starts.size(), most, squares, shortfalls, starts};
    if (allowed && (!best || rank < *best)) best = rank;
  }
  return std::get<4>(*best);
}

/// Ends of threads by trying every break of every run, walking a ring from behind a gap that is not gathered.
Ends best_ends(const std::vector<Gap> &gaps, bool closed, double longest) {
  const std::size_t count = gaps.size();
  std::size_t begin = 0;
  for (std::size_t i = 0; closed && i < count; ++i)
    if (!gaps[i].gathered) begin = (i + 1) % count;
  Ends found;
  std::vector<double> run;
  std::size_t run_begin = 0;
  for (std::size_t walked = 0; walked <= count; ++walked) {
    const std::size_t gap = (begin + walked) % count;
    if (walked < count && gaps[gap].gathered) {
      if (run.empty()) run_begin = begin + walked;
      run.push_back(gaps[gap].long_length);
    } else if (!run.empty()) {
      std::vector<std::size_t> starts = best_breaks(run, longest);
      starts.push_back(run.size());
      for (std::size_t i = 0; i + 1 < starts.size(); ++i) {
        const std::size_t to = run_begin + starts[i + 1];
        found.emplace_back(static_cast<int>((run_begin + starts[i]) % count),
                           static_cast<int>(closed ? to % count : to));
      }
      run.clear();
    }
  }
  std::sort(found.begin(), found.end());
  return found;
}

} // namespace

TEST_CASE("stitches are counted up, but for a remainder that is only rounding") {
  CHECK(stitches_in(0, 4) == 0);
  CHECK(stitches_in(1, 4) == 1);
  CHECK(stitches_in(4, 4) == 1);
  CHECK(stitches_in(4.001, 4) == 2);
  CHECK(stitches_in(4 * (7 + 0.9e-9), 4) == 7);
  CHECK(stitches_in(4 * (7 - 0.9e-9), 4) == 7);
  CHECK(stitches_in(4 * (7 + 1.1e-9), 4) == 8);
  CHECK(stitches_in(0.3 * 7, 0.3) == 7);
  CHECK(stitches_in(1e300, 4) == std::numeric_limits<int>::max());
}

// Figures of worked plans, computed from the method by a separate program in another language.
TEST_CASE("the threads of worked plans come out") {
  SECTION("a ring gathered all round is broken at its start") {
    std::vector<Gap> cap;
    append(cap, 16, 82.0625, true);
    const std::vector<Thread> found = threads(cap, true, 4, 1000, 100);
    REQUIRE(ends(found) == Ends{{0, 8}, {8, 0}});
    CHECK(found[0].cut == Approx(856.5));
    CHECK(found[0].stitches == 165);
    CHECK(found[1].cut == Approx(856.5));
    std::vector<Gap> neck;
    append(neck, 8, 82.46680715673207, true);
    const std::vector<Thread> whole = threads(neck, true, 4, 1000, 100);
    REQUIRE(ends(whole) == Ends{{0, 0}});
    CHECK(whole[0].cut == Approx(859.7344572538566));
    CHECK(whole[0].stitches == 165);
  }
  SECTION("long runs are broken at marks") {
    std::vector<Gap> flounce;
    append(flounce, 5, 334.43609022556316, true);
    append(flounce, 1, 40, false);
    append(flounce, 4, 291.2781954887217, true);
    append(flounce, 4, 285.676691729323, true);
    const std::vector<Thread> found = threads(flounce, false, 4, 1200, 80);
    REQUIRE(ends(found) == Ends{{0, 3}, {3, 5}, {6, 10}, {10, 14}});
    CHECK(found[0].cut == Approx(1163.3082706766893));
    CHECK(found[1].cut == Approx(828.8721804511263));
    CHECK(found[2].cut == Approx(1325.112781954885));
    CHECK(found[3].cut == Approx(1302.7067669172993));
    CHECK(found[0].stitches == 251);
    CHECK(found[1].stitches == 168);
    CHECK(found[2].stitches == 292);
    CHECK(found[3].stitches == 286);

    Gathering gathering;
    gathering.longest = Length{1200};
    gathering.tail = Length{80};
    const std::optional<GatheringPlan> plan = gathering_plan(flounce, false, gathering, false, {});
    REQUIRE(plan);
    CHECK(plan->stitches == 997);
    CHECK(plan->thread == Approx(9240));
    CHECK(plan->rows == 2);
    CHECK(plan->at == std::vector{6.0, 10.0});
    CHECK(plan->from_seam.empty());
  }
  SECTION("a gauged skirt has three rows") {
    std::vector<Gap> skirts;
    append(skirts, 8, 180, true);
    Gathering gathering;
    gathering.stitch = Length{6};
    const std::optional<GatheringPlan> plan = gathering_plan(skirts, false, gathering, true, {});
    REQUIRE(plan);
    CHECK(ends(plan->threads) == Ends{{0, 4}, {4, 8}});
    CHECK(plan->threads[0].cut == 920);
    CHECK(plan->threads[0].stitches == 120);
    CHECK(plan->rows == 3);
    CHECK(plan->stitches == 240);
    CHECK(plan->thread == 5520);
    const CartridgeFolds folds = cartridge_folds(1440, 420, 6);
    CHECK(folds.folds == 120);
    CHECK(folds.depth == 6);
    CHECK(folds.pitch == 3.5);
  }
  SECTION("a sleeve head in inches") {
    std::vector<Gap> head;
    append(head, 1, 28.575, false);
    append(head, 3, 113.31222222222223, true);
    append(head, 3, 39.61694444444445, true);
    const std::optional<GatheringPlan> plan = gathering_plan(head, false, Gathering{}, false, {.inches = true});
    REQUIRE(plan);
    REQUIRE(ends(plan->threads) == Ends{{1, 7}});
    CHECK(plan->threads[0].cut == Approx(25.936515748031486 * 25.4));
    CHECK(plan->stitches == 115);
    CHECK(plan->thread == Approx(51.87303149606297 * 25.4));
    CHECK(plan->at == std::vector{6.35, 9.525});
  }
}

TEST_CASE("a run is broken into the fewest threads, the longest short, all even, the longer first") {
  CHECK(broken(gathered({3, 3, 3, 3, 3}), false, 9) == Ends{{0, 3}, {3, 5}});
  CHECK(broken(gathered({4, 4, 4, 4, 4, 4, 4}), false, 15) == Ends{{0, 3}, {3, 5}, {5, 7}});
  CHECK(broken(gathered({9, 1, 5, 5, 4}), false, 10) == Ends{{0, 1}, {1, 3}, {3, 5}});
  CHECK(broken(gathered({5, 1, 1, 1}), false, 7) == Ends{{0, 1}, {1, 4}});
  CHECK(broken(gathered({1, 1, 1, 5}), false, 7) == Ends{{0, 3}, {3, 4}});
  CHECK(broken(gathered({4, 4, 4}), false, 12) == Ends{{0, 3}});
  CHECK(broken(gathered({4, 4, 4}), false, 0) == Ends{{0, 1}, {1, 2}, {2, 3}});
  CHECK(broken({}, false, 10).empty());
  CHECK(broken({}, true, 10).empty());
}

TEST_CASE("a gap longer than a thread may be is a thread by itself and the others are judged without it") {
  CHECK(broken(gathered({2, 2, 20, 3, 3}), false, 6) == Ends{{0, 2}, {2, 3}, {3, 5}});
  CHECK(broken(gathered({20, 2, 2}), false, 6) == Ends{{0, 1}, {1, 3}});
  CHECK(broken(gathered({20, 20}), true, 6) == Ends{{0, 1}, {1, 0}});
}

TEST_CASE("lengths that differ by rounding alone are equal") {
  const double third = 1000.0 / 3;
  CHECK(broken(gathered({third, third, third + 1e-7}), false, 1000) == Ends{{0, 3}});
  CHECK(broken(gathered({third, third, third + 1e-5}), false, 1000) == Ends{{0, 2}, {2, 3}});
  CHECK(broken(gathered({300, 300, 300 + 1e-8, 300, 300 - 1e-8}), false, 900) == Ends{{0, 3}, {3, 5}});
}

TEST_CASE("on a ring a run goes over the start unless it is gathered all round") {
  std::vector<Gap> ring;
  append(ring, 3, 100, true);
  append(ring, 2, 50, false);
  append(ring, 3, 100, true);
  CHECK(broken(ring, true, 1000) == Ends{{5, 3}});
  CHECK(broken(ring, true, 400) == Ends{{0, 3}, {5, 0}});
  CHECK(broken(ring, true, 250) == Ends{{1, 3}, {5, 7}, {7, 1}});
  CHECK(broken(ring, false, 1000) == Ends{{0, 3}, {5, 8}});
  CHECK(broken(gathered({100}), true, 1000) == Ends{{0, 0}});
  const std::vector<Gap> to_the_end{{50, false}, {100, true}};
  CHECK(broken(to_the_end, true, 1000) == Ends{{1, 0}});
}

TEST_CASE("threads are those of trying every break") {
  std::mt19937_64 random(7);
  const auto between = [&](int low, int high) { return std::uniform_int_distribution<int>(low, high)(random); };
  for (int round = 0; round < 1500; ++round) {
    const int count = between(1, round % 20 == 0 ? 12 : 9);
    const int longest = between(3, 20);
    const int plain = between(0, 4); // in ten: gaps that are not gathered
    std::vector<Gap> gaps;
    for (int i = 0; i < count; ++i)
      gaps.push_back(
          {static_cast<double>(between(0, 9) == 0 ? between(8, 30) : between(1, 8)), between(0, 9) >= plain});
    const bool closed = between(0, 1) == 1;
    REQUIRE(broken(gaps, closed, longest) == best_ends(gaps, closed, longest));
  }
}

TEST_CASE("long runs are broken into threads as even as any, for each number of threads and each end tried") {
  std::mt19937_64 random(17);
  const auto between = [&](int low, int high) { return std::uniform_int_distribution<int>(low, high)(random); };
  constexpr double never = std::numeric_limits<double>::infinity();
  for (int round = 0; round < 60; ++round) {
    const int count = between(20, 120);
    const int longest = between(30, 400);
    std::vector<double> place{0};
    std::vector<Gap> gaps;
    for (int i = 0; i < count; ++i) {
      gaps.push_back({static_cast<double>(between(1, between(2, 30))), true});
      place.push_back(place.back() + gaps.back().long_length);
    }
    // Of so many threads up to each mark, by trying every place where the last may start.
    const auto least = [&](const auto &joined, double limit, std::size_t threads) {
      std::vector<double> best(count + 1, never);
      best[0] = 0;
      for (std::size_t thread = 0; thread < threads; ++thread) {
        std::vector<double> next(count + 1, never);
        for (int end = 1; end <= count; ++end)
          for (int start = 0; start < end; ++start)
            if (place[end] - place[start] <= limit)
              next[end] = std::min(next[end], joined(best[start], place[end] - place[start]));
        best = std::move(next);
      }
      return best.back();
    };
    const auto longer = [](double so_far, double thread) { return std::max(so_far, thread); };
    const auto squares = [](double so_far, double thread) { return so_far + thread * thread; };
    std::size_t fewest = 1;
    while (least(longer, longest, fewest) == never)
      ++fewest;
    const double shortest = least(longer, longest, fewest);
    const std::vector<Thread> found = threads(gaps, false, 4, longest, 0);
    REQUIRE(found.size() == fewest);
    double longest_found = 0;
    double squares_found = 0;
    for (const Thread &thread : found) {
      longest_found = std::max(longest_found, thread.cut);
      squares_found += thread.cut * thread.cut;
    }
    REQUIRE(longest_found == shortest);
    REQUIRE(squares_found == least(squares, shortest, fewest));
  }
}

TEST_CASE("threads cover each gathered gap once and carry their own lengths") {
  std::mt19937_64 random(11);
  std::uniform_real_distribution<double> length(1, 400);
  std::bernoulli_distribution plain(0.2);
  for (int round = 0; round < 200; ++round) {
    std::vector<Gap> gaps;
    for (int i = 0; i < 40; ++i)
      gaps.push_back({length(random), !plain(random)});
    const bool closed = round % 2 == 0;
    double gathered_length = 0;
    for (const Gap &gap : gaps)
      gathered_length += gap.gathered ? gap.long_length : 0;
    const std::vector<Thread> found = threads(gaps, closed, 3, 1000, 50);
    double covered = 0;
    int last_from = -1;
    for (const Thread &thread : found) {
      REQUIRE(thread.from > last_from);
      last_from = thread.from;
      const double stretch = thread.cut - 100;
      REQUIRE(stretch <= 1000);
      REQUIRE(thread.stitches == stitches_in(stretch, 3));
      covered += stretch;
    }
    REQUIRE(covered == Approx(gathered_length).epsilon(1e-12));
  }
}

TEST_CASE("a join of ten thousand marks is threaded in no time") {
  std::mt19937_64 random(3);
  std::uniform_real_distribution<double> length(1, 30);
  std::vector<Gap> gaps;
  for (int i = 0; i < 10000; ++i)
    gaps.push_back({length(random), true});
  const auto start = std::chrono::steady_clock::now();
  const std::vector<Thread> found = threads(gaps, true, 4, 1000, 100);
  const std::chrono::duration<double> taken = std::chrono::steady_clock::now() - start;
  CHECK(found.size() > 150);
  // Some milliseconds; work that grows with the square would take a hundred times as long.
  CHECK(taken.count() < 0.5);
}

// Watson, "Textiles and Clothing", 1907: rows 1/8 to 1/4 in apart.
TEST_CASE("without an allowance rows lie six millimetres from the edge and four apart, or 1/4 and 1/8 in") {
  CHECK(rows_at(1, {}).at == std::vector{6.0});
  CHECK(rows_at(3, {}).at == std::vector{6.0, 10.0, 14.0});
  CHECK(rows_at(3, {.inches = true}).at == std::vector{6.35, 9.525, 12.7});
  CHECK(rows_at(0, {}).at.empty());
  CHECK(rows_at(3, {}).from_seam.empty());
}

// Common practice; Baldt, "Clothing for Women", gathers on the seam line and 1/4 in below.
TEST_CASE("with an allowance the last row lies just inside it, and none near the cut edge") {
  const Rows two = rows_at(2, {.allowance = 10});
  CHECK(two.at == std::vector{4.0, 8.0});
  CHECK(two.from_seam == std::vector{6.0, 2.0});
  CHECK(rows_at(1, {.allowance = 15}).at == std::vector{13.0});
  CHECK(rows_at(3, {.allowance = 15}).at == std::vector{5.0, 9.0, 13.0});
  // Just as many as there is room for, and one more, which brings them together.
  CHECK(rows_at(3, {.allowance = 13}).at == std::vector{3.0, 7.0, 11.0});
  CHECK(rows_at(4, {.allowance = 13}).at.front() == Approx(3));
  CHECK(rows_at(4, {.allowance = 13}).at[1] == Approx(3 + 8 / 3.0));
  CHECK(rows_at(4, {.allowance = 13}).at.back() == 11);
  CHECK(rows_at(2, {.allowance = 6}).at == std::vector{3.0, 4.0});
  const Rows inches = rows_at(2, {.allowance = 25.4 * 5 / 8, .inches = true});
  CHECK(inches.at[0] == Approx(25.4 * 7 / 16));
  CHECK(inches.at[1] == Approx(25.4 * 9 / 16));
  CHECK(inches.from_seam[0] == Approx(25.4 * 3 / 16));
  CHECK(inches.from_seam[1] == Approx(25.4 / 16));
}

TEST_CASE("beside an allowance too narrow for it rows lie as without, inside the garment") {
  const Rows rows = rows_at(2, {.allowance = 5});
  CHECK(rows.at == std::vector{6.0, 10.0});
  CHECK(rows.from_seam == std::vector{-1.0, -5.0});
  CHECK(rows_at(1, {.allowance = 25.4 * 3 / 16, .inches = true}).at == std::vector{6.35});
}

TEST_CASE("rows beside any allowance lie in order, between the cut edge and the stitching line") {
  std::mt19937_64 random(13);
  std::uniform_real_distribution<double> allowance(6.5, 60);
  std::uniform_int_distribution<int> count(1, 20);
  for (int round = 0; round < 500; ++round) {
    const SeamOfRows seam{allowance(random), round % 2 == 0};
    const Rows rows = rows_at(count(random), seam);
    const double least = seam.inches ? 25.4 / 8 : 3;
    const double within = seam.inches ? 25.4 / 16 : 2;
    CHECK(rows.at.front() >= least * (1 - 1e-12));
    CHECK(rows.from_seam.back() == Approx(within));
    for (std::size_t i = 0; i < rows.at.size(); ++i) {
      CHECK(rows.at[i] + rows.from_seam[i] == Approx(seam.allowance));
      if (i == 0) continue;
      const double apart = rows.at[i] - rows.at[i - 1];
      CHECK(apart > 0);
      CHECK(apart <= (seam.inches ? 25.4 / 8 : 4) * (1 + 1e-12));
    }
  }
}

TEST_CASE("there are two rows, three where anything is gauged, or what the maker says") {
  Gathering gathering;
  CHECK(rows_of(gathering, false) == 2);
  CHECK(rows_of(gathering, true) == 3);
  gathering.rows = 4;
  CHECK(rows_of(gathering, true) == 4);
}

TEST_CASE(
    "all thread together is what each thread is cut to, in every row, and a row has the stitches of its threads") {
  std::mt19937_64 random(5);
  for (int trial = 0; trial < 200; ++trial) {
    std::vector<Gap> gaps(2 + random() % 12);
    for (Gap &gap : gaps)
      gap = {10.0 + static_cast<double>(random() % 900), random() % 4 != 0};
    gaps[0].gathered = true;
    Gathering gathering;
    gathering.rows = 1 + static_cast<int>(random() % 5);
    const auto plan = gathering_plan(gaps, random() % 2 == 0, gathering, false, {});
    REQUIRE(plan);
    REQUIRE(plan->rows == gathering.rows);
    REQUIRE(plan->at.size() == static_cast<std::size_t>(plan->rows));
    double cut = 0;
    int stitches = 0;
    for (const Thread &thread : plan->threads) {
      cut += thread.cut;
      stitches += thread.stitches;
    }
    REQUIRE(plan->thread == Approx(plan->rows * cut).epsilon(1e-12));
    REQUIRE(plan->stitches == stitches);
  }
}

TEST_CASE("where nothing is gathered there is no thread") {
  const std::vector<Gap> plain{{100, false}, {50, false}};
  CHECK_FALSE(gathering_plan(plain, false, Gathering{}, false, {}));
}

TEST_CASE("a cartridge fold takes two stitches, an odd one left over is a fold too") {
  CHECK(cartridge_folds(100, 30, 5).folds == 10);
  CHECK(cartridge_folds(101, 33, 5).folds == 11);
  CHECK(cartridge_folds(101, 33, 5).pitch == 3);
  CHECK(cartridge_folds(0, 33, 5).folds == 0);
  CHECK(cartridge_folds(0, 33, 5).pitch == 0);
}

TEST_CASE("a cord is the cloth it is drawn through and two tails") {
  CHECK(cord(520, 100) == 720);
}
