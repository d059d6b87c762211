// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/job.hpp"
#include "gatherwright/plan.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

/// Which marks of a join stand in its table, and what is said in place of the others.
namespace gatherwright::report {

/// Whether every pin is told, or only those that folding and one half do not give.
enum class Pins { needed, every };

/// Whether marks and stretches come at the same places, worked the same, from either end, with the same allowances
/// there. Names do not count.
bool reads_alike(const Join &asked, const JoinPlan &planned);

/// Whether folding in half again and again gives so many equal parts, or folding in three first.
bool folding_gives(std::size_t parts);

/// Whether a length is whole steps of the tape, within a millionth of one.
bool on_tape(double mm, const Tape &tape);

/// The last mark of the half that stands for both, of a join that reads alike: the middle one, or the one before it.
std::size_t last_of_half(const Join &asked, const JoinPlan &planned);

/// The mark at the same place from the other end, of a join that reads alike.
std::size_t opposite(const Join &asked, const JoinPlan &planned, std::size_t mark);

/// A mark of its own row, and the mark up to which that row tells what comes next: one more than the last mark is the
/// start again, of a ring. Nothing comes next after the last.
struct ShownMark {
  std::size_t mark = 0;
  std::optional<std::size_t> next;
};

/// Pins in equal parts of one stretch.
struct EqualParts {
  std::size_t from = 0; ///< the mark before the first of them
  std::size_t to = 0;   ///< the mark after the last; one more than the last mark is the start again, of a ring
  double band = 0;      ///< of each part, millimetres
  double long_edge = 0;
  std::optional<double> stitches; ///< of each part
};

struct ShownMarks {
  std::vector<ShownMark> rows;
  std::vector<EqualParts> parts;
  bool half = false; ///< the other half is the same
};

/// `marks` are those of the join or of its mirrored piece. Of a stretch with more than eight pins in equal parts, the
/// pins are left out where folding finds them or each part is whole steps of the tape; of a join that reads alike, the
/// second half is where that saves anything.
ShownMarks shown_marks(const Job &job, const Join &asked, const JoinPlan &planned, const std::vector<Mark> &marks,
                       Pins pins);

/// Whether all are equal parts of a ring, so that words tell them and a table would have its first mark alone.
bool all_in_words(const ShownMarks &shown);

/// What stands below the table in place of what is left out, a sentence each.
/// Marks of a half left out that have names are named with it, if they are few.
std::vector<std::string> instead_of_marks(const Job &job, const Join &asked, const std::vector<Mark> &marks,
                                          const ShownMarks &shown);

} // namespace gatherwright::report
