// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/page/server.hpp"
#include "gatherwright/outcome.hpp"

namespace gatherwright::page {

/// What the module has to give.
struct Module {
  Serve *serve;
  Digest *digest;
};

/// The module, loaded when this is first called; it stays loaded to the end. A fault where the program was installed
/// without it.
Outcome<Module> module();

} // namespace gatherwright::page
