// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/job.hpp"

#include <cstdint>
#include <span>
#include <vector>

namespace gatherwright::advice {

/// Sorts numbers, each of which then stands once.
void sort_once_each(std::vector<int> &numbers);

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

  /// What depends on a length.
  Dependence of(int length) const {
    Dependence found;
    find(length, found);
    return found;
  }

  /// Puts that into `found`, whatever it held.
  void find(int length, Dependence &found) const;

private:
  enum class Of { lengths, ranged, joins, rules, pieces };
  static constexpr int kinds = 5;

  /// What names a length itself, ascending.
  std::span<const int> naming(int length, Of kind) const {
    const int at = length * kinds + static_cast<int>(kind);
    return std::span(named_by_).subspan(first_[at], first_[at + 1] - first_[at]);
  }

  std::vector<int> named_by_;             ///< numbers of what names the first length, kind by kind, then the next
  std::vector<std::size_t> first_;        ///< of each length and kind: where these begin; the end
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
