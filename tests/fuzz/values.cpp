// SPDX-License-Identifier: GPL-3.0-or-later
// A job of any values has faults, which planning gives too, or is planned or refused, all of it numbers; and the same
// each time.
#include "cli/report/plan_json.hpp"
#include "cli/report/plan_text.hpp"
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

void check_told(const std::vector<PlacedFault> &faults) {
  demand(!faults.empty());
  for (const PlacedFault &fault : faults) {
    const std::string told = fault.fault.what + fault.fault.instead;
    demand(!fault.fault.what.empty() && told.size() < 4000 && nlohmann::json(told).dump().size() > told.size());
  }
}

void check_refused(const Job &job, const std::vector<PlacedFault> &faults) {
  check_told(faults);
  check_same(faults, std::get<std::vector<PlacedFault>>(plan(job)));
  check_same(faults, std::get<std::vector<PlacedFault>>(Prepared::prepare(job)));
}

void check_planned(const Job &job) {
  const PlanOutcome outcome = plan(job);
  if (const auto *faults = std::get_if<std::vector<PlacedFault>>(&outcome)) return check_told(*faults);
  const Plan &made = std::get<Plan>(outcome);
  const std::string json = report::plan_json(job, made);
  demand(nlohmann::json::accept(json)); // no number that is none is JSON
  demand(!report::plan_text(job, made, {}).empty());
  const auto prepared = Prepared::prepare(job);
  demand(report::plan_json(job, std::get<Plan>(std::get<Prepared>(prepared).plan(job))) == json);
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
