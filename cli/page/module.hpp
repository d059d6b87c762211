// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/page/server.hpp"
#include "gatherwright/outcome.hpp"

namespace gatherwright::page {

/// What the module has to give.
class Module {
public:
  Module(Serve *serves, Digest *digests) : digest(digests), serve_(serves) {}

  /// As Serve. What the service's `begun` or `is_over` throws ends it, and comes out of here.
  void serve(const Service &service, std::optional<std::string> &why_not) const;

  Digest *digest;

private:
  Serve *serve_;
};

/// The module, loaded when this is first called; it stays loaded to the end. A fault where the program was installed
/// without it.
Outcome<Module> module();

} // namespace gatherwright::page
