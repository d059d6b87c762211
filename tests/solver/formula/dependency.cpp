// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/formula.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <chrono>
#include <numeric>
#include <random>
#include <set>
#include <vector>

using namespace gatherwright;

namespace {

using Needs = std::vector<std::vector<int>>;

// The lowest item that has all it needs, again and again; `left_out` items are taken to be there.
std::vector<int> plain_order(const Needs &needs, const std::set<int> &left_out = {}) {
  std::vector<int> order;
  std::set<int> there = left_out;
  for (bool found = true; found;) {
    found = false;
    for (int item = 0; item < static_cast<int>(needs.size()) && !found; ++item) {
      const auto &its_needs = needs[static_cast<std::size_t>(item)];
      if (there.count(item) != 0 ||
          !std::all_of(its_needs.begin(), its_needs.end(), [&](int needed) { return there.count(needed) != 0; }))
        continue;
      order.push_back(item);
      there.insert(item);
      found = true;
    }
  }
  return order;
}

} // namespace

TEST_CASE("items come after what they need, the earliest first where there is a choice") {
  CHECK(dependency_order(Needs{}).order.empty());
  CHECK(dependency_order(Needs{{}, {}, {}}).order == std::vector<int>{0, 1, 2});
  CHECK(dependency_order(Needs{{2}, {}, {1}, {}}).order == std::vector<int>{1, 2, 0, 3});
  CHECK(dependency_order(Needs{{1, 1}, {}}).order == std::vector<int>{1, 0});
  CHECK(dependency_order(Needs{{2}, {}, {1}, {}}).cycles.empty());
}

TEST_CASE("a cycle is told once, from its lowest item") {
  using Cycles = std::vector<std::vector<int>>;
  CHECK(dependency_order(Needs{{0}}).cycles == Cycles{{0, 0}});
  CHECK(dependency_order(Needs{{1}, {0}}).cycles == Cycles{{0, 1, 0}});
  CHECK(dependency_order(Needs{{1}, {2}, {3}, {1}}).cycles == Cycles{{1, 2, 3, 1}});
  CHECK(dependency_order(Needs{{3}, {0}, {2}, {1}, {}}).cycles == Cycles{{0, 3, 1, 0}, {2, 2}});
  // What only needs an item of a cycle is no part of it, and is not in the order either.
  const DependencyOrder hanging = dependency_order(Needs{{1}, {2}, {1}, {}});
  CHECK(hanging.cycles == Cycles{{1, 2, 1}});
  CHECK(hanging.order == std::vector<int>{3});
}

TEST_CASE("with the items of all cycles taken out, there is an order") {
  std::mt19937_64 random(17);
  int with_cycles = 0;
  for (int round = 0; round < 2000; ++round) {
    const std::size_t count = 1 + random() % 9;
    Needs needs(count);
    for (std::size_t edges = random() % (2 * count); edges > 0; --edges)
      needs[random() % count].push_back(static_cast<int>(random() % count));
    const DependencyOrder found = dependency_order(needs);
    REQUIRE(found.order == plain_order(needs));
    REQUIRE(found.cycles.empty() == (found.order.size() == count));
    std::set<int> on_cycles;
    for (const auto &cycle : found.cycles) {
      REQUIRE(cycle.size() >= 2);
      REQUIRE(cycle.front() == cycle.back());
      REQUIRE(cycle.front() == *std::min_element(cycle.begin(), cycle.end()));
      for (std::size_t k = 0; k + 1 < cycle.size(); ++k) {
        const auto &its_needs = needs[static_cast<std::size_t>(cycle[k])];
        REQUIRE(std::count(its_needs.begin(), its_needs.end(), cycle[k + 1]) > 0);
        REQUIRE(on_cycles.insert(cycle[k]).second);
      }
    }
    REQUIRE(std::is_sorted(found.cycles.begin(), found.cycles.end()));
    // With these items taken out nothing goes round any more.
    REQUIRE(plain_order(needs, on_cycles).size() + on_cycles.size() == count);
    with_cycles += found.cycles.empty() ? 0 : 1;
  }
  CHECK(with_cycles > 300);
}

TEST_CASE("a long chain, and a long ring, are ordered at once") {
  constexpr int count = 300000;
  Needs chain(count);
  for (int item = 0; item + 1 < count; ++item)
    chain[static_cast<std::size_t>(item)] = {item + 1};
  const auto start = std::chrono::steady_clock::now();
  CHECK(dependency_order(chain).order.front() == count - 1);
  chain.back() = {0};
  const DependencyOrder ring = dependency_order(chain);
  CHECK(ring.order.empty());
  REQUIRE(ring.cycles.size() == 1);
  CHECK(ring.cycles.front().size() == count + 1);
  CHECK(std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count() < 2);
}
