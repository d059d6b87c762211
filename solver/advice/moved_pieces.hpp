// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/cloths.hpp"
#include "gatherwright/cutting.hpp"
#include "solver/advice/moved.hpp"
#include "solver/job/settled.hpp"

#include <optional>
#include <vector>

namespace gatherwright::advice {

/// The pieces of a planned job while one of its lengths is another and what derives from it moves too.
class MovedPieces {
public:
  /// The plan is of no conflict, and has a value for every length.
  MovedPieces(const Job &job, const Plan &plan);

  /// Cut sizes of all pieces with the length that a dependence begins with at a value; nothing where one has none.
  std::optional<std::vector<WearersPieces::Size>> sizes_at(const Dependence &on_it, double value);

  /// What pieces do as a length grows.
  struct Ways {
    bool grows = false;   ///< some piece
    bool shrinks = false; ///< some piece
  };

  /// Of the pieces of one cloth, at a value of the length; neither where a piece has no size there.
  Ways ways(const Dependence &on_it, ClothId cloth, double value);

  const Cloths &cloths() const { return cloths_; }

private:
  Settled settled_;
  Cloths cloths_;
  Moved moved_;
  std::vector<WearersPieces::Size> planned_;
};

} // namespace gatherwright::advice
