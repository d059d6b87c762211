// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/press/press.hpp"

namespace gatherwright::paper {

/// A document as PDF: fonts embedded, tagged, titled, in English, printed at
/// its own size unless the reader insists. The same document gives the same
/// bytes with the same libraries and fonts. Faults: a text with characters that
/// no font of the machine has, no font at all, and a program that was installed
/// without its module for PDF. Fonts and PDF are loaded when this is first
/// called, since a plan without paper would wait for them longest.
PdfOutcome pdf(const Document &document);

} // namespace gatherwright::paper
