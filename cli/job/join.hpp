// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/job/own.hpp"
#include "cli/job/reading.hpp"
#include "gatherwright/job.hpp"

namespace gatherwright::cli {

/// What the job gives to every join that says nothing else.
struct JobWide {
  GivenFabric fabric;
  bool cloth_known = true; ///< no fault of the fabric has been told that pieces cut from it would repeat
  GivenGathering gathering;
  PinMarks marks;
};

/// Reads one of "joins". The names must have been read.
struct ReadJoin {
  Join join;
  bool marks_known = true; ///< none of its segments has a mark that is at fault
};
ReadJoin to_join(Reading &reading, const Value &value, const JobWide &job);

/// Reads one of a join's "segments". `drawn`: its long edge is drawn.
/// Whether it gives its long edge and its band (though it may be a faulty one) goes into `gives`; it has no kind where
/// that is at fault.
struct ReadSegment {
  Segment segment;
  bool kind_known = true;
  bool to_known = true; ///< the mark at its end, or that it has none
  bool gives_long = false;
  bool gives_band = false;
};
ReadSegment to_segment(Reading &reading, const Value &value, bool drawn);

/// Reads an edge of a join. `closed`: the join is a ring.
Edge to_edge(Reading &reading, const Value &value, bool closed);

} // namespace gatherwright::cli
