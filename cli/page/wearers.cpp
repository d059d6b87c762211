// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/page/wearers.hpp"

#include "cli/cast/check_list.hpp"
#include "cli/cast/csv.hpp"
#include "cli/cast/summary.hpp"
#include "cli/cast/wearers.hpp"
#include "cli/page/faults.hpp"
#include "cli/page/utf8.hpp"
#include "cli/report/json_text.hpp"
#include "cli/words/figures.hpp"
#include "cli/words/names.hpp"
#include "cli/words/refusals.hpp"
#include "gatherwright/plan.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstring>

namespace gatherwright::page {

namespace {

using report::JsonText;
namespace cast = cli::cast;

cast::ReadBytes bytes_of(std::string_view list) {
  return [list](char *into, std::size_t most) mutable {
    const std::size_t count = std::min(most, list.size());
    std::memcpy(into, list.data(), count);
    list.remove_prefix(count);
    return count;
  };
}

std::vector<cli::InputFault> faults_of_list(const cast::CheckedList &list) {
  std::vector<cli::InputFault> faults;
  for (const cast::ListFault &fault : list.faults)
    faults.push_back({0, "/list", {fault.line.substr(fault.line.find(": ") + 2), ""}}); // without the list's name
  if (faults.empty() && list.wearers > most_wearers_shown)
    faults.push_back(
        {0,
         "/list",
         {fmt::format("the list has {} wearers, and at most {} are shown", list.wearers, most_wearers_shown),
          "plan them with gatherwright cast, or in several lists"}});
  return faults;
}

struct Row {
  std::string wearer;
  std::optional<std::string> verdict;
  std::string reason;
  std::vector<std::optional<std::string>> lengths; ///< as the job's
};

Row row_of(const Job &job, const cast::Wearer &wearer, const PlanOutcome &outcome) {
  Row row{words::printable(wearer.name), std::nullopt, "", {}};
  if (!outcome) {
    const Fault fault = words::refusal(job, outcome.fault().front());
    row.reason = fault.what + (fault.instead.empty() ? "" : "; " + fault.instead);
    return row;
  }
  row.verdict = std::string(words::verdict(outcome->verdict));
  row.reason = cast::first_reason(job, *outcome);
  for (const LengthPlan &length : outcome->lengths)
    row.lengths.push_back(length.is ? std::optional(words::length(*length.is, job.tape())) : std::nullopt);
  return row;
}

void write(JsonText &json, const Job &job, const Row &row) {
  json.open_object(JsonText::Lay::one_line);
  json.text_field("wearer", row.wearer);
  text_or_null(json, "verdict", row.verdict);
  json.text_field("reason", row.reason);
  json.key("lengths");
  json.open_object(JsonText::Lay::one_line);
  for (std::size_t i = 0; i < row.lengths.size(); ++i)
    text_or_null(json, job.lengths[i].name, row.lengths[i]);
  json.close();
  json.close();
}

/// Of planning one wearer.
double work_of(const Job &job) {
  std::size_t things = job.lengths.size() + job.rules.size() + job.pieces.size();
  for (const Join &join : job.joins)
    things += 1 + join.segments.size();
  const auto within = [](const Piece &piece) { return piece.fabric.stock.has_value(); };
  const bool chosen = std::any_of(job.pieces.begin(), job.pieces.end(), within);
  return static_cast<double>(things) * static_cast<double>(things) + (chosen ? work_of_choosing : 0);
}

/// As many rows as are not too much work, at least one; says how many wearers are left.
long long write_rows(JsonText &json, const cli::ReadJob &read, const cast::CheckedList &list, std::string_view text) {
  const auto prepared = Prepared::prepare(read.job);
  const auto most = static_cast<long long>(std::max(1.0, most_work_of_wearers / work_of(read.job)));
  cast::CsvReader reader(bytes_of(text));
  cast::CsvRow cells;
  reader.next(cells); // the header
  Job job = read.job;
  long long done = 0;
  for (; done < most && reader.next(cells); ++done) {
    std::vector<cast::CsvFault> none;
    const cast::Wearer wearer = read_wearer(cells, list.header, read.job, none);
    dress(job, read.job, wearer);
    write(json, job, row_of(job, wearer, prepared->plan(job, {.advice = false, .layouts = false})));
  }
  return list.wearers - done;
}

} // namespace

Reply wearers_told(const Body &body, const cli::Beside &beside) {
  const auto read = cli::read_job(body.text("text"), beside);
  if (!read) return faults_told(read.fault());
  const std::string &text = body.text("list");
  const PlanOutcome own = plan(read->job, {.advice = false, .layouts = false});
  if (!own) return faults_told(placed_faults(*read, own.fault()));
  const cast::CheckedList list = cast::check_list("list", bytes_of(text), {"job", *read});
  if (const auto faults = faults_of_list(list); !faults.empty()) return faults_told(faults);
  JsonText json;
  json.open_object();
  write_faults(json, {});
  json.key("rows");
  json.open_array();
  const long long not_planned = write_rows(json, *read, list, text);
  json.close();
  json.integer_field("not_planned", not_planned);
  json.close();
  return {200, "application/json", json.take()};
}

} // namespace gatherwright::page
