// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/cast/wearers.hpp"

#include "cli/cast/file_names.hpp"
#include "cli/job/fault_list.hpp"
#include "cli/job/values.hpp"
#include "cli/machine/answer.hpp"
#include "cli/words/quoted.hpp"
#include "gatherwright/bounds.hpp"
#include "gatherwright/nearest.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <unordered_map>

namespace gatherwright::cli::cast {

namespace {

constexpr std::string_view wearer_column = "wearer";
constexpr std::string_view age_column = "age";
constexpr std::size_t most_offered = 500; ///< measures, so that looking for the nearest takes no time

/// Reads one header.
class HeaderReading {
public:
  HeaderReading(const CsvRow &row, const Job &job, std::vector<CsvFault> &faults)
      : row_(row), job_(job), faults_(faults) {
    for (int m = 0; m < static_cast<int>(job.measures.size()); ++m) {
      const std::string &name = job.measures[m].name;
      measures_.emplace(name, m);
      if (offered_.size() < most_offered) offered_.push_back(name);
    }
    offered_.emplace_back(age_column);
  }

  /// No columns where what parts them is none of what may.
  Header read() {
    if (const auto sign = wrong_separator()) {
      refuse("the columns are parted by " + cli::quoted(*sign), "part them by commas, semicolons or tabs");
      return {};
    }
    for (at_ = 0; at_ < row_.cells.size() && faults_.size() < most_faults_told; ++at_)
      header_.columns.push_back(at_ == 0 ? first() : other());
    std::vector<bool> is_there(job_.measures.size());
    for (const Column &column : header_.columns)
      if (column.measure >= 0) is_there[column.measure] = true;
    for (int m = 0; m < static_cast<int>(is_there.size()); ++m)
      if (!is_there[m]) header_.left_out.push_back(m);
    return std::move(header_);
  }

private:
  template <class Is> bool has(Is is) const { return std::any_of(header_.columns.begin(), header_.columns.end(), is); }

  void refuse(std::string what, std::string instead) {
    faults_.push_back({row_.cells[at_].line, at_ + 1, {std::move(what), std::move(instead)}});
  }

  std::string_view text() const { return without_spaces(row_.cells[at_].text); }

  std::optional<std::string_view> wrong_separator() const {
    const std::string_view header = text();
    if (row_.cells.size() != 1 || !header.starts_with(wearer_column) || header.size() == wearer_column.size())
      return std::nullopt;
    const std::string_view sign = header.substr(wearer_column.size(), 1);
    if (std::string_view("|:/ ").find(sign) == std::string_view::npos) return std::nullopt;
    return sign;
  }

  Column first() {
    Column column{.holds = Column::Holds::wearer, .name = std::string(text())};
    if (text() == wearer_column) return column;
    refuse("the first column is " + cli::quoted(text()), "it must be the wearers' names: write wearer");
    return column;
  }

  Column other() {
    Column column{.name = std::string(text()), .unit = job_.unit};
    std::string_view name = text();
    if (const std::size_t open = name.find('['); open != std::string_view::npos && name.back() == ']') {
      const std::string_view unit = without_spaces(name.substr(open + 1, name.size() - open - 2));
      name = without_spaces(name.substr(0, open));
      column.unit_given = true;
      if (const auto known = unit_named(unit))
        column.unit = *known;
      else
        refuse(cli::quoted(unit) + " is no unit", "write one of mm, cm, m, in, ft, yd, nail, ell");
    }
    find(name, column);
    if (column.holds != Column::Holds::unknown &&
        has([&](const Column &other) { return other.holds == column.holds && other.measure == column.measure; }))
      refuse("the column " + cli::quoted(name) + " is there twice", "leave one of them out");
    return column;
  }

  void find(std::string_view name, Column &column) {
    if (const auto measure = measures_.find(name); measure != measures_.end()) {
      column.holds = Column::Holds::measure;
      column.measure = measure->second;
    } else if (name == age_column) {
      column.holds = Column::Holds::age;
      if (column.unit_given) refuse("an age has no unit of length", "write age; it is in years");
    } else if (name == wearer_column) {
      refuse("the column \"wearer\" is there twice", "leave one of them out");
    } else {
      refuse_name(name);
    }
  }

  void refuse_name(std::string_view name) {
    if (name.empty()) return refuse("the column has no name", "name it, or leave it out");
    const bool is_length = std::any_of(job_.lengths.begin(), job_.lengths.end(),
                                       [&](const NamedLength &length) { return length.name == name; });
    if (is_length)
      return refuse(cli::quoted(name) + " is a length of the job and no measure",
                    "leave it out; or make it one of the job's measures");
    if (const auto near = nearest(name, offered_))
      return refuse("the job has no measure " + cli::quoted(name), fmt::format("write {}", *near));
    if (job_.measures.empty()) return refuse("the job has no measures", "leave the column out");
    refuse("the job has no measure " + cli::quoted(name), "leave it out; or add it to the job's measures");
  }

  const CsvRow &row_;
  const Job &job_;
  std::vector<CsvFault> &faults_;
  std::unordered_map<std::string_view, int> measures_; ///< of the job, by their names
  std::vector<std::string> offered_;                   ///< in place of misspelt ones: measures, then age
  Header header_;
  std::size_t at_ = 0;
};

Outcome<Length> to_measure(std::string_view text, const Column &column) {
  if (text.find_first_of("*+(") != std::string_view::npos)
    return Fault{"a measure is one quantity, not a formula", "write what it comes to"};
  Outcome<Length> length = read_length(text, column.unit);
  if (!length) return length;
  if (auto fault = fault_of_length(*length, false, column.unit)) return *std::move(fault);
  return Length{length->mm + 0.0}; // -0 becomes 0
}

Outcome<double> to_age(std::string_view text) {
  double years = 0;
  const auto [end, failed] = std::from_chars(text.data(), text.data() + text.size(), years, std::chars_format::fixed);
  if (failed != std::errc() || end != text.data() + text.size() || !std::isfinite(years))
    return Fault{cli::quoted(text) + " is no age", "write years, such as 34"};
  if (years < 0 || years > bounds::oldest)
    return Fault{cli::quoted(text) + " is no one's age", "write years from 0 to 150"};
  return years + 0.0;
}

} // namespace

Header read_header(const CsvRow &row, const Job &job, std::vector<CsvFault> &faults) {
  return HeaderReading(row, job, faults).read();
}

Wearer read_wearer(const CsvRow &row, const Header &header, const Job &job, std::vector<CsvFault> &faults) {
  Wearer wearer;
  wearer.measures.resize(job.measures.size());
  const auto refuse = [&](std::size_t cell, Fault fault) {
    faults.push_back({row.cells[cell].line, cell + 1, std::move(fault)});
  };
  if (row.cells.size() != header.columns.size())
    faults.push_back({row.line,
                      0,
                      {fmt::format("it has {} cell{} where the header has {}", row.cells.size(),
                                   row.cells.size() == 1 ? "" : "s", header.columns.size()),
                       "give every row as many; a text with a comma in it stands in quotes"}});
  for (std::size_t i = 0; i < std::min(row.cells.size(), header.columns.size()); ++i) {
    const Column &column = header.columns[i];
    const std::string text =
        column.holds == Column::Holds::wearer ? std::string(without_spaces(row.cells[i].text)) : figure_in(row, i);
    if (column.holds == Column::Holds::wearer) {
      wearer.name = text;
      if (auto fault = fault_of_name(text)) refuse(i, *std::move(fault));
    } else if (column.holds == Column::Holds::measure && !text.empty()) {
      const Outcome<Length> length = to_measure(text, column);
      if (length)
        wearer.measures[column.measure] = *length;
      else
        refuse(i, length.fault());
      if (length && !column.unit_given && has_no_unit(text)) wearer.bare_lengths = true;
    } else if (column.holds == Column::Holds::age && !text.empty()) {
      const Outcome<double> age = to_age(text);
      if (age)
        wearer.age = *age;
      else
        refuse(i, age.fault());
    }
  }
  return wearer;
}

void dress(Job &job, const Job &own, const Wearer &wearer) {
  for (std::size_t m = 0; m < job.measures.size(); ++m)
    job.measures[m].is = wearer.measures[m].value_or(own.measures[m].is);
  job.wearer_age = wearer.age ? wearer.age : own.wearer_age;
  job.bare_lengths = own.bare_lengths || wearer.bare_lengths;
}

std::vector<int> from_job(const Wearer &wearer) {
  std::vector<int> measures;
  for (std::size_t m = 0; m < wearer.measures.size(); ++m)
    if (!wearer.measures[m]) measures.push_back(static_cast<int>(m));
  return measures;
}

} // namespace gatherwright::cli::cast
