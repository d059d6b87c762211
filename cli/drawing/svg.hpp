// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/drawing/drawing.hpp"

#include <string>
#include <string_view>

/// Pages as SVG, in millimetres, with real text.
///  1. Colours and pens stand as plain attributes, for readers that know no
///  style sheets.
///  2. Lines and texts have their tone as a class too (`ink`, `soft`, `pale`,
///  `accent`, `alarm`), and what is filled a
///     class `on-pale` and its like, so that a style sheet can set them for
///     light and dark.
///  3. All text is escaped; what may not stand in XML stands as an escape that
///  can be read.
namespace gatherwright::paper {

/// A file of its own, the pages one below another, each a group `page-1`,
/// `page-2` and so on.
std::string svg_file(const Document &document);

/// One drawing as an element to stand in an HTML page. The page's label names
/// it for a screen reader.
std::string svg_element(const Page &page);

/// ` data-stretch="N"` or ` data-mark="N"`.
std::string part_attribute(const PartShown &shown);

/// A text for an attribute or the content of an element, of XML or HTML.
std::string escaped(std::string_view text);

} // namespace gatherwright::paper
