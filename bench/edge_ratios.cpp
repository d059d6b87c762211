// SPDX-License-Identifier: GPL-3.0-or-later
#include "bench/edge_ratios.hpp"

#include "bench/measured.hpp"
#include "solver/edge/path.hpp"
#include "solver/edge/stitching.hpp"

#include <array>
#include <cmath>
#include <gsl/gsl_integration.h>
#include <malloc.h>
#include <memory>
#include <string>
#include <variant>
#include <vector>

namespace gatherwright::bench {

namespace {

using edge::Curve;
using edge::Point;

/// A line that waves along, a cubic to each half wave.
std::string waves(int pieces) {
  std::string path = "M0 0";
  for (int i = 0; i < pieces; ++i)
    path += i % 2 ? "c2-1 4-1 6 0" : "c2 1 4 1 6 0";
  return path;
}

/// Half a wave of a line that waves along, from Simpson's rule: independent of what is measured.
double half_wave() {
  const auto speed = [](double t) {
    const double x = 3 * ((1 - t) * (1 - t) * 2 + 2 * (1 - t) * t * 2 + t * t * 2);
    const double y = 3 * ((1 - t) * (1 - t) - t * t);
    return std::hypot(x, y);
  };
  constexpr int parts = 4096;
  double sum = speed(0) + speed(1);
  for (int i = 1; i < parts; ++i)
    sum += (i % 2 ? 4 : 2) * speed(static_cast<double>(i) / parts);
  return sum / (3 * parts);
}

/// Reads a path, measures it and moves it by an allowance.
double measured_length(const std::string &path) {
  auto read = edge::read_path(path);
  hold(static_cast<bool>(read), "the path does not read");
  const auto line = edge::StitchingLine::beside(*std::move(read), 0.5, edge::Side::right);
  hold(static_cast<bool>(line), "the path has no stitching line");
  return line->cut_edge();
}

double time_a_piece(int pieces, int rounds) {
  const std::string path = waves(pieces);
  const double expected = pieces * half_wave();
  double best = HUGE_VAL;
  double length = 0;
  for (int i = 0; i < rounds; ++i)
    best = std::min(best, once([&] { length = measured_length(path); }));
  hold(std::abs(length - expected) <= 1e-9 * expected, "the path is not measured to 1e-9");
  return best / pieces;
}

/// A sleeve head: hollow at the underarm, round at the crown; millimetres.
constexpr std::array head_points{Point{0, 150},   Point{18, 148},  Point{34, 138},  Point{48, 122},  Point{60, 108},
                                 Point{70, 88},   Point{82, 66},   Point{92, 47},   Point{108, 29},  Point{128, 17},
                                 Point{144, 8},   Point{160, 2},   Point{178, 0},   Point{197, -2},  Point{216, 4},
                                 Point{233, 14},  Point{252, 25},  Point{267, 43},  Point{279, 62},  Point{291, 82},
                                 Point{303, 104}, Point{316, 121}, Point{330, 138}, Point{345, 147}, Point{360, 150}};

Curve sleeve_head() {
  Curve curve;
  curve.points.push_back(head_points[0]);
  for (std::size_t i = 1; i + 2 < head_points.size(); i += 3)
    edge::add_cubic(curve, head_points[i], head_points[i + 1], head_points[i + 2]);
  return curve;
}

/// Speed of one cubic of the head, as GSL takes a function.
double speed_of(double t, void *cubic) {
  const Point *p = static_cast<const Point *>(cubic);
  const double s = 1 - t;
  const Point velocity = 3 * (s * s * (p[1] - p[0]) + 2 * s * t * (p[2] - p[1]) + t * t * (p[3] - p[2]));
  return norm(velocity);
}

using Workspace = std::unique_ptr<gsl_integration_workspace, decltype(&gsl_integration_workspace_free)>;

double quadrature_length(gsl_integration_workspace *workspace, int rule) {
  double whole = 0;
  for (std::size_t i = 0; i + 3 < head_points.size(); i += 3) {
    gsl_function speed{&speed_of, const_cast<Point *>(&head_points[i])};
    double length = 0;
    double error = 0;
    gsl_integration_qag(&speed, 0, 1, 0, 1e-9, 1000, rule, workspace, &length, &error);
    whole += length;
  }
  return whole;
}

/// Of GSL's rules, the one that is done first.
int fastest_rule(gsl_integration_workspace *workspace) {
  int fastest = GSL_INTEG_GAUSS15;
  double best = HUGE_VAL;
  for (const int rule : {GSL_INTEG_GAUSS15, GSL_INTEG_GAUSS21, GSL_INTEG_GAUSS31, GSL_INTEG_GAUSS41, GSL_INTEG_GAUSS51,
                         GSL_INTEG_GAUSS61})
    for (int i = 0; i < 200; ++i)
      if (const double time = once([&] { quadrature_length(workspace, rule); }); time < best) {
        best = time;
        fastest = rule;
      }
  return fastest;
}

constexpr double allowance = 10;

/// Where the nine marks of a head lie, along the stitching line; they are summed so that nothing is left out.
double marked(const edge::StitchingLine &line) {
  constexpr int parts = 8;
  double sum = 0;
  for (int i = 0; i <= parts; ++i) {
    const edge::StitchingLine::Place place = line.place(line.length() * i / parts);
    sum += place.at.x + place.at.y + place.normal.x + place.cut;
  }
  return sum;
}

} // namespace

void path_growth() {
  // Memory is kept from round to round at both sizes, as it is by itself at the lesser: the first touch of a page is
  // the system's work.
  mallopt(M_MMAP_MAX, 0);
  mallopt(M_TRIM_THRESHOLD, 1 << 30);
  const double few = time_a_piece(1'000, 300);
  say("path_growth", time_a_piece(1'000'000, 5) / few);
}

void head_vs_quadrature() {
  const Curve head = sleeve_head();
  const Workspace workspace(gsl_integration_workspace_alloc(1000), &gsl_integration_workspace_free);
  const int rule = fastest_rule(workspace.get());
  double length = 0;
  double sum = 0;
  const auto [ours, theirs] = in_turn(
      2000,
      [&] {
        auto line = edge::StitchingLine::beside(head, allowance, edge::Side::right);
        hold(static_cast<bool>(line), "the head has no stitching line");
        sum += marked(*line);
        length = line->cut_edge();
      },
      [&] { sum += quadrature_length(workspace.get(), rule); });
  hold(std::isfinite(sum), "the marks are not numbers");
  hold(std::abs(length - quadrature_length(workspace.get(), rule)) <= 1e-9 * length, "the lengths differ");
  say("head_vs_quadrature", ours / theirs);
}

} // namespace gatherwright::bench
