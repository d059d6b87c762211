// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/job.hpp"

#include <cstdint>
#include <vector>

namespace gatherwright::advice {

/// What of a job depends on a length.
struct Dependence {
  std::vector<int> lengths; ///< those that derive from it, each after those that it is made of; itself first
  std::vector<int> ranged;  ///< free lengths whose from, to or aim is made of any of these; ascending
  std::vector<int> joins;   ///< ascending
  std::vector<int> rules;   ///< ascending
  std::vector<int> pieces;  ///< whose sizes or whose joins do; ascending
};

/// Who names whom in a job, so that what depends on a length is found without looking at all the rest. Lengths that
/// derive from it carry the dependence on; what a free length's range is made of does not, since where the length lies
/// within it is another matter.
class Dependents {
public:
  explicit Dependents(const Job &job);

  Dependence of(int length) const;

private:
  /// Of one length: what names it itself. A thing may come several times.
  struct Named {
    std::vector<int> lengths, ranged, joins, rules, pieces;
  };

  std::vector<Named> by_;
  std::vector<std::vector<int>> sewn_to_; ///< of each join: pieces that it is sewn to
  std::vector<int> rank_;                 ///< of each length: its place in the job's order of working out
};

/// Parts of all sides of a piece.
std::int64_t parts_of(const Piece &piece);

/// What working through a piece and what is sewn to it takes, in steps.
std::int64_t steps_through(const Job &job, const Piece &piece);

/// What working through a dependence takes, in steps.
std::int64_t steps_through(const Job &job, const Dependence &dependence);

} // namespace gatherwright::advice
