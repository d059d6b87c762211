// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "paper/pdf.hpp"

/// Between the program and its module that makes PDF, which is loaded only when
/// a PDF is asked for: the libraries for fonts and PDF take longer to load than
/// a whole plan takes.
namespace gatherwright::press {

inline constexpr const char *file_name = "gatherwright-press.so";
inline constexpr const char *function_name = "gatherwright_print";

using Print = void(const paper::Document &document, paper::PdfOutcome &outcome);

} // namespace gatherwright::press
