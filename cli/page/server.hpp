// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/machine/module.hpp"
#include "cli/page/exchange.hpp"

#include <array>
#include <chrono>
#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

/// Between the program and its module that speaks HTTP, which only the page loads: its libraries take longer to load
/// than a small job takes to plan.
namespace gatherwright::page {

/// The head of a request as it came, before anything of it is believed.
struct Arrived {
  std::string method;
  std::string path; ///< as sent: nothing in it is resolved, and a NUL may be in it
  std::vector<std::string> hosts;
  std::vector<std::string> origins;
  std::vector<std::string> types; ///< Content-Type
};

/// A request without its body, which is yet to come, or what is said to one that is not let in.
using Admitted = std::variant<Request, Reply>;

struct Bounds {
  int connections = 1024;
  int workers = 1;                  ///< requests answered at once
  std::size_t body = 10'000'000;    ///< bytes
  std::size_t drained = 64'000'000; ///< bytes of a body of no use that are taken, so that its sender reads the reply
  std::chrono::milliseconds head{10'000};       ///< for all of a request's head
  std::chrono::milliseconds whole_body{30'000}; ///< for all of its body
  std::chrono::milliseconds silence{60'000};    ///< of a connection that waits for its next request
};

struct Service {
  int socket;                                           ///< bound and listening; it stays the caller's
  std::function<Admitted(const Arrived &)> admit;       ///< called by one thread
  std::function<Reply(const Request &)> answer;         ///< called by all workers at once
  std::function<void()> begun = [] {};                  ///< called once it serves, by the thread that admits
  std::function<bool()> is_over = [] { return false; }; ///< asked every second by that thread
  Bounds bounds = {};
};

/// A service as the module is told of it: nothing is thrown out of what it calls.
struct ServiceTold {
  int socket;
  std::function<cli::Ended(const Arrived &, Admitted &)> admit;
  std::function<cli::Ended(const Request &, Reply &)> answer;
  std::function<bool()> begun;   ///< whether to go on
  std::function<bool()> is_over; ///< whether to end
  Bounds bounds;
};

/// Serves until SIGINT, SIGTERM or `is_over`; a request that is being answered then is answered. Beyond the bound of
/// connections the one goes that has been silent the longest. Of an answer that does not end well the reply has status
/// 500. Afterwards `why_not` has a value if the server could not begin.
using Serve = cli::Ended(const ServiceTold &service, std::optional<std::string> &why_not);

/// The SHA-256 of bytes, as 64 hexadecimal digits.
using Digest = cli::Ended(std::string_view bytes, std::string &hexadecimal);

inline constexpr const char *module_file = "gatherwright-page.so";
inline constexpr const char *serve_name = "gatherwright_serve";
inline constexpr const char *digest_name = "gatherwright_digest";

/// What stands in the head of every reply.
inline constexpr std::array<std::pair<const char *, const char *>, 4> every_head{{
    {"Content-Security-Policy",
     "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; connect-src 'self'; form-action 'none'; "
     "frame-ancestors 'none'; base-uri 'none'"},
    {"X-Content-Type-Options", "nosniff"},
    {"Referrer-Policy", "no-referrer"},
    {"Cache-Control", "no-store"},
}};

} // namespace gatherwright::page
