// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/spread/spread.hpp"

#include <catch2/catch.hpp>

#include <gsl/gsl_integration.h>
#include <gsl/gsl_interp.h>

#include <algorithm>
#include <memory>
#include <random>
#include <vector>

using namespace gatherwright::spread;
using Points = std::vector<std::array<double, 2>>;

namespace {

/// GSL's own Steffen interpolation through the points, over [0, band].
class Peer {
public:
  Peer(const Points &points, double band) : interpolation_(gsl_interp_alloc(gsl_interp_steffen, points.size())) {
    for (const auto &[fraction, wish] : points) {
      x_.push_back(fraction * band);
      w_.push_back(wish);
    }
    gsl_interp_init(interpolation_.get(), x_.data(), w_.data(), x_.size());
  }

  double wish(double x) const { return gsl_interp_eval(interpolation_.get(), x_.data(), w_.data(), x, nullptr); }
  double area(double to) const {
    return gsl_interp_eval_integ(interpolation_.get(), x_.data(), w_.data(), 0, to, nullptr);
  }

private:
  struct Free {
    void operator()(gsl_interp *interpolation) const { gsl_interp_free(interpolation); }
  };
  std::vector<double> x_;
  std::vector<double> w_;
  std::unique_ptr<gsl_interp, Free> interpolation_;
};

/// The integral of the spread's local fullness from 0 to x, by quadrature that knows nothing of its pieces.
double quadrature(const Spread &spread, double x) {
  gsl_integration_cquad_workspace *workspace = gsl_integration_cquad_workspace_alloc(200);
  gsl_function fullness{[](double at, void *of) { return static_cast<const Spread *>(of)->fullness(at); },
                        const_cast<Spread *>(&spread)};
  double result = 0;
  gsl_integration_cquad(&fullness, 0, x, 0, 1e-10, workspace, &result, nullptr, nullptr);
  gsl_integration_cquad_workspace_free(workspace);
  return result;
}

Points random_points(std::mt19937_64 &random) {
  std::uniform_real_distribution<double> any(0, 1);
  Points points(3 + random() % 6);
  double fraction = 0;
  for (auto &point : points) {
    point = {fraction, any(random) < 0.2 ? 0 : 3 * any(random)};
    fraction += 0.05 + any(random);
  }
  for (auto &point : points)
    point[0] /= points.back()[0] == 1 ? 1 : fraction;
  points.back()[0] = 1;
  if (std::all_of(points.begin(), points.end(), [](const auto &point) { return point[1] == 0; })) points[0][1] = 1;
  return points;
}

} // namespace

TEST_CASE("a shape is Steffen's curve as GSL has it") {
  std::mt19937_64 random(31);
  for (int round = 0; round < 500; ++round) {
    const Points points = random_points(random);
    const double band = 180;
    const double extra = 200;
    const Peer peer(points, band);
    const Spread spread(shape(band, points), band + extra, band, 1e6, 1e6);
    const double lambda = extra / peer.area(band);
    for (int i = 0; i <= 60; ++i) {
      const double x = band * i / 60;
      REQUIRE(spread.fullness(x) == Approx(1 + lambda * peer.wish(x)).epsilon(1e-11));
      if (x > 0) REQUIRE(spread.map(x) == Approx(x + lambda * peer.area(x)).epsilon(1e-12));
    }
  }
}

TEST_CASE("the map is the integral of the fullness, capped or not") {
  std::mt19937_64 random(32);
  int capped = 0;
  for (int round = 0; round < 60; ++round) {
    const double band = 180;
    const Spread spread(shape(band, random_points(random)), 180 + 3.0 * round, band, 2.2, 2.6);
    capped += spread.capped();
    for (const double part : {0.17, 0.5, 0.83, 1.0}) {
      // The quadrature is asked for 1e-10.
      REQUIRE(spread.map(part * band) == Approx(quadrature(spread, part * band)).epsilon(1e-9));
    }
  }
  CHECK(capped > 10);
}
