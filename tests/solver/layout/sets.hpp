// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/layout/problem.hpp"

#include <cstdint>
#include <map>
#include <random>
#include <string>
#include <vector>

/// Sets of rectangles: figures from outside by their files, and made ones.
namespace layout_sets {

using gatherwright::layout::Problem;
using gatherwright::layout::Rectangle;

struct Published {
  Problem problem;
  double length = 0; ///< at which it fills the strip without waste; printed for the six, where it is of the book
};

/// The sets of tests/data/strip_instances.csv, by name.
std::map<std::string, Published> strip_instances(const std::string &path);
/// The figures of tests/data/cutting_pieces.csv, in nails.
std::map<std::string, Published> cutting_pieces(const std::string &path);

/// Invented sizes, in millimetres: the pieces of a garment, of which there are 9 to 12, each even one twice or more.
std::vector<Rectangle> garment(std::mt19937 &random);
/// One garment's pieces so many times, on a cloth's width.
Problem copies(std::uint32_t seed, int times);
/// Garments of one kind for so many wearers, six in all.
Problem six_garments(std::uint32_t seed, int wearers);
/// So many pieces of garments, the last garment's as far as they go.
Problem garment_pieces(std::uint32_t seed, int pieces);
/// So many rectangles of garments of twenty or twenty-one pieces, each garment in sizes of its own.
Problem cast(std::uint32_t seed, int pieces);

int count(const Problem &problem);

} // namespace layout_sets
