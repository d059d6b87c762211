// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/page/text/source.hpp"

#include <optional>

namespace gatherwright::page {

/// Why a measure or a length cannot be called so: it is no name, or one has it already.
std::optional<Fault> fault_of_new_name(const Source &source, std::string_view name);

} // namespace gatherwright::page
