// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "tests/holds.hpp"

#include <catch2/catch.hpp>
#include <pugixml.hpp>

#include <string>
#include <string_view>
#include <vector>

/// A worksheet as HTML, read as the XML that it is too.
namespace html_page {

inline pugi::xml_document parsed(const std::string &html) {
  pugi::xml_document page;
  const pugi::xml_parse_result result = page.load_string(html.c_str(), pugi::parse_default | pugi::parse_ws_pcdata);
  INFO(result.description() << ": " << html.substr(static_cast<std::size_t>(result.offset), 100));
  REQUIRE(result);
  return page;
}

inline std::vector<pugi::xml_node> all(const pugi::xml_node &of, const char *path) {
  std::vector<pugi::xml_node> found;
  for (const pugi::xpath_node &each : of.select_nodes(path))
    found.push_back(each.node());
  return found;
}

inline std::string text_of(const pugi::xml_node &node) {
  std::string text;
  if (node.type() == pugi::node_pcdata) text += node.value();
  for (const pugi::xml_node &child : node.children())
    text += text_of(child);
  return text;
}

} // namespace html_page
