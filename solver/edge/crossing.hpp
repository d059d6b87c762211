// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/edge/strand.hpp"

#include <cstddef>
#include <cstdint>
#include <vector>

/// Where strands cross themselves and each other.
namespace gatherwright::edge {

struct Crossing {
  std::uint32_t first = 0;  ///< stretch
  double u = 0;             ///< where on it
  std::uint32_t second = 0; ///< a later stretch, or one of the other strand
  double v = 0;
  double turn = 0; ///< sine of the angle from the first's direction of travel to the second's, to the right above 0
};

/// A strand with its stretches in boxes, in a tree over their order, each node with the range of directions it travels
/// in: a run whose directions stay within a half turn cannot cross itself.
class Thicket {
public:
  explicit Thicket(const Strand &strand);

  struct Box {
    float left = 0, top = 0, right = 0, bottom = 0;
  };
  struct Node {
    Box box;
    double least = 0, most = 0; ///< directions, unwound along the strand
    bool whole = true;          ///< without a break or fold inside
    bool joined = true;         ///< begins where the node before ends
  };

  const Strand &strand() const { return *strand_; }
  const std::vector<Node> &level(std::size_t height) const { return levels_[height]; }
  std::size_t height() const { return levels_.size() - 1; }

private:
  const Strand *strand_;
  std::vector<std::vector<Node>> levels_; ///< of stretches, of pairs of them, and so on
};

struct Crossings {
  std::vector<Crossing> found;
  bool given_up = false; ///< more work than a drawn edge is worth
};

/// Every crossing of a strand with itself, windows only, touches at neighbouring ends left out. Parallel touches are
/// not seen.
Crossings self_crossings(const Thicket &strand, bool first_only);

/// Every crossing of one strand with another.
Crossings mutual_crossings(const Thicket &one, const Thicket &other, bool first_only);

/// Whether any part of the strand is nearer to a point than `distance`, by more than a millionth of that.
bool comes_within(const Thicket &strand, Point point, double distance);

} // namespace gatherwright::edge
