// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/drawing/drawing.hpp"
#include "cli/machine/module.hpp"
#include "gatherwright/outcome.hpp"

#include <string>

namespace gatherwright::paper {

/// The bytes of a PDF, or why this machine cannot make it.
using PdfOutcome = Outcome<std::string>;

} // namespace gatherwright::paper

/// Between the program and its module that makes PDF, which is loaded only when
/// a PDF is asked for: the libraries for fonts and PDF take longer to load than
/// a whole plan takes.
namespace gatherwright::press {

inline constexpr const char *file_name = "gatherwright-press.so";
inline constexpr const char *function_name = "gatherwright_print";

using Print = cli::Ended(const paper::Document &document, paper::PdfOutcome &outcome);

} // namespace gatherwright::press
