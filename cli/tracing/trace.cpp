// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/tracing/trace.hpp"

#include "cli/tracing/placing.hpp"
#include "cli/tracing/shape.hpp"
#include "cli/words/quoted.hpp"
#include "gatherwright/nearest.hpp"

#include <algorithm>
#include <vector>

namespace gatherwright::tracing {

namespace {

using cli::quoted;

constexpr std::size_t most_ids_told = 12;

/// All elements of that id: two at the most.
std::vector<const Element *> of_id(const Elements &elements, std::string_view id) {
  std::vector<const Element *> found;
  for (const Element &element : elements) {
    const std::string *own = element.attribute("id");
    if (own && *own == id && found.size() < 2) found.push_back(&element);
  }
  return found;
}

} // namespace

std::string ids_told(const Elements &elements, std::string_view id) {
  std::vector<std::string> ids;
  for (const Element &element : elements)
    if (const std::string *own = element.attribute("id"); own && !own->empty() && is_line(element)) ids.push_back(*own);
  if (ids.empty()) return "no line in it has an id: give the line one";
  if (const auto near = nearest(id, ids)) {
    const auto at = std::find(ids.begin(), ids.end(), *near);
    std::rotate(ids.begin(), at, at + 1);
  }
  std::string told = ids.size() == 1 ? "the one id there is: " : "the ids there are: ";
  for (std::size_t i = 0; i < std::min(ids.size(), most_ids_told); ++i)
    told += (i > 0 ? ", " : "") + quoted(ids[i]);
  if (ids.size() > most_ids_told) told += " and " + std::to_string(ids.size() - most_ids_told) + " more";
  return told;
}

Outcome<std::string, DrawingFault> traced(const Elements &elements, std::string_view id) {
  const Element &root = elements.front();
  if (root.name != "svg")
    return DrawingFault{root.line, {"this is no drawing: it begins with another element than <svg>", "save it as SVG"}};
  const auto found = of_id(elements, id);
  if (found.empty())
    return DrawingFault{root.line, {"there is no line of the id " + quoted(id), ids_told(elements, id)}};
  const Element &element = *found.front();
  if (found.size() > 1)
    return DrawingFault{found[1]->line,
                        {"the id " + quoted(id) + " comes twice, first in line " + std::to_string(element.line),
                         "give one of them another"}};
  const auto shape = shape_of(element);
  if (!shape) return shape.fault();
  const auto placing = placing_of(elements, element);
  if (!placing) return placing.fault();
  auto path = mapped_path(*shape, *placing);
  if (path) return *std::move(path);
  return DrawingFault{element.line, {quoted(id) + ": " + path.fault().what, path.fault().instead}};
}

} // namespace gatherwright::tracing
