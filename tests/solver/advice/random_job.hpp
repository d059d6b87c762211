// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "tests/draft.hpp"

#include <random>
#include <string>
#include <vector>

namespace gatherwright::tests {

/// Ways of parting a join in segments, by number.
inline std::vector<SegmentDraft> random_segments(int way, const std::string &long_edge) {
  const SegmentDraft gathered, plain{.kind = Kind::flat}, half{.long_edge = long_edge + " / 2"},
      quarter{.band = "b / 4"};
  switch (way) {
  case 0:
    return {gathered};
  case 1:
    return {{.kind = Kind::flat, .long_edge = "p"}, gathered, gathered};
  case 2:
    return {{.band = "b / 3"}, {.share = 2}, {.kind = Kind::ease, .band = "40 mm"}};
  case 3:
    return {half, half};
  case 5:
    return {plain, half};
  case 6:
    return {half, plain, quarter};
  case 7:
    return {{.long_edge = long_edge + " / 3", .spread = Fade{{mm(40), mm(30)}}},
            plain,
            {.kind = Kind::ease, .band = "b / 4"}};
  case 8:
    return {{.long_edge = long_edge + " / 2", .fade = {{"b / 8", "p"}}}, half};
  default:
    return {{.band = "b / 2", .fade = {{"p", "40 mm"}}}, plain, quarter};
  }
}

/// A job with named lengths (some free, some derived), rules and joins of many shapes, within or without limits.
/// `chosen`: also joins in which a stretch could get too little of what the plan chooses, for its fade or at all.
inline Draft random_advice_job(std::mt19937_64 &random, bool chosen = false) {
  const auto whole = [&](int low, int high) { return std::uniform_int_distribution<int>(low, high)(random); };
  const auto written = [](int millimetres) { return std::to_string(millimetres) + " mm"; };
  Draft draft{.fabric = weighing(165)};
  const int a = whole(400, 1100), b = whole(200, 480), added = whole(0, 200), p = whole(10, 60);
  draft.lengths = {{"a", written(a)}, {"b", written(b)}, {"c", "a / 2 + " + written(added)}, {"p", written(p)}};
  if (whole(0, 1)) {
    const int from = whole(200, 500), to = whole(600, 1200);
    draft.lengths.push_back({.name = "f", .from = written(from), .to = written(to)});
  } else {
    draft.lengths.push_back({"f", written(whole(300, 900))});
  }
  if (whole(0, 1)) draft.rules.push_back("a + f <= " + written(whole(1000, 2200)));
  if (whole(0, 2) == 0) draft.rules.push_back("b + 2 * p >= " + written(whole(200, 500)));
  const int count = whole(1, 3);
  for (int j = 0; j < count; ++j) {
    static const char *const longs[] = {"a", "f", "c", "a"};
    const std::string long_edge = longs[whole(0, 3)];
    const std::vector<SegmentDraft> segments = random_segments(whole(0, chosen ? 8 : 5), long_edge);
    const std::string band = whole(0, 3) ? "b" : written(whole(200, 500));
    draft.joins.push_back({"j" + std::to_string(j), long_edge, band, segments});
  }
  return draft;
}

/// The same with pieces: what of them hangs on the lengths, and what is sewn where, is of many shapes too.
inline Draft random_job_with_pieces(std::mt19937_64 &random) {
  Draft draft = random_advice_job(random, true);
  const auto whole = [&](int low, int high) { return std::uniform_int_distribution<int>(low, high)(random); };
  const auto written = [](int millimetres) { return std::to_string(millimetres) + " mm"; };
  draft.fabric.width = mm(whole(700, 1600));
  draft.allowance = "10 mm";
  const int pieces = whole(1, 3);
  for (int p = 0; p < pieces; ++p) {
    static const char *const sizes[] = {"a", "f", "c", "a + 30 mm", "b + 2 * p", "a + b", "f + 20 mm", "2 * b"};
    PieceDraft piece{.name = "piece" + std::to_string(p), .across = sizes[whole(0, 7)], .along = sizes[whole(0, 7)]};
    piece.cut = whole(1, 2);
    piece.turn = whole(0, 2) == 0;
    const int parts = whole(0, 3);
    for (int n = 0; n < parts; ++n) {
      PartDraft part{.side = all_sides[whole(0, 3)], .join = whole(0, static_cast<int>(draft.joins.size()) - 1)};
      if (whole(0, 1)) part.edge = WhichEdge::band;
      const int segments = static_cast<int>(draft.joins[part.join].segments.size());
      if (whole(0, 1)) part.from = whole(0, segments - 1);
      if (whole(0, 1)) part.to = whole(part.from + 1, segments);
      part.at = whole(0, 3) ? written(whole(0, 300)) : "p";
      piece.sides.push_back(part);
    }
    draft.pieces.push_back(piece);
  }
  return draft;
}

} // namespace gatherwright::tests
