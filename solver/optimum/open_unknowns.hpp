// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <numeric>
#include <span>
#include <vector>

namespace gatherwright::optimum {

/// Which shared unknowns are still open, in ascending order, and where each stands among them: the place of the one at
/// place k is k, and that of one that is fixed is -1. Shared unknowns count from the first of them.
class OpenUnknowns {
public:
  /// All are open.
  void begin(int shared) {
    if (size() == shared && static_cast<int>(place_.size()) == shared) return; // all are, and are numbered
    place_.resize(shared);
    open_.resize(shared);
    std::iota(place_.begin(), place_.end(), 0);
    std::iota(open_.begin(), open_.end(), 0);
  }

  /// Fixes some, and numbers those that stay open anew.
  void fix(std::span<const int> fixed) {
    for (const int s : fixed)
      place_[s] = -1;
    open_.clear();
    for (std::size_t s = 0; s < place_.size(); ++s)
      if (place_[s] >= 0) {
        place_[s] = static_cast<int>(open_.size());
        open_.push_back(static_cast<int>(s));
      }
  }

  int size() const { return static_cast<int>(open_.size()); }
  int at(int place) const { return open_[place]; }
  int place(int shared) const { return place_[shared]; }
  bool is_fixed(int shared) const { return place_[shared] < 0; }
  /// The places of all shared unknowns, one after another.
  const int *places() const { return place_.data(); }

private:
  std::vector<int> place_;
  std::vector<int> open_;
};

} // namespace gatherwright::optimum
