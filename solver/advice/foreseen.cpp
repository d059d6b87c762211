// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/advice/foreseen.hpp"

#include "gatherwright/limits.hpp"
#include "solver/advice/join_reach.hpp"
#include "solver/advice/line.hpp"
#include "solver/job/settled.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

namespace gatherwright::advice {

namespace {

/// What is past a limit by more than this share is past it however the numbers are rounded: a plan lets 1e-9 be.
constexpr double clearly = 1e-6;

/// Formulas as functions of the one length to be found that they name.
class OfOneLength {
public:
  OfOneLength(const Job &job, std::span<const Affine> symbols, std::span<const double> planned)
      : job_(job), symbols_(symbols), planned_(planned) {}

  /// False: it has no value, or names a second one.
  bool read(const Formula &formula, Line &line) {
    const Outcome<Affine> value = evaluate(formula, symbols_);
    if (!value) return false;
    line = {value->constant, 0};
    if (value->fixed()) return true;
    const auto [symbol, slope] = value->terms.front();
    const LengthId length = *job_.length_of(symbol);
    if (value->terms.size() > 1 || length_.value_or(length) != length) return false;
    length_ = length;
    line = {line.at + slope * planned_[length.at], slope};
    return true;
  }

  /// Cuts `reach` down to the range of the length that was named, where its ends are fixed.
  void keep_range(Reach &reach) const {
    if (!length_) return;
    const FreeLength *free = job_[*length_].free();
    const double is = planned_[length_->at];
    reach.must_not_be_negative({is, 1}, is);
    const auto keep = [&](const std::optional<Formula> &end, double sign) {
      if (!end) return;
      if (const Outcome<Affine> value = evaluate(*end, symbols_); value && value->fixed())
        reach.must_not_be_negative({sign * (is - value->constant), sign}, is);
    };
    keep(free->from, 1);
    keep(free->to, -1);
    reach.settle(is);
  }

private:
  const Job &job_;
  std::span<const Affine> symbols_;
  std::span<const double> planned_;
  std::optional<LengthId> length_;
};

bool read(const Edge &edge, const std::optional<double> &drawn, OfOneLength &lengths, Line &line) {
  if (!drawn) return lengths.read(*edge.formula(), line);
  line = {*drawn, 0};
  return true;
}

bool read(const std::optional<Formula> &given, OfOneLength &lengths, std::optional<Line> &line) {
  return !given || lengths.read(*given, line.emplace());
}

/// Without the fades, which can only narrow what will do.
bool read(const Join &join, const allot::DrawnLengths &drawn, OfOneLength &lengths, JoinLines &lines) {
  if (!read(join.long_edge, drawn.long_edge, lengths, lines.long_edge)) return false;
  if (!read(join.band, drawn.band, lengths, lines.band)) return false;
  for (const Segment &segment : join.segments)
    if (!read(segment.long_edge, lengths, lines.segment_long.emplace_back()) ||
        !read(segment.band, lengths, lines.segment_band.emplace_back()))
      return false;
  lines.fades.resize(join.segments.size());
  return true;
}

/// A little wider than they are.
std::vector<Limits> wide_limits(const Join &join) {
  std::vector<Limits> limits;
  for (const Segment &segment : join.segments) {
    Limits &own = limits.emplace_back(
        cloth::limits(join.fabric, join.gathering, segment.kind, segment.limits, {.use = join.use}));
    own.least *= 1 - clearly;
    own.most *= 1 + clearly;
  }
  return limits;
}

bool eases(const Join &join) {
  return std::any_of(join.segments.begin(), join.segments.end(),
                     [](const Segment &segment) { return segment.kind == Kind::ease; });
}

} // namespace

Foreseen::Foreseen(const Job &job, std::span<const double> planned, std::span<const allot::DrawnLengths> drawn)
    : job_(job), planned_(planned), drawn_(drawn), symbols_(values_of_symbols(job)) {}

bool Foreseen::is_past_limits(JoinId at, const Join &worked) const {
  static const allot::DrawnLengths none;
  const allot::DrawnLengths &drawn = drawn_.empty() ? none : drawn_[at.at];
  if (drawn.long_edge && eases(worked)) return false; // its limit goes by where on the edge it lies
  OfOneLength lengths(job_, symbols_, planned_);
  JoinLines lines;
  if (!read(worked, drawn, lengths, lines)) return false;
  Reach reach(0, clearly);
  keep_within_limits(reach, worked, lines, wide_limits(worked));
  lengths.keep_range(reach);
  return reach.empty();
}

std::int64_t steps_to_foresee(const Join &join) {
  constexpr std::int64_t each_join = 500;
  constexpr std::int64_t each_segment = 500;
  return each_join + each_segment * static_cast<std::int64_t>(join.segments.size());
}

} // namespace gatherwright::advice
