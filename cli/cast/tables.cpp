// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/cast/tables.hpp"

#include "cli/cast/csv.hpp"
#include "cli/words/amounts.hpp"
#include "cli/words/figures.hpp"
#include "cli/words/names.hpp"

#include <fmt/format.h>

#include <cmath>

namespace gatherwright::cli::cast {

namespace {

/// A length with as many decimals as it takes to a hundredth of a millimetre.
std::string decimal(double mm, Unit unit) {
  const int places = static_cast<int>(std::ceil(std::log10(millimetres(unit)) + 2 - 1e-9));
  return words::trimmed(mm / millimetres(unit), places);
}

/// As read off the tape: a step of it has up to six decimals.
std::string on_tape(double mm, const Tape &tape) {
  return words::trimmed(std::round(mm / tape.step.mm) * tape.step.mm / millimetres(tape.unit), 6);
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
  std::string rows;
  if (plan.joins.empty()) ((((rows += name) += ",,") += words::verdict(plan.verdict)) += ",,,,") += names + "\n";
  for (std::size_t j = 0; j < plan.joins.size(); ++j) {
    const JoinPlan &join = plan.joins[j];
    ((rows += name) += ',') += csv_cell(job.joins[j].name);
    (rows += ',') += words::verdict(join.verdict);
    for (const double length : {join.long_length, join.band})
      (rows += ',') += decimal(length, job.unit);
    (rows += ',') += words::trimmed(join.long_length / join.band, 4);
    ((rows += ',') += names) += '\n';
  }
  return rows;
}

std::string cut_header(const Job &job) {
  std::string header = "wearer";
  for (const NamedLength &length : job.lengths)
    (header += ',') += csv_cell(fmt::format("{} [{}]", length.name, name(job.unit)));
  return header += '\n';
}

std::string cut_row(const Job &job, const Plan &plan, const Wearer &wearer) {
  std::string row = csv_cell(wearer.name);
  for (const LengthPlan &length : plan.lengths) {
    row += ',';
    if (length.is) row += on_tape(*length.is, job.tape());
  }
  return row += '\n';
}

std::string cloth_header(const Job &job) {
  return fmt::format("wearer,cloth,length [{0}],bound [{0}],buy\n", name(job.unit));
}

std::string cloth_rows(const Job &job, const Plan &plan, const Wearer &wearer) {
  std::string rows;
  for (const ClothPlan &cloth : plan.cloth) {
    ((rows += csv_cell(wearer.name)) += ',') += csv_cell(cloth.cloth.name);
    for (const double length : {cloth.length, cloth.bound})
      (rows += ',') += decimal(length, job.unit);
    ((rows += ',') += csv_cell(words::to_buy(cloth, job.unit))) += '\n';
  }
  return rows;
}

} // namespace gatherwright::cli::cast
