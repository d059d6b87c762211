// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/page/server.hpp"

#include <chrono>
#include <unordered_map>

#include <microhttpd.h>

namespace gatherwright::page {

using Clock = std::chrono::steady_clock;

/// A connection, and what is waited for.
struct Visit {
  enum class Waits { for_first, for_next, for_head, for_body, for_answer };
  int socket;
  Waits waits = Waits::for_first;
  Clock::time_point since;
  bool is_ended = false; ///< its socket is shut, which the library will see
};

/// All connections, and which of them have waited too long.
class Visits {
public:
  explicit Visits(const Bounds &bounds) : bounds_(bounds) {}

  void begin(MHD_Connection *connection, int socket);
  void end(MHD_Connection *connection) { visits_.erase(connection); }
  /// A first head has its time from when the connection began, a later one from its first line.
  void head_begins(MHD_Connection *connection);
  void now_waits(MHD_Connection *connection, Visit::Waits waits);

  std::size_t open() const; ///< without those ended
  void end_late();
  /// Makes room for one more.
  void end_longest_silent();

private:
  bool is_late(const Visit &visit, Clock::time_point now) const;

  const Bounds &bounds_;
  std::unordered_map<MHD_Connection *, Visit> visits_;
};

} // namespace gatherwright::page
