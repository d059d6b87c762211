// SPDX-License-Identifier: GPL-3.0-or-later
#include "job/not_yet.hpp"

namespace gatherwright::cli {

std::vector<PlacedFault> not_yet(const Job &job) {
  const Fault drawn{"drawn edges are not measured yet", "measure the line and write its \"length\""};
  std::vector<PlacedFault> faults;
  for (std::size_t i = 0; i < job.joins.size(); ++i) {
    const Join &join = job.joins[i];
    if (join.long_edge.drawn) faults.push_back({{.join = static_cast<int>(i), .part = "long"}, drawn});
    if (join.band.drawn) faults.push_back({{.join = static_cast<int>(i), .part = "band"}, drawn});
  }
  return faults;
}

} // namespace gatherwright::cli
