// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/edge/shear.hpp"

#include <cstddef>
#include <span>
#include <vector>

namespace gatherwright::spread {

struct Slope;

/// The spread of one segment in proportion to how readily its long edge shears. Of each length dy of the long edge a
/// part c(y) = min(mu * shear(y), 1 - 1/cap) is taken up, so that dx = (1 - c) dy of band is left; mu is such that the
/// whole long edge comes to the band. Our model: a small shear strains a direction in proportion to |sin 2 theta|.
///
/// 1. map(0) = 0, map(band) = long_length; the map rises strictly.
/// 2. 1 <= r = 1 / (1 - c) <= cap; cap is `most`, or `packed` where past_most() says so. A cap holds within 1e-9 of
/// itself.
/// 3. Under the band's length, or above packed times it, or where nothing shears: r = long / band throughout.
/// 4. If the stretches that shear cannot take up the extra even at packed, they are at packed, and those that do not
/// take
///    what is left, evenly.
class GrainSpread {
public:
  /// Of a long edge of `shear.length` > 0 onto `band` > 0, millimetres; 1 <= most <= packed.
  GrainSpread(edge::Shear shear, double band, double most, double packed);

  double band() const { return band_; }
  double long_length() const { return shear_.length; }

  /// Place on the long edge of band coordinate x, 0 <= x <= band; millimetres from the segment's start.
  double map(double x) const;

  /// Places of many stations, rising; y at least as many as x.
  void map(std::span<const double> x, std::span<double> y) const;

  /// Place on the band of a place on the long edge, 0 <= y <= long_length: the inverse of `map`.
  double band_at(double y) const;

  /// Local fullness at x (from the left at a knot).
  double fullness(double x) const;

  double fullest() const { return fullest_; }   ///< greatest local fullness where the edge shears
  double slackest() const { return slackest_; } ///< infimum of it there: 1 where the shear falls to 0

  /// The cap bites somewhere: the spread is levelled there.
  bool capped() const { return capped_; }

  /// As for other spreads: capped at packed instead of at most, or past packed altogether.
  bool past_most() const { return past_most_; }

  /// Where the map changes its form, along the band from 0 to band.
  std::span<const double> knots() const { return knots_; }

private:
  /// From one knot to the next: a constant take-up, or mu times the shear of a piece.
  struct Part {
    double start = 0; ///< on the long edge
    double even = 0;  ///< take-up, where `shearing` is false
    bool shearing = false;
    std::size_t piece = 0;
  };

  void share(double extra, double most, double packed);
  void level();
  void lay_out(std::span<const Slope> slopes, double mu, double cap, double fill);
  void append(const Part &part);
  void close();
  double taken(std::size_t part, double from, double to) const;
  double take_up(std::size_t part, double y) const;
  std::size_t part_at(double x) const;
  double place(std::size_t part, double x) const;
  double end_of(std::size_t part) const { return part + 1 < parts_.size() ? parts_[part + 1].start : shear_.length; }

  edge::Shear shear_;
  double band_;
  double mu_ = 0;
  std::vector<Part> parts_;
  std::vector<double> knots_; ///< parts + 1
  double fullest_ = 1;
  double slackest_ = 1;
  bool capped_ = false;
  bool past_most_ = false;
};

/// Whether any of the edge shears at all; where none does, a spread by grain means nothing.
bool shears(const edge::Shear &shear);

} // namespace gatherwright::spread
