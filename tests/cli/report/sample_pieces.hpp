// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "tests/cli/report/sample.hpp"

/// The job of the porters' smock with what is cut for it, and a plan of that put together by hand.
namespace sample {

/// The sample's job. Pieces: "sleeve", a pair, its bottom (allowance 15 mm, all others 10) sewn to the long edge of
/// "sleeve into cuff"; "cuff", a pair, its top sewn to that join's band; "collar", one. All of washed linen, 150 cm
/// wide with selvedges of 1 cm.
gatherwright::Job job_with_pieces();

/// Cut sizes: sleeve 540 by 585, cuff 240 by 140, collar 400 by 100; all on a lay of 585.
gatherwright::Plan plan_with_pieces();

} // namespace sample
