// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/page/server.hpp"

#include <chrono>
#include <functional>
#include <string>
#include <string_view>

/// Who is let in.
namespace gatherwright::page {

/// Opens the page once, within its time, for whoever shows it: it stands in a command line, where others of the machine
/// can read it, and the key does not.
struct Ticket {
  static constexpr std::chrono::seconds good_for{30};

  std::string secret;
  std::chrono::steady_clock::time_point given_out;
  bool used = false;
};

/// Judges the head of a request by itself: where it was sent to, what it asks for, by whom, and with which key.
class Admission {
public:
  /// `port`: where the page is served, on 127.0.0.1.
  Admission(int port, std::string key) : port_(port), key_(std::move(key)) {}

  void give_out(Ticket ticket) { ticket_ = std::move(ticket); }

  /// A request of whoever has the key, from a page of this server or from none; else what is said to it, which is the
  /// same for every wrong key. A ticket leads to the key.
  Admitted admit(const Arrived &head, std::chrono::steady_clock::time_point now);

  /// Whether a ticket was shown that had been used: somebody else has been in, or has tried.
  bool ticket_came_again() const { return ticket_came_again_; }

private:
  Reply lead_in(std::chrono::steady_clock::time_point now);
  bool is_here(std::string_view host) const;

  int port_;
  std::string key_;
  std::optional<Ticket> ticket_;
  bool ticket_came_again_ = false;
};

} // namespace gatherwright::page
