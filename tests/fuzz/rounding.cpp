// SPDX-License-Identifier: GPL-3.0-or-later
// Marks put on the tape by the program, and by trying every rounding: the two must agree. Places are whole parts of a
// step, so that the sums of the second are exact.

#include "solver/mark/rounding.hpp"

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <optional>
#include <tuple>
#include <vector>

namespace {

using Places = std::vector<std::int64_t>;

constexpr std::size_t most_marks = 10; ///< all their roundings are tried

struct Edge {
  std::int64_t parts = 1; ///< of a step
  std::int64_t end = 0;
  bool closed = false;
  Places places; ///< without an open edge's own end
};

Edge edge_of(const std::uint8_t *data, std::size_t size) {
  Edge edge;
  if (size < 3) return edge;
  edge.parts = 1 + data[0] % 16;
  edge.closed = data[1] % 2 != 0;
  edge.end = edge.parts * (1 + data[1] / 2) + data[2] % edge.parts;
  edge.places = {0};
  for (std::size_t i = 3; i < std::min(size, 3 + most_marks); ++i)
    edge.places.push_back(data[i] * edge.end / 256);
  std::sort(edge.places.begin(), edge.places.end());
  return edge;
}

/// Squared errors of gaps, then of places, then the steps themselves: the least is best.
std::tuple<std::int64_t, std::int64_t, Places> rank(const Edge &edge, const Places &tape) {
  const auto error = [&](std::size_t i) { return i == tape.size() ? 0 : tape[i] * edge.parts - edge.places[i]; };
  std::int64_t gaps = 0;
  std::int64_t places = 0;
  for (std::size_t i = 1; i <= tape.size(); ++i) {
    gaps += (error(i) - error(i - 1)) * (error(i) - error(i - 1));
    places += error(i) * error(i);
  }
  return {gaps, places, tape};
}

Places best_by_trying(const Edge &edge) {
  std::optional<std::tuple<std::int64_t, std::int64_t, Places>> best;
  Places tape(edge.places.size());
  for (std::uint32_t choice = 0; choice < (1u << (tape.size() - 1)); ++choice) {
    bool possible = true;
    for (std::size_t i = 1; i < tape.size(); ++i) {
      const bool up = ((choice >> (i - 1)) & 1u) != 0;
      possible = possible && !(up && edge.places[i] % edge.parts == 0);
      tape[i] = edge.places[i] / edge.parts + (up ? 1 : 0);
    }
    if (!possible || !std::is_sorted(tape.begin(), tape.end()) || tape.back() * edge.parts > edge.end) continue;
    const auto ranked = rank(edge, tape);
    if (!best || ranked < *best) best = ranked;
  }
  if (!best) std::abort();
  return std::get<2>(*best);
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size);

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size) {
  const Edge edge = edge_of(data, size);
  if (edge.places.empty()) return 0;
  const double length = static_cast<double>(edge.end) / static_cast<double>(edge.parts);
  std::vector<double> places;
  for (const std::int64_t place : edge.places)
    places.push_back(static_cast<double>(place) / static_cast<double>(edge.parts));
  if (!edge.closed) places.push_back(length);
  const std::vector<double> tape = gatherwright::mark::to_tape(places, length, edge.closed, false);
  const Places best = best_by_trying(edge);
  if (tape.size() != places.size()) std::abort();
  for (std::size_t i = 0; i < best.size(); ++i)
    if (tape[i] != static_cast<double>(best[i])) std::abort();
  return 0;
}
