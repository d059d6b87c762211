// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/job/reading.hpp"
#include "gatherwright/job.hpp"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <unordered_map>
#include <unordered_set>
#include <vector>

/// What is sewn to the sides of pieces.
namespace gatherwright::cli {

/// The joins of a job by their names, and their reference marks.
class Sewable {
public:
  /// The joins must outlive it. `marks_known`: of each, that no mark of it is at fault. `all_known`: none of them is
  /// missing, or without its name.
  Sewable(std::span<const Join> joins, std::vector<bool> marks_known, bool all_known);

  /// The join of a name; tells at `value` where there is none, unless a join is at fault itself.
  std::optional<JoinId> join(Reading &reading, const Value &value) const;

  /// The mark of a name, as in `SidePart`; tells at `value` where there is none, unless a mark is at fault itself, and
  /// where there are more.
  std::optional<int> mark(Reading &reading, const Value &value, JoinId join);

  const Join &operator[](JoinId join) const { return joins_[static_cast<std::size_t>(join.at)]; }

private:
  struct Marks {
    std::unordered_map<std::string_view, int> found;
    std::unordered_set<std::string_view> again; ///< names of more than one
    std::vector<std::string> offered;           ///< in place of one that is not found
  };
  const Marks &marks_of(JoinId join);

  std::span<const Join> joins_;
  std::vector<bool> marks_known_;
  bool all_known_;
  std::unordered_map<std::string_view, int> found_;
  std::vector<std::string> offered_;
  std::unordered_map<int, Marks> marks_; ///< of joins that parts of sides were read of
};

/// Reads what is sewn to one side: a part or a list of parts. What is at fault is left out.
std::vector<SidePart> to_side(Reading &reading, const Value &value, Sewable &sewable);

} // namespace gatherwright::cli
