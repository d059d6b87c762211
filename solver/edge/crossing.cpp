// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/edge/crossing.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

namespace gatherwright::edge {

namespace {

/// Directions within this run straight enough ahead that no two places on the way are the same.
constexpr double straight_ahead = std::numbers::pi - 1e-6;

/// The corners of a parallelogram that holds a curve from a to b whose direction of travel (or the opposite) stays
/// between `left` and `right`: the two other corners are where lines along the one from a and along the other to b
/// meet.
std::array<Point, 4> hull(Point a, Point b, Point left, Point right) {
  const double opening = cross(left, right);
  const Point chord = b - a;
  if (std::abs(opening) < 1e-12) return {a, b, a, b};
  return {a, b, a + (cross(chord, right) / opening) * left, a + (cross(left, chord) / opening) * right};
}

/// A part of a stretch: straight, with u for its parameter, or curved, with that of the span.
struct Bit {
  bool straight = true;
  double from = 0, to = 0;
  Point a, b;        ///< its ends
  Point left, right; ///< directions it stays between
  std::array<Point, 4> corners;
};

/// A stretch that is not folded, taken apart.
struct Parts {
  Parts(const Strand &strand, std::uint32_t which)
      : index(which), stretch(strand.stretches()[which]), moved(strand.moved(stretch)) {
    const double body = std::max(0.0, stretch.body);
    const double lead_out_from = stretch.lead_in + body;
    if (moved.shape.straight()) {
      add_straight(stretch.first, stretch.last);
      return;
    }
    add_straight(stretch.first, std::min(stretch.lead_in, stretch.last));
    if (body > 0 && stretch.first < lead_out_from && stretch.last > stretch.lead_in) {
      const auto parameter = [&](double u) {
        return moved.foot(stretch.from, stretch.to, body, u - stretch.lead_in).parameter;
      };
      add_curved(parameter(stretch.first), parameter(stretch.last));
    }
    add_straight(std::max(lead_out_from, stretch.first), stretch.last);
  }

  void add_straight(double from, double to) {
    if (!(to > from)) return;
    Bit &bit = bits[count++];
    bit.straight = true;
    bit.from = from;
    bit.to = to;
    bit.a = station(moved, stretch, from).at;
    bit.b = station(moved, stretch, to).at;
    bit.left = bit.right = moved.shape.tangent(from < stretch.lead_in ? stretch.from : stretch.to);
    bit.corners = {bit.a, bit.b, bit.a, bit.b};
  }

  void add_curved(double from, double to) {
    if (to > from) bits[count++] = curved(from, to, moved.at(from), moved.at(to));
  }

  Bit curved(double from, double to, Point a, Point b) const {
    const std::array<Point, 2> directions = moved.shape.directions(from, to);
    return {false, from, to, a, b, directions[0], directions[1], hull(a, b, directions[0], directions[1])};
  }

  std::array<Bit, 2> halves(const Bit &bit) const {
    const double middle = 0.5 * (bit.from + bit.to);
    const Point at = moved.at(middle);
    return {curved(bit.from, middle, bit.a, at), curved(middle, bit.to, at, bit.b)};
  }

  Moved::Motion motion(const Bit &bit, double t) const {
    return bit.straight ? Moved::Motion{bit.a + (t - bit.from) * bit.left, bit.left} : moved.motion(t);
  }
  Point direction(const Bit &bit, double t) const { return bit.straight ? bit.left : moved.shape.tangent(t); }
  double u(const Bit &bit, double t) const {
    const double u = bit.straight ? t : coordinate(moved, stretch, t);
    return std::clamp(u, stretch.first, std::max(stretch.first, stretch.last));
  }

  std::uint32_t index;
  Stretch stretch;
  Moved moved;
  std::array<Bit, 3> bits;
  std::size_t count = 0;
};

/// Whether the hulls lie apart by more than `touch` across `along`.
bool apart_across(const Bit &one, const Bit &other, Point along, double touch) {
  const auto range = [&](const Bit &bit) {
    std::array<double, 2> ends{cross(along, bit.corners[0]), cross(along, bit.corners[0])};
    for (const Point &corner : bit.corners) {
      const double across = cross(along, corner);
      ends = {std::min(ends[0], across), std::max(ends[1], across)};
    }
    return ends;
  };
  const auto a = range(one), b = range(other);
  const double margin = touch * norm(along);
  return a[1] + margin < b[0] || b[1] + margin < a[0];
}

bool apart(const Bit &one, const Bit &other, double touch) {
  return apart_across(one, other, {1, 0}, touch) || apart_across(one, other, {0, 1}, touch) ||
         apart_across(one, other, one.b - one.a, touch) || apart_across(one, other, other.b - other.a, touch);
}

/// Whether a bit lies within `touch` of its chord.
bool flat(const Bit &bit, double touch) {
  const Point chord = bit.b - bit.a;
  const double widest =
      std::max(std::abs(cross(chord, bit.corners[2] - bit.a)), std::abs(cross(chord, bit.corners[3] - bit.a)));
  return widest <= touch * norm(chord);
}

/// Whether two bits run across each other so plainly that they meet at most once and Newton's method finds it: every
/// pair of directions is further apart than either's range is wide. Directions are unit vectors within right angles.
bool plainly_across(const Bit &one, const Bit &other) {
  const double c0 = cross(one.left, other.left), c1 = cross(one.left, other.right);
  const double c2 = cross(one.right, other.left), c3 = cross(one.right, other.right);
  const bool right = c0 > 0 && c1 > 0 && c2 > 0 && c3 > 0;
  const bool left = c0 < 0 && c1 < 0 && c2 < 0 && c3 < 0;
  const double width = std::max(std::abs(cross(one.left, one.right)), std::abs(cross(other.left, other.right)));
  const double separation = std::min({std::abs(c0), std::abs(c1), std::abs(c2), std::abs(c3)});
  return (right || left) && separation > 1.5 * width && separation > 1e-12;
}

enum class Answer { found, none, unsure };

class Finder {
public:
  Finder(const Thicket &one, const Thicket &other, bool first_only)
      : one_(one), other_(other), same_(&one == &other), first_only_(first_only),
        touch_(std::max(one.strand().touch(), other.strand().touch())),
        // Well-drawn edges take a few steps a stretch and cross themselves a few times in all.
        most_work_(200'000 + 32 * one.strand().stretches().size()),
        most_found_(100'000 + 4 * one.strand().stretches().size()) {}

  Crossings run() {
    if (one_.strand().stretches().empty() || other_.strand().stretches().empty()) return {};
    waiting_.push_back({one_.height(), other_.height(), 0, 0});
    while (!waiting_.empty() && !done()) {
      const Pair pair = waiting_.back();
      waiting_.pop_back();
      ++work_;
      if (same_) {
        within(pair);
      } else {
        between(pair);
      }
    }
    result_.given_up = over();
    return std::move(result_);
  }

private:
  struct Pair {
    std::size_t height, other_height;
    std::size_t a, b;
  };

  bool over() const { return work_ > most_work_ || result_.found.size() > most_found_; }
  bool done() const { return over() || (first_only_ && !result_.found.empty()); }

  void within(const Pair &pair) {
    const auto &nodes = one_.level(pair.height);
    const Thicket::Node &a = nodes[pair.a], &b = nodes[pair.b];
    if (pair.a == pair.b) {
      if (pair.height == 0 || (a.whole && a.most - a.least < straight_ahead)) return;
    } else {
      if (boxes_apart(a.box, b.box)) return;
      const bool neighbours = pair.b == pair.a + 1 && b.joined && a.whole && b.whole;
      if (neighbours && std::max(a.most, b.most) - std::min(a.least, b.least) < straight_ahead) return;
    }
    if (pair.height == 0) {
      stretches(static_cast<std::uint32_t>(pair.a), static_cast<std::uint32_t>(pair.b));
      return;
    }
    const std::size_t below = one_.level(pair.height - 1).size();
    for (std::size_t i = 2 * pair.a; i < std::min(2 * pair.a + 2, below); ++i) {
      for (std::size_t j = pair.a == pair.b ? i : 2 * pair.b; j < std::min(2 * pair.b + 2, below); ++j) {
        waiting_.push_back({pair.height - 1, pair.height - 1, i, j});
      }
    }
  }

  void between(const Pair &pair) {
    if (boxes_apart(one_.level(pair.height)[pair.a].box, other_.level(pair.other_height)[pair.b].box)) return;
    if (pair.height == 0 && pair.other_height == 0) {
      stretches(static_cast<std::uint32_t>(pair.a), static_cast<std::uint32_t>(pair.b));
    } else if (pair.height >= pair.other_height) {
      const std::size_t below = one_.level(pair.height - 1).size();
      for (std::size_t i = 2 * pair.a; i < std::min(2 * pair.a + 2, below); ++i) {
        waiting_.push_back({pair.height - 1, pair.other_height, i, pair.b});
      }
    } else {
      const std::size_t below = other_.level(pair.other_height - 1).size();
      for (std::size_t j = 2 * pair.b; j < std::min(2 * pair.b + 2, below); ++j) {
        waiting_.push_back({pair.height, pair.other_height - 1, pair.a, j});
      }
    }
  }

  static bool boxes_apart(const Thicket::Box &a, const Thicket::Box &b) {
    return a.right < b.left || b.right < a.left || a.bottom < b.top || b.bottom < a.top;
  }

  void stretches(std::uint32_t first, std::uint32_t second) {
    // A folded stretch lies within what is cut off on both sides of its fold.
    if (one_.strand().stretches()[first].folded || other_.strand().stretches()[second].folded) return;
    const Parts one(one_.strand(), first), other(other_.strand(), second);
    for (std::size_t i = 0; i < one.count; ++i) {
      for (std::size_t j = 0; j < other.count; ++j) {
        if (one.bits[i].straight && other.bits[j].straight) {
          lines(one, one.bits[i], other, other.bits[j]);
        } else {
          curves(one, one.bits[i], other, other.bits[j]);
        }
      }
    }
  }

  void lines(const Parts &one, const Bit &p, const Parts &other, const Bit &q) {
    const double crossing = cross(p.left, q.left);
    if (std::abs(crossing) < 1e-12) return; // parallel
    const Point gap = q.a - p.a;
    const double s = cross(gap, q.left) / crossing, t = cross(gap, p.left) / crossing;
    if (s < -touch_ || s > p.to - p.from + touch_ || t < -touch_ || t > q.to - q.from + touch_) return;
    note(one, p, p.from + s, other, q, q.from + t);
  }

  void curves(const Parts &one, const Bit &p, const Parts &other, const Bit &q) {
    bits_.clear();
    bits_.push_back({p, q});
    while (!bits_.empty() && !done()) {
      const auto [a, b] = bits_.back();
      bits_.pop_back();
      ++work_;
      if (apart(a, b, touch_)) continue;
      if (plainly_across(a, b) && meet(one, a, other, b) != Answer::unsure) continue;
      const double length = norm(a.b - a.a), other_length = norm(b.b - b.a);
      // Too short, or too straight for directions so near to each other, to do more than touch, running alongside.
      if (std::max(length, other_length) < 4 * touch_ || (flat(a, touch_) && flat(b, touch_))) continue;
      const double width = std::abs(cross(a.left, a.right)), other_width = std::abs(cross(b.left, b.right));
      const bool halve_first =
          !a.straight && (b.straight || width > other_width || (width == other_width && length > other_length));
      for (const Bit &half : halve_first ? one.halves(a) : other.halves(b)) {
        bits_.push_back(halve_first ? std::array{half, b} : std::array{a, half});
      }
    }
  }

  /// Newton's method for the meeting point of two bits that run across each other.
  Answer meet(const Parts &one, const Bit &p, const Parts &other, const Bit &q) {
    const Point chord = p.b - p.a, other_chord = q.b - q.a;
    const double chords = cross(chord, other_chord);
    const Point between_starts = q.a - p.a;
    double s = p.from, t = q.from;
    if (chords != 0) {
      s += std::clamp(cross(between_starts, other_chord) / chords, 0.0, 1.0) * (p.to - p.from);
      t += std::clamp(cross(between_starts, chord) / chords, 0.0, 1.0) * (q.to - q.from);
    }
    for (int step = 0; step < 50; ++step) {
      const auto [at, along] = one.motion(p, s);
      const auto [other_at, other_along] = other.motion(q, t);
      const Point gap = other_at - at;
      const double miss = norm(gap);
      const double crossing = cross(along, other_along);
      if (miss <= 0.1 * touch_) return note(one, p, s, other, q, t), Answer::found;
      if (crossing == 0) return Answer::unsure;
      const double next_s = std::clamp(s + cross(gap, other_along) / crossing, p.from, p.to);
      const double next_t = std::clamp(t + cross(gap, along) / crossing, q.from, q.to);
      if (next_s == s && next_t == t) {
        if (miss <= touch_) return note(one, p, s, other, q, t), Answer::found;
        return Answer::none; // held back at an end: they would meet beyond it
      }
      s = next_s;
      t = next_t;
    }
    return Answer::unsure;
  }

  /// Either side of a cusp, or of a spike whose sides have one tangent, the curve is next to itself for longer than
  /// rounding lasts, without crossing.
  static double closeness(const Parts &one, const Parts &other) {
    return 1e-3 * std::min(one.stretch.last - one.stretch.first, other.stretch.last - other.stretch.first);
  }
  static bool reverses(const Parts &one, const Parts &other) {
    const auto back = [](Point in, Point out) { return dot(in, out) < 0 && std::abs(cross(in, out)) < 1e-6; };
    return back(one.moved.shape.tangent(one.stretch.to), other.moved.shape.tangent(other.stretch.from)) ||
           back(other.moved.shape.tangent(other.stretch.to), one.moved.shape.tangent(one.stretch.from));
  }

  void note(const Parts &one, const Bit &p, double s, const Parts &other, const Bit &q, double t) {
    const double u = one.u(p, s), v = other.u(q, t);
    if (same_) {
      const double place = one.stretch.start + (u - one.stretch.first);
      const double other_place = other.stretch.start + (v - other.stretch.first);
      double between = std::abs(place - other_place);
      if (one_.strand().meets_itself()) between = std::min(between, one_.strand().length() - between);
      if (between <= 8 * touch_ || (between < closeness(one, other) && reverses(one, other))) return; // a joint
    }
    result_.found.push_back({one.index, u, other.index, v, cross(one.direction(p, s), other.direction(q, t))});
  }

  const Thicket &one_;
  const Thicket &other_;
  bool same_;
  bool first_only_;
  double touch_;
  std::size_t work_ = 0;
  std::size_t most_work_;
  std::size_t most_found_;
  std::vector<Pair> waiting_;
  std::vector<std::array<Bit, 2>> bits_;
  Crossings result_;
};

} // namespace

Thicket::Thicket(const Strand &strand) : strand_(&strand) {
  const std::vector<Stretch> &stretches = strand.stretches();
  std::vector<Node> leaves;
  leaves.reserve(stretches.size());
  double direction = 0;
  Point before{1, 0};
  for (const Stretch &stretch : stretches) {
    const Moved moved = strand.moved(stretch);
    const Point start = moved.shape.tangent(stretch.from), end = moved.shape.tangent(stretch.to);
    direction += turn_between(before, start);
    before = end;
    const std::array<Point, 2> range = moved.shape.directions(stretch.from, stretch.to);
    Node leaf;
    leaf.least = direction + turn_between(start, range[0]);
    leaf.most = direction + turn_between(start, range[1]);
    leaf.whole = !stretch.folded;
    leaf.joined = !stretch.apart;
    direction += moved.shape.turn(stretch.from, stretch.to);
    const Point a = station(moved, stretch, stretch.first).at, b = station(moved, stretch, stretch.last).at;
    const std::array<Point, 4> corners = hull(a, b, range[0], range[1]);
    const auto [x0, x1] = std::minmax({corners[0].x, corners[1].x, corners[2].x, corners[3].x});
    const auto [y0, y1] = std::minmax({corners[0].y, corners[1].y, corners[2].y, corners[3].y});
    // Widened by what crossings are found within, and by a unit or two in the last place of a float.
    const auto below = [&](double value) {
      return static_cast<float>(value - strand.touch() - 1.5e-7 * std::abs(value));
    };
    const auto above = [&](double value) {
      return static_cast<float>(value + strand.touch() + 1.5e-7 * std::abs(value));
    };
    leaf.box = {below(x0), below(y0), above(x1), above(y1)};
    leaves.push_back(leaf);
  }
  levels_.push_back(std::move(leaves));
  while (levels_.back().size() > 1) {
    const std::vector<Node> &under = levels_.back();
    std::vector<Node> over;
    over.reserve((under.size() + 1) / 2);
    for (std::size_t i = 0; i < under.size(); i += 2) {
      Node node = under[i];
      if (i + 1 < under.size()) {
        const Node &next = under[i + 1];
        node.box = {std::min(node.box.left, next.box.left), std::min(node.box.top, next.box.top),
                    std::max(node.box.right, next.box.right), std::max(node.box.bottom, next.box.bottom)};
        node.least = std::min(node.least, next.least);
        node.most = std::max(node.most, next.most);
        node.whole = node.whole && next.whole && next.joined;
      }
      over.push_back(node);
    }
    levels_.push_back(std::move(over));
  }
}

namespace {

double distance_to_chord(const Bit &bit, Point point) {
  const Point chord = bit.b - bit.a;
  const double along = std::clamp(dot(point - bit.a, chord) / dot(chord, chord), 0.0, 1.0);
  return norm(bit.a + along * chord - point);
}

/// The same for one bit, halved until its sag no longer matters.
bool bit_within(const Parts &parts, const Bit &whole, Point point, double distance) {
  const double tolerance = 1e-6 * distance;
  std::vector<Bit> waiting{whole};
  while (!waiting.empty()) {
    const Bit bit = waiting.back();
    waiting.pop_back();
    if (std::min(norm(bit.a - point), norm(bit.b - point)) < distance - tolerance) return true;
    if (bit.a == bit.b) continue;
    double sag = 0;
    for (const Point &corner : bit.corners)
      sag = std::max(sag, distance_to_chord(bit, corner));
    const double away = distance_to_chord(bit, point);
    if (away - sag >= distance - tolerance) continue;
    if (away + sag < distance - tolerance) return true;
    if (bit.straight || sag < 0.1 * tolerance) continue;
    for (const Bit &half : parts.halves(bit))
      waiting.push_back(half);
  }
  return false;
}

} // namespace

bool comes_within(const Thicket &strand, Point point, double distance) {
  struct Where {
    std::size_t height, index;
  };
  if (strand.strand().stretches().empty()) return false;
  std::vector<Where> waiting{{strand.height(), 0}};
  while (!waiting.empty()) {
    const auto [height, index] = waiting.back();
    waiting.pop_back();
    const Thicket::Box &box = strand.level(height)[index].box;
    const double across = std::max({box.left - point.x, point.x - box.right, 0.0});
    const double down = std::max({box.top - point.y, point.y - box.bottom, 0.0});
    if (norm({across, down}) >= distance) continue;
    if (height > 0) {
      for (std::size_t i = 2 * index; i < std::min(2 * index + 2, strand.level(height - 1).size()); ++i)
        waiting.push_back({height - 1, i});
      continue;
    }
    const Parts parts(strand.strand(), static_cast<std::uint32_t>(index));
    for (std::size_t i = 0; i < parts.count; ++i) {
      if (bit_within(parts, parts.bits[i], point, distance)) return true;
    }
  }
  return false;
}

Crossings self_crossings(const Thicket &strand, bool first_only) {
  return Finder(strand, strand, first_only).run();
}

Crossings mutual_crossings(const Thicket &one, const Thicket &other, bool first_only) {
  return Finder(one, other, first_only).run();
}

} // namespace gatherwright::edge
