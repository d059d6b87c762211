// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/machine/module.hpp"
#include "gatherwright/outcome.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

/// Drawings that were made elsewhere: an SVG file, and a line of it.
namespace gatherwright::tracing {

/// One element of a drawing.
struct Element {
  std::string name;                                            ///< without its namespace; empty where that is not SVG's
  std::vector<std::pair<std::string, std::string>> attributes; ///< those of no namespace
  int line = 0;                                                ///< where it begins, from 1
  std::optional<std::size_t> parent;                           ///< the place in the list of what it stands in

  /// Nothing where it has no such attribute.
  const std::string *attribute(std::string_view called) const {
    for (const auto &[key, value] : attributes)
      if (key == called) return &value;
    return nullptr;
  }
};

/// A fault of a drawing, with its line.
struct DrawingFault {
  int line = 0; ///< 0: of the whole
  Fault fault;
};

/// Elements in the order in which they begin, the outermost first; at least one.
using Elements = std::vector<Element>;
using ElementsOutcome = Outcome<Elements, DrawingFault>;

/// More than a drawing has: beyond these it is refused.
inline constexpr int deepest_element = 200;
inline constexpr std::size_t most_elements = 500'000;

/// Between the program and its module that reads XML, which is loaded only when a drawing is asked for. Well-formed XML
/// alone is read, and no entities but the five that XML has; nothing outside the text is asked for.
inline constexpr const char *module_file = "gatherwright-tracing.so";
inline constexpr const char *read_name = "gatherwright_read_elements";
using ReadElements = cli::Ended(std::string_view text, ElementsOutcome &outcome);

/// The elements of an XML text, by the module; that it cannot be loaded is a fault too.
ElementsOutcome read_elements(std::string_view text);

} // namespace gatherwright::tracing
