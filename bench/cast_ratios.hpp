// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

namespace gatherwright::bench {

/// What a cast of wearers costs, over what it comes to on disk.
struct CastRatios {
  double dump = 0;  ///< a wearer, from numbers to a plan with its rooms and remedies, over nlohmann_json's dump of it
  double write = 0; ///< the program's whole cast, over writing and renaming the same bytes to as many files
  double threads =
      0; ///< the program's whole cast with two threads, over that with one, into memory: a disk has one queue
};

/// Measures them for the job of the text, whose file is `job`: a list of 10,000 made-up wearers, all within limits, is
/// cast by the program into a folder beside the system's temporary files (for the threads one in memory, where there is
/// one). Ends the bench where a cast fails.
CastRatios cast_ratios(const std::string &job, const std::string &text, const std::string &program);

} // namespace gatherwright::bench
