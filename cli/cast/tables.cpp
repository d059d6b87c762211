// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/cast/tables.hpp"

#include "cli/cast/csv.hpp"
#include "cli/words/names.hpp"

#include <array>
#include <charconv>

namespace gatherwright::cli::cast {

namespace {

std::string number(double value) {
  std::array<char, 32> digits{};
  return {digits.data(), std::to_chars(digits.data(), digits.data() + digits.size(), value + 0.0).ptr};
}

std::string names_from_job(const Job &job, const Wearer &wearer) {
  std::string names;
  for (const int measure : from_job(wearer))
    names += (names.empty() ? "" : "; ") + job.measures[measure].name;
  return csv_cell(names);
}

} // namespace

std::optional<PlacedFault> too_long_tables(const Job &job) {
  constexpr std::size_t most = 2'000'000; // bytes, of one wearer
  std::size_t names = 0;
  for (const Measure &measure : job.measures)
    names += measure.name.size() + 2;
  if (names * job.joins.size() <= most) return std::nullopt;
  return PlacedFault{{},
                     {"the names of the measures, told for each of the joins, come to more than " +
                          std::to_string(most) + " bytes a wearer",
                      "cast it with fewer measures, or in parts"}};
}

std::string cast_header() {
  return "wearer,join,verdict,long,band,fullness,from_job\n";
}

std::string cast_rows(const Job &job, const Plan &plan, const Wearer &wearer) {
  const std::string name = csv_cell(wearer.name);
  const std::string names = names_from_job(job, wearer);
  const double unit = millimetres(job.unit);
  std::string rows;
  if (plan.joins.empty()) ((((rows += name) += ",,") += words::verdict(plan.verdict)) += ",,,,") += names + "\n";
  for (std::size_t j = 0; j < plan.joins.size(); ++j) {
    const JoinPlan &join = plan.joins[j];
    ((rows += name) += ',') += csv_cell(job.joins[j].name);
    (rows += ',') += words::verdict(join.verdict);
    for (const double figure : {join.long_length / unit, join.band / unit, join.long_length / join.band})
      (rows += ',') += number(figure);
    ((rows += ',') += names) += '\n';
  }
  return rows;
}

std::string cut_header(const Job &job) {
  std::string header = "wearer";
  for (const NamedLength &length : job.lengths)
    (header += ',') += csv_cell(length.name);
  return header += '\n';
}

std::string cut_row(const Job &job, const Plan &plan, const Wearer &wearer) {
  std::string row = csv_cell(wearer.name);
  for (const LengthPlan &length : plan.lengths) {
    row += ',';
    if (length.is) row += csv_cell(named_reading(Length{*length.is}, job.tape()));
  }
  return row += '\n';
}

} // namespace gatherwright::cli::cast
