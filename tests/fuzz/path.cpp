// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/edge/path.hpp"
#include "solver/edge/drawn.hpp"
#include "solver/spread/grain.hpp"

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <optional>
#include <string_view>
#include <variant>

// Path data read, measured, offset, marked and spread along by grain. The first three bytes choose the allowance, the
// side and the grain; the rest is the path. Whatever is drawn has finite lengths and places, and its cut edge is never
// read backwards.

namespace {

using namespace gatherwright;

void hold(bool promise) {
  if (!promise) std::abort();
}

void check_places(const edge::DrawnLine &line) {
  const double length = line.stitching();
  hold(std::isfinite(length) && length > 0 && std::isfinite(line.cut_edge()) && line.cut_edge() > 0);
  const double slack = 1e-6 * (line.cut_edge() + 1);
  double cut = 0;
  for (int i = 0; i <= 16; ++i) {
    const auto place = line.place(length * i / 16);
    hold(std::isfinite(place.at[0]) && std::isfinite(place.at[1]) && std::isfinite(place.cut));
    hold(place.cut >= cut - slack && place.cut <= line.cut_edge() + slack);
    if (place.normal) hold(std::abs(std::hypot((*place.normal)[0], (*place.normal)[1]) - 1) < 1e-9);
    cut = place.cut;
  }
}

void check_spreads(const edge::DrawnLine &line) {
  const edge::Shear shear = line.shear(0, line.stitching());
  hold(std::abs(shear.length - line.stitching()) <= 1e-9 * line.stitching());
  const double bias = edge::mean(shear);
  hold(bias >= 0 && bias <= 1 + 1e-9);
  for (const double fullness : {1.03, 1.9, 4.0}) {
    const double band = shear.length / fullness;
    const spread::GrainSpread by_grain(shear, band, 2, 3);
    double before = 0;
    for (int i = 1; i <= 8; ++i) {
      const double y = by_grain.map(band * i / 8);
      hold(y >= before && std::isfinite(y));
      before = y;
    }
    hold(std::abs(before - shear.length) <= 1e-9 * shear.length);
  }
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size) {
  if (size < 3) return 0;
  const std::string_view text(reinterpret_cast<const char *>(data) + 3, size - 3);
  const edge::PathOutcome read = edge::read_path(text);
  if (!read) {
    hold(read.fault().offset <= text.size() && !read.fault().fault.what.empty());
    return 0;
  }
  edge::Drawing drawing;
  drawing.path = text;
  drawing.allowance = data[0] == 0 ? 0 : std::ldexp(1 + (data[0] & 15) / 16.0, (data[0] >> 4) - 4);
  drawing.garment = static_cast<Garment>(data[1] & 3);
  drawing.grain = data[2] * (360.0 / 256);
  const auto line = edge::DrawnLine::draw(drawing);
  if (!line) return 0;
  check_places(*line);
  check_spreads(*line);
  return 0;
}
