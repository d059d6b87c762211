// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/job/document.hpp"
#include "gatherwright/refusal.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace gatherwright::cli {

/// Where in the file something stands.
struct Spot {
  int line = 0;
  std::string pointer;
};

/// Where a thing of the job stands, and its parts ("long", "spread", "from" ...) as far as they are written.
struct Spots {
  Spot whole;
  std::vector<std::pair<std::string_view, Spot>> parts;
};

struct JoinSpots {
  Spots join;
  std::vector<Spots> segments; ///< empty where none are written
};

struct PieceSpots {
  Spots piece;
  BySide<Spots> allowance; ///< the piece where none is written
  BySide<std::vector<Spots>> sides;
};

/// Where the job's lengths, rules, joins and pieces stand, by their index: for faults that only planning can see.
struct JobLines {
  Spot job;
  std::vector<Spots> lengths;
  std::vector<Spots> rules;
  std::vector<JoinSpots> joins;
  std::vector<PieceSpots> pieces;
};

/// Of a document that was read as a job without a fault.
JobLines lines_of(const Document &document);

/// Why there is no plan of the job, at its place.
InputFault placed(const Job &job, const JobLines &lines, const Refusal &refusal);

} // namespace gatherwright::cli
