// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/job.hpp"

#include <optional>
#include <string>
#include <vector>

/// The cloths that a job's pieces are cut from.
namespace gatherwright {

/// A cloth as pieces are laid on it.
struct Cloth {
  SharedText name;                            ///< may be empty
  std::optional<Length> width = std::nullopt; ///< as bought, selvedge to selvedge
  Length selvedge{0.0};                       ///< lost at each side
  Shrinkage shrinkage = {};
  Length sold_by{100.0};
  std::optional<Stock> stock = std::nullopt; ///< how much of it there is; left out: not limited

  friend bool operator==(const Cloth &, const Cloth &) = default;
};

/// What a fabric is as a cloth. `unit`: the job's, which says by what step cloth is sold.
Cloth cloth_of(const Fabric &fabric, Unit unit);

/// What may be used of the width once it is washed: without selvedges, which do not shrink away; millimetres, above 0
/// in a job without faults. Nothing where no width is known.
std::optional<double> usable(const Cloth &cloth);

/// The cloths of a job, and which of them each piece lies on.
struct Cloths {
  std::vector<Cloth> cloths;
  std::vector<int> of_piece; ///< as the job's pieces: an index into `cloths`
};

/// Pieces whose cloths are the same in all that is said of them lie together.
///   1. Cloths stand in the order of the first piece that is cut from each.
Cloths cloths_of(const Job &job);

} // namespace gatherwright
