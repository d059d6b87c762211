// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/page/body.hpp"
#include "cli/page/text/change.hpp"

namespace gatherwright::page {

/// The one change that a body asks for. Throws BadBody where it asks for none or for several.
Change change_of(const Body &body);

} // namespace gatherwright::page
