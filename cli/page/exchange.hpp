// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>

/// What goes between the page in a browser and the program, as plain values: the server that carries them knows nothing
/// of jobs, and what answers them nothing of connections.
namespace gatherwright::page {

/// A request that was let in.
struct Request {
  std::string method; ///< "GET" or "POST"
  std::string path;   ///< below the key, without a slash before it: "plan"; empty for the page itself
  std::string body;
};

struct Reply {
  int status = 200; ///< of HTTP
  std::string type = "application/json";
  std::string body;
  std::optional<std::string> leads_to = std::nullopt; ///< another path of this server, of a redirection
};

} // namespace gatherwright::page
