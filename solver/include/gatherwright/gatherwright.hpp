// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

/// The whole of the library: a Job in, a Plan out, and what is needed to make the one and read the other.
///
/// Everything is a plain value. Lengths are millimetres, weights grams per square metre, angles degrees; what else a
/// field holds stands beside it. A fault of the input is returned (Outcome, PlanOutcome); the only exception that
/// leaves the library on account of a job that it reads or plans is std::bad_alloc. No function keeps anything from one
/// call to the next or changes anything but what it returns, so that any of them may be called from several threads at
/// once.
///   1. Jobs of any values are planned or refused, and nothing is thrown.
///   2. The same job gives the same plan to the last bit.
///   3. Plans made in several threads at once have the bytes of those made one after another.

#include "gatherwright/bounds.hpp"
#include "gatherwright/by_weight.hpp"
#include "gatherwright/cloth.hpp"
#include "gatherwright/cloths.hpp"
#include "gatherwright/cutting.hpp"
#include "gatherwright/defaults.hpp"
#include "gatherwright/formula.hpp"
#include "gatherwright/job.hpp"
#include "gatherwright/limits.hpp"
#include "gatherwright/mapped_path.hpp"
#include "gatherwright/mark.hpp"
#include "gatherwright/nearest.hpp"
#include "gatherwright/order.hpp"
#include "gatherwright/outcome.hpp"
#include "gatherwright/piece.hpp"
#include "gatherwright/plan.hpp"
#include "gatherwright/quantity.hpp"
#include "gatherwright/refusal.hpp"
#include "gatherwright/shared_text.hpp"
#include "gatherwright/study.hpp"
#include "gatherwright/text.hpp"
#include "gatherwright/through_points.hpp"
#include "gatherwright/told.hpp"
#include "gatherwright/unit.hpp"
#include "gatherwright/validate.hpp"
