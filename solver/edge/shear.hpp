// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/edge/stitching.hpp"

#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <vector>

/// How readily cloth shears along an edge.
namespace gatherwright::edge {

/// |sin 2 theta| along a stretch of an edge, theta being the angle from the warp to the edge: a small shear of a woven
/// cloth, threads keeping their length, strains a direction in proportion to it. 0 along warp and weft, 1 on the true
/// bias. Polynomials of degree 7 in z, which runs from -1 to 1 over a piece; within a piece the shear rises, falls or
/// stays.
struct Shear {
  struct Piece {
    double start = 0; ///< along the stretch
    double length = 0;
    std::array<double, 8> coefficients{}; ///< constant first
  };
  std::vector<Piece> pieces; ///< from 0 to `length` without a gap
  double length = 0;
};

/// Within this of the function it stands for, unless the curve is so sharp that its own rounding is coarser.
inline constexpr double shear_error = 1e-10;

/// Shear below this is none: a grain given in degrees comes out parallel to an edge only within rounding.
inline constexpr double no_shear = 1e-9;

/// The direction of a warp that runs `degrees` anticlockwise of the x axis as seen on the page; exact at quarter turns.
Point warp_direction(double degrees);

/// The polynomials of a line's curved runs, which take by far the longest to find, kept for those who ask for its shear
/// again and again. Holds nothing that asking alters.
class ShearTable {
public:
  /// Nothing where it would take more than so many pieces.
  static std::optional<ShearTable> of(const StitchingLine &line, Point warp, std::size_t most_pieces);

  struct Piece {
    double length = 0;
    std::array<double, 8> coefficients{};
  };

  std::size_t size() const { return pieces_.size(); }

  /// Of the whole curved part of a stretch, which must have one.
  std::span<const Piece> of_stretch(std::size_t stretch) const;

  /// Whether one run between two lengths along the line shears so much that their mean is above `no_shear` for certain.
  bool surely_shears(double from, double to) const;

private:
  std::vector<Piece> pieces_;
  std::vector<std::size_t> ends_; ///< of each stretch's pieces
  double surest_from_ = 0;        ///< the run with the greatest integral, along the line
  double surest_to_ = 0;
  double surest_ = 0;
};

/// The shear between two lengths along the stitching line, 0 <= from < to <= its length, counted from `from`. The
/// table, if there is one, must be of the same line and warp; the shear is the same to the bit without it.
Shear shear_along(const StitchingLine &line, double from, double to, Point warp, const ShearTable *table = nullptr);

/// At y along the stretch, 0 <= y <= length; of two pieces that meet there, that of the second.
double value(const Shear &shear, double y);
double value(const Shear::Piece &piece, double y);

/// Integrals over part of the stretch, exact for the polynomials.
double integral(const Shear &shear, double from, double to);
double integral(const Shear::Piece &piece, double from, double to);

/// The mean over the whole stretch, 0 to 1.
double mean(const Shear &shear);

} // namespace gatherwright::edge
