// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/drawing/clip.hpp"

#include "cli/drawing/extent.hpp"

#include <algorithm>
#include <cstddef>
#include <optional>
#include <span>
#include <utility>

namespace gatherwright::paper {

namespace {

/// The part of a segment inside, as shares of its way: Liang and Barsky, "A new concept and method for line clipping",
/// ACM Transactions on Graphics 3, 1984.
std::optional<std::pair<double, double>> inside(Point from, Point to, const Window &window) {
  double enters = 0;
  double leaves = 1;
  const auto side = [&](double towards, double distance) {
    if (towards == 0) return distance >= 0;
    const double share = distance / towards;
    if (towards < 0)
      enters = std::max(enters, share);
    else
      leaves = std::min(leaves, share);
    return enters <= leaves;
  };
  const double dx = to.x - from.x;
  const double dy = to.y - from.y;
  const bool any = side(-dx, from.x - window.corner.x) && side(dx, window.corner.x + window.width - from.x) &&
                   side(-dy, from.y - window.corner.y) && side(dy, window.corner.y + window.height - from.y);
  if (!any) return std::nullopt;
  return std::pair(enters, leaves);
}

using Bounds = Clippable::Bounds;

/// Sides of a line whose bounds are kept together.
constexpr std::size_t run_of_sides = 64;

Bounds bounds_of(std::span<const Point> points) {
  Bounds bounds{points.front().x, points.front().y, points.front().x, points.front().y};
  for (const Point &point : points)
    bounds = {std::min(bounds.left, point.x), std::min(bounds.top, point.y), std::max(bounds.right, point.x),
              std::max(bounds.bottom, point.y)};
  return bounds;
}

class Clip {
public:
  explicit Clip(const Window &window) : window_(window) {}

  /// `runs`: the bounds of its sides, or nothing.
  void take(const Line &line, std::span<const Bounds> runs);
  void take(std::span<const Item> words);

  std::vector<Item> items() && { return std::move(items_); }

private:
  Point moved(Point point) const { return {point.x - window_.corner.x, point.y - window_.corner.y}; }

  const Window &window_;
  std::vector<Item> items_;
};

void Clip::take(const Line &line, std::span<const Bounds> runs) {
  const bool all_in =
      std::all_of(line.points.begin(), line.points.end(), [this](Point point) { return window_.holds(point); });
  if (all_in || line.fill != Tone::none) {
    if (line.points.empty() || !window_.holds(line.points.front())) return;
    Line whole = line;
    for (Point &point : whole.points)
      point = moved(point);
    items_.push_back({std::move(whole)});
    return;
  }
  Line piece = line;
  piece.closed = false;
  piece.points.clear();
  const auto end_piece = [&] {
    if (piece.points.size() > 1) items_.push_back({piece});
    piece.points.clear();
  };
  const std::size_t sides = line.points.size() - (line.closed ? 0 : 1);
  for (std::size_t i = 0; i < sides; ++i) {
    if (i % run_of_sides == 0 && i / run_of_sides < runs.size() && !runs[i / run_of_sides].meets(window_)) {
      end_piece();
      i += run_of_sides - 1;
      continue;
    }
    const Point from = line.points[i];
    const Point to = line.points[(i + 1) % line.points.size()];
    const auto part = inside(from, to, window_);
    if (!part) {
      end_piece();
      continue;
    }
    const auto at = [&](double share) {
      return moved({from.x + share * (to.x - from.x), from.y + share * (to.y - from.y)});
    };
    if (part->first > 0) end_piece();
    if (piece.points.empty()) piece.points.push_back(at(part->first));
    piece.points.push_back(at(part->second));
    if (part->second < 1) end_piece();
  }
  end_piece();
}

bool is_line_of_words(const Group &group) {
  const auto text = [](const Item &item) { return std::holds_alternative<Text>(item.is); };
  return !group.items.empty() && std::all_of(group.items.begin(), group.items.end(), text);
}

void Clip::take(std::span<const Item> words) {
  if (!window_.holds(std::get<Text>(words.front().is).at)) return;
  std::optional<Box> lies;
  for (const Item &word : words) {
    const Text &text = std::get<Text>(word.is);
    if (text.turned != 0) continue;
    const Box box = extent_of(text);
    lies = lies ? Box{std::min(lies->left, box.left), box.top, std::max(lies->right, box.right), box.bottom} : box;
  }
  const double right = window_.corner.x + window_.width;
  const double aside = lies ? std::max(window_.corner.x - lies->left, std::min(0.0, right - lies->right)) : 0;
  for (const Item &word : words) {
    Text shown = std::get<Text>(word.is);
    shown.at = moved(shown.at);
    if (shown.turned == 0) shown.at.x += aside;
    items_.push_back({std::move(shown)});
  }
}

} // namespace

Clippable::Clippable(const std::vector<Item> &items) {
  take(items);
}

void Clippable::take(const std::vector<Item> &items) {
  for (const Item &item : items) {
    const auto *group = std::get_if<Group>(&item.is);
    if (group != nullptr && !is_line_of_words(*group)) {
      take(group->items);
      continue;
    }
    Part part{&item, {}, {}};
    const Item &begins = group != nullptr ? group->items.front() : item;
    if (const auto *text = std::get_if<Text>(&begins.is)) {
      part.bounds = bounds_of({&text->at, 1});
      parts_.push_back(std::move(part));
      continue;
    }
    const std::span<const Point> points = std::get<Line>(item.is).points;
    if (points.empty()) continue;
    part.bounds = bounds_of(points);
    // The last side of a closed line is in no run.
    if (points.size() > 2 * run_of_sides)
      for (std::size_t first = 0; first + run_of_sides < points.size(); first += run_of_sides)
        part.runs.push_back(bounds_of(points.subspan(first, run_of_sides + 1)));
    parts_.push_back(std::move(part));
  }
}

std::vector<Item> Clippable::within(const Window &window) const {
  Clip clip(window);
  for (const Part &part : parts_) {
    if (!part.bounds.meets(window)) continue;
    if (const auto *line = std::get_if<Line>(&part.item->is))
      clip.take(*line, part.runs);
    else if (const auto *words = std::get_if<Group>(&part.item->is))
      clip.take(words->items);
    else
      clip.take({part.item, 1});
  }
  return std::move(clip).items();
}

std::vector<Item> clipped(const std::vector<Item> &items, const Window &window) {
  return Clippable(items).within(window);
}

} // namespace gatherwright::paper
