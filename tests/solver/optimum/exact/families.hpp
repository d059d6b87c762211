// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/optimum/problem.hpp"

#include <array>
#include <cstdint>
#include <functional>
#include <string_view>

/// Small problems of kinds that are hard to solve in rounded numbers.
namespace gatherwright::tests::exact {

enum class Family {
  ordinary,             ///< binary fractions between -4 and 4
  whole,                ///< whole numbers of -2 to 2: rows depend on each other, and inequalities meet in one point
  columns_spread,       ///< ordinary, each column times a power of 2 from 2^-10 to 2^20
  rows_spread,          ///< ordinary, each row and its bound so
  both_spread,          ///< columns, then rows
  duplicate,            ///< rows come again: as they are, times a number, in another level
  implied,              ///< inequalities of which several leave an equality
  nearly_parallel,      ///< rows come again with one coefficient changed by 2^-14 to 2^-29
  more_nearly_parallel, ///< by 2^-30 to 2^-45
  bounds_spread,        ///< bounds from 2^-20 to 2^20
};
inline constexpr std::array<std::string_view, 10> family_names{
    "ordinary",  "whole",   "columns-spread",  "rows-spread",          "both-spread",
    "duplicate", "implied", "nearly-parallel", "more-nearly-parallel", "bounds-spread"};

inline constexpr int most_unknowns = 6;

/// A number of 0 up to one below `below`.
using Draw = std::function<int(int below)>;

/// Of up to 6 unknowns and some 30 rows. Where level 0 is made to hold, it does so without any rounding.
optimum::Problem make_problem(Family family, const Draw &draw);

/// The same problem for the same number on every machine.
optimum::Problem make_problem(Family family, std::uint64_t seed);

} // namespace gatherwright::tests::exact
