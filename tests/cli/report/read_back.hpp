// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/report/plan_json.hpp"

#include <nlohmann/json.hpp>

#include <string>
#include <vector>

/// The JSON of a plan as another reader has it.
namespace gatherwright::tests {

using Json = nlohmann::ordered_json;
using Names = std::vector<std::string>;

inline Json written(const Job &job, const Plan &plan) {
  return Json::parse(report::plan_json(job, plan));
}

inline Names keys(const Json &object) {
  Names names;
  for (const auto &[name, value] : object.items())
    names.push_back(name);
  return names;
}

} // namespace gatherwright::tests
