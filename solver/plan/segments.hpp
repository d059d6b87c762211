// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/plan.hpp"
#include "solver/cloth/ridge.hpp"
#include "solver/edge/drawn.hpp"
#include "solver/spread/grain.hpp"
#include "solver/spread/spread.hpp"

#include <optional>
#include <variant>

namespace gatherwright {

/// A segment's long and band as solved, millimetres.
struct SolvedSegment {
  double long_length = 0;
  double band = 0;
};

/// The spread along one segment, of whichever kind.
class SegmentSpread {
  template <class Ask> auto visit(Ask ask) const { return std::visit(ask, spread_); }

public:
  SegmentSpread(spread::Level spread) : spread_(spread) {}
  SegmentSpread(spread::Spread spread) : spread_(std::move(spread)) {}
  SegmentSpread(spread::GrainSpread spread) : spread_(std::move(spread)) {}

  double map(double x) const {
    return visit([&](const auto &spread) { return spread.map(x); });
  }
  void map(std::span<const double> x, std::span<double> y) const {
    visit([&](const auto &spread) { spread.map(x, y); });
  }
  double fullest() const {
    return visit([](const auto &spread) { return spread.fullest(); });
  }
  double slackest() const {
    return visit([](const auto &spread) { return spread.slackest(); });
  }
  bool capped() const {
    return visit([](const auto &spread) { return spread.capped(); });
  }
  bool past_most() const {
    return visit([](const auto &spread) { return spread.past_most(); });
  }
  std::span<const double> knots() const {
    return visit([](const auto &spread) { return spread.knots(); });
  }

private:
  std::variant<spread::Level, spread::Spread, spread::GrainSpread> spread_;
};

/// Why the spread that a segment wishes for does not fit it, if it does not. `line`: the long edge where it is drawn,
/// of which the segment begins at `along`.
std::optional<Refusal> refusal_of_spread(const Segment &segment, SegmentAt at, const SolvedSegment &solved,
                                         const edge::DrawnLine *line, double along);

/// The spread of a segment's fullness, where nothing keeps it from it.
SegmentSpread spread_of(const Segment &segment, const SolvedSegment &solved, const Limits &limits,
                        const edge::DrawnLine *line, double along);

/// By the mean fullness.
Verdict verdict_of(Kind kind, const SolvedSegment &solved, const Limits &limits);

/// How well a segment lies within its limits, where it does and takes fullness.
std::optional<Standing> standing_of(Kind kind, const SegmentPlan &segment);

/// The lesser of its segments', of a join within limits.
std::optional<Standing> standing_of(const JoinPlan &join);

/// A segment's lengths, its limits and how it lies within them.
SegmentPlan judged_segment(Kind kind, const SolvedSegment &solved, const Limits &limits);

/// All of a segment's numbers but its places along the edges and those of its spread. `ridges`: those of its plan.
SegmentPlan segment_plan(const Join &join, const Segment &segment, const SolvedSegment &solved, const Limits &limits,
                         const Tolerance &tolerance, cloth::Ridges &ridges);

/// The numbers of a segment's spread.
void tell_spread(SegmentPlan &segment, const SegmentSpread &spread);

} // namespace gatherwright
