// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/advice/join_reach.hpp"

#include <algorithm>
#include <cmath>

namespace gatherwright::advice {

namespace {

/// line + beta * (the band that segments given nothing share equally) + phi * (the flat segment given nothing) >= 0, or
/// above 0.
struct Row {
  Line line{};
  double beta = 0;
  double phi = 0;
  bool above_0 = false;
};

/// One join's conditions, gathered segment by segment, then rid of what is to be found.
class JoinConditions {
public:
  JoinConditions(Reach &reach, const Join &join, const JoinLines &lines, std::span<const Limits> limits)
      : reach_(reach), join_(join), lines_(lines), limits_(limits),
        size_(std::abs(lines.long_edge.at) + std::abs(lines.band.at)), left_long_(lines.long_edge),
        left_band_(lines.band) {}

  void keep() {
    constexpr std::size_t of_sums = 3; // along the two edges
    rows_.reserve(join_.segments.size() + of_sums);
    for (std::size_t s = 0; s < join_.segments.size(); ++s)
      add(s);
    sum_of_long();
    sum_of_band();
    find_flat();
  }

private:
  void hold(const Line &line) { reach_.must_not_be_negative(line, size_); }
  void hold(const Row &row) {
    if (row.above_0)
      reach_.must_be_above_0(row.line, size_);
    else
      hold(row.line);
  }

  /// A band is above 0, and no shorter than what fades over it.
  Row band_of(std::size_t s, Row band) const {
    const Line &fades = lines_.fades[s];
    band.line = band.line - fades;
    band.above_0 = !(fades.at > 0) || fades.slope != 0;
    return band;
  }

  void add(std::size_t s) {
    const auto &given_long = lines_.segment_long[s];
    const auto &given_band = lines_.segment_band[s];
    if (!takes_fullness(join_.segments[s].kind)) {
      add_flat(given_long, given_band);
      return;
    }
    const Limits &limit = limits_[s];
    if (given_band) {
      hold(band_of(s, {*given_band}));
      left_band_ = left_band_ - *given_band;
      if (given_long) {
        hold(*given_long - limit.least * *given_band);
        hold(limit.most * *given_band - *given_long);
        left_long_ = left_long_ - *given_long;
      } else {
        least_long_ += limit.least * *given_band;
        most_long_ += limit.most * *given_band;
      }
      return;
    }
    if (given_long) {
      hold(Row{.line = *given_long, .above_0 = true});
      left_long_ = left_long_ - *given_long;
      bands_to_find_.push_back(s);
      return;
    }
    ++sharing_;
    least_share_ += limit.least;
    most_share_ += limit.most;
    rows_.push_back(band_of(s, {.beta = 1}));
  }

  void add_flat(const std::optional<Line> &given_long, const std::optional<Line> &given_band) {
    if (!given_long && !given_band) {
      flat_to_find_ = true;
      rows_.push_back({.phi = 1, .above_0 = true});
      return;
    }
    const Line given = given_long ? *given_long : *given_band;
    if (given_long && given_band) reach_.must_be_zero(*given_long - *given_band, size_);
    hold(Row{.line = given, .above_0 = true});
    left_long_ = left_long_ - given;
    left_band_ = left_band_ - given;
  }

  /// What is left of the long edge, less the flat segment to be found, lies between the least and the most that the
  /// segments with cloth to find can take.
  void sum_of_long() {
    const double flat = flat_to_find_ ? 1 : 0;
    rows_.push_back({.line = left_long_ - least_long_, .beta = -least_share_, .phi = -flat});
    rows_.push_back({.line = most_long_ - left_long_, .beta = most_share_, .phi = flat});
  }

  /// The band adds up: sharing_ * beta + phi + the bands to be found = what is left of it. Beside segments that share a
  /// band no other band is to be found.
  void sum_of_band() {
    if (sharing_ > 0)
      take_out_shared_band();
    else if (!bands_to_find_.empty())
      keep_bands_to_find();
    else if (flat_to_find_)
      for (Row &row : rows_)
        row = {.line = row.line + row.phi * left_band_, .above_0 = row.above_0};
    else
      reach_.must_be_zero(left_band_, size_);
  }

  /// Beside them no flat segment is to be found either.
  void take_out_shared_band() {
    for (Row &row : rows_)
      row = {.line = row.line + (row.beta / sharing_) * left_band_, .above_0 = row.above_0};
  }

  /// Segments that give their cloth take bands between l / most and l / least, no less than their fades. Where the plan
  /// chooses between several, or between them and a flat stretch, one may find too little: see narrow_rooms().
  void keep_bands_to_find() {
    Line least;
    Line most;
    for (const std::size_t s : bands_to_find_) {
      const Line cloth = *lines_.segment_long[s];
      const Line by_least = (1 / limits_[s].least) * cloth;
      least += (1 / limits_[s].most) * cloth;
      most += by_least;
      hold(by_least - lines_.fades[s]);
    }
    const double flat = flat_to_find_ ? 1 : 0;
    if (bands_to_find_.size() == 1)
      rows_.push_back(band_of(bands_to_find_.front(), {.line = left_band_, .phi = -flat}));
    rows_.push_back({.line = most - left_band_, .phi = flat});
    rows_.push_back({.line = left_band_ - least, .phi = -flat});
  }

  /// What is said of the flat stretch to be found, two by two: it can be as long as all of it lets it.
  void find_flat() {
    for (const Row &low : rows_) {
      if (low.phi <= 0) continue;
      for (const Row &high : rows_)
        if (high.phi < 0)
          hold(Row{.line = low.phi * high.line - high.phi * low.line, .above_0 = low.above_0 || high.above_0});
    }
    for (const Row &row : rows_)
      if (row.phi == 0) hold(row);
  }

  Reach &reach_;
  const Join &join_;
  const JoinLines &lines_;
  std::span<const Limits> limits_;
  double size_;
  Line left_long_, left_band_;
  Line least_long_, most_long_;
  double least_share_ = 0;
  double most_share_ = 0;
  int sharing_ = 0;
  bool flat_to_find_ = false;
  std::vector<std::size_t> bands_to_find_;
  std::vector<Row> rows_;
};

} // namespace

void keep_within_limits(Reach &reach, const Join &join, const JoinLines &lines, std::span<const Limits> limits) {
  JoinConditions(reach, join, lines, limits).keep();
}

} // namespace gatherwright::advice
