// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/report/from_cut.hpp"

#include <algorithm>
#include <cmath>

namespace gatherwright::report {

std::optional<double> cut_from_tape(const std::vector<Mark> &marks, MarkPlace Mark::*edge) {
  std::optional<double> ahead;
  for (const Mark &mark : marks) {
    const MarkPlace &place = mark.*edge;
    if (!place.cut || (ahead && std::fabs(*place.cut - place.tape - *ahead) > 1e-6)) return std::nullopt;
    ahead = *place.cut - place.tape;
  }
  return ahead;
}

bool cut_varies(const std::vector<Mark> &marks, MarkPlace Mark::*edge) {
  const bool any =
      std::any_of(marks.begin(), marks.end(), [&](const Mark &mark) { return (mark.*edge).cut.has_value(); });
  return any && !cut_from_tape(marks, edge);
}

} // namespace gatherwright::report
