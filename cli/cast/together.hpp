// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/cloths.hpp"
#include "gatherwright/cutting.hpp"
#include "gatherwright/plan.hpp"

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

/// The cloth of a whole cast.
namespace gatherwright::cli::cast {

/// What one wearer's pieces are, and what is bought for them alone.
struct WearersCloth {
  WearersPieces pieces;
  std::vector<double> steps; ///< bought of each of the job's cloths, in steps that it is sold in
};

WearersCloth cloth_of_wearer(const Cloths &cloths, const Plan &plan);

/// Gathers it in the order of the list. Of a wearer it keeps the sizes, as long as they are not too many to be laid
/// together.
class Together {
public:
  /// `job` must outlive it.
  explicit Together(const Job &job) : job_(job), cloths_(cloths_of(job)), steps_(cloths_.cloths.size()) {}

  const Cloths &cloths() const { return cloths_; }
  void add(const WearersCloth &wearer);

  /// Whose pieces are laid together: all, in their order; none where they are too many.
  std::span<const WearersPieces> wearers() const { return wearers_; }

  /// On one bolt of each cloth; nothing where they are too many.
  std::optional<std::vector<ClothPlan>> laid() const;

  /// A line a cloth of which anything is bought: what all take cut one by one, and what they take laid together.
  std::string said(const std::optional<std::vector<ClothPlan>> &laid) const;

private:
  const Job &job_;
  Cloths cloths_;
  std::vector<double> steps_;
  std::vector<WearersPieces> wearers_;
  std::int64_t pieces_ = 0;
  bool too_many_ = false;
};

} // namespace gatherwright::cli::cast
