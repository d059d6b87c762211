// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/press/press.hpp"

namespace gatherwright::press {

/// The pages of a document as PDF, tagged and titled, fonts embedded.
paper::PdfOutcome pages(const paper::Document &document);

} // namespace gatherwright::press
