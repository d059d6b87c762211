// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/cast/csv.hpp"
#include "gatherwright/job.hpp"

#include <optional>
#include <span>
#include <string>
#include <vector>

/// The list of wearers: a header that names the job's measures, then a row a wearer.
namespace gatherwright::cli::cast {

/// What a column of the list holds.
struct Column {
  enum class Holds { wearer, measure, age, unknown };
  Holds holds = Holds::unknown;
  std::string name;        ///< as the header has it, without spaces around it
  int measure = -1;        ///< of Holds::measure: its index in the job
  Unit unit = Unit::cm;    ///< of bare numbers
  bool unit_given = false; ///< the header gives it
};

struct Header {
  std::vector<Column> columns;
  std::vector<int> left_out; ///< measures of the job that have no column; ascending
};

/// One row as it alters the job.
struct Wearer {
  std::string name;
  std::vector<std::optional<Length>> measures; ///< as the job's; nothing: the job's own
  std::optional<double> age;                   ///< nothing: the job's own
  bool bare_lengths = false;                   ///< some cell is a number whose unit neither it nor the header gives
};

/// The header's meaning, with a fault of each column that has none, up to as many as are told: the first must be
/// `wearer`, every other a measure of the job, `wrist` or `wrist [cm]`, or `age`, none twice. A measure of the job
/// called `age` goes before the wearer's.
Header read_header(const CsvRow &row, const Job &job, std::vector<CsvFault> &faults);

/// A row's meaning, with every fault in it: a count of cells other than the header's, a name that cannot be a file's, a
/// cell that is no quantity. Spaces around a cell are of no account. Columns the header has no meaning for are left
/// aside.
Wearer read_wearer(const CsvRow &row, const Header &header, const Job &job, std::vector<CsvFault> &faults);

/// Makes `job` that of a wearer. `own` is the job as it was written.
void dress(Job &job, const Job &own, const Wearer &wearer);

/// The measures that a wearer has from the job; ascending.
std::vector<int> from_job(const Wearer &wearer);

} // namespace gatherwright::cli::cast
