// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/cast/check_list.hpp"

#include "cli/cast/file_names.hpp"
#include "cli/machine/answer.hpp"
#include "cli/words/names.hpp"
#include "cli/words/quoted.hpp"
#include "gatherwright/validate.hpp"

#include <fmt/format.h>

#include <span>
#include <utility>

namespace gatherwright::cli::cast {

namespace {

/// Goes over a list once.
class Check {
public:
  Check(const std::string &file, const ReadBytes &bytes, const NamedJob &job)
      : file_(file), reader_(bytes), named_(job), own_(job.read.job), job_(job.read.job) {}

  CheckedList run();

private:
  bool full() const { return checked_.faults.size() >= most_faults_told; }
  void tell(ListFault fault) {
    if (!full()) checked_.faults.push_back(std::move(fault));
  }
  void tell(const std::vector<CsvFault> &faults) {
    for (const CsvFault &fault : faults)
      if (!full()) tell({row_.row, line_of(fault)});
  }
  std::string line_of(const CsvFault &fault) const;
  void check_header();
  void check_wearer();
  void check_name(const Wearer &wearer);

  const std::string &file_;
  CsvReader reader_;
  const NamedJob &named_;
  const Job &own_;
  Job job_;
  CsvRow row_;
  CheckedList checked_;
};

std::string Check::line_of(const CsvFault &fault) const {
  std::string place = fmt::format("{}:{}: row {}", file_, fault.line, row_.row);
  if (fault.column > 0) {
    const auto &columns = checked_.header.columns;
    const bool named = fault.column <= columns.size() && !columns[fault.column - 1].name.empty();
    place += named ? fmt::format(", column {}", clipped(columns[fault.column - 1].name, 80))
                   : fmt::format(", column {}", fault.column);
  }
  return words::printable(fmt::format("{}: {}; {}", place, fault.fault.what, fault.fault.instead));
}

void Check::check_header() {
  std::vector<CsvFault> faults = std::exchange(row_.faults, {});
  if (faults.empty()) checked_.header = read_header(row_, own_, faults);
  checked_.header_sound = faults.empty();
  tell(faults);
}

void Check::check_name(const Wearer &wearer) {
  const auto [earlier, is_new] = checked_.names.emplace(folded(wearer.name), row_.line);
  if (is_new) return;
  tell({row_.row, line_of({row_.line,
                           1,
                           {fmt::format("the name {} stands in line {} too (capitals and small letters are one)",
                                        cli::quoted(wearer.name), earlier->second),
                            "give each a name of its own"}})});
}

void Check::check_wearer() {
  std::vector<CsvFault> faults = std::exchange(row_.faults, {});
  if (!faults.empty()) return tell(faults);
  const Wearer wearer = read_wearer(row_, checked_.header, own_, faults);
  tell(faults);
  if (!fault_of_name(wearer.name)) check_name(wearer);
  if (!faults.empty()) return;
  dress(job_, own_, wearer);
  for (const PlacedFault &fault : faults_of_measures(job_))
    tell(fault_of_job(file_, row_, named_, fault));
}

CheckedList Check::run() {
  if (reader_.at_spreadsheet()) {
    row_.row = row_.line = 1;
    tell({1, line_of({1, 0, spreadsheet_fault()})});
    return std::move(checked_);
  }
  if (!reader_.next(row_)) {
    row_.row = row_.line = 1;
    tell({1, line_of({1, 0, {"the list is empty", "begin with a row that names the columns: wearer,wrist [cm]"}})});
    return std::move(checked_);
  }
  check_header();
  if (checked_.header.columns.empty()) return std::move(checked_);
  while (!full() && reader_.next(row_)) {
    if (checked_.wearers == most_wearers) {
      checked_.too_many = true;
      tell({row_.row, line_of({row_.line,
                               0,
                               {fmt::format("with this row the list has more than {} wearers", most_wearers),
                                "split it into several lists"}})});
      break;
    }
    ++checked_.wearers;
    check_wearer();
  }
  if (checked_.wearers == 0 && checked_.faults.empty())
    tell({row_.row, line_of({row_.line, 0, {"there is no wearer below it", "write a row a wearer"}})});
  return std::move(checked_);
}

} // namespace

CheckedList check_list(const std::string &file, const ReadBytes &bytes, const NamedJob &job) {
  return Check(file, bytes, job).run();
}

ListFault fault_of_job(const std::string &file, const CsvRow &row, const NamedJob &job, const Refusal &refusal) {
  return {row.row,
          words::printable(fmt::format("{}:{}: row {}: with these measures, {}", file, row.line, row.row,
                                       fault_line(job.file, placed(job.read, std::span(&refusal, 1)).front())))};
}

} // namespace gatherwright::cli::cast
