// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/edge/path.hpp"

#include "tests/solver/edge/drawing.hpp"

#include "tests/where.hpp"

#include <catch2/catch.hpp>
#include <charconv>
#include <cmath>
#include <fstream>
#include <numbers>
#include <set>
#include <string>

using namespace gatherwright;
using namespace gatherwright::edge;
using namespace gatherwright::tests;

namespace {

/// A JSON string as the table has them: \f is the only escape in it.
std::string unescaped(std::string text) {
  text = text.substr(1, text.size() - 2);
  for (std::size_t at = 0; (at = text.find("\\f", at)) != std::string::npos; ++at)
    text.replace(at, 2, "\f");
  return text;
}

double plain_number(std::string_view text) {
  double value = 0;
  std::from_chars(text.data(), text.data() + text.size(), value);
  return value;
}

} // namespace

// svg_path_lengths.tsv: cases of the W3C path grammar; the lengths are what Chromium's getTotalLength gives, to about
// 2e-4.
TEST_CASE("paths that follow the grammar have the length a browser gives them, the others are refused whole") {
  // By the grammar of SVG 2. A browser draws the wrong ones up to where they go wrong; "M0 0,L10 10" it draws whole,
  // though no comma may stand before a command; the ones that draw nothing are of no use as an edge.
  const std::set<std::string> refused{"M200,200 h-25 a25,2501 025,-25 z",
                                      "M360,120 h-25 a25,25 0 1 -1 25,25 z",
                                      "M 20 160 H 40#90",
                                      "M0 0,L10 10",
                                      "m 0 0 l -9 11 -123 z",
                                      "M 10,10 L 20,20,30",
                                      "M",
                                      "",
                                      "M0 0 L nan 5",
                                      "M0 0 L 10",
                                      "M0 0 L1..5 2",
                                      "M0 0 L1e400 0",
                                      "M0 0L10 10l5",
                                      "M.5.5.5.5"};
  std::ifstream table(test_data("svg_path_lengths.tsv"));
  std::string row;
  std::getline(table, row);
  std::size_t rows = 0, refusals = 0;
  while (std::getline(table, row)) {
    const std::size_t tab = row.find('\t');
    const std::string path = unescaped(row.substr(0, tab));
    const double browser = plain_number(std::string_view(row).substr(tab + 1));
    CAPTURE(path);
    ++rows;
    if (refused.contains(path)) {
      ++refusals;
      fault_of(path);
    } else {
      CHECK(length_of(path) == Approx(browser).epsilon(5e-4));
    }
  }
  CHECK(rows == 25);
  CHECK(refusals == refused.size());
}

TEST_CASE("a faulty path names the byte at which it goes wrong") {
  const auto offset = [](std::string_view path) { return fault_of(path).offset; };
  CHECK(offset("") == 0);
  CHECK(offset("  ") == 2);
  CHECK(offset("L 0 0") == 0);
  CHECK(offset("M") == 1);
  CHECK(offset("M 0") == 3);
  CHECK(offset("M 0 0 X 5") == 6);
  CHECK(offset("M0 0 L nan 5") == 7);
  CHECK(offset("M0 0L10 10l5") == 12);
  CHECK(offset("M0 0,L10 10") == 5);
  CHECK(offset("M,0 0 L 1 1") == 1);
  CHECK(offset("M0 0 L1..5 2") == 8); // a digit must follow the point
  CHECK(offset("M0 0 L1.e2 2") == 8);
  CHECK(offset("M0 0 L 1 1 2") == 12);
  CHECK(offset("M0 0 L 1e 1") == 8); // no exponent, so the e stands for a command
  CHECK(offset("M0 0 A 5 5 0 2 1 9 9") == 13);
  CHECK(offset("M0 0 A 5 5 0 1 -1 9 9") == 15);
  CHECK(offset("M0 0 L 5 5 L 1e8 0") == 13); // the number
  CHECK(offset("M 20 160 H 40#90") == 13);
  CHECK(offset("M0 0 L 5 5 M 9 9 L 10 10") == 17);
  CHECK(offset("M0 0 L 5 5 5 0 z l 10 10") == 17);
}

TEST_CASE("a faulty path says what stands where and what would be right") {
  CHECK(fault_of("M 20 160 H 40#90").fault.what == "the path goes wrong at byte 13: \"#\" where a command is expected");
  CHECK(fault_of("M0 0 L 10").fault.what ==
        "the path goes wrong at byte 9: it ends where a number is expected, the y of L");
  CHECK(fault_of("M0 0 L 10 \xc3\xa9").fault.what.find("\"\xc3\xa9\"") != std::string::npos);
  CHECK(fault_of("M0 0 L 10 \xff").fault.what.find("byte 0xFF") != std::string::npos);
  CHECK(fault_of("M0 0 L 10 \x1b[2J").fault.what.find("byte 0x1B") != std::string::npos);
  CHECK(fault_of("M0 0 L1. 5").fault.instead == "write 3 or 3.0 for 3.");
  CHECK(fault_of("M0 0 h 5 m 5 5 h 5").fault.what.find("second line") != std::string::npos);
}

TEST_CASE("path numbers may be written without spaces, with signs and with exponents") {
  CHECK(length_of("M0 0L3-4") == exactly(5));
  CHECK(length_of("M0,0L3,-4") == exactly(5));
  CHECK(length_of("M.0.0L.3.4") == exactly(0.5));
  CHECK(length_of("M+0-0l+3e0+40e-1") == exactly(5));
  CHECK(length_of("M0 0 h1E1") == exactly(10));
  CHECK(length_of("M0 0 h.1e+2") == exactly(10));
  CHECK(length_of("\n\tM 0\r0\fh 10 ") == exactly(10));
  CHECK(length_of("M0 0 h 0000000000000000000000000000000000000000000000000010") == exactly(10));
  CHECK(length_of("M0 0 h 0.000000000000000000000000000000000000000000001e46") == exactly(10));
  CHECK(length_of("M0 0 h 1e-400 h 10") == exactly(10));
  CHECK(length_of("M0 0 h -1e-99999999999999999999 h 10") == exactly(10));
  CHECK(fault_of("M0 0 h 1e99999999999999999999").offset == 7);
}

TEST_CASE("commands repeat without their letter and a moveto goes on as lines") {
  CHECK(length_of("M0 0 3 4 3 9") == exactly(10));
  CHECK(length_of("m5 5 3 4 0 5") == exactly(10));
  CHECK(length_of("M0 0 h 1 2 3") == exactly(6));
  CHECK(length_of("M0 0 H 1 2 3") == exactly(3));
  CHECK(length_of("M0 0 v 1,-2 3") == exactly(6));
  CHECK(length_of("M0 0 l 3 4,3 4 3 4") == exactly(15));
  CHECK(length_of("M0 0 a5 5 0 0 1 10 0 5 5 0 0 1 10 0") == exactly(10 * std::numbers::pi));
  CHECK(length_of("M0 0a5 5 0 0110 0") == exactly(5 * std::numbers::pi)); // flags need no spaces
  CHECK(length_of("M0 0a1 1 0 01.5.5") == exactly(2 * std::asin(std::sqrt(0.5) / 2)));
}

TEST_CASE("smooth commands mirror the last control only after a curve of their kind") {
  CHECK(length_of("M0 0 C 0 10 10 10 10 0 S 20 -10 20 0") ==
        exactly(length_of("M0 0 C 0 10 10 10 10 0 C 10 -10 20 -10 20 0")));
  CHECK(length_of("M0 0 L 10 0 S 20 -10 20 0") == exactly(length_of("M0 0 L 10 0 C 10 0 20 -10 20 0")));
  CHECK(length_of("M0 0 Q 5 10 10 0 T 20 0 T 30 0") ==
        exactly(length_of("M0 0 Q 5 10 10 0 Q 15 -10 20 0 Q 25 10 30 0")));
  CHECK(length_of("M0 0 q 5 10 10 0 t 10 0 10 0") == exactly(length_of("M0 0 Q 5 10 10 0 T 20 0 T 30 0")));
  CHECK(length_of("M0 0 C 0 10 10 10 10 0 T 20 0") == exactly(length_of("M0 0 C 0 10 10 10 10 0 L 20 0")));
  CHECK(length_of("M0 0 Q 5 10 10 0 S 20 -10 20 0") == exactly(length_of("M0 0 Q 5 10 10 0 C 10 0 20 -10 20 0")));
}

TEST_CASE("a path is one run; a moveto that draws nothing is no second one") {
  CHECK(length_of("M 5 5 M 0 0 L 10 0") == exactly(10));
  CHECK(length_of("M 5 5 Z M 0 0 L 10 0") == exactly(10));
  CHECK(length_of("M 0 0 L 10 0 M 50 50") == exactly(10));
  CHECK(length_of("M 0 0 L 10 0 M 50 50 Z") == exactly(10));
  CHECK(length_of("M 0 0 L 10 0 10 10 Z Z") == exactly(20 + std::sqrt(200)));
  for (const char *path : {"M 0 0", "M 0 0 Z", "M 0 0 L 0 0", "M 1 1 a 5 5 0 0 1 0 0", "M 3 3 c 0 0 0 0 0 0 z"}) {
    CAPTURE(path);
    CHECK(fault_of(path).fault.what == "the path draws nothing");
  }
}

TEST_CASE("only Z closes a path, with a line where there is a gap and none where rounding left it") {
  CHECK(curve_of("M0 0 h 10 v 10 z").closed);
  CHECK(curve_of("M0 0 h 10 v 10 z").pieces.size() == 3);
  CHECK_FALSE(curve_of("M0 0 h 10 v 10 L 0 0").closed);
  CHECK(curve_of("M0 0 h 10 v 10 L 0 0 z").pieces.size() == 3);
  CHECK_FALSE(curve_of("M0 0 h 10 v 10 z m 1 1").pieces.empty());
  // 0.1 and 0.2 leave 2.8e-17 between start and end.
  const Curve rounded = curve_of("M.1 .1 l.1 .1 .1 .1 .1 -.3 -.3 .1 z");
  CHECK(rounded.pieces.size() == 4);
  CHECK(last_point(rounded) == first_point(rounded));
}

TEST_CASE("arcs follow the implementation notes for radii out of range") {
  CHECK(length_of("M0 0a0 5 0 0 1 10 0") == exactly(10));
  CHECK(length_of("M0 0A5 5 0 0 1 0 0L3 4") == exactly(5));
  CHECK(length_of("M0 0a1 1 0 0 1 20 0") == exactly(10 * std::numbers::pi)); // enlarged to a half circle
  CHECK(length_of("M0 0a1 1 30 1 0 20 0") == exactly(10 * std::numbers::pi));
  CHECK(length_of("M0 0a10-10 0 0 1 20 0") == exactly(10 * std::numbers::pi));
  CHECK(length_of("M0 0a3 1 45 0 1 20 0") == exactly(length_of("M0 0a6 2 405 0 1 20 0")));
  CHECK(fault_of("M0 0a1e-9 9e6 0 0 1 20 0").fault.what.find("radius") != std::string::npos);
}

TEST_CASE("the flags of an arc choose among four and reach the end they name") {
  for (const bool large : {false, true}) {
    for (const bool clockwise : {false, true}) {
      for (const double rotation : {0.0, 33.0, -150.0, 719.0}) {
        const Point from{12, -7}, to{40, 9};
        const auto arc = arc_between(from, to, 40, 25, rotation, large, clockwise);
        REQUIRE(arc);
        const auto at = [&](double angle) {
          return arc->centre + std::cos(angle) * arc->major + std::sin(angle) * arc->minor;
        };
        CHECK(norm(at(arc->start) - from) < 1e-12);
        CHECK(norm(at(arc->start + arc->sweep) - to) < 1e-12);
        CHECK((arc->sweep > 0) == clockwise);
        CHECK((std::abs(arc->sweep) > std::numbers::pi) == large);
        CHECK(norm(arc->major) == exactly(40));
        CHECK(norm(arc->minor) == exactly(25));
      }
    }
  }
}

TEST_CASE("half circles come out whole though their chord is rounded") {
  // A chord short of the diameter by 1e-16 would shorten the arc by 1e-8.
  CHECK(length_of("M 47.1 33.3 a .1 .1 0 0 1 .2 0") == Approx(std::numbers::pi * 0.1).epsilon(1e-12));
  CHECK(length_of("M 47.1 33.3 a 12.7 12.7 0 0 1 25.4 0") == Approx(std::numbers::pi * 12.7).epsilon(1e-12));
  CHECK(length_of("M 47.1 33.3 a 33.3 33.3 0 0 1 0 66.6") == Approx(std::numbers::pi * 33.3).epsilon(1e-12));
  CHECK(length_of("M 47.1 33.3 A 12.7 12.7 0 0 1 72.5 33.3") == Approx(std::numbers::pi * 12.7).epsilon(1e-12));
}

TEST_CASE("paths beyond the limits are refused") {
  std::string many = "M0 0";
  for (std::size_t i = 0; i <= most_pieces; ++i)
    many += i % 2 == 0 ? "h1" : "v1";
  CHECK(fault_of(many).fault.what.find("more than 1,000,000") != std::string::npos);
  CHECK(fault_of("M0 0 l 9e6 0 9e6 0").fault.what.find("runs beyond") != std::string::npos);
  CHECK(fault_of("M0 0 l 9e6 0 9e6 0").offset == 5);
  CHECK(fault_of("M0 0 L 9e9 0").offset == 7);
  CHECK(length_of("M-1e7 0 L 1e7 0") == exactly(2e7));
}

TEST_CASE("the area enclosed is that of the figure, by the way it is drawn") {
  CHECK(enclosed_area(curve_of("M0 0 h 10 v 5 h -10 z")) == exactly(50));
  CHECK(enclosed_area(curve_of("M0 0 v 5 h 10 v -5 z")) == exactly(-50));
  CHECK(enclosed_area(curve_of("M 95 7 A 95 95 0 0 1 -95 7 A 95 95 0 0 1 95 7 Z")) ==
        exactly(95 * 95 * std::numbers::pi));
  CHECK(enclosed_area(curve_of("M 1 1 a 3 2 20 1 0 1 1 z")) < 0);
  // Under a parabola two thirds of its box.
  CHECK(enclosed_area(curve_of("M 100 100 q 5 -20 10 0 z")) == exactly(2.0 / 3 * 10 * 10));
}
