// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/tracing/trace.hpp"

#include "cli/tracing/numbers.hpp"
#include "cli/tracing/placing.hpp"
#include "tests/solver/edge/drawing.hpp"

#include <catch2/catch.hpp>

#include <numbers>
#include <string>

using namespace gatherwright;
using namespace gatherwright::tests;
using tracing::DrawingFault;
using tracing::Elements;

namespace {

/// A drawing of this size whose units are millimetres.
std::string drawing(const std::string &within,
                    const std::string &size = R"(width="200mm" height="300mm" viewBox="0 0 200 300")") {
  return "<?xml version=\"1.0\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\" " + size + ">\n" + within + "\n</svg>\n";
}

Elements elements(const std::string &text) {
  auto read = tracing::read_elements(text);
  if (!read) FAIL(text << "\n" << read.fault().fault.what);
  return *std::move(read);
}

std::string traced(const std::string &text, std::string_view id = "it") {
  const auto path = tracing::traced(elements(text), id);
  if (!path) FAIL(text << "\n" << path.fault().fault.what);
  return *path;
}

std::string of(const std::string &element) {
  return traced(drawing(element));
}

/// "LINE: what; instead"
std::string told(const DrawingFault &fault) {
  return std::to_string(fault.line) + ": " + fault.fault.what + "; " + fault.fault.instead;
}

std::string refused(const std::string &text, std::string_view id = "it") {
  const auto read = tracing::read_elements(text);
  if (!read) return told(read.fault());
  const auto path = tracing::traced(*read, id);
  if (path) FAIL(text << "\nis " << *path);
  return told(path.fault());
}

bool begins(const std::string &text, std::string_view with) {
  if (!text.starts_with(with)) UNSCOPED_INFO(text);
  return text.starts_with(with);
}

void check_point(edge::Point at, double x, double y) {
  CHECK(at.x == Approx(x).margin(1e-9));
  CHECK(at.y == Approx(y).margin(1e-9));
}

const std::string line = R"(<line id="it" x1="10" y1="20" x2="40" y2="60"/>)";

} // namespace

TEST_CASE("each element is the line that SVG says it is") {
  const double pi = std::numbers::pi;
  CHECK(of(line) == "M 10 20 L 40 60");
  CHECK(length_of(of(R"(<path id="it" d="M0 0h30v40"/>)")) == exactly(70));
  CHECK(of(R"(<polyline id="it" points="0,0 30,0 30,40"/>)") == "M 0 0 L 30 0 L 30 40");
  CHECK(length_of(of(R"(<polygon id="it" points="0,0 30,0 30,40"/>)")) == exactly(120));
  CHECK(length_of(of(R"(<rect id="it" x="5" y="5" width="30" height="40"/>)")) == exactly(140));
  CHECK(length_of(of(R"(<rect id="it" width="30" height="40" rx="5"/>)")) == exactly(140 - 40 + 10 * pi));
  CHECK(length_of(of(R"(<rect id="it" width="30" height="40" rx="99" ry="20"/>)")) ==
        exactly(length_of("M 0 20 A 15 20 0 0 1 30 20 A 15 20 0 0 1 0 20 Z")));
  CHECK(length_of(of(R"(<circle id="it" cx="9" cy="8" r="50"/>)")) == exactly(100 * pi));
  CHECK(length_of(of(R"(<ellipse id="it" rx="120" ry="70"/>)")) ==
        exactly(length_of("M 120 0 A 120 70 0 0 1 -120 0 A 120 70 0 0 1 120 0 Z")));
  // Round ones begin at the right and go clockwise: with y downwards, down first.
  const edge::Curve circle = curve_of(of(R"(<circle id="it" cx="9" cy="8" r="50"/>)"));
  check_point(edge::first_point(circle), 59, 8);
  check_point(circle.points[1], 9, 58);
}

TEST_CASE("what is drawn with an element is what is drawn with path data") {
  CHECK(of(R"(<polyline id="it" points="0,0 30,0 30,40"/>)") == of(R"(<path id="it" d="M0,0 30,0 30,40"/>)"));
  CHECK(of(R"(<polygon id="it" points="0 0-30 0 30-40"/>)") == of(R"(<path id="it" d="M0 0L-30 0L30-40z"/>)"));
  CHECK(of(R"(<rect id="it" x="3" y="2px" width="30" height="4"/>)") == of(R"(<path id="it" d="M3 2H33V6H3z"/>)"));
}

TEST_CASE("a drawing has the size that its paper has") {
  const auto length = [](const std::string &size) { return length_of(traced(drawing(line, size))); };
  CHECK(length(R"(width="200mm" height="300mm" viewBox="0 0 200 300")") == exactly(50));
  CHECK(length(R"(width="20cm" height="30cm" viewBox="0 0 200 300")") == exactly(50));
  CHECK(length(R"(width="2in" height="3in" viewBox="0 0 200 300")") == exactly(50 * 0.254));
  CHECK(length(R"(width="144pt" height="18pc" viewBox="0 0 200 300")") == exactly(50 * 0.254));
  CHECK(length(R"(width="192px" height="288px" viewBox="0 0 200 300")") == exactly(50 * 0.254));
  CHECK(length(R"(width="200mm" height="300mm")") == exactly(50 * 25.4 / 96)); // units are px
  // As large as goes in, as covers, or each way by itself.
  CHECK(length(R"(width="400mm" height="300mm" viewBox="0 0 200 300")") == exactly(50));
  CHECK(length(R"(width="400mm" height="300mm" viewBox="0 0 200 300" preserveAspectRatio="xMinYMin slice")") ==
        exactly(100));
  CHECK(length(R"(width="400mm" height="300mm" viewBox="0 0 200 300" preserveAspectRatio="none")") ==
        exactly(std::hypot(60, 40)));
}

TEST_CASE("a place of a drawing is counted from the upper left of its paper") {
  const auto first = [](const std::string &fit) {
    const std::string size = R"(width="400mm" height="300mm" viewBox="5 6 200 300" )" + fit;
    return edge::first_point(curve_of(traced(drawing(line, size))));
  };
  check_point(first(""), 100 + 5, 14);
  check_point(first(R"(preserveAspectRatio="xMinYMid meet")"), 5, 14);
  check_point(first(R"(preserveAspectRatio="defer xMaxYMax")"), 200 + 5, 14);
  check_point(first(R"(preserveAspectRatio="none")"), 10, 14);
  check_point(first(R"(preserveAspectRatio="xMidYMid slice")"), 10, 28 - 150);
}

TEST_CASE("transforms are followed from the line out to the paper") {
  const auto first = [](const std::string &transform) {
    return edge::first_point(curve_of(
        of("<g transform=\"" + transform + "\"><line id=\"it\" x1=\"10\" y1=\"20\" x2=\"40\" y2=\"60\"/></g>")));
  };
  check_point(first("translate(3 4)"), 13, 24);
  check_point(first("translate(3)"), 13, 20);
  check_point(first("scale(2)"), 20, 40);
  check_point(first("scale(2,-1)"), 20, -20);
  check_point(first("rotate(90)"), -20, 10);
  check_point(first("rotate(90, 10, 0)"), -10, 0);
  check_point(first("rotate(30)"), 10 * std::cos(std::numbers::pi / 6) - 20 * 0.5,
              10 * 0.5 + 20 * std::cos(std::numbers::pi / 6));
  check_point(first("skewX(45)"), 30, 20);
  check_point(first("skewY(45)"), 10, 30);
  check_point(first("matrix(1 2 3 4 5 6)"), 10 + 60 + 5, 20 + 80 + 6);
  check_point(first("translate(100,0) scale(2)"), 120, 40);
  check_point(first(" scale( 2 ) , translate( 100 , 0 ) "), 220, 40);
  const std::string nested = R"svg(<g transform="translate(100,0)"><a><g transform="scale(2)">
    <line id="it" transform="rotate(90)" x1="10" y1="20" x2="40" y2="60"/></g></a></g>)svg";
  check_point(edge::first_point(curve_of(of(nested))), 100 - 40, 20);
}

TEST_CASE("what is no transform is refused") {
  for (const char *text :
       {"translate", "translate(", "translate()", "translate(1,2,3)", "rotate(1 2)", "scale(1", "turn(3)", "scale(a)",
        "matrix(1 2 3 4 5)", "scale(2),", "scale(2) x", "skewX(1,2)", "scale(1e999)"})
    CHECK_FALSE(tracing::transform_of(text));
  CHECK(tracing::transform_of(""));
  CHECK(begins(refused(drawing(R"svg(<g transform="turn(3)"><line id="it" x2="9"/></g>)svg")),
               "3: the transform \"turn(3)\" is none"));
}

TEST_CASE("numbers are read as SVG writes them") {
  const auto all = [](std::string_view text) { return tracing::numbers_of(text).value_or(std::vector<double>{-99}); };
  CHECK(all(" 1,2 -3.5.5 +4e1,.5 6. ") == std::vector<double>{1, 2, -3.5, .5, 40, .5, 6});
  CHECK(all("").empty());
  for (const char *none : {"1,,2", "1,", ",1", "a", "1 mm", "e5", ".", "-"})
    CHECK_FALSE(tracing::numbers_of(none));
  CHECK(tracing::measure_of(" 25.4mm ")->px == Approx(96));
  CHECK(tracing::measure_of("3")->px == 3);
  CHECK_FALSE(tracing::measure_of("3")->has_unit);
  for (const char *none : {"", "3%", "3em", "3 mm", "mm", "3,mm", "3mm4"})
    CHECK_FALSE(tracing::measure_of(none));
}

TEST_CASE("a drawing without a real size says how to give it one") {
  for (const char *size : {R"(viewBox="0 0 200 300")", R"(width="200" height="300")", R"(width="100%" height="100%")",
                           R"(width="20em" height="30mm")", R"(width="20mm")"})
    CHECK(begins(refused(drawing(line, size)), "2: the drawing has no real size: "));
  CHECK(refused(drawing(line, R"(width="200" height="300")")) ==
        "2: the drawing has no real size: its width is \"200\"; give its <svg> a width and a height in a unit, such as "
        "width=\"200mm\" height=\"300mm\": most programs ask for them as the size of the page");
  CHECK(begins(refused(drawing(line, R"(width="0mm" height="3mm")")), "2: the drawing has a width of nothing"));
  CHECK(begins(refused(drawing(line, R"(width="9mm" height="3mm" viewBox="0 0 0 9")")),
               "2: the viewBox \"0 0 0 9\" is none"));
  CHECK(begins(refused(drawing(line, R"(width="9mm" height="3mm" viewBox="0 0 9 9" preserveAspectRatio="fit")")),
               "2: the preserveAspectRatio \"fit\" is none"));
}

TEST_CASE("the ids that there are are told, the nearest first") {
  const std::string text =
      drawing("<path id=\"armhole\" d=\"M0 0h9\"/><g id=\"group\"/><line id=\"cap\"/><rect id=\"hem\"/>");
  CHECK(refused(text, "cop") ==
        "2: there is no line of the id \"cop\"; the ids there are: \"cap\", \"armhole\", \"hem\"");
  CHECK(begins(refused(drawing("<line/>"), "cap"), "2: there is no line of the id \"cap\"; no line in it has an id"));
}

TEST_CASE("what is not drawn as it stands is refused") {
  CHECK(begins(refused(drawing("<defs>\n" + line + "</defs>")),
               "4: it stands in <defs> (line 3), and is not drawn as it stands"));
  CHECK(begins(refused(drawing("<svg>" + line + "</svg>")), "3: it stands in <svg> (line 3)"));
  CHECK(begins(refused(drawing("<o:x xmlns:o=\"urn:other\">" + line + "</o:x>")),
               "3: it stands in what is not SVG's (line 3)"));
  CHECK(begins(refused(drawing(R"(<use id="it" href="#a"/>)")), "3: it is no line but <use>; make of the copy"));
  CHECK(begins(refused(drawing(R"(<g id="it"/>)")), "3: it is no line but <g>"));
  CHECK(begins(refused(drawing(line + "\n" + line)), "4: the id \"it\" comes twice, first in line 3"));
  CHECK(begins(refused(drawing(R"svg(<line id="it" x2="9" style="stroke: red; transform: scale(2)"/>)svg")),
               "3: its place is set by the style \"transform\""));
  CHECK(begins(refused(drawing(R"(<line id="it" x2="50%"/>)")), "3: x2=\"50%\" is no length"));
  CHECK(begins(refused(drawing(R"(<circle id="it"/>)")), "3: its r is not above 0"));
  CHECK(begins(refused(drawing(R"(<polyline id="it" points="1 2 3"/>)")), "3: its points are not pairs of numbers"));
  CHECK(begins(refused(drawing(R"(<path id="it"/>)")), "3: the path is empty"));
  CHECK(begins(refused(drawing(R"(<path id="it" d="M 0 0 L 9"/>)")), "3: \"it\": the path goes wrong at byte 9"));
  CHECK(begins(refused(drawing("<g transform=\"scale(0)\">" + line + "</g>")),
               "3: \"it\": its transforms leave no area"));
  CHECK(begins(refused("<html/>"), "1: this is no drawing"));
}

TEST_CASE("XML that is none, or that has entities or more in it than a drawing has, is refused with its line") {
  CHECK(begins(refused(""), "1: the file is no well-formed XML: no element found"));
  CHECK(begins(refused(drawing("<g>")), "4: the file is no well-formed XML: mismatched tag"));
  CHECK(begins(refused(drawing("<line id=\"it\" id=\"it\"/>")),
               "3: the file is no well-formed XML: duplicate attribute"));
  CHECK(begins(refused("<!DOCTYPE svg [\n<!ENTITY a \"b\">]>\n<svg>&a;</svg>"),
               "2: the drawing has entities of its own"));
  CHECK(begins(refused("<!DOCTYPE svg [<!ENTITY % a SYSTEM \"/etc/hostname\"> %a;]>\n<svg/>"),
               "1: the drawing has entities"));
  CHECK(begins(refused(drawing("&nbsp;")), "3: the file is no well-formed XML: undefined entity"));
  std::string deep;
  for (int i = 0; i < 300; ++i)
    deep += "<g>";
  CHECK(begins(refused(drawing(deep)), "3: the drawing has more in it than is read"));
  // A document type alone is what many programs write, and nothing is fetched for it.
  CHECK(length_of(traced(
            "<!DOCTYPE svg PUBLIC \"-//W3C//DTD SVG 1.1//EN\" \"http://www.w3.org/Graphics/SVG/1.1/DTD/svg11.dtd\">\n" +
            drawing(line).substr(22))) == exactly(50));
}
