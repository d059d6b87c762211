// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/spread/spread.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace gatherwright::spread {

namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();

// A limit holds within this part of itself.
constexpr double limit_slack = 1e-9;

// A ramp shorter than this part of its piece is a jump: its length is lost in the rounding of the piece's ends,
// and the total changes by less than it.
constexpr double shortest_ramp = 1e-12;

// Totals are sums of a few hundred terms at most, each good to some 1e-16; asking for more than this is asking for
// noise.
constexpr double total_tolerance = 1e-14;

double value(const Cubic &c, double u) {
  return ((c[3] * u + c[2]) * u + c[1]) * u + c[0];
}

double slope(const Cubic &c, double u) {
  return (3 * c[3] * u + 2 * c[2]) * u + c[1];
}

/// Integral from 0 to u.
double integral(const Cubic &c, double u) {
  return (((c[3] / 4 * u + c[2] / 3) * u + c[1] / 2) * u + c[0]) * u;
}

bool constant(const Cubic &c) {
  return c[1] == 0 && c[2] == 0 && c[3] == 0;
}

/// The same polynomial in 1 - u.
Cubic turned(const Cubic &c) {
  return {c[0] + c[1] + c[2] + c[3], -(c[1] + 2 * c[2] + 3 * c[3]), c[2] + 3 * c[3], -c[3]};
}

/// Its part from 0 to u, in the fraction of that part.
Cubic beginning(const Cubic &c, double u) {
  return {c[0], c[1] * u, c[2] * u * u, c[3] * u * u * u};
}

/// 1 + lambda w.
Cubic fullness_of(const Cubic &wish, double lambda) {
  return {1 + lambda * wish[0], lambda * wish[1], lambda * wish[2], lambda * wish[3]};
}

/// A piece of a wish seen from its lower end, so that a crossing near that end is found to its own relative precision.
struct Climb {
  Cubic wish;
  double low;
  double high;
  bool falling; ///< the lower end is the right one

  explicit Climb(const Cubic &piece) : wish(piece), low(piece[0]), high(value(piece, 1)), falling(high < low) {
    if (!falling) return;
    wish = turned(piece);
    high = piece[0];
    // The right end's value is a sum of the coefficients: below their rounding it is 0.
    low = wish[0] > 1e-15 * high ? wish[0] : 0;
    wish[0] = low;
  }
};

/// Where a climbing piece reaches `level`, low < level < high: Newton kept within a shrinking bracket.
double crossing(const Climb &climb, double level) {
  const Cubic &wish = climb.wish;
  if (wish[2] == 0 && wish[3] == 0) return std::clamp((level - wish[0]) / wish[1], 0.0, 1.0);
  double below = 0;
  double above = 1;
  double u = (level - climb.low) / (climb.high - climb.low);
  for (int round = 0; round < 200; ++round) {
    const double over = value(wish, u) - level;
    (over < 0 ? below : above) = u;
    double next = u - over / slope(wish, u);
    if (over == 0 || std::abs(next - u) <= 1e-15 * u || above <= shortest_ramp) break;
    if (!(next > below && next < above)) next = (below + above) / 2;
    u = next;
  }
  return u;
}

/// The fraction of the piece, from its lower end, over which w stays under `level`, where lambda w meets the cap.
double climbed_under(const Climb &climb, double level) {
  if (climb.high <= level) return 1;
  if (climb.low >= level) return 0;
  const double u = crossing(climb, level);
  return u < shortest_ramp ? 0 : u;
}

/// Width of a piece as a part of the band: what follows is reckoned free of scale.
double part_of_band(const Wish &wish, std::size_t piece) {
  return (wish.knots[piece + 1] - wish.knots[piece]) / wish.knots.back();
}

/// The extra that a wish takes up at a lambda, by the band, and how fast it grows with lambda.
struct Taken {
  double extra = 0;
  double growth = 0;
};

Taken taken(const Wish &wish, double lambda, double room) {
  Taken sum;
  for (std::size_t i = 0; i < wish.pieces.size(); ++i) {
    const Climb climb(wish.pieces[i]);
    if (!(climb.high > 0)) continue;
    const double climbed = climbed_under(climb, room / lambda);
    const double area = part_of_band(wish, i) * integral(climb.wish, climbed);
    sum.growth += area;
    sum.extra += lambda * area + part_of_band(wish, i) * room * (1 - climbed);
  }
  return sum;
}

/// Integral of w, and the width over which w > 0, by the band.
struct Reach {
  double area = 0;
  double width = 0;
};

Reach reach(const Wish &wish) {
  Reach sum;
  for (std::size_t i = 0; i < wish.pieces.size(); ++i) {
    const Climb climb(wish.pieces[i]);
    if (!(climb.high > 0)) continue;
    sum.width += part_of_band(wish, i);
    sum.area += part_of_band(wish, i) * integral(climb.wish, 1);
  }
  return sum;
}

/// The lambda at which the wish takes up `extra` > 0 (by the band) under `room` = cap - 1; infinite where all of it is
/// at the cap. What is taken rises with lambda and is concave, so Newton from below never passes the root; where it
/// crawls (wishes many powers of ten apart) the exponent is halved instead.
double lambda_for(const Wish &wish, const Reach &whole, double extra, double room) {
  if (extra >= room * whole.width * (1 - total_tolerance)) return infinite;
  double below = extra / whole.area;
  double above = std::numeric_limits<double>::max();
  double lambda = below;
  for (int round = 0; round < 150; ++round) {
    const Taken now = taken(wish, lambda, room);
    const double missing = extra - now.extra;
    if (std::abs(missing) <= total_tolerance * extra) break;
    (missing > 0 ? below : above) = lambda;
    lambda += missing / now.growth;
    if (round >= 50 || !(lambda > below && lambda < above)) lambda = std::sqrt(below) * std::sqrt(above);
  }
  return lambda;
}

/// Whether stretches of that width can hold the extra under a cap, which is a limit on their own fullness, with its
/// slack.
bool holds(double cap, double width, double extra) {
  return width + extra <= cap * width * (1 + limit_slack);
}

/// What brings a total, rounded as it is, to the length that it should be.
double correction_of(double long_length, double total) {
  return total > 0 && total < infinite ? long_length / total : 1;
}

} // namespace

Spread::Spread(const Wish &wish, double long_length, double band, double most, double packed)
    : long_length_(long_length) {
  const double extra = (long_length - band) / band;
  packed = std::max(packed, most);
  past_most_ = !holds(most, 1, extra);
  const bool same_everywhere = wish.pieces.size() == 1 && constant(wish.pieces[0]);
  if (extra < 0 || same_everywhere || !holds(packed, 1, extra)) {
    level(band);
  } else {
    share(wish, extra, most, packed);
  }
}

/// Shares an extra >= 0 (by the band) that the band can hold at packed.
void Spread::share(const Wish &wish, double extra, double most, double packed) {
  const Reach whole = reach(wish);
  if (!(whole.width > 0)) return level(wish.knots.back());
  past_most_ = past_most_ || !holds(most, whole.width, extra);
  const double cap = past_most_ ? packed : most;
  if (!holds(cap, whole.width, extra)) {
    const double left = extra - (cap - 1) * whole.width;
    return build(wish, infinite, cap, left / (1 - whole.width));
  }
  // The slack of the limit is used where it must be, so that the total is kept.
  const double room = std::max(cap - 1, extra / whole.width);
  build(wish, extra > 0 ? lambda_for(wish, whole, extra, room) : 0, 1 + room, 0);
}

void Spread::level(double band) {
  fullest_ = slackest_ = long_length_ / band;
  knots_ = {0, band};
  pieces_ = {{0, {fullest_, 0, 0, 0}}};
  close();
}

/// Lays out r = 1 + min(lambda w, cap - 1) piece by piece, 1 + fill where w = 0.
void Spread::build(const Wish &wish, double lambda, double cap, double fill) {
  const double level = lambda > 0 ? (cap - 1) / lambda : infinite;
  knots_.reserve(2 * wish.pieces.size() + 1);
  pieces_.reserve(2 * wish.pieces.size());
  knots_.push_back(0);
  fullest_ = 1;
  slackest_ = cap;
  for (std::size_t i = 0; i < wish.pieces.size(); ++i) {
    const double from = wish.knots[i];
    const double to = wish.knots[i + 1];
    const Climb climb(wish.pieces[i]);
    if (!(climb.high > 0)) {
      append(to, {1 + fill, 0, 0, 0});
      continue;
    }
    fullest_ = std::max(fullest_, climb.high < level ? 1 + lambda * climb.high : cap);
    slackest_ = std::min(slackest_, climb.low < level ? 1 + lambda * climb.low : cap);
    capped_ = capped_ || climb.high > level * (1 + shortest_ramp);
    const double climbed = climbed_under(climb, level);
    const Cubic top{cap, 0, 0, 0};
    if (climbed == 0) {
      append(to, top);
    } else if (climbed == 1) {
      append(to, fullness_of(wish.pieces[i], lambda));
    } else {
      const Cubic ramp = fullness_of(beginning(climb.wish, climbed), lambda);
      append(climb.falling ? to - (to - from) * climbed : from + (to - from) * climbed, climb.falling ? top : ramp);
      append(to, climb.falling ? turned(ramp) : top);
    }
  }
  close();
}

/// Adds a piece up to `end`; one that goes on at the same constant fullness makes the last one longer.
void Spread::append(double end, const Cubic &fullness) {
  const double from = knots_.back();
  if (!(end > from)) return;
  if (!pieces_.empty() && constant(fullness) && pieces_.back().fullness == fullness) {
    knots_.back() = end;
    return;
  }
  knots_.push_back(end);
  pieces_.push_back({0, fullness});
}

/// Adds up the places of the knots and takes the rounding of their total out.
void Spread::close() {
  double total = 0;
  for (std::size_t i = 0; i < pieces_.size(); ++i) {
    pieces_[i].start = total;
    total += (knots_[i + 1] - knots_[i]) * integral(pieces_[i].fullness, 1);
  }
  correction_ = correction_of(long_length_, total);
  for (Piece &piece : pieces_)
    piece.start = std::min(piece.start * correction_, long_length_);
}

std::size_t Spread::piece_at(double x) const {
  const auto right = std::lower_bound(knots_.begin() + 1, knots_.end() - 1, x);
  return static_cast<std::size_t>(right - knots_.begin()) - 1;
}

double Spread::place(std::size_t piece, double x) const {
  const double width = knots_[piece + 1] - knots_[piece];
  const double low = pieces_[piece].start;
  const double high = piece + 1 < pieces_.size() ? pieces_[piece + 1].start : long_length_;
  const double u = (x - knots_[piece]) / width;
  if (u >= 1) return high;
  const double y = low + correction_ * width * integral(pieces_[piece].fullness, u);
  // Kept between its knots, so that rounding cannot make the map fall across one.
  return y > low ? std::min(y, high) : low;
}

double Spread::map(double x) const {
  return place(piece_at(x), x);
}

void Spread::map(std::span<const double> x, std::span<double> y) const {
  std::size_t piece = 0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    if (x[i] < knots_[piece]) piece = piece_at(x[i]);
    while (piece + 1 < pieces_.size() && x[i] > knots_[piece + 1])
      ++piece;
    y[i] = place(piece, x[i]);
  }
}

double Spread::fullness(double x) const {
  const std::size_t piece = piece_at(x);
  const double u = (x - knots_[piece]) / (knots_[piece + 1] - knots_[piece]);
  return value(pieces_[piece].fullness, std::clamp(u, 0.0, 1.0));
}

Level::Level(double long_length, double band, double most)
    : knots_{0, band}, long_length_(long_length), fullness_(long_length / band),
      correction_(correction_of(long_length, band * fullness_)),
      past_most_(!holds(most, 1, (long_length - band) / band)) {}

double Level::map(double x) const {
  const double u = x / knots_[1];
  if (u >= 1) return long_length_;
  const double y = correction_ * knots_[1] * (fullness_ * u);
  return y > 0 ? std::min(y, long_length_) : 0;
}

void Level::map(std::span<const double> x, std::span<double> y) const {
  std::transform(x.begin(), x.end(), y.begin(), [this](double at) { return map(at); });
}

} // namespace gatherwright::spread
