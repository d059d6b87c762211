// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/formula.hpp"

#include <algorithm>
#include <functional>
#include <queue>

namespace gatherwright {
namespace {

using Needs = std::span<const std::vector<int>>;

// Kahn's order (Comm. ACM 5, 558, 1962), the lowest item that is ready taken first. Items on a cycle, and those that
// need one, never get ready.
std::vector<int> ordered(Needs needs) {
  const std::size_t count = needs.size();
  std::vector<std::vector<int>> wanted_by(count);
  std::vector<std::size_t> missing(count);
  std::priority_queue<int, std::vector<int>, std::greater<>> ready;
  for (std::size_t item = 0; item < count; ++item) {
    missing[item] = needs[item].size();
    if (missing[item] == 0) ready.push(static_cast<int>(item));
    for (const int needed : needs[item])
      wanted_by[static_cast<std::size_t>(needed)].push_back(static_cast<int>(item));
  }
  std::vector<int> order;
  order.reserve(count);
  while (!ready.empty()) {
    const int item = ready.top();
    ready.pop();
    order.push_back(item);
    for (const int waiting : wanted_by[static_cast<std::size_t>(item)])
      if (--missing[static_cast<std::size_t>(waiting)] == 0) ready.push(waiting);
  }
  return order;
}

// An item on the path that is being followed, and which of its needs comes next.
struct Visit {
  int item = 0;
  std::size_t next = 0;
};

enum class State : char { unseen, on_path, done };

// The end of the path from `needed` on, closed and turned so that the lowest item comes first; its items are done with.
std::vector<int> cut_cycle(std::vector<Visit> &path, int needed, std::vector<State> &state) {
  std::vector<int> cycle;
  do {
    cycle.push_back(path.back().item);
    state[static_cast<std::size_t>(path.back().item)] = State::done;
    path.pop_back();
  } while (cycle.back() != needed);
  std::reverse(cycle.begin(), cycle.end());
  std::rotate(cycle.begin(), std::min_element(cycle.begin(), cycle.end()), cycle.end());
  cycle.push_back(cycle.front());
  return cycle;
}

// Depth first, with a path of its own. A cycle that closes is cut out of the path and out of what is still looked at,
// so each need is followed once at most, and what is left at the end has no cycle.
std::vector<std::vector<int>> disjoint_cycles(Needs needs, std::vector<State> state) {
  std::vector<std::vector<int>> cycles;
  std::vector<Visit> path;
  for (std::size_t start = 0; start < needs.size(); ++start) {
    if (state[start] != State::unseen) continue;
    state[start] = State::on_path;
    path.push_back({static_cast<int>(start), 0});
    while (!path.empty()) {
      Visit &visit = path.back();
      const auto &items = needs[static_cast<std::size_t>(visit.item)];
      if (visit.next == items.size()) {
        state[static_cast<std::size_t>(visit.item)] = State::done;
        path.pop_back();
        continue;
      }
      const int needed = items[visit.next++];
      State &its_state = state[static_cast<std::size_t>(needed)];
      if (its_state == State::on_path) {
        cycles.push_back(cut_cycle(path, needed, state));
      } else if (its_state == State::unseen) {
        its_state = State::on_path;
        path.push_back({needed, 0});
      }
    }
  }
  return cycles;
}

} // namespace

DependencyOrder dependency_order(std::span<const std::vector<int>> needs) {
  DependencyOrder found{ordered(needs), {}};
  if (found.order.size() == needs.size()) return found;
  std::vector<State> state(needs.size(), State::unseen);
  for (const int item : found.order)
    state[static_cast<std::size_t>(item)] = State::done;
  found.cycles = disjoint_cycles(needs, std::move(state));
  std::sort(found.cycles.begin(), found.cycles.end());
  return found;
}

} // namespace gatherwright
