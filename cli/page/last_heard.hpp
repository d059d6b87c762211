// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <chrono>

namespace gatherwright::page {

/// When a page was last heard from. One that was opened from the menu has nobody who could end it at a terminal, so it
/// ends by itself; a page that is open asks every 10 seconds.
class LastHeard {
public:
  using Time = std::chrono::steady_clock::time_point;
  static constexpr std::chrono::minutes long_ago{15};

  explicit LastHeard(Time now) : at_(now) {}
  void heard(Time now) { at_ = now; }
  bool is_long_ago(Time now) const { return now - at_ > long_ago; }

private:
  Time at_;
};

} // namespace gatherwright::page
