// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "edge/stitching.hpp"

#include <array>
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

/// The shear between two lengths along the stitching line, 0 <= from < to <= its length, counted from `from`.
Shear shear_along(const StitchingLine &line, double from, double to, Point warp);

/// At y along the stretch, 0 <= y <= length; of two pieces that meet there, that of the second.
double value(const Shear &shear, double y);
double value(const Shear::Piece &piece, double y);

/// Integrals over part of the stretch, exact for the polynomials.
double integral(const Shear &shear, double from, double to);
double integral(const Shear::Piece &piece, double from, double to);

/// The mean over the whole stretch, 0 to 1.
double mean(const Shear &shear);

} // namespace gatherwright::edge
