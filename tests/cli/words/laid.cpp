// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/cli/words/laid.hpp"

#include "solver/layout/lay.hpp"

#include <algorithm>
#include <random>

using namespace gatherwright;

namespace laid {

namespace {

/// Whose a rectangle is, and of what.
struct Source {
  int piece = 0;
  int wearer = 0;
};

ClothPlan cloth_of(const layout::Problem &problem, const std::vector<Source> &sources) {
  // As good as is found soon: what is told of a layout does not hang on its being the shortest.
  const layout::Layout found = layout::lay(problem, {.proving = 2'000'000, .searching = 2'000'000});
  ClothPlan cloth;
  cloth.cloth = {"washed linen", Length{problem.width + 20}, Length{10}};
  cloth.usable = problem.width;
  cloth.length = found.length;
  cloth.bound = found.bound;
  cloth.shortest = found.shortest;
  double area = 0;
  for (const layout::Rectangle &each : problem.rectangles)
    area += each.across * each.along * each.count;
  cloth.used = area / (problem.width * found.length);
  cloth.buy = cloth.buy_by_step = found.length;
  for (const layout::Placement &each : found.placements) {
    const Source &source = sources[each.rectangle];
    cloth.lay.push_back({PieceId(source.piece), each.copy, source.wearer, each.across, each.along, each.turned});
  }
  for (const layout::Cut &each : found.cuts)
    cloth.cuts.push_back(
        {each.run == layout::Run::across ? Cut::Run::across : Cut::Run::along, each.at, each.from, each.to});
  return cloth;
}

} // namespace

Laid lay(const std::vector<Kind> &kinds, double usable, const std::vector<double> &wearers) {
  Laid laid;
  layout::Problem problem{usable, {}};
  std::vector<Source> sources;
  for (std::size_t wearer = 0; wearer < wearers.size(); ++wearer) {
    WearersPieces own;
    for (std::size_t piece = 0; piece < kinds.size(); ++piece) {
      const Kind &kind = kinds[piece];
      own.sizes.push_back({kind.across * wearers[wearer], kind.along * wearers[wearer], false});
      problem.rectangles.push_back({own.sizes.back().across, own.sizes.back().along, kind.cut, kind.turn});
      sources.push_back({static_cast<int>(piece), static_cast<int>(wearer)});
    }
    laid.pieces.push_back(std::move(own));
    if (wearers.size() > 1) laid.wearers.push_back("porter " + std::to_string(wearer + 1));
  }
  for (const Kind &kind : kinds) {
    Piece piece;
    piece.name = kind.name;
    piece.cut = kind.cut;
    piece.turn = kind.turn;
    laid.job.pieces.push_back(piece);
  }
  laid.cloth = cloth_of(problem, sources);
  return laid;
}

Laid lay(const std::vector<Kind> &kinds, double usable) {
  return lay(kinds, usable, {1.0});
}

std::vector<Kind> smock_pieces() {
  return {{"body", 2, 735, 925},   {"sleeve", 2, 540, 585}, {"cuff", 2, 240, 140},      {"collar", 1, 440, 120},
          {"gusset", 2, 140, 140}, {"strap", 2, 100, 220},  {"small square", 8, 40, 40}};
}

Laid smock() {
  return lay(smock_pieces(), 1480);
}

Laid random(std::uint32_t seed) {
  std::mt19937 random(seed);
  const auto between = [&](int low, int high) { return low + static_cast<int>(random() % (high - low + 1)); };
  std::vector<Kind> kinds(between(1, 12));
  for (std::size_t i = 0; i < kinds.size(); ++i)
    kinds[i] = {"part-" + std::string(1, static_cast<char>('a' + i)), between(1, 6), 10.0 * between(4, 74),
                5.0 * between(8, 180), random() % 4 == 0};
  return lay(kinds, 10.0 * between(75, 160));
}

} // namespace laid
