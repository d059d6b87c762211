// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/picture/stretch_pattern.hpp"

#include <algorithm>

namespace gatherwright::paper {

namespace {

constexpr double pen = 0.2;

/// One line that goes along the seam and up and back at every stroke, leaning by `lean` at the top.
Line comb(const ClothStrip &strip, double apart, double share, double lean) {
  Line line{.points = {{strip.left, strip.seam}}, .pen = pen, .tone = Tone::soft};
  const double top = strip.seam - share * (strip.seam - strip.top);
  for (double x = strip.left + apart / 2; x + std::max(0.0, lean) < strip.right; x += apart) {
    line.points.push_back({x, strip.seam});
    line.points.push_back({x + lean, top});
    line.points.push_back({x, strip.seam});
  }
  line.points.push_back({strip.right, strip.seam});
  return line;
}

Line zigzag(const ClothStrip &strip, double pitch) {
  Line line{.points = {}, .pen = pen, .tone = Tone::soft};
  for (int n = 0; strip.left + n * pitch / 2 < strip.right; ++n)
    line.points.push_back({strip.left + n * pitch / 2, n % 2 == 0 ? strip.seam : strip.top});
  return line;
}

Line across(const ClothStrip &strip, double share, double width, bool dashed) {
  const double y = strip.seam - share * (strip.seam - strip.top);
  Line line = segment({strip.left, y}, {strip.right, y}, width, Tone::soft);
  line.dashed = dashed;
  return line;
}

} // namespace

std::vector<Item> stretch_pattern(Kind kind, const ClothStrip &strip) {
  if (!(strip.right - strip.left > 0.1)) return {};
  switch (kind) {
  case Kind::gather:
    return {{comb(strip, 1.3, 0.7, 0)}};
  case Kind::gauge:
    return {{zigzag(strip, 2)}};
  case Kind::draw:
    return {{across(strip, 0.25, pen, false)}, {across(strip, 0.5, 0.5, true)}, {across(strip, 0.75, pen, false)}};
  case Kind::ease:
    return {{comb(strip, 3.5, 0.6, 2)}};
  case Kind::flat:
    break;
  }
  return {};
}

} // namespace gatherwright::paper
