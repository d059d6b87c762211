// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/report/from_cut.hpp"

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

} // namespace gatherwright::report
