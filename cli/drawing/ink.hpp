// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/drawing/drawing.hpp"

#include <cstdint>

/// How tones and dashes look on white paper, in PDF and SVG alike.
namespace gatherwright::paper {

struct Colour {
  std::uint8_t red = 0;
  std::uint8_t green = 0;
  std::uint8_t blue = 0;
};

constexpr Colour colour_of(Tone tone) {
  switch (tone) {
  case Tone::none:
  case Tone::paper:
    return {255, 255, 255};
  case Tone::pale:
    return {228, 228, 224};
  case Tone::soft:
    return {104, 104, 100};
  case Tone::accent:
    return {20, 84, 104};
  case Tone::alarm:
    return {150, 36, 20};
  case Tone::ink:
    break;
  }
  return {0, 0, 0};
}

/// Of a dashed line, millimetres drawn and left out.
inline constexpr double dash_on = 1.8;
inline constexpr double dash_off = 1.2;

} // namespace gatherwright::paper
