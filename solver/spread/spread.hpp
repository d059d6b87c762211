// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <cstddef>
#include <span>
#include <vector>

/// Fullness along one segment and the exact map from band to long edge.
namespace gatherwright::spread {

/// Polynomial of degree <= 3 in the fraction u, 0 to 1, of the piece it belongs to; constant first.
using Cubic = std::array<double, 4>;

/// The wanted relative extra w over the band [0, band]. Only its proportions count, so the greatest is 1 (or all is 0).
/// On each piece w is monotone and 0 <= w <= 1; from piece to piece it may jump.
struct Wish {
  std::vector<double> knots; ///< millimetres of band, rising from 0 to `band`; pieces + 1 of them
  std::vector<Cubic> pieces; ///< w on each piece, in the fraction of that piece: free of units, so of scale
};

Wish even(double band);

/// Rises linearly from 0 over `rise`, falls to 0 over `fall` millimetres of band; rise + fall <= band must hold.
Wish fade(double band, double rise, double fall);

/// Steffen's monotone cubic (Astron. Astrophys. 239, 443, 1990) through points [fraction, w]; end slopes the secant;
/// two points: a line. Fractions strictly rise from 0 to 1, w >= 0 and finite.
Wish shape(double band, std::span<const std::array<double, 2>> points);

/// The spread of one segment: r(x) = 1 + min(lambda w(x), cap - 1), lambda such that the integral over the band is the
/// long length.
///
/// 1. map(0) = 0, map(band) = long_length; the map rises strictly wherever the long length is above 0.
/// 2. 1 <= r <= cap; cap is `most`, or `packed` where past_most() says so. A cap holds within 1e-9 of itself.
/// 3. Under the band's length, above packed times it, or where w is the same everywhere: r = long / band throughout.
/// 4. If the stretches with w > 0 cannot hold the extra even at packed, they are at packed, and those with w = 0 take
///    what is left, evenly.
class Spread {
public:
  /// Lengths in millimetres, long_length >= 0, band > 0, equal to the wish's own; 1 <= most <= packed.
  Spread(const Wish &wish, double long_length, double band, double most, double packed);

  double band() const { return knots_.back(); }
  double long_length() const { return long_length_; }

  /// Place on the long edge of band coordinate x, 0 <= x <= band; millimetres from the segment's start.
  double map(double x) const;

  /// Places of many stations, rising; y at least as many as x. One walk along the band: O(stations + pieces).
  void map(std::span<const double> x, std::span<double> y) const;

  /// Local fullness at x (from the left at a knot).
  double fullness(double x) const;

  double fullest() const { return fullest_; }   ///< greatest local fullness where w > 0
  double slackest() const { return slackest_; } ///< infimum of the local fullness where w > 0: 1 where w falls to 0

  /// The cap bites somewhere: the wish is levelled there.
  bool capped() const { return capped_; }

  /// Capped at packed instead of at most, whether or not that bites: the mean passes most, or w is 0 over so much that
  /// the rest cannot hold the extra under most; or past packed altogether. Not where there is less cloth than band.
  bool past_most() const { return past_most_; }

  /// Where the map changes its polynomial, from 0 to band.
  std::span<const double> knots() const { return knots_; }

private:
  struct Piece {
    double start;   ///< place on the long edge of its left knot
    Cubic fullness; ///< r in the fraction of the piece
  };

  void share(const Wish &wish, double extra, double most, double packed);
  void level(double band);
  void build(const Wish &wish, double lambda, double cap, double fill);
  void append(double end, const Cubic &fullness);
  void close();
  std::size_t piece_at(double x) const;
  double place(std::size_t piece, double x) const;

  std::vector<double> knots_;
  std::vector<Piece> pieces_;
  double long_length_ = 0;
  double correction_ = 1; ///< takes the rounding of the total out of the map; 1 within 1e-11
  double fullest_ = 1;
  double slackest_ = 1;
  bool capped_ = false;
  bool past_most_ = false;
};

/// The same fullness all along a segment, for which nothing need be wished: what Spread makes of an even wish, to the
/// bit.
class Level {
public:
  /// As of a Spread.
  Level(double long_length, double band, double most);

  double map(double x) const;
  void map(std::span<const double> x, std::span<double> y) const;

  double fullest() const { return fullness_; }
  double slackest() const { return fullness_; }
  bool capped() const { return false; }
  bool past_most() const { return past_most_; }
  std::span<const double> knots() const { return knots_; }

private:
  std::array<double, 2> knots_; ///< 0 and the band
  double long_length_;
  double fullness_;
  double correction_; ///< takes the rounding of the total out of the map
  bool past_most_;
};

} // namespace gatherwright::spread
