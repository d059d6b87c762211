// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/mark/rounding.hpp"

#include <algorithm>
#include <array>
#include <cmath>

// A dynamic programme over the two steps a mark may go to. For each mark it keeps the best way of rounding all marks so
// far that ends on the lower step, and the best that ends on the upper one; of these two only how they differ matters.
//
// Ties. Equal parts on a tape tie everywhere in the first sum, so what decides must be the sums of the exact places,
// not the noise that these carry as doubles. Two ways compared at a mark went apart some marks ago, and between them
// they are on different steps at every mark. With the places in doubt by d each:
//
// The difference of their sums of squared gap errors is the sum of (e - f)(e + f) over the gaps. e - f is a difference
// of whole steps and carries no doubt; e + f carries 4 d at most. So the doubt is 4 d times the sum of |e - f|.
//
// Likewise the difference of their sums of squared position errors is in doubt by 2 d for each mark they are apart.
//
// A difference within its doubt is a tie. Both are carried along and begin anew whenever the ways meet, so that ten
// thousand marks are rounded with no more doubt than ten.

namespace gatherwright::mark {

namespace {

// Doubt in a place, in steps: lengths that were solved for or added up come with some 1e-13 of an edge, a few hundred
// steps long; beyond a few hundred thousand steps the spacing of doubles itself (2.2e-16) is felt, some eight times
// over.
constexpr double place_doubt = 1e-9;
constexpr double place_doubt_of_length = 2e-15;

/// The step or the two steps a mark may go to, as errors (step - place).
struct Choice {
  double place = 0;
  std::array<double, 2> step{};
  int count = 1;

  double error(int which) const { return step[which] - place; }
};

Choice choice_at(double place, double highest) {
  const double nearest = std::round(place) + 0.0; // never -0
  if (std::abs(place - nearest) <= on_step && nearest <= highest) return {place, {nearest, nearest}, 1};
  const double below = std::floor(place);
  return {place, {below, below + 1}, below + 1 <= highest ? 2 : 1};
}

/// What the best way to one step has more than the best way to the other.
struct Difference {
  double gaps = 0;         ///< sum of squared gap errors
  double positions = 0;    ///< sum of squared position errors
  double turns = 0;        ///< sum of |e - f|: how the doubt in `gaps` grows
  double marks_apart = 0;  ///< marks on different steps: how the doubt in `positions` grows
  bool first_lower = true; ///< the way to the lower step is lower at the first mark that differs
};

double square(double x) {
  return x * x;
}

/// Whether the way to the upper step is the better to come from, where going on adds `more` to its gaps beyond the
/// other's. Both go on to the same step, so their last gaps differ by one step: one more turn.
bool upper_is_better(const Difference &upper, double more, double doubt) {
  const double gaps = upper.gaps + more;
  if (std::abs(gaps) > 4 * doubt * (upper.turns + 1)) return gaps < 0;
  if (std::abs(upper.positions) > 2 * doubt * upper.marks_apart) return upper.positions < 0;
  return !upper.first_lower;
}

double gap_error(const Choice &from, int at, const Choice &to, int then) {
  return to.error(then) - from.error(at);
}

/// Which step of `from` to come from for step `then` of `to`; `weight` is that of the gap between.
int best_from(const Choice &from, const Choice &to, int then, const Difference &upper, double doubt, double weight) {
  if (from.count == 1 || to.step[then] < from.step[1]) return 0;
  const double more = square(gap_error(from, 1, to, then)) - square(gap_error(from, 0, to, then));
  return upper_is_better(upper, weight * more, doubt) ? 1 : 0;
}

/// How the two ways to `to` differ, given how those to `from` did and where each comes from.
Difference carried_on(const Choice &from, const Choice &to, const std::array<int, 2> &came, const Difference &before) {
  const double upper = gap_error(from, came[1], to, 1);
  const double lower = gap_error(from, came[0], to, 0);
  Difference next;
  next.gaps = square(upper) - square(lower);
  next.positions = square(to.error(1)) - square(to.error(0));
  next.turns = std::abs((to.step[1] - from.step[came[1]]) - (to.step[0] - from.step[came[0]]));
  next.marks_apart = 1;
  if (came[0] == came[1]) return next;
  const double sense = came[1] == 1 ? 1 : -1;
  next.gaps += sense * before.gaps;
  next.positions += sense * before.positions;
  next.turns += before.turns;
  next.marks_apart += before.marks_apart;
  next.first_lower = before.first_lower == (came[1] == 1);
  return next;
}

/// The steps a mark may go to, and for each of them that of the mark before which it is best to come from.
struct Link {
  Choice to;
  std::array<int, 2> came{};
};

/// Rounds `places`, all between a start at 0 and an end at `end` that stay exact, none above `highest`, into as many of
/// `tape`. The gap to the end counts `last_weight` times.
void between_ends(std::span<const double> places, double end, double highest, double last_weight, double doubt,
                  std::span<double> tape) {
  std::vector<Link> links(places.size());
  Choice last{0, {0, 0}, 1};
  Difference difference;
  for (std::size_t i = 0; i < places.size(); ++i) {
    auto &[here, came] = links[i];
    here = choice_at(places[i], highest);
    for (int step = 0; step < here.count; ++step)
      came[step] = best_from(last, here, step, difference, doubt, 1);
    difference = carried_on(last, here, came, difference);
    last = here;
  }
  int at = best_from(last, {end, {end, end}, 1}, 0, difference, doubt, last_weight);
  for (std::size_t i = places.size(); i-- > 0;) {
    tape[i] = links[i].to.step[at];
    at = links[i].came[at];
  }
}

/// The places of the first half, each freed of noise by its partner from the other end.
std::vector<double> first_half(std::span<const double> inner, double length) {
  std::vector<double> half(inner.size() / 2);
  for (std::size_t i = 0; i < half.size(); ++i)
    half[i] = (inner[i] + (length - inner[inner.size() - 1 - i])) / 2;
  return half;
}

/// Rounds the inner marks of an edge of `length` whole steps so that they mirror themselves. Either half is rounded as
/// if the middle of the edge were its exact end. That is what counts: with a middle mark m from the middle and its
/// neighbours at -e and e, the two gaps there err by (m + e) and (m - e), squares 2 m^2 + 2 e^2; with none, the one gap
/// errs by 2 e, square 4 e^2, twice as much for each half.
void mirrored_between(std::span<const double> inner, double length, double doubt, std::span<double> tape) {
  const double middle = std::floor(length / 2);
  const bool has_middle = inner.size() % 2 == 1;
  const auto half = first_half(inner, length);
  between_ends(half, length / 2, middle, has_middle ? 1 : 2, doubt, tape);
  if (has_middle) tape[half.size()] = middle;
  for (std::size_t i = 0; i < half.size(); ++i)
    tape[inner.size() - 1 - i] = length - tape[i];
}

} // namespace

std::vector<double> to_tape(std::span<const double> places, double length, bool closed, bool mirrored) {
  if (places.size() < 2) return {places.begin(), places.end()};
  const auto inner = places.subspan(1, places.size() - (closed ? 1 : 2));
  const double end = closed ? length : places.back();
  const double doubt = std::max(place_doubt, place_doubt_of_length * end);
  const double whole = std::round(end);
  const bool in_halves = mirrored && std::abs(end - whole) <= on_step;
  std::vector<double> tape(places.begin(), places.end());
  const std::span<double> rounded = std::span(tape).subspan(1, inner.size());
  if (in_halves)
    mirrored_between(inner, whole, doubt, rounded);
  else
    between_ends(inner, end, end, 1, doubt, rounded);
  return tape;
}

} // namespace gatherwright::mark
