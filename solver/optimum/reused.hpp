// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <algorithm>
#include <cstddef>
#include <span>
#include <vector>

namespace gatherwright::optimum {

/// Things in a row, of which the first `size` are in use. Those that no longer are keep their own room for when they
/// are wanted again, so one that is added is as it was left.
template <class Thing> class Reused {
public:
  void clear() { size_ = 0; }
  int size() const { return size_; }
  Thing &add() {
    if (size_ == static_cast<int>(things_.size())) things_.emplace_back();
    return things_[size_++];
  }
  Thing &operator[](int i) { return things_[i]; }
  const Thing &operator[](int i) const { return things_[i]; }
  std::span<Thing> from_to(int first, int end) { return std::span(things_).subspan(first, end - first); }
  std::span<const Thing> from_to(int first, int end) const { return std::span(things_).subspan(first, end - first); }

  /// Copies what is in use alone.
  void assign(const Reused &from) {
    size_ = from.size_;
    if (things_.size() < from.things_.size()) things_.resize(from.things_.size());
    std::copy_n(from.things_.begin(), size_, things_.begin());
  }

private:
  std::vector<Thing> things_;
  int size_ = 0;
};

} // namespace gatherwright::optimum
