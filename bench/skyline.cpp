// SPDX-License-Identifier: GPL-3.0-or-later
#include "bench/skyline.hpp"

#include "bench/measured.hpp"

#include <algorithm>
#include <cmath>
#include <random>

#ifdef WITH_STB
#define STB_RECT_PACK_IMPLEMENTATION
#define STBRP_STATIC
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wunused-function"
#include <stb/stb_rect_pack.h>
#pragma GCC diagnostic pop
#endif

namespace gatherwright::bench {

Skyline::Skyline(const layout::Problem &problem) : width_(static_cast<int>(problem.width)) {
  for (const layout::Rectangle &rectangle : problem.rectangles)
    for (int copy = 0; copy < rectangle.count; ++copy)
      pieces_.push_back({static_cast<int>(rectangle.across), static_cast<int>(rectangle.along), 0, 0});
  std::stable_sort(pieces_.begin(), pieces_.end(), [](const Piece &a, const Piece &b) { return a.along > b.along; });
}

void Skyline::hold_right() const {
  for (const Piece &a : packed_) {
    hold(a.at_across >= 0 && a.at_across + a.across <= width_, "the skyline leaves the strip");
    for (const Piece &b : packed_)
      hold(&a == &b || a.at_across >= b.at_across + b.across || b.at_across >= a.at_across + a.across ||
               a.at_along >= b.at_along + b.along || b.at_along >= a.at_along + a.along,
           "the skyline's rectangles overlap");
  }
}

#ifdef WITH_STB

bool Skyline::present() {
  return true;
}

namespace {

/// The library sorts what it is given by height, which is not what is wanted of an order by chance: so one rectangle
/// after another is put to it.
struct Packing {
  stbrp_context context;
  std::vector<stbrp_node> nodes;

  Packing(int width, int length) : context(), nodes(static_cast<std::size_t>(width)) {
    stbrp_init_target(&context, width, length, nodes.data(), width);
  }
};

} // namespace

double Skyline::pack(std::uint32_t seed) {
  packed_ = pieces_;
  if (seed > 0) {
    std::mt19937 random(seed);
    for (std::size_t i = packed_.size(); i-- > 1;)
      std::swap(packed_[i], packed_[random() % (i + 1)]);
  }
  int all = 0;
  for (const Piece &piece : packed_)
    all += piece.along;
  Packing packing(width_, all);
  int length = 0;
  for (Piece &piece : packed_) {
    stbrp_rect rect{};
    rect.w = piece.across;
    rect.h = piece.along;
    hold(stbrp_pack_rects(&packing.context, &rect, 1) != 0, "the skyline has no place for all");
    piece.at_across = rect.x;
    piece.at_along = rect.y;
    length = std::max(length, rect.y + rect.h);
  }
  return length;
}

#else

bool Skyline::present() {
  return false;
}

double Skyline::pack(std::uint32_t) {
  return HUGE_VAL;
}

#endif

} // namespace gatherwright::bench
