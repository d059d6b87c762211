// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/page/patterns.hpp"

#include "cli/drawing/svg.hpp"
#include "cli/picture/stretch_pattern.hpp"
#include "cli/report/json_text.hpp"
#include "cli/words/names.hpp"
#include "gatherwright/kind.hpp"

#include <utility>

namespace gatherwright::page {

namespace {

/// A piece of cloth of the size of a button, its seam below.
paper::Page swatch(Kind kind) {
  constexpr double width = 14;
  constexpr double height = 6;
  constexpr double margin = 0.4;
  paper::Page page{.width = width, .height = height, .label = std::string(words::worked(kind)), .items = {}};
  page.items = paper::stretch_pattern(kind, {margin, width - margin, margin, height - margin});
  page.items.push_back({paper::rectangle({margin, margin}, width - 2 * margin, height - 2 * margin, 0.25)});
  return page;
}

} // namespace

std::string patterns_answer() {
  report::JsonText json;
  json.open_object();
  for (const Kind kind : all_kinds)
    json.text_field(name(kind), paper::svg_element(swatch(kind)));
  json.close();
  return json.take();
}

} // namespace gatherwright::page
