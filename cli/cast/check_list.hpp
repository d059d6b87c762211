// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/cast/wearers.hpp"
#include "cli/job/read_job.hpp"

#include <string>
#include <unordered_map>
#include <vector>

/// The first of two readings of a list: everything that can be told without planning.
namespace gatherwright::cli::cast {

/// A job with the name of its file.
struct NamedJob {
  std::string file;
  const ReadJob &read;
};

/// A fault of a list as the line that tells it.
struct ListFault {
  long long row = 0;
  std::string line; ///< "chorus.csv:4: row 3, column wrist: what is wrong; what would be right"
};

struct CheckedList {
  Header header;
  bool header_sound = false;
  long long wearers = 0;
  bool too_many = false;                            ///< wearers; the rest of the list is not read
  std::unordered_map<std::string, long long> names; ///< folded, with the line of each
  std::vector<ListFault> faults;                    ///< in the order of rows; the first `most_faults_told`
};

/// Wearers of one list: all their names are kept, and so are the paths of their files.
inline constexpr long long most_wearers = 500'000;

/// Reads a whole list, or as much as it takes to find as many faults as are told. Besides what `read_header` and
/// `read_wearer` tell: a name that comes twice, no wearer at all, more than `most_wearers`, and what of the job comes
/// to no length with a wearer's measures. All it keeps of a wearer is the name.
CheckedList check_list(const std::string &file, const ReadBytes &bytes, const NamedJob &job);

/// A fault of the job that comes of a wearer's measures.
ListFault fault_of_job(const std::string &file, const CsvRow &row, const NamedJob &job, const Refusal &refusal);

} // namespace gatherwright::cli::cast
