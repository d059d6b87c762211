// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/strip/tiles.hpp"

#include "cli/drawing/type.hpp"
#include "cli/strip/parts.hpp"
#include "cli/strip/strip_drawing.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <utility>

namespace gatherwright::paper {

namespace {

struct Cut {
  int count = 1;
  double length = 0;
};

Cut cut(double whole, double room) {
  const double count = std::max(1.0, std::ceil((whole - overlap) / (room - overlap) - 1e-9));
  return {static_cast<int>(count), (whole + (count - 1) * overlap) / count};
}

/// Shares of the way along a side at which words lie across it, from first to last.
std::vector<std::pair<double, double>> words_across(Point from, Point to, const std::vector<Item> &drawn) {
  constexpr double air = 0.8;
  const double way_x = to.x - from.x;
  const double way_y = to.y - from.y;
  std::vector<std::pair<double, double>> across;
  for (const Item &item : drawn) {
    const auto *text = std::get_if<Text>(&item.is);
    if (text == nullptr || text->anchor != Anchor::start || text->turned != 0) continue;
    const double left = text->at.x - air;
    const double right = text->at.x + text_width(text->says, text->size, text->bold) + air;
    const double top = text->at.y - 0.75 * text->size - air;
    const double bottom = text->at.y + 0.25 * text->size + air;
    const bool down = way_x == 0;
    if (down ? from.x < left || from.x > right : from.y < top || from.y > bottom) continue;
    across.emplace_back(down ? (top - from.y) / way_y : (left - from.x) / way_x,
                        down ? (bottom - from.y) / way_y : (right - from.x) / way_x);
  }
  std::sort(across.begin(), across.end());
  return across;
}

/// The first of some places along a side where nothing is drawn and no words lie across, or its middle.
Point free_place(Point from, Point to, const std::vector<Item> &drawn,
                 const std::vector<std::pair<double, double>> &words) {
  constexpr double half = 4.5;
  constexpr std::array shares{0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9};
  const double length = std::hypot(to.x - from.x, to.y - from.y);
  const auto place = [&](double share) {
    return Point{from.x + share * (to.x - from.x), from.y + share * (to.y - from.y)};
  };
  const auto found = std::find_if(shares.begin(), shares.end(), [&](double share) {
    const Point at = place(share);
    const auto meets = [&](const std::pair<double, double> &across) {
      return share + half / length > across.first && share - half / length < across.second;
    };
    return std::none_of(words.begin(), words.end(), meets) &&
           clipped(drawn, {{at.x - half, at.y - half}, 2 * half, 2 * half}).empty();
  });
  return place(found == shares.end() ? shares.front() : *found);
}

/// A dashed line over a whole side of a tile but for words that lie across it, with its letter in a lozenge.
std::vector<Item> match_line(Point from, Point to, int joint, const std::vector<Item> &drawn) {
  const auto place = [&](double share) {
    return Point{from.x + share * (to.x - from.x), from.y + share * (to.y - from.y)};
  };
  std::vector<Item> items;
  double begin = 0;
  const auto line_to = [&](double end) {
    if (!(end > begin)) return;
    Line line = segment(place(begin), place(end), 0.25);
    line.dashed = true;
    items.push_back({line});
  };
  const std::vector<std::pair<double, double>> words = words_across(from, to, drawn);
  for (const auto &[first, last] : words) {
    line_to(first);
    begin = std::max(begin, last);
  }
  line_to(1);
  for (Item &item : lozenge(free_place(from, to, drawn, words), joint_called(joint)))
    items.push_back(std::move(item));
  return items;
}

} // namespace

Tiling tiled(const EdgePicture &picture, double room_width, double room_height) {
  const Cut across = cut(picture.width, room_width);
  const Cut down = cut(picture.height, room_height);
  Tiling tiling{down.count, across.count, across.length, down.length, {}};
  const Clippable whole(picture.items);
  std::vector<std::size_t> drawn(static_cast<std::size_t>(down.count) * across.count);
  for (int row = 1; row <= down.count; ++row) {
    for (int column = 1; column <= across.count; ++column) {
      const Window window{
          {(column - 1) * (across.length - overlap), (row - 1) * (down.length - overlap)}, across.length, down.length};
      Tile tile{row, column, whole.within(window)};
      if (tile.items.empty()) continue;
      tiling.tiles.push_back(std::move(tile));
      drawn[static_cast<std::size_t>(row - 1) * across.count + column - 1] = tiling.tiles.size();
    }
  }
  int joint = 0;
  const auto join = [&](std::size_t one, std::size_t other, bool beside) {
    if (one == 0 || other == 0) return;
    ++joint;
    const double end = (beside ? across.length : down.length) - overlap / 2;
    const double start = overlap / 2;
    const auto line = [&](std::size_t tile, double at) {
      auto &to = tiling.tiles[tile - 1].items;
      const auto items = beside ? match_line({at, 0}, {at, down.length}, joint, to)
                                : match_line({0, at}, {across.length, at}, joint, to);
      to.insert(to.end(), items.begin(), items.end());
    };
    line(one, end);
    line(other, start);
  };
  for (int row = 0; row < down.count; ++row) {
    for (int column = 0; column < across.count; ++column) {
      const std::size_t i = static_cast<std::size_t>(row) * across.count + column;
      if (column + 1 < across.count) join(drawn[i], drawn[i + 1], true);
      if (row + 1 < down.count) join(drawn[i], drawn[i + across.count], false);
    }
  }
  return tiling;
}

} // namespace gatherwright::paper
