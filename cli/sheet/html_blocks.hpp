// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/drawing/drawing.hpp"
#include "cli/sheet/html.hpp"
#include "cli/sheet/sheet_content.hpp"

#include <array>
#include <cstddef>
#include <functional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

/// What a worksheet says, as blocks of an HTML page.
namespace gatherwright::paper {

/// Widths of pictures in millimetres, on a desk or in print and in a hand. The style sheet shows those of one class.
struct PictureWidth {
  std::string_view shown; ///< its class
  double width = 0;
};
inline constexpr PictureWidth wide{"wide", 184};
inline constexpr PictureWidth narrow{"narrow", 94};

/// Those that a figure is drawn in, each anew: both for a file that may be read anywhere, one for a reader that says
/// which.
using Widths = std::span<const PictureWidth>;
inline constexpr std::array both_widths{wide, narrow};

/// Under its heading, an element `level`; nothing where it is empty. `of`: attributes of the list.
void list(Html &html, std::string_view level, const SheetList &said, std::string_view of = {});

/// An element, unless there is nothing to say.
void paragraph(Html &html, const std::string &sentence);
void paragraphs(Html &html, const std::vector<std::string> &sentences);
void items(Html &html, const std::vector<std::string> &sentences, std::string_view of = {});

/// What a table's rows are: lengths; pieces; joins, each of which on a phone is a few lines of its own; marks, of which
/// those with a name stand out. Those of a mirrored piece are numbered from its own start.
enum class RowsOf { lengths, pieces, joins, marks, mirrored_marks };

/// With what of it is left out. Column `heads` is what each row is about.
void table(Html &html, const SheetTable &captioned, std::size_t heads, RowsOf rows);

void figure(Html &html, Widths widths, const std::function<Page(double)> &draw,
            const std::vector<std::string> &caption);

} // namespace gatherwright::paper
