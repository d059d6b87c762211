// SPDX-License-Identifier: GPL-3.0-or-later
// A job of any values has faults, which planning gives too, or is planned or refused, all of it numbers; and the same
// each time.
#include "cli/report/plan_json.hpp"
#include "cli/report/plan_text.hpp"
#include "cli/words/refusals.hpp"
#include "gatherwright/plan.hpp"
#include "gatherwright/validate.hpp"
#include "tests/hostile_values.hpp"

#include <cstdlib>
#include <nlohmann/json.hpp>

using namespace gatherwright;

namespace {

void demand(bool holds) {
  if (!holds) std::abort();
}

void check_same(const std::vector<PlacedFault> &faults, const std::vector<PlacedFault> &others) {
  demand(faults.size() == others.size());
  for (std::size_t i = 0; i < faults.size(); ++i)
    demand(faults[i].fault == others[i].fault && faults[i].place.index() == others[i].place.index());
}

void check_told(const Job &job, const Refusals &refusals) {
  demand(!refusals.empty());
  for (const Refusal &refusal : refusals) {
    const Fault fault = words::refusal(job, refusal);
    const std::string told = fault.what + fault.instead;
    demand(!fault.what.empty() && told.size() < 4000 && nlohmann::json(told).dump().size() > told.size());
  }
}

/// Those that validate finds.
std::vector<PlacedFault> faults_in(const Refusals &refusals) {
  std::vector<PlacedFault> faults;
  for (const Refusal &refusal : refusals)
    faults.push_back(std::get<PlacedFault>(refusal));
  return faults;
}

void check_refused(const Job &job, const std::vector<PlacedFault> &faults) {
  check_told(job, {faults.begin(), faults.end()});
  check_same(faults, faults_in(plan(job).fault()));
  check_same(faults, faults_in(Prepared::prepare(job).fault()));
}

void check_planned(const Job &job) {
  const PlanOutcome outcome = plan(job);
  if (!outcome) return check_told(job, outcome.fault());
  const Plan &made = *outcome;
  const std::string json = report::plan_json(job, made);
  demand(nlohmann::json::accept(json)); // no number that is none is JSON
  demand(!report::plan_text(job, made, {}).empty());
  const auto prepared = Prepared::prepare(job);
  demand(report::plan_json(job, *prepared->plan(job)) == json);
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size);

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size) {
  const Job job = tests::HostileValues({data, size}).job();
  const std::vector<PlacedFault> faults = validate(job);
  check_same(faults, validate(job));
  if (faults.empty())
    check_planned(job);
  else
    check_refused(job, faults);
  return 0;
}
