// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/cloths.hpp"
#include "gatherwright/job.hpp"

#include <optional>
#include <span>
#include <vector>

/// Whether a job made by a program is one.
namespace gatherwright {

/// Every fault of a job that can be seen without drawing its edges or planning it, each in its place: what is not
/// finite or out of bounds (gatherwright/bounds.hpp), what does not go together, names that are empty, no UTF-8 or
/// twice the same, formulas that have no value or come to no length of cloth, lengths that go round in a ring. First
/// those of the job itself, its measures, lengths, rules, joins and pieces, then what formulas come to. Empty: the job
/// may be planned, and `plan` says whatever else keeps it from it, such as a path that cannot be drawn.
///   1. All faults of a job are told, and what only follows from one is not.
///   2. A job with more in it than is looked at has that one fault.
///   3. A job that was read has no fault, and the same job with other measures may.
std::vector<PlacedFault> validate(const Job &job);

/// What `validate` finds of a job that is sound but for its measures, the wearer's age and what follows from them.
///   4. What is wrong with the measures of a job that is else sound is told by itself as among all faults.
std::vector<PlacedFault> faults_of_measures(const Job &job);

/// Which of its lengths a segment gives.
struct SegmentGives {
  Kind kind = Kind::gather;
  bool long_edge = false;
  bool band = false;
};

/// A segment that gives too little beside the others.
struct SegmentLacks {
  enum class Lack {
    band_beside_equal, ///< not flat, a long edge and no band, beside segments that take equal parts of the band
    flat_beside_equal, ///< flat with neither, beside segments that take equal parts of the band
    second_flat        ///< flat with neither, after another such
  };
  int segment = 0;
  Lack lack = Lack::second_flat;
};

/// Segments that are not flat and give neither length take equal parts of the band that the others leave; so beside one
/// of these every other must give its part of the band. Where there is none, one flat segment may be left to be found.
std::vector<SegmentLacks> lacking(std::span<const SegmentGives> segments);

/// The pieces, by number, whose cloth goes by the name of another before it, or has none as that has none. Before all
/// comes the job's own where any piece is cut from it. `of_pieces`: nothing where a cloth is not to be judged.
std::vector<int> sharing_a_name(const Cloth &jobs, std::span<const std::optional<Cloth>> of_pieces);

} // namespace gatherwright
