// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/strip/flags.hpp"

#include <algorithm>
#include <cstddef>

namespace gatherwright::paper {

namespace {

/// Between one flag and the next, and between a flag and another's line.
constexpr double apart = 1.2;
constexpr double beside_line = 0.3;

/// A flag with its place.
struct Set {
  double left = 0;
  double right = 0;
  double at = 0;
  int row = 0;
};

bool cover_each_other(const Set &one, const Set &other) {
  return one.left < other.right + apart && other.left < one.right + apart;
}

/// Whether the line of the lower one runs through the upper one.
bool crosses(const Set &upper, const Set &lower) {
  return lower.at > upper.left - beside_line && lower.at < upper.right + beside_line;
}

/// Flags of a page's width: there is no room for more than some hundred, so each is held against all before it.
class Rows {
public:
  explicit Rows(int count) : count_(count) {}

  /// Sets a flag into the first row in which it lies on no other, nor on any other's line unless `crossing`. -1: none.
  int set(Set flag, bool crossing) {
    for (flag.row = 0; flag.row < count_; ++flag.row) {
      if (!fits(flag, crossing)) continue;
      set_.push_back(flag);
      return flag.row;
    }
    return -1;
  }

private:
  bool fits(const Set &flag, bool crossing) const {
    return std::none_of(set_.begin(), set_.end(), [&](const Set &other) {
      if (other.row == flag.row) return cover_each_other(flag, other);
      if (crossing) return false;
      return other.row < flag.row ? crosses(other, flag) : crosses(flag, other);
    });
  }

  int count_;
  std::vector<Set> set_;
};

} // namespace

std::vector<Place> places(std::span<const Flag> flags, double end, int most_rows) {
  std::vector<Place> found(flags.size());
  Rows rows(most_rows);
  const auto past_end = [end](const Flag &flag) { return flag.at + flag.width > end && flag.at - flag.width >= 0; };
  const auto set = [&](std::size_t i, bool to_left) {
    const Flag &flag = flags[i];
    struct Try {
      double width;
      bool crossing;
    };
    for (const auto &[width, crossing] :
         {Try{flag.width, false}, Try{flag.brief, false}, Try{flag.width, true}, Try{flag.brief, true}}) {
      const double left = to_left ? flag.at - width : flag.at;
      const int row = rows.set({left, left + width, flag.at, 0}, crossing);
      if (row < 0) continue;
      found[i] = {row, width < flag.width, to_left, crossing};
      return;
    }
  };
  const auto first_left = static_cast<std::size_t>(std::find_if(flags.begin(), flags.end(), past_end) - flags.begin());
  // Each is set after those its own line could run into: from the right where words go to the right, and the reverse.
  for (std::size_t i = first_left; i-- > 0;)
    set(i, false);
  for (std::size_t i = first_left; i < flags.size(); ++i)
    set(i, past_end(flags[i]));
  return found;
}

} // namespace gatherwright::paper
