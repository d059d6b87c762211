// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/sheet/html.hpp"

#include "cli/drawing/svg.hpp"

#include <fmt/format.h>

namespace gatherwright::paper {

namespace {

std::string tag(std::string_view name, std::string_view attributes) {
  return attributes.empty() ? fmt::format("<{}>", name)
                            : fmt::format("<{} {}>", name, attributes.substr(attributes.front() == ' ' ? 1 : 0));
}

} // namespace

Html &Html::open(std::string_view name, std::string_view attributes) {
  (out_ += tag(name, attributes)) += '\n';
  return *this;
}

Html &Html::close(std::string_view name) {
  out_ += fmt::format("</{}>\n", name);
  return *this;
}

Html &Html::element(std::string_view name, std::string_view text, std::string_view attributes) {
  out_ += fmt::format("{}{}</{}>\n", tag(name, attributes), escaped(text), name);
  return *this;
}

Html &Html::markup(std::string_view markup) {
  out_ += markup;
  return *this;
}

std::string attribute(std::string_view name, std::string_view value) {
  return fmt::format(" {}=\"{}\"", name, escaped(value));
}

} // namespace gatherwright::paper
