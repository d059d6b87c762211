// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>

namespace gatherwright::layout {

/// A sequence that is the same everywhere (Steele, Lea and Flood, "Fast splittable pseudorandom number generators",
/// OOPSLA 2014).
class Random {
public:
  explicit Random(std::uint64_t seed) : state_(seed) {}
  std::uint64_t next() {
    std::uint64_t z = state_ += 0x9E3779B97F4A7C15u;
    z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9u;
    z = (z ^ (z >> 27)) * 0x94D049BB133111EBu;
    return z ^ (z >> 31);
  }
  /// Below an end above 0.
  int below(int end) { return static_cast<int>(((next() >> 32) * static_cast<std::uint64_t>(end)) >> 32); }

private:
  std::uint64_t state_;
};

} // namespace gatherwright::layout
