// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/report/shown_marks.hpp"
#include "cli/sheet/html_blocks.hpp"
#include "gatherwright/job.hpp"
#include "gatherwright/plan.hpp"

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// The worksheet in parts that a page shows and changes one by one.
namespace gatherwright::paper {

struct Fragment {
  std::string name;                ///< "verdict", "cloth-1", "join-2-picture"
  std::optional<std::string> html; ///< whole elements, with no `style`; nothing: it was left unmade
};

/// In the order of the sheet, those that have anything to say, with pictures of one width: `verdict`, `wrong`, `mend`,
/// `cut`, `cloth-1` and so on, `cloths-left-out`, `on-pieces`, `savings`; of each join `join-1`, `join-1-picture`,
/// `join-1-drawn`, `join-1-curve`, `join-1-marks`, `join-1-working`; `joins-left-out`, `between-marks`, `notes`,
/// `cautions`. What shows a stretch or a mark of a join says so by `data-stretch` and `data-mark`. The plan must be of
/// the job and should have been asked for its profile and outlines. The same job and plan give the same bytes.
/// Those whose names `leave` takes are named only, whether they have anything to say or not; of a plan without layouts
/// also those of cloths.
std::vector<Fragment> sheet_fragments(const Job &job, const Plan &plan, const PictureWidth &width,
                                      report::Pins pins = report::Pins::needed,
                                      const std::function<bool(std::string_view)> &leave = {});

} // namespace gatherwright::paper
