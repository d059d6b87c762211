// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/solver/layout/sets.hpp"

#include <algorithm>
#include <fstream>
#include <sstream>
#include <stdexcept>

namespace layout_sets {

namespace {

std::vector<std::vector<std::string>> rows(const std::string &path) {
  std::ifstream file(path);
  if (!file) throw std::runtime_error("no file " + path);
  std::vector<std::vector<std::string>> rows;
  std::string line;
  std::getline(file, line); // the heads of the columns
  while (std::getline(file, line)) {
    std::istringstream fields(line);
    rows.emplace_back();
    for (std::string field; std::getline(fields, field, ',');)
      rows.back().push_back(field);
  }
  return rows;
}

/// Below an end, the same on every machine.
int below(std::mt19937 &random, int end) {
  return static_cast<int>(random() % static_cast<std::uint32_t>(end));
}

/// On a step of 5 mm, both ends counted.
double between(std::mt19937 &random, int least, int most) {
  return least + 5 * below(random, (most - least) / 5 + 1);
}

double width_of_cloth(std::mt19937 &random) {
  constexpr double widths[] = {900, 1100, 1150, 1400, 1480, 1500};
  return widths[below(random, 6)];
}

/// The same garment in another size: what is long is so many steps longer or shorter.
Rectangle in_another_size(Rectangle piece, std::mt19937 &random) {
  const int across = below(random, 17) - 8;
  const int along = below(random, 25) - 12;
  if (piece.across > 150) piece.across += 5 * across;
  if (piece.along > 150) piece.along += 5 * along;
  return piece;
}

} // namespace

std::map<std::string, Published> strip_instances(const std::string &path) {
  std::map<std::string, Published> sets;
  for (const auto &row : rows(path)) {
    Published &set = sets[row[1]];
    set.problem.width = std::stod(row[2]);
    set.length = std::stod(row[3]);
    set.problem.rectangles.push_back({std::stod(row[4]), std::stod(row[5]), std::stoi(row[6])});
  }
  return sets;
}

std::map<std::string, Published> cutting_pieces(const std::string &path) {
  std::map<std::string, Published> sets;
  for (const auto &row : rows(path)) {
    Published &set = sets[row[0]];
    set.problem.width = std::stod(row[1]);
    set.length = std::stod(row[2]);
    set.problem.rectangles.push_back({std::stod(row[4]), std::stod(row[5]), std::stoi(row[6])});
  }
  return sets;
}

namespace {

Rectangle piece(std::mt19937 &random, int least_across, int most_across, int least_along, int most_along, int count) {
  const double across = between(random, least_across, most_across);
  return {across, between(random, least_along, most_along), count};
}

/// A gusset, a small square, a strap or a yoke.
Rectangle small_piece(std::mt19937 &random) {
  const int which = below(random, 4);
  return which == 0   ? piece(random, 120, 180, 120, 180, 2)
         : which == 1 ? piece(random, 60, 100, 60, 100, 2)
         : which == 2 ? piece(random, 60, 120, 180, 300, 2)
                      : piece(random, 400, 600, 150, 260, 1);
}

} // namespace

std::vector<Rectangle> garment(std::mt19937 &random) {
  std::vector<Rectangle> pieces{
      piece(random, 500, 720, 650, 1100, 2), // body
      piece(random, 350, 560, 450, 620, 2),  // sleeve
      piece(random, 200, 280, 60, 160, 2),   // cuff
      piece(random, 380, 480, 80, 180, 1),   // collar
  };
  for (int left = 2 + below(random, 4); left > 0;) {
    pieces.push_back(small_piece(random));
    left -= pieces.back().count;
  }
  return pieces;
}

Problem copies(std::uint32_t seed, int times) {
  std::mt19937 random(seed);
  Problem problem{width_of_cloth(random), garment(random)};
  for (Rectangle &rectangle : problem.rectangles)
    rectangle.count *= times;
  return problem;
}

Problem six_garments(std::uint32_t seed, int wearers) {
  std::mt19937 random(seed);
  Problem problem{width_of_cloth(random), {}};
  const std::vector<Rectangle> pieces = garment(random);
  for (int wearer = 0; wearer < wearers; ++wearer)
    for (const Rectangle &piece : pieces) {
      problem.rectangles.push_back(in_another_size(piece, random));
      problem.rectangles.back().count *= 6 / wearers + (wearer < 6 % wearers ? 1 : 0);
    }
  return problem;
}

Problem garment_pieces(std::uint32_t seed, int pieces) {
  std::mt19937 random(seed);
  Problem problem{width_of_cloth(random), {}};
  while (count(problem) < pieces)
    for (Rectangle piece : garment(random)) {
      piece.count = std::min(piece.count, pieces - count(problem));
      if (piece.count > 0) problem.rectangles.push_back(piece);
    }
  return problem;
}

Problem cast(std::uint32_t seed, int pieces) {
  std::mt19937 random(seed);
  Problem problem{width_of_cloth(random), {}};
  Problem one{problem.width, garment(random)};
  while (count(one) < 20)
    one.rectangles.push_back(small_piece(random));
  while (count(problem) < pieces)
    for (Rectangle piece : one.rectangles) {
      piece = in_another_size(piece, random);
      piece.count = std::min(piece.count, pieces - count(problem));
      if (piece.count > 0) problem.rectangles.push_back(piece);
    }
  return problem;
}

int count(const Problem &problem) {
  int sum = 0;
  for (const Rectangle &rectangle : problem.rectangles)
    sum += rectangle.count;
  return sum;
}

} // namespace layout_sets
