// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/edge/drawn.hpp"

#include "solver/edge/outline.hpp"
#include "solver/edge/path.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <string>
#include <utility>
#include <variant>

namespace gatherwright::edge {

namespace {

/// Millimetres to a tenth, whatever the locale.
std::string in_millimetres(double length) {
  std::array<char, 64> text{};
  const double tenths = std::clamp(length, 0.0, 1e12);
  const auto end = std::to_chars(text.data(), text.data() + text.size(), tenths, std::chars_format::fixed, 1).ptr;
  std::string written(text.data(), end);
  if (written.ends_with(".0")) written.resize(written.size() - 2);
  return written + " mm";
}

Fault fault_of(const Unresolved &unresolved, const Drawing &drawing) {
  const std::string place = in_millimetres(unresolved.along * drawing.unit) + " along the drawn edge";
  const std::string allowance = "an allowance of " + in_millimetres(drawing.allowance);
  switch (unresolved.kind) {
  case Unresolved::Kind::meets_itself:
    return {"the drawn edge crosses or touches itself, " + place, "an edge that does not, where there is an allowance"};
  case Unresolved::Kind::too_tight:
    return {allowance + " does not fit inside the curve or corner " + place,
            "a smaller allowance, or a rounder edge there"};
  case Unresolved::Kind::doubles_back:
    return {"the edge turns right round " + place + ", and the stitching line cannot follow it",
            "a point with some angle to it"};
  case Unresolved::Kind::falls_apart:
    return {allowance + " leaves the stitching line in pieces, about " + place,
            "a smaller allowance, or a wider neck there"};
  case Unresolved::Kind::runs_across:
    return {"the stitching line runs over itself or the cut edge " + place,
            "a smaller allowance, or the garment on the other side"};
  case Unresolved::Kind::nothing_left:
    return {allowance + " leaves nothing of the drawn edge to stitch along",
            "a smaller allowance, or the garment on the other side"};
  default:
    return {"the drawn edge is too tangled for a stitching line", "fewer crossings"};
  }
}

Outcome<Side> side_of(const Curve &curve, const Drawing &drawing) {
  if (!drawing.garment) {
    if (drawing.allowance > 0)
      return Fault{"an allowance with nothing to say on which side the garment lies",
                   "\"garment\": \"left\" or \"right\""};
    return Side::right;
  }
  if (*drawing.garment == Garment::left) return Side::left;
  if (*drawing.garment == Garment::right) return Side::right;
  if (!curve.closed)
    return Fault{"the drawn edge is open and has no inside", "\"left\" or \"right\", or close the path with Z"};
  const std::optional<Side> inner = inner_side(curve);
  if (!inner) return Fault{"the drawn edge encloses nothing", "\"left\" or \"right\""};
  const bool inside = *drawing.garment == Garment::inside;
  return inside == (*inner == Side::left) ? Side::left : Side::right;
}

} // namespace

Outcome<DrawnLine> DrawnLine::draw(const Drawing &drawing) {
  PathOutcome path = read_path(drawing.path);
  if (const auto *fault = std::get_if<PathFault>(&path)) return fault->fault;
  Curve &curve = std::get<Curve>(path);
  if (drawing.pieces_before + curve.pieces.size() > most_drawn_pieces)
    return Fault{"with this path the drawn edges have more than " + std::to_string(most_drawn_pieces) +
                     " lines and curves",
                 "draw them with fewer"};
  const Outcome<Side> side = side_of(curve, drawing);
  if (!side) return side.fault();
  const double allowance = drawing.allowance / drawing.unit;
  if (!(allowance <= farthest))
    return Fault{"an allowance of " + in_millimetres(drawing.allowance) + " is beyond any edge", "a smaller one"};
  auto line = StitchingLine::beside(std::move(curve), allowance, *side);
  if (const auto *unresolved = std::get_if<Unresolved>(&line)) return fault_of(*unresolved, drawing);
  return DrawnLine(std::get<StitchingLine>(std::move(line)), drawing);
}

DrawnLine::Place DrawnLine::place(double y) const {
  const StitchingLine::Place place = line_.place(y / unit_);
  Place found{{place.at.x, place.at.y}, std::nullopt, place.cut * unit_};
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
  return {pairs(cut_edge_points(line_, near)), pairs(stitching_points(line_, near))};
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
  if (sheared_ && sheared_->surely_shears(from / unit_, to / unit_)) return true;
  return mean_shear(from, to) > no_shear;
}

Shear DrawnLine::shear(double from, double to) const {
  Shear shear = shear_along(line_, from / unit_, to / unit_, warp_, sheared_.get());
  for (Shear::Piece &piece : shear.pieces) {
    piece.start *= unit_;
    piece.length *= unit_;
  }
  shear.length *= unit_;
  return shear;
}

} // namespace gatherwright::edge
