// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/spread/grain.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace gatherwright::spread {

/// A piece of shear, which rises, falls or stays.
struct Slope {
  const edge::Shear::Piece &piece;
  double start;
  double end;
  double at_start;
  double at_end;
  double area; ///< under the whole piece

  explicit Slope(const edge::Shear::Piece &of)
      : piece(of), start(of.start), end(of.start + of.length), at_start(edge::value(of, start)),
        at_end(edge::value(of, end)), area(edge::integral(of, start, end)) {}

  double low() const { return std::min(at_start, at_end); }
  double high() const { return std::max(at_start, at_end); }
  bool rises() const { return at_end > at_start; }

  /// Where the shear passes `level`, low < level < high: bisection, halving until no number lies between.
  double crossing(double level) const {
    double below = rises() ? start : end, above = rises() ? end : start;
    while (true) {
      const double middle = 0.5 * (below + above);
      if (middle == below || middle == above) return middle;
      (edge::value(piece, middle) < level ? below : above) = middle;
    }
  }

  /// The part of the piece over which the shear is at most `level`.
  struct Window {
    double from, to;
  };
  Window under(double level) const {
    if (high() <= level) return {start, end};
    if (low() >= level) return rises() ? Window{start, start} : Window{end, end};
    return rises() ? Window{start, crossing(level)} : Window{crossing(level), end};
  }

  double area_over(const Window &window) const {
    if (window.from == window.to) return 0;
    const bool whole = window.from == start && window.to == end;
    return whole ? area : edge::integral(piece, window.from, window.to);
  }
};

namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();

// A limit holds within this part of itself.
constexpr double limit_slack = 1e-9;

// Totals are sums of some hundred terms, each good to some 1e-16.
constexpr double total_tolerance = 1e-14;

std::vector<Slope> slopes_of(const edge::Shear &shear) {
  return {shear.pieces.begin(), shear.pieces.end()};
}

/// What is taken up at a mu, and how fast that grows with mu.
struct Taken {
  double extra = 0;
  double growth = 0;
};

Taken taken_at(std::span<const Slope> slopes, double mu, double room) {
  Taken sum;
  for (const Slope &slope : slopes) {
    if (!(slope.high() > 0)) continue;
    const Slope::Window under = slope.under(room / mu);
    const double area = slope.area_over(under);
    sum.growth += area;
    sum.extra += mu * area + room * (slope.piece.length - (under.to - under.from));
  }
  return sum;
}

/// Integral of the shear, and the length over which it is above 0.
struct Reach {
  double area = 0;
  double length = 0;
};

Reach reach(std::span<const Slope> slopes) {
  Reach sum;
  for (const Slope &slope : slopes) {
    if (!(slope.high() > 0)) continue;
    sum.length += slope.piece.length;
    sum.area += slope.area;
  }
  return sum;
}

/// The mu at which `extra` > 0 is taken up with no more than `room` of any length; infinite where all that shears is at
/// it. What is taken up rises with mu and is concave, so Newton's method from below never passes the root.
double mu_for(std::span<const Slope> slopes, const Reach &whole, double extra, double room) {
  if (extra >= room * whole.length * (1 - total_tolerance)) return infinite;
  double below = extra / whole.area;
  double above = std::numeric_limits<double>::max();
  double mu = below;
  for (int round = 0; round < 150; ++round) {
    const Taken now = taken_at(slopes, mu, room);
    const double missing = extra - now.extra;
    if (std::abs(missing) <= total_tolerance * extra) break;
    (missing > 0 ? below : above) = mu;
    mu += missing / now.growth;
    if (round >= 50 || !(mu > below && mu < above)) mu = std::sqrt(below) * std::sqrt(above);
  }
  return mu;
}

/// What a length can lose, part for part, at most: 1 - 1/cap, with the slack of a limit.
double room_of(double cap) {
  return 1 - 1 / (cap * (1 + limit_slack));
}

} // namespace

bool shears(const edge::Shear &shear) {
  return std::any_of(shear.pieces.begin(), shear.pieces.end(),
                     [](const edge::Shear::Piece &piece) { return Slope(piece).high() > 0; });
}

GrainSpread::GrainSpread(edge::Shear shear, double band, double most, double packed)
    : shear_(std::move(shear)), band_(band) {
  const double extra = shear_.length - band;
  packed = std::max(packed, most);
  past_most_ = extra > room_of(most) * shear_.length;
  if (extra < 0 || extra > room_of(packed) * shear_.length || !shears(shear_)) {
    level();
  } else {
    share(extra, most, packed);
  }
  close();
}

/// Shares an extra >= 0 that the edge can lose at packed.
void GrainSpread::share(double extra, double most, double packed) {
  const std::vector<Slope> slopes = slopes_of(shear_);
  const Reach whole = reach(slopes);
  past_most_ = past_most_ || extra > room_of(most) * whole.length;
  const double cap = past_most_ ? packed : most;
  if (extra > room_of(cap) * whole.length) {
    lay_out(slopes, infinite, cap, (extra - (1 - 1 / cap) * whole.length) / (shear_.length - whole.length));
    return;
  }
  // The slack of the limit is used where it must be, so that the total is kept.
  const double room = std::max(1 - 1 / cap, extra / whole.length);
  lay_out(slopes, extra > 0 ? mu_for(slopes, whole, extra, room) : 0, 1 / (1 - room), 0);
}

void GrainSpread::level() {
  fullest_ = slackest_ = shear_.length / band_;
  append({0, 1 - band_ / shear_.length, false, 0});
}

void GrainSpread::lay_out(std::span<const Slope> slopes, double mu, double cap, double fill) {
  mu_ = mu;
  const double room = 1 - 1 / cap;
  const double level = mu > 0 ? room / mu : infinite;
  fullest_ = 1;
  slackest_ = cap;
  parts_.reserve(slopes.size());
  for (std::size_t i = 0; i < slopes.size(); ++i) {
    const Slope &slope = slopes[i];
    if (!(slope.high() > 0)) {
      append({slope.start, fill, false, i});
      continue;
    }
    fullest_ = std::max(fullest_, slope.high() < level ? 1 / (1 - mu * slope.high()) : cap);
    slackest_ = std::min(slackest_, slope.low() < level ? 1 / (1 - mu * slope.low()) : cap);
    capped_ = capped_ || slope.high() > level * (1 + 1e-12);
    const Slope::Window under = slope.under(level);
    if (under.from > slope.start) append({slope.start, room, false, i});
    if (under.to > under.from) append({under.from, 0, true, i});
    if (under.to < slope.end) append({under.to, room, false, i});
  }
}

/// Adds a part; one that goes on at the same constant take-up makes the last one longer.
void GrainSpread::append(const Part &part) {
  if (!parts_.empty() && !part.shearing && !parts_.back().shearing && parts_.back().even == part.even) return;
  parts_.push_back(part);
}

/// Adds up the band under each part.
void GrainSpread::close() {
  parts_.front().start = 0;
  knots_.assign(1, 0);
  for (std::size_t i = 0; i < parts_.size(); ++i) {
    knots_.push_back(knots_.back() + (end_of(i) - parts_[i].start) - taken(i, parts_[i].start, end_of(i)));
  }
  // The total comes to the band within rounding; that is taken out of every knot alike.
  const double correction = band_ / knots_.back();
  for (double &knot : knots_)
    knot *= correction;
  knots_.back() = band_;
}

/// What part of the length from one place to another, both within a part, is taken up.
double GrainSpread::taken(std::size_t part, double from, double to) const {
  const Part &here = parts_[part];
  return here.shearing ? mu_ * edge::integral(shear_.pieces[here.piece], from, to) : here.even * (to - from);
}

double GrainSpread::take_up(std::size_t part, double y) const {
  const Part &here = parts_[part];
  return here.shearing ? mu_ * edge::value(shear_.pieces[here.piece], y) : here.even;
}

std::size_t GrainSpread::part_at(double x) const {
  const auto right = std::lower_bound(knots_.begin() + 1, knots_.end() - 1, x);
  return static_cast<std::size_t>(right - knots_.begin()) - 1;
}

double GrainSpread::band_at(double y) const {
  const auto after = std::upper_bound(parts_.begin(), parts_.end(), y,
                                      [](double place, const Part &part) { return place < part.start; });
  const std::size_t part = after == parts_.begin() ? 0 : static_cast<std::size_t>(after - parts_.begin()) - 1;
  const double from = parts_[part].start;
  return std::min(knots_[part] + (y - from) - taken(part, from, y), knots_[part + 1]);
}

/// Newton's method kept in a bracket, on x(y), whose slope is 1 - c >= 1/cap.
double GrainSpread::place(std::size_t part, double x) const {
  const double start = parts_[part].start, end = end_of(part);
  const double wanted = x - knots_[part];
  if (wanted <= 0) return start;
  if (x >= knots_[part + 1]) return end;
  if (!parts_[part].shearing) return std::min(start + wanted / (1 - parts_[part].even), end);
  double low = start, high = end;
  double y = start + (end - start) * (wanted / (knots_[part + 1] - knots_[part]));
  for (int round = 0; round < 100; ++round) {
    const double over = (y - start) - taken(part, start, y) - wanted;
    (over < 0 ? low : high) = y;
    double next = y - over / (1 - take_up(part, y));
    if (!(next > low && next < high)) next = 0.5 * (low + high);
    if (over == 0 || std::abs(next - y) <= 1e-15 * end) break;
    y = next;
  }
  return y;
}

double GrainSpread::map(double x) const {
  return place(part_at(x), x);
}

void GrainSpread::map(std::span<const double> x, std::span<double> y) const {
  for (std::size_t i = 0; i < x.size(); ++i)
    y[i] = map(x[i]);
}

double GrainSpread::fullness(double x) const {
  const std::size_t part = part_at(x);
  return 1 / (1 - take_up(part, place(part, x)));
}

} // namespace gatherwright::spread
