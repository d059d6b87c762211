// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/drawing/drawing.hpp"
#include "gatherwright/job.hpp"

#include <string>
#include <string_view>
#include <utility>
#include <vector>

/// What a picture's signs mean, below it.
namespace gatherwright::paper {

/// A round length that is at most `most`, or the least there is: 1, 2 or 5 with noughts in millimetres, or whole
/// inches, feet and yards and parts of an inch.
double round_length(double most, bool imperial);

/// " in cm": of figures without a unit. Those of feet and yards have theirs.
std::string read_in(Unit unit);

/// Signs, each with a few words, side by side in as many lines as it takes.
class Key {
public:
  /// `top`: where the picture ends.
  Key(double width, double top) : width_(width), base_(top + 5) {}

  /// `sign` is drawn from 0, 0, to the right and about the middle of a line; so much room it takes.
  void entry(std::string_view says, double room, std::vector<Line> sign);

  /// A letter or number that stands for something, in bold, and what.
  void stands_for(std::string_view sign, std::string_view says);

  /// A number as it stands in a box of its own.
  void boxed(std::string_view number, std::string_view says);

  /// A bar of a round length of cloth; `scale` is page to cloth.
  void scale(const Job &job, double scale);
  void warp();
  void named_mark();
  void pin();

  double bottom() const { return base_ + 2; }
  std::vector<Item> items() && { return std::move(items_); }

private:
  double width_;
  double base_;
  double x_ = 0.4;
  std::vector<Item> items_;
};

} // namespace gatherwright::paper
