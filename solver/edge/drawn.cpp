// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/edge/drawn.hpp"

#include "solver/edge/outline.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace gatherwright::edge {

namespace {

Outcome<Side, Misdrawn> side_of(const Curve &curve, const Drawing &drawing) {
  if (!drawing.garment) {
    if (drawing.allowance > 0) return Misdrawn::no_garment;
    return Side::right;
  }
  if (*drawing.garment == Garment::left) return Side::left;
  if (*drawing.garment == Garment::right) return Side::right;
  if (!curve.closed) return Misdrawn::no_inside;
  const std::optional<Side> inner = inner_side(curve);
  if (!inner) return Misdrawn::encloses_nothing;
  const bool inside = *drawing.garment == Garment::inside;
  return inside == (*inner == Side::left) ? Side::left : Side::right;
}

} // namespace

Outcome<DrawnLine, Undrawn> DrawnLine::draw(const Drawing &drawing) {
  PathOutcome path = read_path(drawing.path);
  if (!path) return Undrawn(path.fault());
  if (drawing.pieces_before + path->pieces.size() > most_drawn_pieces) return Undrawn(Misdrawn::too_many_pieces);
  const auto side = side_of(*path, drawing);
  if (!side) return Undrawn(side.fault());
  const double allowance = drawing.allowance / drawing.unit;
  if (!(allowance <= farthest)) return Undrawn(Misdrawn::allowance_too_large);
  auto line = StitchingLine::beside(*std::move(path), allowance, *side);
  if (!line) return Undrawn(line.fault());
  DrawnLine drawn(*std::move(line), drawing);
  if (drawing.part && !drawn.take_part(*drawing.part)) return Undrawn(PartBeyond{drawn.stitching()});
  return drawn;
}

bool DrawnLine::take_part(const std::array<double, 2> &part) {
  const double whole = stitching();
  const double to = part[1] <= whole * (1 + 1e-9) ? std::min(part[1], whole) : part[1];
  if (!(part[0] >= 0 && part[0] < to && to <= whole)) return false;
  const auto cut = [&](double y, double at_end) { return y == whole ? at_end : line_.place(y / unit_).cut; };
  cut_from_ = part[0] == 0 ? 0 : cut(part[0], 0);
  cut_to_ = cut(to, line_.cut_edge());
  if (!(cut_from_ < cut_to_)) return false; // all of it beside one corner
  asked_part_ = part;
  part_ = {part[0], to};
  return true;
}

DrawnLine::Place DrawnLine::place(double y) const {
  const StitchingLine::Place place = line_.place(on_line(y));
  Place found{{place.at.x, place.at.y}, std::nullopt, (place.cut - cut_from_) * unit_};
  if (sided_) found.normal = {place.normal.x, place.normal.y};
  return found;
}

DrawnLine::Outline DrawnLine::outline(double within) const {
  const double near = std::max(within / unit_, 1e-7 * line_.cut_edge());
  const auto pairs = [](const std::vector<Point> &points) {
    std::vector<std::array<double, 2>> found;
    found.reserve(points.size());
    for (const Point &point : points)
      found.push_back({point.x, point.y});
    return found;
  };
  return {pairs(cut_edge_points(line_, cut_from_, cut_to_, near)),
          pairs(stitching_points(line_, on_line(0), part_ ? on_line(stitching()) : line_.length(), near))};
}

bool DrawnLine::expect_shear(std::size_t &left) {
  if (sheared_) return true;
  auto table = ShearTable::of(line_, warp_, left);
  if (!table) return false;
  left -= table->size();
  sheared_ = std::make_shared<const ShearTable>(*std::move(table));
  whole_mean_ = mean(shear(0, stitching()));
  return true;
}

double DrawnLine::mean_shear(double from, double to) const {
  if (whole_mean_ && from == 0 && to == stitching()) return *whole_mean_;
  return mean(shear(from, to));
}

bool DrawnLine::shears(double from, double to) const {
  if (sheared_ && sheared_->surely_shears(on_line(from), on_line(to))) return true;
  return mean_shear(from, to) > no_shear;
}

Shear DrawnLine::shear(double from, double to) const {
  Shear shear = shear_along(line_, on_line(from), on_line(to), warp_, sheared_.get());
  for (Shear::Piece &piece : shear.pieces) {
    piece.start *= unit_;
    piece.length *= unit_;
  }
  shear.length *= unit_;
  return shear;
}

} // namespace gatherwright::edge
