// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/page/asked.hpp"

#include "cli/report/in_unit.hpp"
#include "gatherwright/formula.hpp"

#include <string_view>
#include <vector>

namespace gatherwright::page {

namespace {

/// What each symbol of a formula stands for in this plan: measures, lengths, the cloth's width.
std::vector<Affine> values_in(const Job &job, const Plan &plan) {
  std::vector<Affine> values;
  for (const Measure &measure : job.measures)
    values.push_back({measure.is.mm, {}});
  for (const LengthPlan &length : plan.lengths)
    values.push_back({length.is.value_or(0), {}});
  values.push_back({job.fabric.width ? job.fabric.width->mm : 0, {}});
  return values;
}

} // namespace

void write_asked(report::JsonText &json, const Job &job, const Plan &plan) {
  const std::vector<Affine> values = values_in(job, plan);
  const auto figure = [&](std::string_view name, const Formula *formula) {
    if (formula == nullptr) return;
    if (const auto value = evaluate(*formula, values))
      json.number_field(name, report::in_unit(value->constant, job.unit));
  };
  json.open_object();
  for (const NamedLength &length : job.lengths) {
    const FreeLength *const free = length.free();
    if (free == nullptr) continue;
    json.key(length.name);
    json.open_object(report::JsonText::Lay::one_line);
    figure("from", free->from ? &*free->from : nullptr);
    figure("to", free->to ? &*free->to : nullptr);
    figure("aim", free->figure());
    json.close();
  }
  json.close();
}

} // namespace gatherwright::page
