// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/sheet/page_flow.hpp"

#include <cstddef>
#include <vector>

/// Blocks of a page shared out over two columns.
namespace gatherwright::paper {

/// At most so many blocks are shared out; of more, those after them stay in the column of the last.
inline constexpr std::size_t most_shared = 8;

/// What stands together, in a column no narrower than it wants.
struct Block {
  PageFlow::Content set;
  double least_width = 0;
};
using Blocks = std::vector<Block>;

/// Which column each block goes into, and how high the higher one is. Within a column they keep their order.
struct Sharing {
  std::vector<bool> at_right;
  double height = 0;
};

/// The sharing that is least high, the first block at the left; one that is read down the left column and then the
/// right is taken where it is hardly higher. `left` and `right` are the heights of each block in either column.
Sharing shared_out(const std::vector<double> &left, const std::vector<double> &right);

/// Blocks as they will stand: in two columns where that saves room and a page holds them, else one below the other.
class Columns {
public:
  Columns(const PageFlow &flow, Blocks blocks, double left_width);

  double height() const { return height_; }
  void set(PageFlow &flow) const;

private:
  PageFlow::Content column(bool right) const;

  Blocks blocks_;
  double left_width_;
  Sharing sharing_;
  bool beside_ = false;
  double height_ = 0;
};

/// Rows of columns, one below another.
class Rows {
public:
  void add(Columns columns);
  double height() const { return height_; }
  void set(PageFlow &flow) const;

private:
  std::vector<Columns> rows_;
  double height_ = 0;
};

/// The lowest of several, at least one.
const Rows &lowest(const std::vector<Rows> &several);

} // namespace gatherwright::paper
