// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/study.hpp"

#include <string>

namespace gatherwright::report {

/// What a study of gathered test strips would change in the table over weights, as text or as JSON. `cloths` have
/// figures, `still_empty` only a name.
std::string study_text(const cloth::StudyFit &fit, int cloths, int still_empty);
std::string study_json(const cloth::StudyFit &fit, int cloths, int still_empty);

} // namespace gatherwright::report
