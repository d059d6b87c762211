// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/allot/scheme.hpp"
#include "solver/optimum/solver.hpp"

#include <array>
#include <optional>
#include <span>

namespace gatherwright::advice {

/// A value this near to a tape step, in steps, is on it.
inline constexpr double on_step = 1e-6;

/// The value nearest to `is` that the subject of a question may take; nothing where there is none, or where something
/// depends on it otherwise than in proportion. `drawn` as of allot::scheme(). `solver` is only room to work in.
std::optional<double> nearest_value(const Job &job, const allot::Question &question,
                                    std::span<const allot::DrawnLengths> drawn, double is, optimum::Solver &solver);

/// The first two steps of the tape at or beyond `exact` on the way from `is`, the nearer first.
std::array<double, 2> steps_beyond(double is, double exact, double step);

} // namespace gatherwright::advice
