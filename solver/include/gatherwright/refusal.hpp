// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/cutting.hpp"
#include "gatherwright/job.hpp"

#include <array>
#include <cstdint>
#include <optional>
#include <variant>
#include <vector>

/// Why there is no plan of a job. Numbers and indices into the job; words are put to them elsewhere.
namespace gatherwright {

/// Lengths are millimetres.
namespace refusal {

/// A drawn edge that is not one the join can have.
struct Undrawable {
  enum class Why {
    open,                ///< the join is closed and the path is not
    closed,              ///< the reverse
    too_many_pieces,     ///< with this path the drawn edges have more than `most` lines and curves
    too_many_bends,      ///< the shear of the edges to be eased or spread by the grain has more than `most` pieces
    no_side,             ///< there is an allowance, and nothing says where the garment lies
    no_inside,           ///< the garment lies inside or outside, and the path is open
    encloses_nothing,    ///< likewise, and the path has no inside
    allowance_too_large, ///< `allowance` is beyond any edge
  };
  EdgeAt at;
  Why why;
  std::int64_t most = 0;
  double allowance = 0;
};

/// The part that is meant of a drawn edge is none.
struct NoPart {
  EdgeAt at;
  double from = 0; ///< along the stitching line
  double to = 0;
  double stitching = 0; ///< all of it
};

/// A drawn edge that has no stitching line at its allowance.
struct NoStitchingLine {
  enum class Why {
    meets_itself, ///< the edge crosses or touches itself
    too_tight,    ///< it bends or turns more tightly than the allowance allows
    doubles_back, ///< it turns right round, and the line would have to go round the tip
    falls_apart,  ///< the line would come in pieces
    runs_across,  ///< the line runs over itself or the cut edge
    nothing_left, ///< no line is left
    too_tangled,  ///< more crossings than a drawn edge has
  };
  EdgeAt at;
  Why why;
  double along = 0; ///< of the drawn edge, where that says anything
  double allowance = 0;
};

/// More of something than is worked with.
struct TooMuch {
  enum class Of {
    numbers,    ///< kept where segments and lengths to be found meet
    lengths,    ///< to be found, that hang together
    conditions, ///< that bind at once
    steps,      ///< of working it out
  };
  Of of;
  std::int64_t most = 0;
};

/// Conditions say nearly the same, but not quite: what must hold cannot be told apart.
struct Indistinct {
  std::optional<std::array<Condition, 2>> conditions; ///< left out: some
};

/// A band comes out as nothing.
struct NoBand {
  std::variant<JoinId, SegmentAt> of;
};

/// Nothing settles how long these segments are.
struct Unsettled {
  JoinId at;
  std::vector<int> segments; ///< ascending, at least one
};

/// More marks than `most`: of the join alone, or of all joins up to it.
struct TooManyMarks {
  JoinId at;
  std::int64_t most = 0;
  bool in_all = false;
};

/// A fade takes more than the band of its segment.
struct FadeTooLong {
  SegmentAt at;
  double fade = 0;
  double band = 0;
};

/// Spread by the grain along a stretch that shears nowhere.
struct NoShear {
  SegmentAt at;
};

/// More marks than `most` on the sides of all pieces up to this part.
struct TooManyOnSides {
  PartAt at;
  std::int64_t most = 0;
};

} // namespace refusal

/// A placed fault: what `validate` finds, what is wrong with the text of a path, a formula that has no value.
using Refusal =
    std::variant<PlacedFault, refusal::Undrawable, refusal::NoPart, refusal::NoStitchingLine, refusal::TooMuch,
                 refusal::Indistinct, refusal::NoBand, refusal::Unsettled, refusal::TooManyMarks, refusal::FadeTooLong,
                 refusal::NoShear, refusal::NoSize, refusal::BeforeTheSide, refusal::TooManyOnSides>;

/// At least one.
using Refusals = std::vector<Refusal>;

/// Where in the job it is.
///   1. A refusal is in the place that could be written otherwise.
Place place_of(const Refusal &refusal);

} // namespace gatherwright
