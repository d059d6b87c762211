// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/page/text/source.hpp"

#include <optional>
#include <vector>

namespace gatherwright::page {

/// What stands in a list or an object, with what goes with it: remarks right above it, with no blank line between, and
/// those behind it on its line. Remarks between two members on one line go with the second, unless the comma is behind
/// them; what stands behind an opening bracket, with nothing after it on the line, goes with what was opened.
struct Member {
  std::size_t begin = 0; ///< of the first remark above it, else of the member
  std::size_t end = 0;   ///< past its value, its comma and the remarks behind it
  std::size_t value_end = 0;
  std::optional<std::size_t> comma;
  bool line_remark = false; ///< the remark behind it goes to the end of the line, so that nothing can follow there

  std::optional<std::size_t> line;      ///< where its line begins, where nothing stands before it there
  std::optional<std::size_t> next_line; ///< where the next line begins, where nothing stands behind it
};

/// The members of a list or an object, in order.
std::vector<Member> members_of(const Source &source, const cli::Value &container);

/// Where the remarks behind an opening bracket end, that have its line to themselves; past the bracket where there are
/// none.
std::size_t past_opening(std::string_view text, std::size_t begin, std::size_t close);

/// Where the first of the remarks right above `to` begins, in the gap that begins at `from`; `to` where there is none.
/// `goes_before`: the rest of the gap's first line is of what stands before it.
std::size_t above(std::string_view text, std::size_t from, std::size_t to, bool goes_before = true);

/// Past the last remark on the line of `from`, up to `to`.
struct Behind {
  std::size_t end = 0;
  bool line_remark = false;
  bool line_ends = false; ///< before `to`
};
Behind behind(std::string_view text, std::size_t from, std::size_t to);

} // namespace gatherwright::page
