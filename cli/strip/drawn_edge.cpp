// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/strip/drawn_edge.hpp"

#include "cli/drawing/extent.hpp"
#include "cli/drawing/type.hpp"
#include "cli/picture/way.hpp"
#include "cli/strip/strip_drawing.hpp"
#include "cli/words/figures.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <utility>

namespace gatherwright::paper {

namespace {

constexpr double beyond_stitches = 6; ///< how far a mark's sign reaches into the garment
constexpr double words_from_edge = 2.4;
constexpr double edge_number_size = 3.8;
constexpr double edge_name_size = 3.4;
constexpr double around = 4; ///< left free round the picture

class Picture {
public:
  Picture(const Job &job, const JoinPlan &planned, int join, bool band, Pieces pieces);
  EdgePicture take();

private:
  Point point(const std::array<double, 2> &at) const { return {(mirrored_ ? -1 : 1) * at[0] * unit_, at[1] * unit_}; }
  Point direction(const std::array<double, 2> &of) const { return {(mirrored_ ? -1 : 1) * of[0], of[1]}; }
  void lines();
  struct End {
    Point at;
    Point before; ///< the point of the line next to it
  };
  void beyond(const End &cut, const End &stitches, double allowance);
  void fullness();
  void mark(const StripMark &mark, const MarkPlace &place);
  void words(const StripMark &mark, Point foot, Point outwards);

  const Job &job_;
  const Join &join_;
  const JoinPlan &planned_;
  MarkPlace Mark::*edge_;
  const Edge &asked_;
  bool mirrored_;
  double unit_;
  double allowance_;
  const std::optional<std::array<double, 2>> &ends_;
  double length_;
  std::vector<Point> cut_edge_;
  std::vector<Point> stitching_;
  Way way_;
  double side_ = 1; ///< 1: the cut edge lies to the left of the way the stitching runs on the page as shown
  std::vector<Box> taken_;
  std::vector<Item> items_;
};

std::vector<Point> points_of(const std::vector<std::array<double, 2>> &points, double unit, bool mirrored) {
  std::vector<Point> found;
  found.reserve(points.size());
  for (const auto &[x, y] : points)
    found.push_back({(mirrored ? -1 : 1) * x * unit, y * unit});
  return found;
}

const Outline &outline_of(const JoinPlan &planned, bool band) {
  return *(band ? planned.drawn_band : planned.drawn_long)->outline;
}

Picture::Picture(const Job &job, const JoinPlan &planned, int join, bool band, Pieces pieces)
    : job_(job), join_(job.joins.at(join)), planned_(planned), edge_(band ? &Mark::band : &Mark::long_edge),
      asked_(band ? join_.band : join_.long_edge), mirrored_(pieces == Pieces::mirrored),
      unit_(millimetres(asked_.drawn()->path_unit)),
      allowance_((band ? planned.drawn_band : planned.drawn_long)->allowance),
      ends_(band ? planned.band_ends : planned.long_ends), length_(band ? planned.band : planned.long_length),
      cut_edge_(points_of(outline_of(planned, band).cut_edge, unit_, mirrored_)),
      stitching_(points_of(outline_of(planned, band).stitching, unit_, mirrored_)), way_(stitching_) {
  const MarkPlace &first = planned_.marks.front().*edge_;
  if (first.normal) {
    const Point normal = direction(*first.normal);
    const Point tangent = way_.place(0).tangent;
    side_ = tangent.y * normal.x - tangent.x * normal.y >= 0 ? 1 : -1;
  }
  lines();
  fullness();
  const std::vector<Mark> &marks = mirrored_ ? planned_.marks_mirrored.value() : planned_.marks;
  const std::vector<StripMark> shown = strip_marks(job_, join_, planned_, marks, edge_);
  for (std::size_t i = 0; i < shown.size(); ++i)
    mark(shown[i], marks[i].*edge_);
}

void Picture::lines() {
  const bool shifted = allowance_ > 0;
  items_.push_back({Line{.points = cut_edge_, .closed = join_.closed, .pen = 0.4}});
  if (shifted) items_.push_back({Line{.points = stitching_, .closed = join_.closed, .pen = 0.25, .dashed = true}});
  if (join_.closed || !ends_) return;
  const auto [before, after] = *ends_;
  beyond(End{cut_edge_[0], cut_edge_[1]}, End{stitching_[0], stitching_[1]}, before);
  const std::size_t c = cut_edge_.size();
  const std::size_t s = stitching_.size();
  beyond(End{cut_edge_[c - 1], cut_edge_[c - 2]}, End{stitching_[s - 1], stitching_[s - 2]}, after);
}

/// Straight on past the first or the last stitch, and across where the cloth is cut.
void Picture::beyond(const End &cut, const End &stitches, double allowance) {
  if (!(allowance > 0)) return;
  const Point cut_to = cut.at + allowance * direction_of(cut.at - cut.before);
  const Point stitches_to = stitches.at + allowance * direction_of(stitches.at - stitches.before);
  items_.push_back({segment(cut.at, cut_to, 0.4)});
  if (!(allowance_ > 0)) return;
  Line dashed = segment(stitches.at, stitches_to, 0.25);
  dashed.dashed = true;
  items_.push_back({dashed});
  items_.push_back({segment(cut_to, stitches_to, 0.4)});
}

/// Short strokes inside the stitching line, wherever it takes fullness.
void Picture::fullness() {
  constexpr double apart = 2.4;
  const double in = side_; // to the right of travel where the cut edge lies to the left
  for (std::size_t i = 0; i + (join_.closed ? 0 : 1) < planned_.marks.size(); ++i) {
    const Mark &mark = planned_.marks[i];
    if (!takes_fullness(join_.segments.at(mark.segment).kind)) continue;
    const double to = i + 1 < planned_.marks.size() ? (planned_.marks[i + 1].*edge_).tape : length_;
    const double first = std::ceil((mark.*edge_).tape / apart);
    for (int n = 0; (first + n) * apart <= to; ++n) {
      const auto [at, tangent] = way_.place((first + n) * apart);
      const Point inwards{-in * tangent.y, in * tangent.x};
      items_.push_back({segment(at + 1.0 * inwards, at + 3.0 * inwards + 1.2 * tangent, 0.2, Tone::soft)});
    }
  }
}

void Picture::mark(const StripMark &mark, const MarkPlace &place) {
  const Point at = point(*place.at);
  const double along = mirrored_ ? length_ - mark.at : mark.at;
  const Point tangent = way_.place(along).tangent;
  const Point outwards = place.normal ? direction(*place.normal) : Point{side_ * tangent.y, -side_ * tangent.x};
  const Point inwards = -1.0 * outwards;
  const Point foot = at + allowance_ * outwards;
  const double reach = allowance_ + beyond_stitches;
  for (Item &item : mark.reference ? reference_sign(foot, inwards, reach) : pin_sign(foot, inwards, reach))
    items_.push_back(std::move(item));
  words(mark, foot, outwards);
}

void Picture::words(const StripMark &mark, Point foot, Point outwards) {
  const std::string number = std::to_string(mark.number);
  const std::string name = fitted(mark.name, 60, edge_name_size);
  const double number_width = text_width(number, edge_number_size, true);
  const double name_width = name.empty() ? 0 : 1.2 + text_width(name, edge_name_size);
  const double width = number_width + name_width;
  const double lean = outwards.x > 0.35 ? 0 : outwards.x < -0.35 ? 1 : 0.5;
  constexpr int most_steps = 8;
  for (int step = 0; step < most_steps; ++step) {
    const double away = words_from_edge + 4.6 * step;
    const Point middle = foot + away * outwards;
    const double left = middle.x - lean * width;
    const double base = middle.y + 1.3 + 1.6 * outwards.y;
    const Box box{left - 0.8, base - 3.2, left + width + 0.8, base + 1};
    const bool free = std::none_of(taken_.begin(), taken_.end(), [&](const Box &other) { return other.meets(box); });
    if (!free && step + 1 < most_steps) continue;
    taken_.push_back(box);
    if (step > 0) items_.push_back({segment(foot, foot + (away - 1) * outwards, 0.15, Tone::soft)});
    Group said{Role::none, "", {{Text{{left, base}, number, edge_number_size, true}}}};
    if (!name.empty()) said.items.push_back({Text{{left + number_width + 1.2, base}, name, edge_name_size}});
    items_.push_back({std::move(said)});
    return;
  }
}

EdgePicture Picture::take() {
  const Box box = extent_of(items_);
  move_by(items_, {around - box.left, around - box.top});
  return {std::move(items_), box.right - box.left + 2 * around, box.bottom - box.top + 2 * around};
}

bool too_long(const Outline &outline, double unit) {
  const auto length = [unit](const std::vector<std::array<double, 2>> &points) {
    double sum = 0;
    for (std::size_t i = 1; i < points.size(); ++i)
      sum += std::hypot(points[i][0] - points[i - 1][0], points[i][1] - points[i - 1][1]) * unit;
    return sum;
  };
  return !(length(outline.cut_edge) <= most_length && length(outline.stitching) <= most_length);
}

} // namespace

EdgePicture edge_picture(const Job &job, const JoinPlan &planned, int join, bool band, Pieces pieces) {
  const Edge &edge = band ? job.joins.at(join).band : job.joins.at(join).long_edge;
  const Outline &outline = outline_of(planned, band);
  if (outline.cut_edge.size() < 2 || outline.stitching.size() < 2) return {};
  if (too_long(outline, millimetres(edge.drawn()->path_unit))) return {};
  EdgePicture picture = Picture(job, planned, join, band, pieces).take();
  if (!(picture.width <= most_extent && picture.height <= most_extent)) return {};
  return picture;
}

} // namespace gatherwright::paper
