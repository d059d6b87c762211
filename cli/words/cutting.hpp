// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/words/cut_parts.hpp"
#include "gatherwright/job.hpp"
#include "gatherwright/cutting.hpp"
#include "gatherwright/plan.hpp"

#include <cstddef>
#include <span>
#include <string>
#include <variant>
#include <vector>

/// A layout told in the order of the work.
namespace gatherwright::words {

/// A cloth's layout, with what its pieces are called and measure. At least one lies on it. Names are written out whole
/// wherever one is told: those of a job should be as short as anyone reads.
struct LaidCloth {
  const Job &job;
  const ClothPlan &cloth;
  std::span<const WearersPieces> pieces;     ///< of each wearer; of a plan alone, its own
  std::span<const std::string> wearers = {}; ///< what they are called; empty where there is only one
};

/// "sleeve": what a piece is called, whosever it is.
std::string piece_called(const LaidCloth &laid, const Placement &placed);

/// "54 x 58.5": a piece's cut size across and along, read off the tape, as it is cut and not as it lies.
std::string cut_size(const LaidCloth &laid, const Placement &placed);

/// Parts torn off one after another across the whole width, all alike; of the last of the lay the cloth is left.
struct TearOff {
  std::vector<std::size_t> parts;
  std::vector<std::size_t> cuts; ///< of the cloth's: one a part, but none for the last of the lay
};

/// Parts that are alike, each divided alike.
struct Divide {
  std::vector<std::size_t> steps; ///< of the cut parts
};

using ToldStep = std::variant<TearOff, Divide>;

/// Steps in one sentence. After the first each is of what comes out of the one before it.
using ToldItem = std::vector<ToldStep>;

/// All that is done, in an order in which it can be: every part is torn off or comes out of a step before it is
/// divided.
std::vector<ToldItem> told_cutting(const ClothPlan &cloth, const CutParts &parts);

/// The same in words, a sentence each, of which the first say what is done before. Cuts have the numbers that they have
/// in a picture: their place in the cloth's list, from 1. After `most` sentences the rest is left to the picture.
std::vector<std::string> cutting_said(const LaidCloth &laid, std::size_t most = 60);

} // namespace gatherwright::words
