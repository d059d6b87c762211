// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/layout/layout.hpp"
#include "solver/layout/problem.hpp"

#include <cstdint>
#include <optional>

namespace gatherwright::layout {

/// What may be done, in steps of some nanoseconds each: counted by what is done and never by time, so that the same
/// problem has the same answer everywhere. As they stand they take a few seconds at the most.
struct Budget {
  std::int64_t proving = 250'000'000;  ///< in the exhaustive search
  std::int64_t searching = 60'000'000; ///< in the search for shorter layouts
};

/// The shortest layout that is found, with its bound. Up to sixteen rectangles of garment sizes, and of twenty where
/// half of them or more are in pairs, it has been the shortest there is, and said to be, wherever that was tried. It
/// has passed the checker.
///
/// The problem has no misfit; std::invalid_argument otherwise. std::logic_error where the checker refuses: a fault of
/// ours.
Layout lay(const Problem &problem, const Budget &budget = {});

struct Fitting {
  enum class Answer {
    fits,     ///< `layout` is no longer than the length; it need not be the shortest
    does_not, ///< proved
    not_known,
  };
  Answer answer = Answer::not_known;
  std::optional<Layout> layout;
};

/// Whether all rectangles fit a length of the strip. As far as answers are known they are monotone: what fits a length
/// fits a greater one, and so do fewer or smaller rectangles.
Fitting fits(const Problem &problem, double length, const Budget &budget = {});

} // namespace gatherwright::layout
