// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/machine/answer.hpp"

#include <algorithm>

namespace gatherwright::cli {

Answer unusable(const std::vector<std::string> &faults) {
  Answer answer{Status::unusable, {}, {}};
  for (std::size_t i = 0; i < std::min(faults.size(), most_faults_told); ++i)
    (answer.err += faults[i]) += '\n';
  return answer;
}

Answer machine_fault(const std::string &what) {
  return {Status::machine, {}, "gatherwright: " + what + "\n"};
}

} // namespace gatherwright::cli
