// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/edge/stitching.hpp"

#include "tests/outcomes.hpp"
#include "tests/solver/edge/drawing.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <cstdint>
#include <gsl/gsl_sf_ellint.h>
#include <numbers>
#include <random>
#include <string>

using namespace gatherwright;
using namespace gatherwright::edge;
using namespace gatherwright::tests;

namespace {

using Kind = Unresolved::Kind;
using std::numbers::pi;
constexpr Side left = Side::left, right = Side::right;

Side other(Side side) {
  return side == left ? right : left;
}

double stitched(const char *path, double allowance, Side garment) {
  return line_of(path, allowance, garment).length();
}

Side inside(const char *path) {
  return inner_side(curve_of(path)).value();
}

/// Coordinates without exponents or locale.
std::string number(double value) {
  std::string text = std::to_string(static_cast<std::int64_t>(std::round(value * 1e6)));
  const bool negative = text.front() == '-';
  if (negative) text.erase(0, 1);
  if (text.size() < 7) text.insert(0, 7 - text.size(), '0');
  text.insert(text.size() - 6, ".");
  return (negative ? " -" : " ") + text;
}

std::string pair(Point p) {
  return number(p.x) + number(p.y);
}

/// A smooth path through random points that keeps on to the right, as control points: 3 for each curve after the first.
std::vector<Point> wander(std::mt19937_64 &random, int curves, double rough) {
  std::uniform_real_distribution<double> step(15, 60), up(-rough, rough);
  std::vector<Point> through{{0, 0}};
  for (int i = 0; i < curves; ++i)
    through.push_back(through.back() + Point{step(random), up(random)});
  std::vector<Point> points{through[0]};
  const auto tangent = [&](int i) {
    return 0.5 * (through[static_cast<std::size_t>(std::min(i + 1, curves))] -
                  through[static_cast<std::size_t>(std::max(i - 1, 0))]);
  };
  for (int i = 0; i < curves; ++i) {
    const Point from = through[static_cast<std::size_t>(i)], to = through[static_cast<std::size_t>(i) + 1];
    points.push_back(from + (1.0 / 3) * tangent(i));
    points.push_back(to - (1.0 / 3) * tangent(i + 1));
    points.push_back(to);
  }
  return points;
}

std::string text_of(const std::vector<Point> &points) {
  std::string text = "M" + pair(points[0]);
  for (std::size_t i = 1; i < points.size(); i += 3)
    text += " C" + pair(points[i]) + pair(points[i + 1]) + pair(points[i + 2]);
  return text;
}

} // namespace

TEST_CASE("with no allowance the stitching line is the edge") {
  const char *path = "M 0 0 h 200 a 100 100 0 0 0 100 -100 v -150";
  const StitchingLine line = line_of(path, 0, left);
  CHECK(line.length() == exactly(350 + 50 * pi));
  CHECK(line.cut_edge() == line.length());
  const auto place = line.place(250);
  CHECK(place.cut == exactly(250));
  CHECK(norm(place.at - Point{200 + 100 * std::sin(0.5), -100 + 100 * std::cos(0.5)}) < 1e-9);
  CHECK(norm(place.normal - Point{std::sin(0.5), std::cos(0.5)}) < 1e-9);
  CHECK(stitched("M0 0C100 100 0 100 100 0", 0, right) == exactly(182.842712475));       // a cusp is no matter then
  CHECK(stitched("M0 0 L10 10 V0 L0 10", 0, right) == exactly(10 + 2 * std::sqrt(200))); // nor is a crossing
}

TEST_CASE("a smooth line is shorter by allowance times turn, towards the garment") {
  const char *bend = "M 0 0 h 200 a 100 100 0 0 0 100 -100 v -150";
  CHECK(stitched(bend, 10, left) == exactly(350 + 50 * pi - 5 * pi));
  CHECK(stitched(bend, 10, right) == exactly(350 + 50 * pi + 5 * pi));
  const char *cap = "M 0 0 C 20 -120 90 -160 160 -160 S 300 -120 320 0";
  const double turned = pi - 2 * std::atan2(20, 120);
  CHECK(stitched(cap, 10, right) == exactly(length_of(cap) - 10 * turned));
  CHECK(stitched(cap, 10, left) == exactly(length_of(cap) + 10 * turned));
  // A bend one way and back comes to nothing.
  CHECK(stitched("M0 0 C 40 0 60 50 100 50", 8, left) == exactly(length_of("M0 0 C 40 0 60 50 100 50")));
}

TEST_CASE("places on a line beside lines and circles are exact") {
  // Figures computed by a separate program in another language: a left turn of radius 100, garment left and right.
  const char *path = "M 0 0 h 200 a 100 100 0 0 0 100 -100 v -150";
  const StitchingLine inner = line_of(path, 10, left), outer = line_of(path, 10, right);
  const auto start = inner.place(0);
  CHECK(start.at == Point{0, -10});
  CHECK(start.normal == Point{0, 1});
  CHECK(start.cut == 0);
  const auto bend = inner.place(245.68583470577032);
  CHECK(norm(bend.at - Point{243.74891641655933, -21.34866617547477}) < 1e-9);
  CHECK(norm(bend.normal - Point{0.4860990712951035, 0.8739037091613916}) < 1e-10);
  const auto across = outer.place(261.3937979737193);
  CHECK(norm(across.at - Point{258.25567349091324, -6.692569930792191}) < 1e-9);
  CHECK(norm(across.normal - Point{-0.5295970317355752, -0.8482493642655256}) < 1e-10);
  CHECK(across.cut == exactly(270.81254361247204 - 15));
  const auto end = outer.place(outer.length());
  CHECK(norm(end.at - Point{310, -250}) < 1e-9);
  CHECK(end.cut == exactly(outer.cut_edge()));
}

TEST_CASE("places on a line beside a cubic are exact") {
  // By the same program: a neckline with the garment outside it, and a cap with it inside.
  const StitchingLine neck = line_of("M 0 0 C 0 70 40 110 95 110 S 190 70 190 0", 10, right);
  CHECK(neck.cut_edge() == exactly(327.5168227419037));
  CHECK(neck.length() == exactly(358.9327492778017));
  CHECK(norm(neck.place(0).at - Point{-10, 0}) < 1e-9);
  CHECK(norm(neck.place(89.73318731945042).at - Point{16.114602740633636, 84.04142098821497}) < 1e-8);
  CHECK(neck.place(89.73318731945042).cut == Approx(97.9282596682105 - 15).epsilon(1e-9));
  CHECK(norm(neck.place(179.46637463890085).normal - Point{0, -1}) < 1e-9);
  CHECK(neck.place(269.19956195835123).cut == Approx(259.58856307369377 - 15).epsilon(1e-9));
  const StitchingLine cap = line_of("M 0 0 C 20 -120 90 -160 160 -160 S 300 -120 320 0", 10, right);
  CHECK(cap.length() == exactly(470.1124568839286));
  CHECK(norm(cap.place(0).at - Point{9.863939238321437, 1.643989873053573}) < 1e-9);
  CHECK(norm(cap.place(127.05622844196409).at - Point{61.89838686137368, -111.98720011339311}) < 1e-8);
  CHECK(norm(cap.place(430.1124568839286).normal - Point{0.9550414388926161, -0.29647234272006123}) < 1e-9);
}

TEST_CASE("a ring starts beside the first point drawn") {
  const char *neck = "M 95 0 A 95 95 0 0 1 -95 0 A 95 95 0 0 1 95 0 Z";
  const StitchingLine outer = line_of(neck, 10, other(inside(neck)));
  CHECK(outer.closed());
  CHECK(outer.length() == exactly(210 * pi));
  for (int i = 0; i < 8; ++i) {
    const auto place = outer.place(outer.length() * i / 8);
    const double angle = i * pi / 4;
    CHECK(norm(place.at - Point{105 * std::cos(angle), 105 * std::sin(angle)}) < 1e-9);
    CHECK(norm(place.normal - Point{-std::cos(angle), -std::sin(angle)}) < 1e-9);
    CHECK(place.cut == exactly(95 * angle));
  }
  CHECK(stitched(neck, 10, inside(neck)) == exactly(170 * pi));
  CHECK(stitched("M 95 0 A 95 95 0 0 0 -95 0 A 95 95 0 0 0 95 0 Z", 10, left) == exactly(170 * pi));
  // The same drawn without Z is open, and as long.
  CHECK(stitched("M 95 0 A 95 95 0 0 1 -95 0 A 95 95 0 0 1 95 0", 10, left) == exactly(210 * pi));
}

// "By a Lady", The Workwoman's Guide (London, 1838), Plate 12, figures 30 to 32: holes across and the bands they go
// into, nails of 2 1/4 in.
TEST_CASE("a round hole measures pi times its width across, as for circular sleeves") {
  struct Sleeve {
    double hole, band, fullness;
  };
  for (const Sleeve &sleeve : {Sleeve{3.5, 5.5, 1.9992}, Sleeve{3.25, 5, 2.0420}, Sleeve{3.25, 4.5, 2.2689},
                               Sleeve{2.5, 4, 1.9635}, Sleeve{2, 3.5, 1.7952}, Sleeve{1.75, 3.25, 1.6916}}) {
    const double nail = 57.15, r = sleeve.hole * nail / 2;
    const std::string arc = " A" + pair({r, r}) + " 0 0 1";
    const std::string path = "M" + pair({r, 0}) + arc + pair({-r, 0}) + arc + pair({r, 0}) + " Z";
    const StitchingLine line = line_of(path, 0, left);
    CHECK(line.length() == Approx(pi * sleeve.hole * nail).epsilon(1e-8)); // the path has six decimals
    CHECK(line.length() / (sleeve.band * nail) == Approx(sleeve.fullness).margin(5e-5));
    CHECK(line_of(path, 10, left).length() == Approx(pi * (sleeve.hole * nail + 20)).epsilon(1e-8));
  }
}

TEST_CASE(
    "ellipses: the whole turn is added outside, and taken off inside while the curve is rounder than the allowance") {
  const double a = 300, b = 100;
  gsl_sf_result e;
  REQUIRE(gsl_sf_ellint_Ecomp_e(std::sqrt(1 - b * b / (a * a)), GSL_PREC_DOUBLE, &e) == 0);
  const char *path = "M 300 0 A 300 100 0 0 1 -300 0 A 300 100 0 0 1 300 0 Z";
  CHECK(stitched(path, 25, left) == exactly(4 * a * e.val + 50 * pi));
  CHECK(stitched(path, 33.3, right) == exactly(4 * a * e.val - 66.6 * pi)); // the least radius is b^2 / a = 33.333
  CHECK(stitched("M 0 0 A 300 100 0 0 1 300 100", 10, left) == exactly(a * e.val + 5 * pi));
}

TEST_CASE("an ellipse tighter than the allowance at its ends is trimmed on its axis") {
  // Beside the point at angle t the line is at (a cos t - d b cos t / v, ...), v the speed; it reaches the axis where
  // b sin t = d a sin t / v, v = d a / b.
  const double a = 300, b = 100, d = 60;
  const double v = d * a / b;
  const double s = std::sqrt((v * v - b * b) / (a * a - b * b));
  const double t = std::asin(s);
  const double part = gsl_sf_ellint_E(pi / 2, std::sqrt(1 - b * b / (a * a)), GSL_PREC_DOUBLE) -
                      gsl_sf_ellint_E(pi / 2 - t, std::sqrt(1 - b * b / (a * a)), GSL_PREC_DOUBLE);
  const double length = 4 * (a * gsl_sf_ellint_E(pi / 2, std::sqrt(1 - b * b / (a * a)), GSL_PREC_DOUBLE) - a * part);
  const double turn = 4 * std::atan2(b * std::cos(t), a * s); // of the tangent from t to a right angle
  const char *path = "M 300 0 A 300 100 0 0 1 -300 0 A 300 100 0 0 1 300 0 Z";
  const StitchingLine line = line_of(path, d, right);
  CHECK(line.length() == exactly(length - d * turn));
  // It starts where the ends of the trimmed line meet, and the cut edge goes on from the far side of the fold.
  CHECK(norm(line.place(0).at - Point{a * std::cos(t) - d * b * std::cos(t) / v, 0}) < 1e-8);
  CHECK(line.place(0).cut == exactly(a * part));
  CHECK(line.place(line.length() * 0.25).at.x == Approx(0).margin(1e-8));
  // Begun elsewhere on the ellipse it is the same line.
  CHECK(stitched("M 0 100 A 300 100 0 0 1 -300 0 A 300 100 0 1 1 0 100 Z", d, right) == exactly(line.length()));
}

TEST_CASE("at corners the line is extended on the open side and cut back on the closed one") {
  CHECK(stitched("M0 0H100V100", 10, right) == exactly(180));
  CHECK(stitched("M0 0H100V100", 10, left) == exactly(220));
  // Turning by phi adds or takes off 2 d tan(phi / 2).
  const double reach = 2 * 10 * std::tan(pi / 6);
  CHECK(stitched("M0 0 h 100 l 50 86.60254037844387", 10, left) == exactly(200 + reach));
  CHECK(stitched("M0 0 h 100 l 50 86.60254037844387", 10, right) == exactly(200 - reach));
  const StitchingLine open = line_of("M0 0H100V100", 10, left);
  CHECK(open.place(105).at == Point{105, -10});
  CHECK(open.place(105).normal == Point{0, 1});
  CHECK(open.place(105).cut == exactly(100)); // the corner itself
  CHECK(norm(open.place(115).at - Point{110, -5}) < 1e-12);
  CHECK(open.place(115).cut == exactly(100));
  CHECK(open.place(125).cut == exactly(105));
  const StitchingLine closed = line_of("M0 0H100V100", 10, right);
  CHECK(norm(closed.place(90).at - Point{90, 10}) < 1e-12);
  CHECK(closed.place(90 - 1e-9).cut == Approx(90).margin(1e-6));
  CHECK(closed.place(90 + 1e-9).cut == Approx(110).margin(1e-6));
}

TEST_CASE("corners between curves meet where the two offsets cross") {
  // Two quarter circles of radius 100 about (0, 100) and (200, 100) meet in a point at (100, 100), the garment to the
  // right. The offsets, of radius 110 about the same centres, meet at x = 100.
  const char *path = "M 0 0 A 100 100 0 0 1 100 100 A 100 100 0 0 1 200 0";
  const double angle = std::asin(100.0 / 110);
  CHECK(unresolved_of(path, 10, right).kind == Kind::doubles_back);
  const StitchingLine line = line_of(path, 10, left);
  CHECK(line.length() == exactly(2 * 110 * angle));
  CHECK(norm(line.place(110 * angle).at - Point{100, 100 - 110 * std::cos(angle)}) < 1e-9);
  // An arc meets a line at an angle.
  const char *half = "M 0 0 H 100 A 100 100 0 0 1 200 100";
  CHECK(stitched(half, 10, right) == exactly(100 + 90 * pi / 2));
  const char *arch = "M 0 100 A 100 100 0 0 1 100 0 V 100"; // the arc arrives at a right angle to the line
  const double cut = std::acos(90.0 / 90) + std::asin(10.0 / 90);
  CHECK(stitched(arch, 10, right) == exactly(90 * (pi / 2 - cut) + 100 - (100 - 90 * std::cos(cut))));
}

TEST_CASE("a curve tighter than the allowance leaves the corner its neighbours make") {
  for (const char *path :
       {"M0 0h95a5 5 0 0 1 5 5v95", "M0 0h90a10 10 0 0 1 10 10v90", "M0 0h99.9a.1 .1 0 0 1 .1 .1v99.9",
        "M0 0h95c3 0 5 2 5 5v95", "M0 0h95q5 0 5 5v95", "M0 0h99l1 1v99", "M0 0h95l1 .2 3.8 3.8 .2 1v95"}) {
    CAPTURE(path);
    const StitchingLine line = line_of(path, 10, right);
    CHECK(line.length() == exactly(180));
    CHECK(norm(line.place(90).at - Point{90, 10}) < 1e-9);
    CHECK(line.place(45).cut == exactly(45));
    CHECK(line.place(135).cut == exactly(line.cut_edge() - 45));
  }
  // Hardly rounder, hardly tighter: the arc goes to a point without a jump.
  CHECK(stitched("M0 0h89.9999999a10.0000001 10.0000001 0 0 1 10.0000001 10.0000001v89.9999999", 10, right) ==
        Approx(180).epsilon(1e-8));
  CHECK(stitched("M0 0h90.0000001a9.9999999 9.9999999 0 0 1 9.9999999 9.9999999v90.0000001", 10, right) ==
        Approx(180).epsilon(1e-8));
}

TEST_CASE("a curve tighter than the allowance inside another curve is cut off where the line crosses itself") {
  // A dip of radius 5 between two circles of radius 100, all smooth: symmetrical about x = 0.
  const double lean = 0.6;
  const Point low{5 * std::sin(lean), -5 * std::cos(lean)}; // where the dip, about the origin, goes over
  const Point far = low + 80 * Point{std::cos(lean), std::sin(lean)};
  const std::string path =
      "M" + pair({-far.x, far.y}) + " L" + pair({-low.x, low.y}) + " A 5 5 0 0 1" + pair(low) + " L" + pair(far);
  const double d = 12;
  // The lines' offsets, d from them, meet on x = 0: each loses (d - 5) tan(lean) and the whole arc.
  CHECK(line_of(path, d, right).length() == Approx(2 * (80 - (d - 5) * std::tan(lean))).epsilon(1e-6)); // six decimals
}

TEST_CASE("a jog smaller than the allowance is carried over whole") {
  CHECK(stitched("M0 0H100V3H200", 10, right) == exactly(203));
  CHECK(stitched("M0 0H100V3H200", 10, left) == exactly(203));
  CHECK(stitched("M0 0H100V3H200", 3, left) == exactly(203));
}

TEST_CASE("a slot too narrow for the line is passed over, a wide one followed") {
  CHECK(stitched("M0 0H50V30H65V0H115", 10, left) == exactly(115));
  CHECK(stitched("M0 0H50V30H70.000001V0H115", 10, left) == exactly(175));
  CHECK(stitched("M0 0H50V30H90V0H130", 10, left) == exactly(130 + 60));
  CHECK(stitched("M0 0H50V30H65V0H115", 10, right) == exactly(175));
}

TEST_CASE("closed figures with corners, inside and outside") {
  const char *box = "M0 0H100V50H0Z";
  CHECK(stitched(box, 10, inside(box)) == exactly(220));
  CHECK(stitched(box, 10, other(inside(box))) == exactly(380));
  CHECK(norm(line_of(box, 10, right).place(0).at - Point{10, 10}) < 1e-12);
  CHECK(norm(line_of(box, 10, left).place(0).at - Point{-10, -10}) < 1e-12);
  CHECK(stitched("M50 0H100V50H0V0Z", 10, right) == exactly(220));
  const char *cut_off = "M0 0H99L100 1V50H0Z"; // the corner taken off is less than the allowance
  CHECK(stitched(cut_off, 10, inside(cut_off)) == exactly(220));
  const char *started_there = "M99 0L100 1V50H0V0Z";
  CHECK(stitched(started_there, 10, inside(started_there)) == exactly(220));
  CHECK(norm(line_of(started_there, 10, right).place(0).at - Point{90, 10}) < 1e-9);
}

TEST_CASE("what cannot be resolved is said to be so, and why") {
  CHECK(unresolved_of("M0 0a5 5 0 0 1 10 0", 10, right).kind == Kind::too_tight);
  CHECK(unresolved_of("M0 0H5V100", 10, right).kind == Kind::too_tight);
  CHECK(unresolved_of("M0 0H100V15H0Z", 10, right).kind == Kind::nothing_left);
  CHECK(unresolved_of("M5 0A5 5 0 0 1 -5 0A5 5 0 0 1 5 0Z", 10, right).kind == Kind::nothing_left);
  CHECK(unresolved_of("M0 0C100 100 0 100 100 0", 5, right).kind ==
        Kind::too_tight); // a cusp bends one way on both sides
  CHECK(line_of("M0 0C100 100 0 100 100 0", 5, left).length() <
        160); // between its two sides there is a line, cut short
  CHECK(unresolved_of("M0 0H50H20", 5, right).kind == Kind::doubles_back);
  CHECK(unresolved_of("M0 0 L100 100 V0 L0 100", 5, right).kind == Kind::meets_itself);
  CHECK(unresolved_of("M0 0 L100 100 V0 L0 100", 5, right).along == exactly(std::sqrt(5000)));
  // Two bays with a neck of 10 between them, too narrow for 8 from both sides.
  CHECK(unresolved_of("M0 0H100V45H110V0H210V100H110V55H100V100H0Z", 8, right).kind == Kind::falls_apart);
  CHECK(stitched("M0 0H100V45H110V0H210V100H110V55H100V100H0Z", 4, right) ==
        exactly(length_of("M0 0H100V45H110V0H210V100H110V55H100V100H0Z") - 8 * 4));
  // A hook whose end stands where the line would run.
  CHECK(unresolved_of("M0 0H100V60H50V5", 10, right).kind == Kind::runs_across);
  CHECK(unresolved_of("M50 5V60H100V0H0", 10, left).kind == Kind::runs_across); // the same, from its end
}

TEST_CASE("a control point hardly off an end leaves the places beside that end finite") {
  // The start's own direction is lost to rounding; the line runs beside the curve from its first point on.
  const StitchingLine line = line_of("M1 1e-20Q1 0 0 0", 0.25, left);
  CHECK(line.length() == exactly(1));
  for (const double y : {0.0, 1e-300, 1e-12, 0.5}) {
    const StitchingLine::Place place = line.place(y);
    CHECK(norm(place.at - Point{1 - y, 0.25}) <= 1e-11);
    CHECK(norm(place.normal - Point{0, -1}) <= 1e-9);
  }
}

TEST_CASE("a fold just at an end is cut off on the end's normal") {
  // The control point on the start makes the radius there 0.
  const char *path = "M0 0 C 0 0 50 0 100 100";
  const StitchingLine line = line_of(path, 10, right);
  const auto start = line.place(0);
  CHECK(std::abs(start.at.x) < 1e-9);
  CHECK(start.at.y == Approx(10).margin(0.01));
  CHECK(line.length() == Approx(length_of(path) - 10 * std::atan2(2, 1)).margin(1e-3));
  CHECK(stitched("M100 100 C 50 0 0 0 0 0", 10, left) == exactly(line.length()));
}

TEST_CASE("every place beside a random smooth edge is as far from it as the allowance, and lengths are lengths") {
  std::mt19937_64 random(7);
  std::uniform_real_distribution<double> allowance(3, 25);
  int resolved = 0, trimmed = 0;
  for (int run = 0; run < 60; ++run) {
    const std::string path = text_of(wander(random, 5, run % 2 == 0 ? 25 : 60));
    const double d = allowance(random);
    const Side side = run % 4 < 2 ? left : right;
    CAPTURE(path, d, run);
    const auto outcome = StitchingLine::beside(curve_of(path), d, side);
    const auto *line = tests::value_in(outcome);
    if (!line) continue; // the ends may be too tight
    ++resolved;
    const Curve curve = curve_of(path);
    const double step = 0.05;
    const std::vector<Point> edge = polyline(curve, step);
    const double slack = step * step / d + 1e-9;
    double turned = 0;
    for (const Span &span : measure(curve))
      turned += Shape(curve, span).turn(0, 1);
    const double smooth = line->cut_edge() - d * turned * (side == right ? 1 : -1);
    trimmed += line->length() < smooth - 1e-6;
    const int parts = 300;
    auto before = line->place(0);
    double along = 0;
    for (int i = 1; i <= parts; ++i) {
      const auto place = line->place(line->length() * i / parts);
      const double away = distance_to(edge, place.at);
      CHECK(away > d - 1e-9);
      CHECK(away < d + slack);
      CHECK(norm(place.at - before.at) <= line->length() / parts + 1e-9);
      CHECK(place.cut >= before.cut);
      along += norm(place.at - before.at);
      before = place;
    }
    CHECK(along == Approx(line->length()).epsilon(2e-3)); // chords, and corners between them
  }
  CHECK(resolved >= 45);
  CHECK(trimmed >= 5);
}

TEST_CASE("drawn from the other end, mirrored, moved or enlarged it is the same line") {
  std::mt19937_64 random(11);
  std::uniform_real_distribution<double> allowance(3, 20);
  int resolved = 0;
  for (int run = 0; run < 40; ++run) {
    std::vector<Point> points = wander(random, 4, 40);
    for (Point &point : points)
      point = {std::round(point.x * 1e4) / 1e4, std::round(point.y * 1e4) / 1e4};
    const double d = std::round(allowance(random) * 1e3) / 1e3;
    const auto beside = [&](const std::vector<Point> &drawn, double away, Side side) {
      return StitchingLine::beside(curve_of(text_of(drawn)), away, side);
    };
    const auto changed = [&](auto change) {
      std::vector<Point> result;
      for (const Point &point : points)
        result.push_back(change(point));
      return result;
    };
    const auto outcome = beside(points, d, left);
    const auto turned = beside(std::vector<Point>(points.rbegin(), points.rend()), d, right);
    const auto mirrored = beside(changed([](Point p) { return Point{p.x, -p.y}; }), d, right);
    const auto moved = beside(changed([](Point p) { return p + Point{500, -300}; }), d, left);
    const auto enlarged = beside(changed([](Point p) { return 4.0 * p; }), 4 * d, left);
    CAPTURE(text_of(points), d);
    CHECK(static_cast<bool>(outcome) == static_cast<bool>(turned));
    CHECK(static_cast<bool>(outcome) == static_cast<bool>(mirrored));
    CHECK(static_cast<bool>(outcome) == static_cast<bool>(moved));
    CHECK(static_cast<bool>(outcome) == static_cast<bool>(enlarged));
    if (!outcome) continue;
    ++resolved;
    const auto &line = *outcome;
    const auto &back = *turned, &mirror = *mirrored;
    const auto &away = *moved, &large = *enlarged;
    CHECK(back.length() == exactly(line.length()));
    CHECK(mirror.length() == exactly(line.length()));
    CHECK(away.length() == exactly(line.length()));
    CHECK(large.length() == exactly(4 * line.length()));
    for (const double part : {0.0, 0.21, 0.5, 0.83, 1.0}) {
      const double y = part * line.length();
      const auto place = line.place(y), from_end = back.place(back.length() - y), reflected = mirror.place(y);
      CHECK(norm(place.at - from_end.at) < 1e-7);
      CHECK(place.cut == Approx(line.cut_edge() - from_end.cut).margin(1e-6));
      CHECK(norm(place.normal - from_end.normal) < 1e-7);
      CHECK(norm(place.at - Point{reflected.at.x, -reflected.at.y}) < 1e-7);
      CHECK(norm(place.at - (away.place(y).at - Point{500, -300})) < 1e-7);
      CHECK(norm(4.0 * place.at - large.place(4 * y).at) < 1e-6);
    }
  }
  CHECK(resolved >= 30);
}

TEST_CASE("runs cover a part of the line end to end") {
  const StitchingLine line = line_of("M0 0H100V40C100 80 140 80 180 80", 10, left);
  const double from = 30, to = line.length() - 20;
  double at = from;
  for (const auto &run : line.runs(from, to)) {
    CHECK(run.start == exactly(at));
    if (run.from != run.to) CHECK(run.moved.length(run.from, run.to) == exactly(run.length));
    at += run.length;
  }
  CHECK(at == exactly(to));
}

TEST_CASE("an arc as round as the allowance leaves a point, which is no line") {
  CHECK(unresolved_of("M0 0a1 1 0 01.1.5", 1, right).kind == Kind::nothing_left);
}

TEST_CASE("curves that lie along each other are given up, not followed to the last digit") {
  const auto outcome = StitchingLine::beside(curve_of("M0 0C0 0 0 50 0 10801 0 50 0 108,01 0"), 16, right);
  CHECK_FALSE(outcome);
  std::string path = "M0 0";
  for (int i = 0; i < 40; ++i)
    path += "c30 40 60 40 90 .001c-30 40-60 40-90 0";
  CHECK_FALSE(StitchingLine::beside(curve_of(path), 1, right));
}

TEST_CASE("many small teeth are followed, and a scribble is given up") {
  std::string zigzag = "M0 0";
  for (int i = 0; i < 20000; ++i)
    zigzag += i % 2 == 0 ? "l5 9" : "l5-9";
  CHECK(line_of(zigzag, 1, left).length() == Approx(length_of(zigzag)).epsilon(1e-3));
  const auto far = StitchingLine::beside(curve_of(zigzag), 2000, left);
  CHECK((far || far.fault().kind == Unresolved::Kind::too_tangled)); // either way, and soon
  std::string scribble = "M0 0";
  std::mt19937_64 random(3);
  for (int i = 0; i < 20000; ++i)
    scribble += " " + std::to_string(random() % 1000) + " " + std::to_string(random() % 1000);
  CHECK(unresolved_of(scribble, 1, left).kind == Kind::meets_itself);
}
