// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/job.hpp"

#include <span>
#include <string>

namespace gatherwright::report {

/// What a cloth takes with a stitch, and why, as text or as JSON. The unit is that of lengths in JSON.
std::string limits_text(const Fabric &fabric, const Gathering &gathering);
std::string limits_json(const Fabric &fabric, const Gathering &gathering, Unit unit);

/// The limits of cloths that differ in weight alone.
std::string weights_text(const Fabric &fabric, const Gathering &gathering, std::span<const Weight> weights);
std::string weights_json(const Fabric &fabric, const Gathering &gathering, Unit unit, std::span<const Weight> weights);

} // namespace gatherwright::report
