// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>
#include <vector>

/// How much room a text takes. Reckoned from the widths of DejaVu Sans, the
/// family that is asked for, without its file: the same page comes out wherever
/// it is made. Another family may stand in where a drawing is shown; most run
/// narrower.
namespace gatherwright::paper {

inline constexpr std::string_view family = "DejaVu Sans";

/// Millimetres a line of text takes at most, `size` being its em: exact for
/// printable ASCII but for kerning, else an upper estimate. The text is taken
/// as `words::printable` shows it.
double text_width(std::string_view text, double size, bool bold = false);

/// The text itself, or as much of its beginning as leaves room for an ellipsis.
std::string fitted(std::string_view text, double width, double size, bool bold = false);

/// The text broken at spaces into lines no wider than `width`; a word that is
/// wider is broken where it must be. At least one line.
std::vector<std::string> broken(std::string_view text, double width, double size, bool bold = false);

} // namespace gatherwright::paper
