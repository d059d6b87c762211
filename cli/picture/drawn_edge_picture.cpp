// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/picture/drawn_edge_picture.hpp"

#include "cli/drawing/extent.hpp"
#include "cli/drawing/type.hpp"
#include "cli/picture/key.hpp"
#include "cli/picture/sizes.hpp"
#include "cli/picture/way.hpp"
#include "cli/report/join_words.hpp"
#include "cli/words/figures.hpp"
#include "cli/words/names.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace gatherwright::paper {

namespace {

constexpr double cut_edge_pen = 0.4;
constexpr double stitch_pen = 0.25;
constexpr double strokes_apart = 2.4;    ///< of those that tell where it takes fullness
constexpr std::size_t most_labels = 120; ///< that are tried
constexpr std::size_t most_points = 2000;
constexpr double most_turns = 40; ///< a line longer than so many times its extent is a tangle

using Outlined = std::vector<std::array<double, 2>>;

const std::optional<DrawnPlan> &drawn(const JoinPlan &planned, WhichEdge edge) {
  return edge == WhichEdge::band ? planned.drawn_band : planned.drawn_long;
}

/// What labels must stand clear of.
class TakenByLines {
public:
  void line(const Line &line) {
    for (std::size_t i = 1; i < line.points.size(); ++i)
      strokes_.emplace_back(line.points[i - 1], line.points[i]);
  }
  void box(const Box &box) { boxes_.push_back(box); }

  bool leaves(const Box &box) const {
    return std::none_of(boxes_.begin(), boxes_.end(), [&](const Box &other) { return other.meets(box); }) &&
           std::none_of(strokes_.begin(), strokes_.end(),
                        [&](const auto &stroke) { return crosses(stroke.first, stroke.second, box); });
  }

  /// Whether a line to a label crosses no other label.
  bool leaves(Point from, Point to) const {
    return std::none_of(boxes_.begin(), boxes_.end(), [&](const Box &other) { return crosses(from, to, other); });
  }

private:
  std::vector<Box> boxes_;
  std::vector<std::pair<Point, Point>> strokes_;
};

struct TextPlace;

class DrawnEdgePicture {
public:
  DrawnEdgePicture(const Job &job, const Join &asked, const JoinPlan &planned, WhichEdge edge, double width)
      : job_(job), asked_(asked), planned_(planned), which_(edge), edge_(*drawn(planned, edge)),
        mark_(edge == WhichEdge::band ? &Mark::band : &Mark::long_edge),
        unit_(millimetres((edge == WhichEdge::band ? asked.band : asked.long_edge).drawn()->path_unit)),
        length_(edge == WhichEdge::band ? planned.band : planned.long_length),
        ends_(edge == WhichEdge::band ? planned.band_ends : planned.long_ends) {
    page_.width = width;
  }

  Page draw();

private:
  struct End {
    Point at;
    Point before; ///< the point of the line next to it
  };

  Point on_page(const std::array<double, 2> &at) const {
    return {(at[0] - corner_[0]) * unit_ * scale_, (at[1] - corner_[1]) * unit_ * scale_};
  }
  std::vector<Point> on_page(const Outlined &points) const;

  struct Shown {
    std::size_t mark = 0;
    Point foot; ///< on the cut edge
    Point outwards;
    bool reference = false;
  };
  std::vector<std::vector<std::string>> named(std::size_t mark) const;
  void add(Item item) { items_.push_back(std::move(item)); }
  void line(Line drawn);

  void first_scale();
  double side() const;
  void at_scale(std::optional<std::size_t> first_way);
  void lines();
  void beyond(const End &cut, const End &stitches, double allowance);
  void fullness();
  void marks();
  void labels(std::size_t first_way);
  void label(const Shown &mark, std::size_t first_way);
  bool put_text(const std::vector<std::string> &says, const TextPlace &place, bool bold, Tone tone);
  void draw_to_fit();
  double highest() const { return std::clamp(page_.width * 0.45, 60.0, 90.0); }
  void garment();
  void key(double top);
  std::string says() const;

  const Job &job_;
  const Join &asked_;
  const JoinPlan &planned_;
  WhichEdge which_;
  const DrawnPlan &edge_;
  MarkPlace Mark::*mark_;
  double unit_;
  double length_;
  const std::optional<std::array<double, 2>> &ends_;
  Page page_;
  std::array<double, 2> corner_{}; ///< of the outline, in path units
  double scale_ = 1;               ///< page to cloth
  std::vector<Point> cut_edge_;
  std::vector<Point> stitching_;
  double side_ = 0; ///< 1 where the garment lies to the right of the way the stitching runs, -1 to the left, 0 unknown
  std::vector<Shown> shown_;
  TakenByLines taken_;
  std::vector<Item> items_;
};

std::vector<Point> DrawnEdgePicture::on_page(const Outlined &points) const {
  std::vector<Point> found;
  found.reserve(points.size());
  for (const auto &at : points)
    found.push_back(on_page(at));
  return found;
}

Box extent_of(const Outline &outline) {
  Box box{outline.cut_edge.front()[0], outline.cut_edge.front()[1], outline.cut_edge.front()[0],
          outline.cut_edge.front()[1]};
  for (const Outlined *points : {&outline.cut_edge, &outline.stitching})
    for (const auto &[x, y] : *points)
      box = {std::min(box.left, x), std::min(box.top, y), std::max(box.right, x), std::max(box.bottom, y)};
  return box;
}

/// As large as leaves room on the page, labels not counted.
void DrawnEdgePicture::first_scale() {
  const Box box = extent_of(*edge_.outline);
  corner_ = {box.left, box.top};
  const double wide = (box.right - box.left) * unit_;
  const double high = (box.bottom - box.top) * unit_;
  scale_ = 1;
  if (wide > 0) scale_ = std::min(scale_, page_.width * 0.9 / wide);
  if (high > 0) scale_ = std::min(scale_, highest() / high);
}

double DrawnEdgePicture::side() const {
  const MarkPlace &first = planned_.marks.front().*mark_;
  if (!first.normal) return 0;
  const Point tangent = Way(stitching_).place(first.exact * scale_).tangent;
  return tangent.x * (*first.normal)[1] - tangent.y * (*first.normal)[0] > 0 ? -1 : 1;
}

void DrawnEdgePicture::line(Line drawn) {
  taken_.line(drawn);
  add({std::move(drawn)});
}

/// With labels from their so-manyth way on, or with none.
void DrawnEdgePicture::at_scale(std::optional<std::size_t> first_way) {
  items_.clear();
  shown_.clear();
  taken_ = {};
  cut_edge_ = on_page(edge_.outline->cut_edge);
  stitching_ = on_page(edge_.outline->stitching);
  side_ = side();
  lines();
  fullness();
  marks();
  if (!first_way) return;
  labels(*first_way);
  garment();
}

void DrawnEdgePicture::lines() {
  line({.points = cut_edge_, .closed = asked_.closed, .pen = cut_edge_pen});
  if (edge_.allowance > 0) line({.points = stitching_, .closed = asked_.closed, .pen = stitch_pen, .dashed = true});
  if (asked_.closed || !ends_) return;
  const auto [before, after] = *ends_;
  beyond({cut_edge_[0], cut_edge_[1]}, {stitching_[0], stitching_[1]}, before);
  const std::size_t c = cut_edge_.size();
  const std::size_t s = stitching_.size();
  beyond({cut_edge_[c - 1], cut_edge_[c - 2]}, {stitching_[s - 1], stitching_[s - 2]}, after);
}

/// Straight on past the first or the last stitch, and across where the cloth is cut.
void DrawnEdgePicture::beyond(const End &cut, const End &stitches, double allowance) {
  if (!(allowance > 0)) return;
  const Point cut_to = cut.at + allowance * scale_ * direction_of(cut.at - cut.before);
  const Point stitches_to = stitches.at + allowance * scale_ * direction_of(stitches.at - stitches.before);
  line(segment(cut.at, cut_to, cut_edge_pen));
  if (!(edge_.allowance > 0)) return;
  Line dashed = segment(stitches.at, stitches_to, stitch_pen);
  dashed.dashed = true;
  line(std::move(dashed));
  line(segment(cut_to, stitches_to, cut_edge_pen));
}

/// Short strokes wherever the stitching line takes fullness: on the garment's side, or across it where none is given.
void DrawnEdgePicture::fullness() {
  const Way way(stitching_);
  const std::vector<Mark> &all = planned_.marks;
  for (std::size_t i = 0; i + (asked_.closed ? 0 : 1) < all.size(); ++i) {
    if (!takes_fullness(asked_.segments.at(all[i].segment).kind)) continue;
    const double from = (all[i].*mark_).exact * scale_ / strokes_apart;
    const double to = (i + 1 < all.size() ? (all[i + 1].*mark_).exact : length_) * scale_ / strokes_apart;
    for (double n = std::ceil(from); n <= to; ++n) {
      const auto [at, tangent] = way.place(n * strokes_apart);
      const Point right{-tangent.y, tangent.x};
      const Point start = at + (side_ == 0 ? -1.0 : side_) * right;
      add({segment(start, start + (side_ == 0 ? 2.0 : 2 * side_) * right + 1.2 * tangent, 0.2, Tone::soft)});
    }
  }
}

/// A named mark is a heavy line with a solid triangle at the cut edge, a pin a light one with an open circle.
void DrawnEdgePicture::marks() {
  const Way way(stitching_);
  Point last{-closest_pins, -closest_pins};
  for (std::size_t n = 0; n < planned_.marks.size(); ++n) {
    const Mark &mark = planned_.marks[n];
    const MarkPlace &place = mark.*mark_;
    const Point at = on_page(*place.at);
    if (!mark.reference && norm(at - last) < closest_pins) continue;
    last = at;
    const Point along = way.place(place.exact * scale_).tangent;
    const Point outwards = place.normal ? Point{(*place.normal)[0], (*place.normal)[1]} : Point{along.y, -along.x};
    const Point foot = at + edge_.allowance * scale_ * outwards;
    const Point across{-outwards.y, outwards.x};
    shown_.push_back({n, foot, outwards, mark.reference});
    line(segment(foot, at - (mark.reference ? 1.6 : 0.6) * outwards, mark.reference ? 0.45 : 0.18,
                 mark.reference ? Tone::ink : Tone::soft));
    if (mark.reference)
      add({Line{.points = {foot - 2.2 * outwards, foot - 1.1 * across, foot + 1.1 * across},
                .closed = true,
                .pen = 0,
                .fill = Tone::ink}});
    else
      add({circle(at, 0.6, 0.2, Tone::paper)});
  }
}

/// What a mark is called, in the ways in which it may stand, the best first: a name in lines, broken at its spaces into
/// narrower ones where there is less room, and its number alone.
std::vector<std::vector<std::string>> DrawnEdgePicture::named(std::size_t mark) const {
  const std::string number = std::to_string(mark);
  if (!planned_.marks[mark].reference) return {{number}};
  constexpr std::size_t most_lines = 4;
  const std::string name = number + " " + words::printable(words::mark_called(asked_, planned_.marks[mark]));
  std::vector<std::vector<std::string>> ways;
  for (const double longest : {page_.width * 0.25, std::min(page_.width * 0.18, 15.0)}) {
    std::vector<std::string> lines = broken(name, longest, label_size, true);
    if (lines.size() > most_lines) {
      lines.resize(most_lines);
      lines.back() = fitted(lines.back() + "……", longest, label_size, true);
    }
    ways.push_back(std::move(lines));
  }
  ways.push_back({number});
  return ways;
}

/// Those of named marks first; what has no room goes without.
void DrawnEdgePicture::labels(std::size_t first_way) {
  std::size_t tried = 0;
  for (const bool reference : {true, false})
    for (const Shown &mark : shown_)
      if (mark.reference == reference && tried++ < most_labels) label(mark, first_way);
}

/// Where a text stands that lies so far off a place.
struct TextPlace {
  Point base;         ///< of one line
  double lean = 0.5;  ///< 0: to the right of it, 1: to the left
  double above = 0.5; ///< how much of what more lines take lies above that
};
TextPlace text_place(Point from, Point towards, double away) {
  const Point middle = from + away * towards;
  return {{middle.x, middle.y + 1 + 1.4 * towards.y},
          towards.x > 0.35    ? 0
          : towards.x < -0.35 ? 1
                              : 0.5,
          (1 - towards.y) / 2};
}

/// Lines of text at a place, if they are clear of all else there.
bool DrawnEdgePicture::put_text(const std::vector<std::string> &says, const TextPlace &place, bool bold, Tone tone) {
  constexpr double line_high = 3.3;
  double width = 0;
  for (const std::string &line : says)
    width = std::max(width, text_width(line, label_size, bold));
  const double left = place.base.x - place.lean * width;
  const double more = line_high * static_cast<double>(says.size() - 1);
  const double first = place.base.y - place.above * more;
  const Box box{left - 0.6, first - 2.6, left + width + 0.6, first + more + 0.8};
  if (!taken_.leaves(box)) return false;
  taken_.box(box);
  for (std::size_t i = 0; i < says.size(); ++i)
    add({Text{.at = {left + place.lean * (width - text_width(says[i], label_size, bold)),
                     first + line_high * static_cast<double>(i)},
              .says = says[i],
              .size = label_size,
              .bold = bold,
              .tone = tone}});
  return true;
}

/// Outside the cut edge, the nearest place that is free, and a line to it from the edge where it is not the first one.
void DrawnEdgePicture::label(const Shown &mark, std::size_t first_way) {
  const int places = mark.reference ? 5 : 1;
  const std::vector<std::vector<std::string>> ways = named(mark.mark);
  for (std::size_t way = std::min(first_way, ways.size() - 1); way < ways.size(); ++way)
    for (int step = 0; step < places; ++step) {
      const double away = 2.4 + 4.2 * step;
      const Point reached = mark.foot + (away - 1) * mark.outwards;
      if (step > 0 && !taken_.leaves(mark.foot, reached)) continue;
      if (!put_text(ways[way], text_place(mark.foot, mark.outwards, away), mark.reference, Tone::ink)) continue;
      if (step > 0) line(segment(mark.foot, reached, 0.15, Tone::soft));
      return;
    }
}

/// The word on the garment's side, near the middle of the edge where there is room.
void DrawnEdgePicture::garment() {
  if (side_ == 0) return;
  const Way way(stitching_);
  for (const double share : {0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9})
    for (const double away : {6.0, 9.0, 12.0}) {
      const auto [at, tangent] = way.place(share * way.length());
      const Point inwards{-side_ * tangent.y, side_ * tangent.x};
      if (taken_.leaves(at, at + away * inwards) &&
          put_text({"garment"}, text_place(at, inwards, away), false, Tone::accent))
        return;
    }
}

/// The scale, and what lines and signs mean.
void DrawnEdgePicture::key(double top) {
  Key key(page_.width, top);
  key.scale(job_, scale_);
  const bool shifted = edge_.allowance > 0;
  key.entry(shifted ? "cut edge" : "cut edge and stitching line", 9, {segment({0, 0}, {9, 0}, cut_edge_pen)});
  if (shifted) {
    Line dashed = segment({0, 0}, {9, 0}, stitch_pen);
    dashed.dashed = true;
    key.entry("stitching line", 9, {dashed});
  }
  if (std::any_of(asked_.segments.begin(), asked_.segments.end(),
                  [](const Segment &segment) { return takes_fullness(segment.kind); })) {
    std::vector<Line> strokes;
    for (const double at : {0.4, 2.4, 4.4})
      strokes.push_back(segment({at, 1}, {at + 1.2, -1}, 0.2, Tone::soft));
    key.entry("takes fullness", 6, std::move(strokes));
  }
  key.named_mark();
  if (std::any_of(shown_.begin(), shown_.end(), [](const Shown &mark) { return !mark.reference; })) key.pin();
  page_.height = key.bottom();
  for (Item &item : std::move(key).items())
    page_.items.push_back(std::move(item));
}

std::string DrawnEdgePicture::says() const {
  std::string text = fmt::format("Picture: the {} as it is drawn, with its {} marks", words::edge_called(which_),
                                 planned_.marks.size());
  if (edge_.allowance > 0)
    text += fmt::format("; the stitching line, {}, runs {} inside the cut edge", words::length(length_, job_.tape()),
                        words::length(edge_.allowance, job_.tape()));
  if (edge_.garment) text += fmt::format("; the garment lies {}", report::lies(*edge_.garment));
  text += ".";
  std::string told;
  std::size_t names = 0;
  constexpr std::size_t most_told = 20;
  for (std::size_t n = 0; n < planned_.marks.size(); ++n) {
    if (!planned_.marks[n].reference) continue;
    if (++names > most_told) return text;
    told += fmt::format("{}{} {}", names == 1 ? "" : ", ", n, words::mark_called(asked_, planned_.marks[n]));
  }
  return told.empty() ? text : fmt::format("{} Named marks: {}.", text, told);
}

/// Drawn again, smaller, where labels or ends reach beyond the page; with narrower labels, numbers alone and none at
/// all where that does not help.
void DrawnEdgePicture::draw_to_fit() {
  constexpr double with_labels = 40; ///< how much higher they may make it
  constexpr int most_tries = 4;
  for (const std::optional<std::size_t> &first_way : {std::optional<std::size_t>(0), std::optional<std::size_t>(1),
                                                      std::optional<std::size_t>(2), std::optional<std::size_t>()}) {
    first_scale();
    for (int tries = 0; tries < most_tries; ++tries) {
      at_scale(first_way);
      const Box box = paper::extent_of(items_);
      const double too_large =
          std::max((box.right - box.left) / page_.width, (box.bottom - box.top) / (highest() + with_labels));
      if (too_large <= 1) return;
      scale_ *= 0.97 / too_large;
    }
  }
}

Page DrawnEdgePicture::draw() {
  page_.label = says();
  draw_to_fit();
  const Box box = paper::extent_of(items_);
  const double top = heading_size + 4;
  move_by(items_, {(page_.width - (box.right - box.left)) / 2 - box.left, top - box.top});
  const std::string heading =
      fmt::format("{} as drawn: {}", words::edge_called(which_),
                  report::edge_said(job_, which_ == WhichEdge::band ? asked_.band : asked_.long_edge, length_));
  page_.items.push_back({Text{.at = {0, heading_size},
                              .says = fitted(heading, page_.width, heading_size, true),
                              .size = heading_size,
                              .bold = true}});
  for (Item &item : items_)
    page_.items.push_back(std::move(item));
  key(top + box.bottom - box.top + 3);
  return std::move(page_);
}

} // namespace

std::size_t points_as_drawn(const JoinPlan &planned, WhichEdge edge) {
  const std::optional<DrawnPlan> &drawn_edge = drawn(planned, edge);
  if (!drawn_edge || !drawn_edge->outline || planned.marks.empty()) return 0;
  const Outline &outline = *drawn_edge->outline;
  const std::size_t points = outline.cut_edge.size() + outline.stitching.size();
  if (outline.cut_edge.size() < 2 || outline.stitching.size() < 2 || points > most_points) return 0;
  const Box box = extent_of(outline);
  const double extent = std::hypot(box.right - box.left, box.bottom - box.top);
  for (const Outlined *line : {&outline.cut_edge, &outline.stitching}) {
    double length = 0;
    for (std::size_t i = 1; i < line->size(); ++i)
      length += std::hypot((*line)[i][0] - (*line)[i - 1][0], (*line)[i][1] - (*line)[i - 1][1]);
    if (!(length <= most_turns * extent) || !(length > 0)) return 0;
  }
  return points;
}

Page drawn_edge_picture(const Job &job, const Join &asked, const JoinPlan &planned, WhichEdge edge, double width) {
  return DrawnEdgePicture(job, asked, planned, edge, width).draw();
}

} // namespace gatherwright::paper
