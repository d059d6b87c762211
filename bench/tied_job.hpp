// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/job/read_job.hpp"
#include "tests/hostile_job.hpp"

#include <string>

namespace gatherwright::bench {

/// Joins and as many rules over free lengths that all hang together, cut so carelessly that what moves each fullness
/// the most is looked for as well.
inline std::string tied_job(int joins, int lengths) {
  std::string text = hostile::tied_joins(joins, lengths, joins);
  return text.insert(1, R"("tolerance":{"cut":"5 mm","mark":"5 mm"},)");
}

} // namespace gatherwright::bench
