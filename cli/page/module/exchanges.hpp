// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/page/server.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <variant>

#include <microhttpd.h>

namespace gatherwright::page {

/// A request as it comes in and is answered. The library for HTTP gives out paths as texts that end at a NUL, so where
/// one stands within the path is seen only by what stands behind it.
struct Exchange {
  Exchange(MHD_Connection *over, const char *path) : connection(over), path_as_sent(path), path_begins(path) {}

  MHD_Connection *connection;
  std::string path_as_sent;
  const char *path_begins; ///< only to be compared
  bool begun = false;      ///< its head is known
  bool is_drained = false; ///< what comes of its body is of no use
  std::size_t came = 0;    ///< bytes of its body
  Request request;
  std::optional<Reply> reply;
  bool closes = false; ///< nothing else is to come over its connection
};

/// The head of a request. `method` and `version` are as the library for HTTP hands them out.
Arrived head_of(const Exchange &exchange, const char *method, const char *version);

/// How long its body will be.
struct WithoutLength {};
using BodyLength = std::variant<std::size_t, WithoutLength>;
BodyLength body_length(const Exchange &exchange);

/// Sends the reply that the exchange has, which must live until it is completed.
MHD_Result send(const Exchange &exchange);

} // namespace gatherwright::page
