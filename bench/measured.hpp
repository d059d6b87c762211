// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <utility>

/// How the ratios are measured and told.
namespace gatherwright::bench {

[[noreturn]] inline void fail(const char *why) {
  std::fprintf(stderr, "ratios: %s\n", why);
  std::exit(1);
}

inline void hold(bool promise, const char *why) {
  if (!promise) fail(why);
}

inline double seconds() {
  return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();
}

template <class Work> double once(Work work) {
  const double start = seconds();
  work();
  return seconds() - start;
}

/// The smallest times of two pieces of work done in turn.
template <class Ours, class Theirs> std::pair<double, double> in_turn(int rounds, Ours ours, Theirs theirs) {
  std::pair<double, double> best{HUGE_VAL, HUGE_VAL};
  for (int i = 0; i < rounds; ++i) {
    best.first = std::min(best.first, once(ours));
    best.second = std::min(best.second, once(theirs));
  }
  return best;
}

inline void say(const char *name, double ratio) {
  std::printf("%s %.3f\n", name, ratio);
  std::fflush(stdout);
}

} // namespace gatherwright::bench
