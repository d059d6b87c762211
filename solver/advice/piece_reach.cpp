// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/advice/piece_reach.hpp"

#include "gatherwright/cloths.hpp"
#include "solver/job/beyond.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace gatherwright::advice {

namespace {

/// Segments that are not flat and have neither length take equal parts of the band that is left; where each of the
/// others gives its band, that is settled.
bool is_shared_equally(const Join &join) {
  return std::all_of(join.segments.begin(), join.segments.end(), [](const Segment &segment) {
    return given_on(segment, WhichEdge::band) || (takes_fullness(segment.kind) && !segment.long_edge);
  });
}

/// Of the two ways in which a piece may lie the one that holds out further.
void keep_width(Reach &reach, const Piece &piece, double usable, const PieceLines &lines) {
  const Line as_it_is = Line{usable, 0} - (lines.across + lines.allowance[Side::left] + lines.allowance[Side::right]);
  const Line turned = Line{usable, 0} - (lines.along + lines.allowance[Side::top] + lines.allowance[Side::bottom]);
  const auto holds_out = [&](const Line &left) {
    if (left.slope != 0) return left.at / std::abs(left.slope);
    return left.at < -limit_share * usable ? -HUGE_VAL : HUGE_VAL;
  };
  const bool turn = piece.turn && holds_out(turned) > holds_out(as_it_is);
  reach.must_not_be_negative(turn ? turned : as_it_is, usable);
}

void keep_parts(Reach &reach, const std::vector<Line> &at, const std::vector<Line> &parts, const Line &side) {
  std::vector<std::pair<double, int>> in_order;
  for (int n = 0; n < static_cast<int>(parts.size()); ++n) {
    reach.must_not_be_negative(at[n], side.at);
    in_order.emplace_back(at[n].at, n);
  }
  std::sort(in_order.begin(), in_order.end());
  for (std::size_t k = 0; k < in_order.size(); ++k) {
    const int n = in_order[k].second;
    const Line &next = k + 1 < in_order.size() ? at[in_order[k + 1].second] : side;
    reach.must_not_be_negative(next - at[n] - parts[n], side.at);
  }
}

} // namespace

PartShare share_of(const Join &join, const SidePart &part) {
  int within = 0;
  int all = 0;
  for (int s = 0; s < static_cast<int>(join.segments.size()); ++s) {
    if (given_on(join.segments[s], part.edge)) continue;
    ++all;
    if (part.from <= s && s < part.to) ++within;
  }
  if (within == 0) return {};
  if (within == all) return {false, 1};
  if (part.edge == WhichEdge::band && is_shared_equally(join)) return {false, static_cast<double>(within) / all};
  return {true, 0};
}

bool has_part_chosen(const Job &job, PieceId piece) {
  return std::any_of(all_sides.begin(), all_sides.end(), [&](Side side) {
    const std::vector<SidePart> &parts = job[piece].sides[side];
    return std::any_of(parts.begin(), parts.end(),
                       [&](const SidePart &part) { return share_of(job[part.join], part).is_chosen; });
  });
}

void keep_piece(Reach &reach, const Job &job, PieceId id, const PieceLines &lines) {
  for (const Line &size : {lines.across, lines.along})
    reach.must_not_be_negative(size, size.at);
  for (const Side side : all_sides) {
    reach.must_not_be_negative(lines.allowance[side], lines.allowance[side].at);
    keep_parts(reach, lines.at[side], lines.parts[side], runs_across(side) ? lines.across : lines.along);
  }
  const Piece &piece = job[id];
  if (const auto width = usable(cloth_of(piece.fabric, job.unit))) {
    reach.keep({Kept::What::width, id.at});
    keep_width(reach, piece, *width, lines);
    reach.keep({});
  }
}

} // namespace gatherwright::advice
