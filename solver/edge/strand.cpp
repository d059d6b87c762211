// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/edge/strand.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>
#include <utility>

namespace gatherwright::edge {

namespace {

/// Turns below this are the rounding of a smooth joint.
constexpr double smooth = 1e-12;

/// Below this a closing corner is cut back by the same length on both sides, as between straight lines; what the
/// curvature of the neighbours adds is of the order of this squared.
constexpr double slight = 1e-6;

/// Nearer than this to a half turn, two tangents never meet.
constexpr double half_turn = std::numbers::pi - 1e-6;

enum class Way { forward, folded, unknown };

/// How a cubic moved by `shift` runs, from the control vectors of its velocity: bounds by Bernstein coefficients of the
/// speed squared and of velocity x acceleration.
Way way_of(const std::array<Point, 3> &v, double shift) {
  const std::array<double, 3> bend{2 * shift * cross(v[0], v[1]), shift * cross(v[0], v[2]),
                                   2 * shift * cross(v[1], v[2])};
  const double most_bend = *std::max_element(bend.begin(), bend.end());
  if (most_bend <= 0) return Way::forward;
  const std::array<double, 5> speed_squared{
      dot(v[0], v[0]), dot(v[0], v[1]), (2 * dot(v[1], v[1]) + dot(v[0], v[2])) / 3, dot(v[1], v[2]), dot(v[2], v[2])};
  const auto cube = [](double squared) { return squared * squared * squared; };
  const double least = std::max(0.0, *std::min_element(speed_squared.begin(), speed_squared.end()));
  if (cube(least) > most_bend * most_bend) return Way::forward;
  const double least_bend = *std::min_element(bend.begin(), bend.end());
  const double most = *std::max_element(speed_squared.begin(), speed_squared.end());
  if (least_bend > 0 && cube(most) < least_bend * least_bend) return Way::folded;
  return Way::unknown;
}

/// Where a function changes sign between two places at which its signs differ.
template <class Function> double sign_change(Function value, double low, double high) {
  const bool low_positive = value(low) > 0;
  while (true) {
    const double middle = 0.5 * (low + high);
    if (middle <= low || middle >= high) return middle;
    ((value(middle) > 0) == low_positive ? low : high) = middle;
  }
}

/// Parts of a span that run forward or are folded, in turn.
struct Part {
  double from, to;
  bool folded;
};

void add_part(std::vector<Part> &parts, double from, double to, bool folded) {
  if (!(to > from)) return;
  if (!parts.empty() && parts.back().folded == folded) {
    parts.back().to = to;
  } else {
    parts.push_back({from, to, folded});
  }
}

/// Adds [from, to], across which the moved speed changes sign at most once.
void add_simple(std::vector<Part> &parts, const Moved &moved, double from, double to) {
  const bool starts_folded = moved.speed(from) <= 0;
  const bool ends_folded = moved.speed(to) <= 0;
  if (starts_folded == ends_folded) {
    add_part(parts, from, to, moved.speed(0.5 * (from + to)) <= 0);
    return;
  }
  const double change = sign_change([&](double t) { return moved.speed(t); }, from, to);
  add_part(parts, from, change, starts_folded);
  add_part(parts, change, to, ends_folded);
}

std::vector<Part> parts_of_cubic(const Moved &moved) {
  // A millionth of a span that is still undecided holds at most a touch of the limit, whose folded length is of the
  // order of its square.
  constexpr double narrowest = 1e-6;
  std::vector<Part> parts;
  std::vector<std::array<double, 2>> waiting{{0, 1}};
  while (!waiting.empty()) {
    const auto [from, to] = waiting.back();
    waiting.pop_back();
    const Way way = way_of(moved.shape.velocities(from, to), moved.shift);
    if (way != Way::unknown) {
      add_part(parts, from, to, way == Way::folded);
    } else if (to - from < narrowest) {
      add_simple(parts, moved, from, to);
    } else {
      const double middle = 0.5 * (from + to);
      waiting.push_back({middle, to});
      waiting.push_back({from, middle});
    }
  }
  return parts;
}

/// First guess for `Moved::parameter`: the inverse cubic through both ends with their slopes.
double guess(const Moved &moved, double from, double to, double whole, double target) {
  const double share = target / whole;
  const double width = to - from;
  const double slope = whole / moved.speed(from), end_slope = whole / moved.speed(to);
  if (!(slope > 0 && slope < 4 * width && end_slope > 0 && end_slope < 4 * width)) return from + share * width;
  const double rest = 1 - share;
  return from + share * share * (3 - 2 * share) * width + share * rest * (rest * slope - share * end_slope);
}

} // namespace

Point Moved::at(double t) const {
  return shape.at(t) + shift * right_of(shape.tangent(t));
}

Moved::Motion Moved::motion(double t) const {
  const Shape::Travel there = shape.travel(t);
  const Point tangent = there.speed > 0 ? (1 / there.speed) * there.velocity : shape.tangent(t);
  return {shape.at(t) + shift * right_of(tangent), speed(there) * tangent};
}

Moved::Foot Moved::foot(double from, double to, double whole, double target) const {
  if (target <= 0) return {from, 0};
  if (target >= whole) return {to, shape.length(from, to)};
  if (shape.uniform()) {
    const double t = from + (target / whole) * (to - from);
    return {t, shape.length(from, t)};
  }
  double low = from, high = to;
  double t = std::clamp(guess(*this, from, to, whole, target), from, to);
  double reached = shape.length(from, t);
  const double close = 4 * std::numeric_limits<double>::epsilon() * (whole + std::abs(shift));
  // Where the speed is not small, a step this short leaves an error of its square, below rounding.
  const double last_step = 1e-8 * (to - from), brisk = 0.1 * whole / (to - from);
  for (int step = 0; step < 100; ++step) {
    const double short_of = target - (reached - shift * shape.turn(from, t));
    if (std::abs(short_of) <= close) break;
    (short_of > 0 ? low : high) = t;
    const double slope = speed(t);
    double next = slope > 0 ? t + short_of / slope : low;
    if (!(next > low && next < high)) next = 0.5 * (low + high);
    if (next <= low || next >= high) break; // no number between
    if (slope > brisk && std::abs(next - t) < last_step) return {next, reached + (next - t) * norm(shape.velocity(t))};
    reached += shape.length(t, next);
    t = next;
  }
  return {t, reached};
}

Strand::Strand(const Curve &curve, std::span<const Span> spans, double shift)
    : curve_(&curve), spans_(spans), shift_(shift), closed_(curve.closed), meets_itself_(curve.closed) {
  if (spans.empty()) return;
  const double whole = spans.back().start + spans.back().length;
  // Places are sums and differences of coordinates, rounded a few times; lengths are good to 1e-12 of the whole.
  touch_ = 1e-11 * (whole + std::abs(shift)) + 64 * std::numeric_limits<double>::epsilon() * largest_coordinate(curve);
  const Point ahead = last_point(curve) - first_point(curve);
  meets_itself_ = meets_itself_ || norm(ahead) <= touch_;
  keeps_on_ = !meets_itself_;
  stretches_.reserve(spans.size());
  Shape before(curve, spans.front());
  for (std::uint32_t span = 0; span < spans.size(); ++span) {
    const Shape shape = span == 0 ? before : Shape(curve, spans[span]);
    const std::size_t first = stretches_.size();
    split(span, shape);
    if (span > 0) join(first - 1, first, before, shape);
    keeps_on_ = keeps_on_ && shape.heads(ahead);
    before = shape;
  }
  if (closed_) join(stretches_.size() - 1, 0, before, Shape(curve, spans.front()));
  if (!closed_) unfold_start();
  if (!closed_) unfold_end();
  finish();
}

void Strand::add(std::uint32_t span, double from, double to, double body, bool folded) {
  Stretch stretch;
  stretch.span = span;
  stretch.from = from;
  stretch.to = to;
  stretch.body = body;
  // A stretch that folds by no more than rounding has shrunk to a point, as an arc does at a radius equal to the shift.
  stretch.folded = folded && body < -touch_;
  stretch.last = std::max(0.0, body);
  stretches_.push_back(stretch);
}

/// Adds the stretches of one span.
void Strand::split(std::uint32_t span, const Shape &shape) {
  const double length = spans_[span].length;
  if (shape.straight() || shift_ == 0) {
    add(span, 0, 1, length, false);
    return;
  }
  const double body = length - shift_ * shape.turn(0, 1);
  if (shape.uniform()) {
    add(span, 0, 1, body, body <= 0);
    return;
  }
  if (shape.cubic() && way_of(shape.velocities(), shift_) == Way::forward) {
    add(span, 0, 1, body, false);
    return;
  }
  const Moved whole{shape, shift_};
  std::vector<Part> parts;
  if (shape.cubic()) {
    parts = parts_of_cubic(whole);
  } else {
    add_simple(parts, whole, 0, 1); // the curvature of an ellipse is monotone between its vertices
  }
  for (const Part &part : parts) {
    const bool alone = part.from == 0 && part.to == 1;
    add(span, part.from, part.to, alone ? body : whole.length(part.from, part.to), part.folded);
  }
}

/// Resolves the corner between two neighbours, where they suffice.
void Strand::join(std::size_t before_index, std::size_t after_index, const Shape &one, const Shape &other) {
  if (shift_ == 0) return;
  Stretch &before = stretches_[before_index], &after = stretches_[after_index];
  const Point in = one.heading(1), out = other.heading(0);
  const double bend = cross(in, out), on = dot(in, out);
  if (on > 0 && std::abs(bend) <= smooth * on) return;
  const double corner = std::copysign(1.0, shift_) * std::atan2(bend, on);
  if (std::abs(corner) > half_turn || before.folded || after.folded) {
    after.apart = true;
    return;
  }
  const double reach = std::abs(shift_) * std::tan(0.5 * std::abs(corner));
  if (corner < 0) {
    before.lead_out = reach;
    before.last += reach;
    after.lead_in = reach;
    after.last += reach;
    return;
  }
  if (corner >= slight && !(one.straight() && other.straight())) {
    cut_back(before, after, corner);
    return;
  }
  if (before.last - reach < before.first || after.first + reach > after.last) {
    after.apart = true;
    return;
  }
  before.last -= reach;
  after.first += reach;
}

/// Cuts two neighbours, at least one of them curved, back to where they cross beside the closing corner between them.
void Strand::cut_back(Stretch &before, Stretch &after, double corner) {
  const Moved one = moved(before), other = moved(after);
  const double reach = std::abs(shift_) * std::tan(0.5 * corner);
  const auto inside = [](double t, const Stretch &stretch) { return t >= stretch.from && t <= stretch.to; };
  const auto step_back = [&](double speed, const Stretch &stretch) {
    return speed > 0 ? std::min(reach / speed, 0.5 * (stretch.to - stretch.from)) : 0.5 * (stretch.to - stretch.from);
  };
  double s = before.to - step_back(one.speed(before.to), before);
  double t = after.from + step_back(other.speed(after.from), after);
  after.apart = true;
  for (int step = 0; step < 40 && inside(s, before) && inside(t, after); ++step) {
    const auto [at, along] = one.motion(s);
    const auto [at_other, along_other] = other.motion(t);
    const Point gap = at_other - at;
    const double crossing = cross(along, along_other);
    if (norm(gap) <= 0.1 * touch_) {
      const double u = coordinate(one, before, s), v = coordinate(other, after, t);
      const bool closes = std::copysign(1.0, shift_) * crossing > 0;
      if (!closes || u < before.first || v > after.last) return;
      before.last = u;
      after.first = v;
      after.apart = false;
      return;
    }
    if (crossing == 0) return;
    s += cross(gap, along_other) / crossing;
    t += cross(gap, along) / crossing;
  }
}

/// Cuts off a fold at the start, where the stretch after it comes back over the normal of the curve's first point.
void Strand::unfold_start() {
  if (stretches_.size() < 2 || !stretches_[0].folded || stretches_[1].folded || stretches_[1].apart) return;
  const Shape fold(*curve_, spans_[stretches_[0].span]);
  Stretch &next = stretches_[1];
  const Moved there = moved(next);
  const auto ahead = [&](double t) { return dot(there.at(t) - fold.at(0), fold.tangent(0)); };
  if (!(ahead(next.from) < 0 && ahead(next.to) > 0)) return;
  next.first = coordinate(there, next, sign_change(ahead, next.from, next.to));
  if (next.first < next.last) stretches_.erase(stretches_.begin());
}

/// The same at the end.
void Strand::unfold_end() {
  const std::size_t n = stretches_.size();
  if (n < 2 || !stretches_[n - 1].folded || stretches_[n - 2].folded || stretches_[n - 1].apart) return;
  const Shape fold(*curve_, spans_[stretches_[n - 1].span]);
  Stretch &before = stretches_[n - 2];
  const Moved there = moved(before);
  const auto ahead = [&](double t) { return dot(there.at(t) - fold.at(1), fold.tangent(1)); };
  if (!(ahead(before.from) < 0 && ahead(before.to) > 0)) return;
  before.last = coordinate(there, before, sign_change(ahead, before.from, before.to));
  if (before.first < before.last) stretches_.pop_back();
}

double Strand::foot(const Stretch &stretch, double u) const {
  return foot_of(moved(stretch), stretch, station(moved(stretch), stretch, u), spans_[stretch.span]);
}

Strand Strand::keeping(std::vector<Stretch> stretches) const {
  Strand kept = *this;
  kept.stretches_ = std::move(stretches);
  kept.finish();
  return kept;
}

void Strand::finish() {
  length_ = 0;
  broken_ = false;
  for (Stretch &stretch : stretches_) {
    stretch.start = length_;
    length_ += stretch.last - stretch.first;
    broken_ = broken_ || stretch.folded || stretch.apart;
  }
}

Station station(const Moved &moved, const Stretch &stretch, double u) {
  const double body = std::max(0.0, stretch.body);
  const double into = std::clamp(u - stretch.lead_in, 0.0, body);
  Moved::Foot foot{stretch.from, 0};
  if (into > 0) foot = moved.foot(stretch.from, stretch.to, body, into);
  if (body == 0 && u > stretch.lead_in) foot = {stretch.to, moved.shape.length(stretch.from, stretch.to)};
  Station found{{}, moved.shape.tangent(foot.parameter), foot.parameter, foot.along};
  const double beyond = u - stretch.lead_in - into;
  found.at = moved.shape.at(foot.parameter) + moved.shift * right_of(found.tangent) + beyond * found.tangent;
  return found;
}

double foot_of(const Moved &moved, const Stretch &stretch, const Station &station, const Span &span) {
  return span.start + moved.shape.length(0, stretch.from) + station.along;
}

double coordinate(const Moved &moved, const Stretch &stretch, double parameter) {
  return stretch.lead_in + moved.length(stretch.from, parameter);
}

} // namespace gatherwright::edge
