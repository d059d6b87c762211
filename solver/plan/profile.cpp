// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/plan/profile.hpp"

#include <algorithm>

namespace gatherwright {

namespace {

/// Stations nearer to each other than this share of their segment are one.
constexpr double same_station = 1e-9;

} // namespace

Profile profile_of(const JoinPlan &plan, std::span<const SegmentSpread> spreads, int stations) {
  Profile profile;
  for (std::size_t s = 0; s < spreads.size(); ++s) {
    const SegmentPlan &segment = plan.segments[s];
    std::vector<double> places(spreads[s].knots().begin(), spreads[s].knots().end());
    // Even stations of the whole band that fall within this segment.
    for (int i = 0; i < stations; ++i) {
      const double place = plan.band * i / (stations - 1) - segment.from;
      if (place > 0 && place < segment.band) places.push_back(place);
    }
    std::sort(places.begin(), places.end());
    // Stations that differ by rounding alone are one; the knots stay, the end among them.
    const auto same = [&](double a, double b) { return b - a <= same_station * segment.band; };
    places.erase(std::unique(places.begin(), places.end(), same), places.end());
    places.back() = segment.band;
    std::vector<double> mapped(places.size());
    spreads[s].map(places, mapped);
    // A segment's start is the end of the one before.
    for (std::size_t i = s == 0 ? 0 : 1; i < places.size(); ++i) {
      const bool last = i + 1 == places.size();
      profile.band.push_back(last ? segment.to : segment.from + places[i]);
      profile.long_edge.push_back(last ? segment.long_to : segment.long_from + mapped[i]);
    }
  }
  return profile;
}

} // namespace gatherwright
