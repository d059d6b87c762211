// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/machine/open_file.hpp"
#include "gatherwright/outcome.hpp"

#include <cstdint>
#include <string>

namespace gatherwright::page {

/// A socket that takes connections from this machine alone.
struct Listener {
  cli::OpenFile socket;
  std::uint16_t port;
};

/// Why there is none, in the system's words.
struct CannotListen {
  std::string why;
};

/// On 127.0.0.1 at a port; 0: at one that is free.
Outcome<Listener, CannotListen> listen_at(std::uint16_t port);

} // namespace gatherwright::page
