// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/job.hpp"

#include <array>
#include <optional>
#include <string>

/// A join's own cloth and gathering, and a piece's own cloth, laid over the job's.
namespace gatherwright::cli {

/// A cloth as far as it was described, for a job, for one join or for one piece.
struct GivenFabric {
  std::optional<SharedText> name;
  std::optional<Weight> weight;
  std::optional<Length> width;
  std::optional<Length> thickness;
  std::optional<Length> bending_length;
  std::optional<bool> shrinks;
  std::optional<Swatch> swatch;
  std::optional<Length> selvedge;
  std::optional<Shrinkage> shrinkage;
  std::optional<Length> sold_by;
  std::optional<Stock> stock;
};

/// A gathering as far as it was described. A stitch is given by its length, or by threads of the cloth and their count.
struct GivenGathering {
  std::optional<Length> stitch;                 ///< hole to hole
  bool on_face = false;                         ///< the stitch was given as running stitches counted on the face
  std::optional<std::array<double, 2>> threads; ///< taken up, passed
  std::optional<double> count_per_mm;           ///< threads of the cloth to a millimetre
  std::optional<int> rows;
  std::optional<Length> tail;
  std::optional<Length> longest;
};

/// What `own` leaves out is taken from `jobs`, with one exception: a cloth with a weight of its own is another cloth,
/// so nothing that was measured on the job's holds for it, and only the width is taken over.
GivenFabric laid_over(const GivenFabric &own, const GivenFabric &jobs);

/// The same for a piece, which is cut from the cloth: one with a weight of its own, or with a name other than the
/// job's, is another cloth, of which the width and the step in which it is sold are taken over and nothing else.
GivenFabric cut_over(const GivenFabric &own, const GivenFabric &jobs);

/// What `own` leaves out is taken from `jobs`, with one exception: there is one stitch, so a stitch of its own puts
/// aside the job's threads and count, and threads or a count of its own put aside the job's stitch.
GivenGathering laid_over(const GivenGathering &own, const GivenGathering &jobs);

Fabric fabric_of(const GivenFabric &given);

/// With the defaults for what is left out. Where threads and a count are given (both or neither must be), the stitch is
/// (taken up + passed) / 2 threads long.
Gathering gathering_of(const GivenGathering &given);

} // namespace gatherwright::cli
