// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/words/cutting.hpp"
#include "gatherwright/job.hpp"
#include "gatherwright/plan.hpp"

#include <cstdint>
#include <string>
#include <vector>

/// Pieces laid by the search itself, without a plan round it.
namespace laid {

struct Kind {
  std::string name;
  int cut = 1;
  double across = 0; ///< cut size, millimetres
  double along = 0;
  bool turn = false;
};

struct Laid {
  gatherwright::Job job;
  std::vector<gatherwright::WearersPieces> pieces;
  std::vector<std::string> wearers;
  gatherwright::ClothPlan cloth;

  gatherwright::words::LaidCloth told() const { return {job, cloth, pieces, wearers}; }
};

/// On a cloth with so much of its width to use, with selvedges of 1 cm beside.
Laid lay(const std::vector<Kind> &kinds, double usable);

/// All of each wearer's pieces together; sizes are multiplied by each wearer's.
Laid lay(const std::vector<Kind> &kinds, double usable, const std::vector<double> &wearers);

std::vector<Kind> smock_pieces();
Laid smock(); ///< on 148 cm

/// Invented pieces of a garment, some of which may turn, on a cloth that takes the widest.
Laid random(std::uint32_t seed);

} // namespace laid
