// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/tracing/xml.hpp"
#include "gatherwright/mapped_path.hpp"

#include <optional>
#include <string>
#include <string_view>

namespace gatherwright::tracing {

/// The text of a `transform` attribute of SVG 1.1 as one map; nothing where it is none.
std::optional<AffineMap> transform_of(std::string_view text);

/// From the units of an outermost svg element to millimetres on its paper, by its width, height, viewBox and
/// preserveAspectRatio. A fault where these are missing or have no physical unit (px is 1/96 in).
Outcome<AffineMap, DrawingFault> size_of(const Element &svg);

/// From the units of an element to millimetres: by the size of the drawing, and the transforms of the element and of
/// what it stands in. A fault where it stands in what is not drawn as it stands.
Outcome<AffineMap, DrawingFault> placing_of(const Elements &elements, const Element &element);

} // namespace gatherwright::tracing
