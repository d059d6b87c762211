// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <ctime>

/// What reading anything at all may take. Sanitizers slow it down up to tenfold.
#if defined(__SANITIZE_ADDRESS__)
constexpr double seconds_allowed = 10;
#else
constexpr double seconds_allowed = 1;
#endif

/// Seconds of the processor, since others may be at work on the machine.
template <class Work> double seconds_of(Work &&work) {
  const std::clock_t start = std::clock();
  work();
  return static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
}
