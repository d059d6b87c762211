// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/layout/layout.hpp"
#include "solver/layout/problem.hpp"

#include <optional>

namespace gatherwright::layout {

/// The length that a certificate proves no layout to be shorter than, multiplied out; nothing where it does not prove
/// what it says. A part of the checker: it shares no code with the search.
std::optional<double> certified(const Problem &problem, const Certificate &certificate);

} // namespace gatherwright::layout
