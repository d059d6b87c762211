// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/outcome.hpp"
#include "gatherwright/study.hpp"

#include <string>
#include <string_view>
#include <vector>

/// A study of gathered test strips as a list: a header, then a row a cloth.
namespace gatherwright::cli::study {

/// More cloths than this are refused.
inline constexpr std::size_t most_cloths = 1000;

struct ReadStudy {
  std::vector<cloth::StudiedCloth> cloths;
  int still_empty = 0; ///< rows that have a cloth's name and nothing else
};

/// Reads a whole list, or as much as it takes to find as many faults as are told; no more than `longest_text` of it.
/// The columns are those of docs/swatch-study.csv, in any order; `cloth`, `wide`, `long`, `grams` and `cut` must be
/// there. The header may give another unit of length, `cut [in]`, and so may a cell. Faults are lines: "study.csv:4:
/// row 4, column cut [cm]: what is wrong; what would be right". Besides cells that are no quantity: a cloth that weighs
/// what none does or is as thick as none is (a wrong unit), lengths of a strip that do not rise from tight over
/// shortest, best and longest to cut, a name that comes twice, and a list without any cloth.
Outcome<ReadStudy, std::vector<std::string>> read_study(const std::string &file, std::string_view text);

} // namespace gatherwright::cli::study
