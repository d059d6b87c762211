// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace gatherwright::bench {

/// How planning grows where joins and lengths all hang together (tests/hostile_job.hpp): time for a join of 400 with
/// 100 free lengths and 400 rules over one of 100 with 25 and 100, and the most memory that a process takes for
/// either, as `planning` (the program peak_memory) tells it.
void plan_ratios(const char *planning);

} // namespace gatherwright::bench
