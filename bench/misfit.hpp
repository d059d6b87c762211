// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "bench/measured.hpp"
#include "gatherwright/job.hpp"

#include <algorithm>

namespace gatherwright::bench {

/// The example for a porter whose neck is 6 cm wider than the one it is for.
inline Job misfit_of(Job example) {
  const auto neck = std::find_if(example.measures.begin(), example.measures.end(),
                                 [](const Measure &measure) { return measure.name == "neck"; });
  hold(neck != example.measures.end(), "the example has no neck");
  neck->is.mm += 60;
  return example;
}

} // namespace gatherwright::bench
