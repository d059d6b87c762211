// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/page/module/visits.hpp"

#include <algorithm>
#include <cstdint>

#include <netinet/in.h>
#include <netinet/tcp.h>
#include <sys/socket.h>

namespace gatherwright::page {

namespace {

/// Since anything came or went, in ms, as the system knows it.
std::uint32_t silent_for(int socket) {
  tcp_info info{};
  socklen_t size = sizeof info;
  if (::getsockopt(socket, IPPROTO_TCP, TCP_INFO, &info, &size) != 0) return UINT32_MAX;
  return std::min(info.tcpi_last_data_recv, info.tcpi_last_data_sent);
}

/// The library holds the socket and closes it once it sees that nothing more comes.
void shut(Visit &visit) {
  ::shutdown(visit.socket, SHUT_RDWR);
  visit.is_ended = true;
}

} // namespace

void Visits::begin(MHD_Connection *connection, int socket) {
  visits_.insert_or_assign(connection, Visit{socket, Visit::Waits::for_first, Clock::now()});
}

void Visits::head_begins(MHD_Connection *connection) {
  const auto found = visits_.find(connection);
  if (found == visits_.end()) return;
  Visit &visit = found->second;
  if (visit.waits == Visit::Waits::for_next) visit.since = Clock::now();
  visit.waits = Visit::Waits::for_head;
}

void Visits::now_waits(MHD_Connection *connection, Visit::Waits waits) {
  const auto found = visits_.find(connection);
  if (found == visits_.end()) return;
  found->second.waits = waits;
  found->second.since = Clock::now();
}

std::size_t Visits::open() const {
  return static_cast<std::size_t>(
      std::count_if(visits_.begin(), visits_.end(), [](const auto &each) { return !each.second.is_ended; }));
}

bool Visits::is_late(const Visit &visit, Clock::time_point now) const {
  const auto waited = now - visit.since;
  switch (visit.waits) {
  case Visit::Waits::for_first:
  case Visit::Waits::for_head:
    return waited > bounds_.head;
  case Visit::Waits::for_body:
    return waited > bounds_.whole_body;
  case Visit::Waits::for_next:
    return waited > bounds_.silence;
  case Visit::Waits::for_answer:
    return false;
  }
  return false;
}

void Visits::end_late() {
  const Clock::time_point now = Clock::now();
  for (auto &[connection, visit] : visits_)
    if (!visit.is_ended && is_late(visit, now)) shut(visit);
}

void Visits::end_longest_silent() {
  Visit *longest = nullptr;
  std::uint32_t silence = 0;
  for (auto &[connection, visit] : visits_) {
    if (visit.is_ended || visit.waits == Visit::Waits::for_answer) continue;
    const std::uint32_t its = silent_for(visit.socket);
    if (longest != nullptr && (its < silence || (its == silence && visit.since >= longest->since))) continue;
    longest = &visit;
    silence = its;
  }
  if (longest != nullptr) shut(*longest);
}

} // namespace gatherwright::page
