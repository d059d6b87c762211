// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/press/press.hpp"

namespace gatherwright::paper {

/// Whether this process may only have so much memory (ulimit -v, -d).
bool memory_is_bounded();

/// Whether the module that prints can be loaded without being refused memory while it is: then one of its libraries
/// waits for itself, and that for ever.
bool has_room_to_load();

/// Prints in a process of its own. The libraries for fonts and PDF end their process, or run on into nothing, where
/// they are refused memory: here that is std::bad_alloc, and the caller goes on. Throws it also where no such process
/// can be had.
PdfOutcome print_apart(press::Print *print, const Document &document);

} // namespace gatherwright::paper
