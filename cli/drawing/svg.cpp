// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/drawing/svg.hpp"

#include "cli/drawing/ink.hpp"
#include "cli/drawing/type.hpp"
#include "cli/words/figures.hpp"
#include "cli/words/names.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace gatherwright::paper {

namespace {

/// A micrometre is as fine as any reader takes.
std::string number(double value) {
  return words::trimmed(value, 3);
}

std::string_view class_of(Tone tone) {
  switch (tone) {
  case Tone::none:
    return "none";
  case Tone::paper:
    return "paper";
  case Tone::pale:
    return "pale";
  case Tone::soft:
    return "soft";
  case Tone::accent:
    return "accent";
  case Tone::alarm:
    return "alarm";
  case Tone::ink:
    break;
  }
  return "ink";
}

std::string colour(Tone tone) {
  if (tone == Tone::none) return "none";
  const Colour of = colour_of(tone);
  return fmt::format("#{:02x}{:02x}{:02x}", of.red, of.green, of.blue);
}

class Writer {
public:
  explicit Writer(std::string &out) : out_(out) {}

  void write(const std::vector<Item> &items) {
    for (const Item &item : items)
      std::visit([this](const auto &is) { write(is); }, item.is);
  }

private:
  void write(const Line &line);
  void write(const Text &text);
  void write(const Group &group);

  std::string &out_;
};

void Writer::write(const Line &line) {
  if (line.points.size() < 2) return;
  const bool inked = line.pen > 0 && line.tone != Tone::none;
  const Tone stroke = inked ? line.tone : Tone::none;
  std::string classes(class_of(stroke));
  if (line.fill != Tone::none) classes.append(" on-").append(class_of(line.fill));
  out_ += fmt::format(R"(<path class="{}" fill="{}" stroke="{}")", classes, colour(line.fill), colour(stroke));
  if (inked) out_ += fmt::format(R"( stroke-width="{}")", number(line.pen));
  if (inked && line.dashed) out_ += fmt::format(R"( stroke-dasharray="{} {}")", number(dash_on), number(dash_off));
  out_ += " d=\"";
  for (std::size_t i = 0; i < line.points.size(); ++i)
    out_ += fmt::format("{}{} {}",
                        i == 0   ? "M"
                        : i == 1 ? " L"
                                 : " ",
                        number(line.points[i].x), number(line.points[i].y));
  out_ += line.closed ? " Z\"/>\n" : "\"/>\n";
}

void Writer::write(const Text &text) {
  if (text.says.empty()) return;
  out_ += fmt::format(R"(<text class="{0}" x="{1}" y="{2}" font-size="{3}" fill="{4}" stroke="none")",
                      class_of(text.tone), number(text.at.x), number(text.at.y), number(text.size), colour(text.tone));
  if (text.bold) out_ += R"( font-weight="bold")";
  if (text.anchor != Anchor::start)
    out_ += fmt::format(R"( text-anchor="{}")", text.anchor == Anchor::middle ? "middle" : "end");
  if (text.turned != 0)
    out_ += fmt::format(" transform=\"rotate({} {} {})\"", number(text.turned), number(text.at.x), number(text.at.y));
  out_ += fmt::format(">{}</text>\n", escaped(text.says));
}

void Writer::write(const Group &group) {
  const bool told = group.role != Role::none || !group.label.empty();
  if (!told && !group.shows) return write(group.items);
  out_ += "<g";
  if (group.shows) out_ += part_attribute(*group.shows);
  if (told) out_ += fmt::format(R"( role="{}")", group.role == Role::figure ? "img" : "group");
  if (!group.label.empty()) out_ += fmt::format(R"( aria-label="{}")", escaped(group.label));
  out_ += ">\n";
  if (!group.label.empty()) out_ += fmt::format("<title>{}</title>\n", escaped(group.label));
  write(group.items);
  out_ += "</g>\n";
}

/// Attributes of an svg element so large, with the family of its text.
std::string frame(double width, double height) {
  return fmt::format(R"(width="{0}mm" height="{1}mm" viewBox="0 0 {0} {1}" font-family="{2}, sans-serif" )"
                     R"(stroke-linejoin="round" stroke-linecap="butt")",
                     number(width), number(height), family);
}

} // namespace

std::string escaped(std::string_view text) {
  std::string out;
  for (const char each : words::printable(text)) {
    switch (each) {
    case '&':
      out += "&amp;";
      break;
    case '<':
      out += "&lt;";
      break;
    case '>':
      out += "&gt;";
      break;
    case '"':
      out += "&quot;";
      break;
    case '\'':
      out += "&#39;";
      break;
    default:
      out += each;
    }
  }
  // The two codes that are UTF-8 and yet no character of XML.
  for (const auto &[code, shown] : {std::pair("\xef\xbf\xbe", "\\ufffe"), std::pair("\xef\xbf\xbf", "\\uffff")})
    for (std::size_t at = out.find(code); at != std::string::npos; at = out.find(code, at))
      out.replace(at, 3, shown);
  return out;
}

std::string part_attribute(const PartShown &shown) {
  return fmt::format(R"( data-{}="{}")", shown.of == PartShown::Of::stretches ? "stretch" : "mark", shown.number);
}

std::string svg_file(const Document &document) {
  double width = 0;
  double height = 0;
  for (const Page &page : document.pages) {
    width = std::max(width, page.width);
    height += page.height;
  }
  std::string out = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n";
  out += fmt::format("<svg xmlns=\"http://www.w3.org/2000/svg\" "
                     "xml:lang=\"en\" {}>\n<title>{}</title>\n",
                     frame(width, height), escaped(document.title));
  double top = 0;
  for (std::size_t i = 0; i < document.pages.size(); ++i) {
    const Page &page = document.pages[i];
    out += fmt::format("<g id=\"page-{}\" transform=\"translate(0 {})\" "
                       "role=\"group\" aria-label=\"{}\">\n",
                       i + 1, number(top), escaped(page.label));
    out += fmt::format("<path class=\"none on-paper\" fill=\"#ffffff\" "
                       "stroke=\"none\" d=\"M0 0 L{0} 0 {0} {1} 0 {1} Z\"/>\n",
                       number(page.width), number(page.height));
    Writer(out).write(page.items);
    out += "</g>\n";
    top += page.height;
  }
  return out += "</svg>\n";
}

std::string svg_element(const Page &page) {
  std::string out =
      fmt::format("<svg role=\"img\" aria-label=\"{}\" {}>\n", escaped(page.label), frame(page.width, page.height));
  Writer(out).write(page.items);
  return out += "</svg>\n";
}

} // namespace gatherwright::paper
