// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/garment.hpp"
#include "gatherwright/outcome.hpp"
#include "solver/edge/path.hpp"
#include "solver/edge/shear.hpp"
#include "solver/edge/stitching.hpp"
#include "solver/edge/trim.hpp"

#include <array>
#include <cstddef>
#include <memory>
#include <optional>
#include <string_view>
#include <variant>
#include <vector>

/// An edge drawn as path data, in millimetres.
namespace gatherwright::edge {

struct Drawing {
  std::string_view path;          ///< along the cut edge
  double unit = 1;                ///< millimetres in one unit of the path; above 0
  double allowance = 0;           ///< millimetres from the cut edge to the stitching line; at least 0
  std::optional<Garment> garment; ///< wanted where there is an allowance
  double grain = 90;              ///< of the warp, degrees anticlockwise from +x as seen on the page
  std::optional<std::array<double, 2>> part = std::nullopt; ///< millimetres along the stitching line; none: all of it
  std::size_t pieces_before = 0; ///< lines and curves of the job's other drawn edges, of `most_drawn_pieces` in all
};

inline constexpr std::size_t most_drawn_pieces = 300'000;

/// What a drawing may be that is no edge, beside a path that goes wrong and a stitching line that there is not.
enum class Misdrawn {
  too_many_pieces,     ///< more than `most_drawn_pieces` with those before
  no_garment,          ///< an allowance, and no side for the garment
  no_inside,           ///< the garment inside or outside, of an open path
  encloses_nothing,    ///< likewise, of a path that has no inside
  allowance_too_large, ///< beyond any edge
};

/// The part asked for does not rise, or ends beyond the stitching line, whose length this is.
struct PartBeyond {
  double stitching = 0;
};
using Undrawn = std::variant<PathFault, Misdrawn, Unresolved, PartBeyond>;

/// A cut edge and its stitching line, or a part of both. Lengths are millimetres; places on the page are in the path's
/// unit.
class DrawnLine {
public:
  /// Faults: a path that is wrong (the byte named) or too long, no side for the garment where one is wanted or one that
  /// the path does not have, an allowance at which there is no stitching line (the place along the edge named), and a
  /// part that the line does not have; one that ends within a billionth of the line's end ends there.
  static Outcome<DrawnLine, Undrawn> draw(const Drawing &drawing);

  std::size_t pieces() const { return line_.pieces(); } ///< lines, curves and arcs of the drawing
  double cut_edge() const { return unit_ * (cut_to_ - cut_from_); }
  double stitching() const { return part_ ? (*part_)[1] - (*part_)[0] : unit_ * line_.length(); }
  double allowance() const { return allowance_; } ///< between them, as it was asked for
  bool closed() const { return line_.closed() && !part_; }
  const std::optional<std::array<double, 2>> &part() const { return asked_part_; } ///< as it was asked for

  struct Place {
    std::array<double, 2> at{}; ///< on the stitching line
    std::optional<std::array<double, 2>>
        normal;     ///< length 1, towards the cut edge; none without a side for the garment
    double cut = 0; ///< millimetres along the cut edge from where it begins to the foot of the normal
  };

  /// The place so many millimetres along the stitching line, 0 to stitching().
  Place place(double y) const;

  /// Both lines as points that straight lines join, no further from them than so many millimetres; but no finer than a
  /// ten-millionth of the edge.
  struct Outline {
    std::vector<std::array<double, 2>> cut_edge;
    std::vector<std::array<double, 2>> stitching;
  };
  Outline outline(double within) const;

  /// How readily the cloth shears between two places along the stitching line, in millimetres from the first.
  Shear shear(double from, double to) const;

  /// The mean of that shear.
  double mean_shear(double from, double to) const;

  /// Whether the mean of that shear is above `no_shear`.
  bool shears(double from, double to) const;

  /// Makes ready for many calls of these, which give the same as before, faster; true if so. `left` is
  /// how many pieces that may take, of which those taken are taken off; where it would take more, nothing is made.
  bool expect_shear(std::size_t &left);
  bool shear_expected() const { return sheared_ != nullptr; }

private:
  DrawnLine(StitchingLine line, const Drawing &drawing)
      : line_(std::move(line)), unit_(drawing.unit), allowance_(drawing.allowance),
        warp_(warp_direction(drawing.grain)), sided_(drawing.garment.has_value()), cut_to_(line_.cut_edge()) {}

  bool take_part(const std::array<double, 2> &part);
  double on_line(double y) const { return (part_ ? y + (*part_)[0] : y) / unit_; }

  StitchingLine line_;
  double unit_;
  double allowance_;
  Point warp_;
  bool sided_;
  std::optional<std::array<double, 2>> asked_part_;
  std::optional<std::array<double, 2>> part_; ///< likewise, kept on the line
  double cut_from_ = 0;                       ///< along the cut edge, in the path's unit
  double cut_to_;
  std::shared_ptr<const ShearTable> sheared_; ///< where it is expected to be asked for
  std::optional<double> whole_mean_;          ///< of the shear all along, then
};

} // namespace gatherwright::edge
