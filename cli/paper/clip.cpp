// SPDX-License-Identifier: GPL-3.0-or-later
#include "paper/clip.hpp"

#include "paper/type.hpp"

#include <algorithm>
#include <cstddef>
#include <optional>
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

class Clip {
public:
  explicit Clip(const Window &window) : window_(window) {}

  void take(const std::vector<Item> &items) {
    for (const Item &item : items)
      std::visit([this](const auto &is) { take(is); }, item.is);
  }

  std::vector<Item> items() && { return std::move(items_); }

private:
  Point moved(Point point) const { return {point.x - window_.corner.x, point.y - window_.corner.y}; }
  void take(const Line &line);
  void take(const Text &text);
  void take(const Group &group) { take(group.items); }

  const Window &window_;
  std::vector<Item> items_;
};

void Clip::take(const Line &line) {
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

void Clip::take(const Text &text) {
  if (!window_.holds(text.at)) return;
  Text shown = text;
  shown.at = moved(text.at);
  if (text.turned == 0) {
    const double width = text_width(text.says, text.size, text.bold);
    const double before = text.anchor == Anchor::start ? 0 : text.anchor == Anchor::middle ? width / 2 : width;
    shown.at.x = std::max(before, std::min(shown.at.x, window_.width - (width - before)));
  }
  items_.push_back({std::move(shown)});
}

} // namespace

std::vector<Item> clipped(const std::vector<Item> &items, const Window &window) {
  Clip clip(window);
  clip.take(items);
  return std::move(clip).items();
}

} // namespace gatherwright::paper
