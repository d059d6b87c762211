// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/edge/stitching.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace gatherwright::edge {

std::optional<Side> inner_side(const Curve &curve) {
  const double area = enclosed_area(curve);
  double extent = 0;
  for (const Point &point : curve.points)
    extent = std::max(extent, norm(point - first_point(curve)));
  // Areas are sums of products of the points' distances, each rounded.
  if (!(std::abs(area) > 1e-12 * extent * extent)) return std::nullopt;
  return area > 0 ? Side::right : Side::left;
}

Outcome<StitchingLine, Unresolved> StitchingLine::beside(Curve curve, double allowance, Side garment) {
  std::vector<Span> spans = measure(curve);
  const double side = garment == Side::right ? 1 : -1;
  StitchingLine line(std::move(curve), std::move(spans), side * allowance);
  line.side_ = side;
  if (!line.spans_.empty()) line.cut_edge_ = line.spans_.back().start + line.spans_.back().length;
  if (!(line.cut_edge_ > 0)) return Unresolved{Unresolved::Kind::nothing_left, 0};
  line.length_ = line.cut_edge_;
  if (allowance > 0) {
    const auto unmoved = [&] { return Strand(line.curve_, line.spans_, 0); };
    auto trimmed = trim(Strand(line.curve_, line.spans_, line.shift_), unmoved);
    if (!trimmed) return trimmed.fault();
    line.stretches_ = *std::move(trimmed);
    const Stretch &last = line.stretches_.back();
    line.length_ = last.start + (last.last - last.first);
  }
  return line;
}

std::size_t StitchingLine::count() const {
  return shift_ == 0 ? spans_.size() : stretches_.size();
}

Stretch StitchingLine::stretch(std::size_t i) const {
  if (shift_ != 0) return stretches_[i];
  Stretch whole;
  whole.span = static_cast<std::uint32_t>(i);
  whole.start = spans_[i].start;
  whole.body = whole.last = spans_[i].length;
  return whole;
}

std::size_t StitchingLine::stretch_at(double y) const {
  const auto index = [y](const auto &parts) {
    const auto after = std::upper_bound(parts.begin(), parts.end(), y,
                                        [](double value, const auto &part) { return value < part.start; });
    return after == parts.begin() ? 0 : static_cast<std::size_t>(after - parts.begin()) - 1;
  };
  return shift_ == 0 ? index(spans_) : index(stretches_);
}

StitchingLine::Place StitchingLine::place(double y) const {
  const Stretch part = stretch(stretch_at(y));
  const Moved there = moved(part);
  const double u = std::clamp(part.first + (y - part.start), part.first, part.last);
  const Station found = station(there, part, u);
  const Point normal = -side_ * right_of(found.tangent);
  // Adding 0 makes a plain 0 of a negative one.
  return {found.at, {normal.x + 0.0, normal.y + 0.0}, foot_of(there, part, found, spans_[part.span])};
}

std::vector<StitchingLine::Run> StitchingLine::cut_edge_runs() const {
  std::vector<Run> found;
  found.reserve(spans_.size());
  for (const Span &span : spans_)
    found.push_back({span.start, span.length, 0, 1, {Shape(curve_, span), 0}, found.size(), true});
  return found;
}

std::vector<StitchingLine::Run> StitchingLine::runs(double from, double to) const {
  std::vector<Run> found;
  for (std::size_t i = stretch_at(from); i < count() && stretch(i).start < to; ++i) {
    const Stretch part = stretch(i);
    const Moved there = moved(part);
    const double offset = part.start - part.first; // from u to the length along the line
    const double begin = std::max(from - offset, part.first), end = std::min(to - offset, part.last);
    const double body_from = part.lead_in, body_to = part.lead_in + std::max(0.0, part.body);
    const auto add = [&](double u, double v, double s, double t, bool whole = false) {
      if (v > u) found.push_back({u + offset, v - u, s, t, there, i, whole});
    };
    const auto parameter = [&](double u) { return station(there, part, u).parameter; };
    add(begin, std::min(end, body_from), part.from, part.from);
    const auto on_body = [&](double place) { return std::clamp(place, body_from, body_to); };
    const double u = on_body(begin), v = on_body(end);
    if (v > u) add(u, v, parameter(u), parameter(v), u == on_body(part.first) && v == on_body(part.last));
    add(std::max(begin, body_to), end, part.to, part.to);
  }
  return found;
}

} // namespace gatherwright::edge
