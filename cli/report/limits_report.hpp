// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/job.hpp"

#include <span>
#include <string>

namespace gatherwright::report {

/// What the cloth of a join takes with its stitch and for its use, and why, as text or as JSON. Nothing else of the
/// join counts. The unit is that of lengths in JSON.
std::string limits_text(const Join &join);
std::string limits_json(const Join &join, Unit unit);

/// The limits of cloths that differ from the join's in weight alone.
std::string weights_text(const Join &join, std::span<const Weight> weights);
std::string weights_json(const Join &join, Unit unit, std::span<const Weight> weights);

} // namespace gatherwright::report
