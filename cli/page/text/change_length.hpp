// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/machine/beside.hpp"
#include "cli/page/text/source.hpp"
#include "gatherwright/quantity.hpp"

namespace gatherwright::page {

/// A named length moved by whole steps of the tape; see change.hpp.
Outcome<std::string, Faults> with_slid(std::string_view text, std::string_view pointer, int steps,
                                       const cli::Beside &beside = {});

/// A length written at a pointer, spelt as what stands there.
Outcome<std::string, Faults> with_length_at(std::string_view text, std::string_view pointer, double mm,
                                            const Tape &tape);

} // namespace gatherwright::page
