// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/picture/label_places.hpp"

#include <algorithm>

namespace gatherwright::paper {

namespace {

/// Labels that touch, set about the mean of what they want.
struct Block {
  double sum = 0;
  int count = 0;

  double mean() const { return sum / count; }
};

} // namespace

// With n * apart taken off, labels need only not fall: pooling those that would gives the least squares.
std::vector<double> spread_labels(const std::vector<LabelPlace> &labels, double apart, double lowest) {
  std::vector<Block> blocks;
  for (std::size_t i = 0; i < labels.size(); ++i) {
    blocks.push_back({labels[i].wanted - static_cast<double>(i) * apart, 1});
    while (blocks.size() > 1 && blocks[blocks.size() - 2].mean() > blocks.back().mean()) {
      const Block last = blocks.back();
      blocks.pop_back();
      blocks.back().sum += last.sum;
      blocks.back().count += last.count;
    }
  }
  std::vector<double> places;
  for (const Block &block : blocks)
    for (int n = 0; n < block.count; ++n)
      places.push_back(block.mean() + static_cast<double>(places.size()) * apart);
  for (std::size_t i = places.size(); i-- > 0;) {
    places[i] = std::min(places[i], labels[i].highest);
    if (i + 1 < places.size()) places[i] = std::min(places[i], places[i + 1] - apart);
  }
  for (std::size_t i = 0; i < places.size(); ++i)
    places[i] = std::max(places[i], i == 0 ? lowest : places[i - 1] + apart);
  return places;
}

std::size_t number_step(std::size_t things, double length, double widest) {
  const double apart = length / static_cast<double>(things);
  for (std::size_t power = 1;; power *= 10)
    for (const std::size_t digit : {1, 2, 5}) {
      const std::size_t step = digit * power;
      if (apart * static_cast<double>(step) >= widest || step > things) return step;
    }
}

} // namespace gatherwright::paper
