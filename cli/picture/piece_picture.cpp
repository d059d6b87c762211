// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/picture/piece_picture.hpp"

#include "cli/drawing/type.hpp"
#include "cli/picture/box_label.hpp"
#include "cli/picture/key.hpp"
#include "cli/picture/label_places.hpp"
#include "cli/picture/way.hpp"
#include "cli/words/figures.hpp"
#include "cli/words/listed.hpp"
#include "cli/words/names.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace gatherwright::paper {

namespace {

constexpr double heading_size = 3.4;
constexpr double heading_leading = 1.3;
constexpr double label_size = 2.7;
constexpr double cut_pen = 0.45;
constexpr double seam_pen = 0.25;
constexpr double leader = 3.5;       ///< from the cut edge to a label
constexpr double rows_apart = 3.5;   ///< labels beside each other
constexpr double slanted_apart = 5;  ///< along the edge, of labels that lean
constexpr double caption_room = 4.5; ///< of what is sewn to a side, inside the seam line
constexpr double closest_pins = 1.5; ///< circles

constexpr double slanted(double length) {
  return length / std::numbers::sqrt2;
}

/// A mark of a side, as it is drawn.
struct Shown {
  const PieceMark *mark = nullptr;
  bool reference = false;
  std::string says;
  bool cut_short = false; ///< what it says
};

/// A side on the page: from its start's cut corner on.
struct Edge {
  Point start;
  Point along;
  Point outwards;
  double length = 0; ///< on the page

  Point at(double place) const { return start + place * along; }
};

class PiecePicture {
public:
  PiecePicture(const Job &job, const Plan &plan, PieceId piece, PieceShown shown, double width)
      : job_(job), plan_(plan), piece_(piece), asked_(job[piece]), planned_(plan.pieces.at(piece.at)), shown_(shown),
        tape_(job.tape()), allowance_(planned_.allowance) {
    page_.width = width;
    if (shown == PieceShown::mirrored) std::swap(allowance_[Side::left], allowance_[Side::right]);
    for (const PieceMark &mark : marks())
      sides_[mark.side].push_back(shown_mark(mark));
  }

  Page draw();
  bool tells_every_mark();

private:
  const std::vector<PieceMark> &marks() const {
    return shown_ == PieceShown::mirrored ? *planned_.marks_mirrored : planned_.marks;
  }
  const Mark &mark_of(const PieceMark &mark) const {
    return plan_.joins.at(mark.edge.join.at).marks.at(static_cast<std::size_t>(mark.mark));
  }
  template <class Drawn> void add(Drawn drawn) { page_.items.push_back({std::move(drawn)}); }

  Shown shown_mark(const PieceMark &mark) const;
  void lay_out();
  double longest(Side side) const;
  Edge edge(Side side) const;
  void outline();
  void signs(Side side);
  std::size_t room_for_labels(Side side) const;
  void labels(Side side);
  void label(Side side, const Shown &shown, double at, double placed);
  void captions(Side side);
  void middle();
  void key();
  std::string heading() const;
  std::string says() const;

  const Job &job_;
  const Plan &plan_;
  PieceId piece_;
  const Piece &asked_;
  const PiecePlan &planned_;
  PieceShown shown_;
  Tape tape_;
  BySide<double> allowance_;
  BySide<std::vector<Shown>> sides_;
  Page page_;
  Box cut_; ///< the cut edges on the page
  double scale_ = 1;
  bool arrow_ = false; ///< there was room for one within
  double bottom_ = 0;
};

Shown PiecePicture::shown_mark(const PieceMark &mark) const {
  const Mark &is = mark_of(mark);
  std::string says = words::place(mark.tape, tape_);
  if (is.reference) says += " " + words::mark_called(job_[mark.edge.join], is);
  const double most = std::min(46.0, page_.width * 0.3);
  std::string fits = fitted(says, most, label_size, is.reference);
  const bool cut_short = fits != says;
  return {&mark, is.reference, std::move(fits), cut_short};
}

double PiecePicture::longest(Side side) const {
  double longest = 0;
  for (const Shown &shown : sides_[side])
    longest = std::max(longest, text_width(shown.says, label_size, shown.reference));
  return longest;
}

/// As large as leaves room for the labels round it.
void PiecePicture::lay_out() {
  const auto beside = [this](Side side) { return sides_[side].empty() ? 1.0 : longest(side) + leader + 1; };
  const auto over = [this](Side side) { return sides_[side].empty() ? 1.0 : slanted(longest(side)) + leader + 3; };
  const double left = beside(Side::left);
  // Labels that lean reach beyond the right end.
  double right = beside(Side::right);
  for (const Side side : {Side::top, Side::bottom})
    for (const Shown &each : sides_[side]) {
      const double to_end = 1 - each.mark->exact / std::max(planned_.cut_across.exact, 1e-9);
      if (to_end < 0.25) right = std::max(right, slanted(text_width(each.says, label_size, each.reference)) + 3);
    }
  const double lines = static_cast<double>(broken(heading(), page_.width, heading_size, true).size());
  const double top = lines * heading_leading * heading_size + 2 + over(Side::top);
  const double most_high = std::clamp(page_.width * 0.62, 60.0, 110.0);
  const double most_wide = page_.width - left - right;
  scale_ = std::min({1.0, most_wide / planned_.cut_across.exact, most_high / planned_.cut_along.exact});
  const double wide = planned_.cut_across.exact * scale_;
  const double spare = std::max(0.0, page_.width - left - right - wide) / 2;
  cut_ = {left + spare, top, left + spare + wide, top + planned_.cut_along.exact * scale_};
  bottom_ = cut_.bottom + over(Side::bottom);
}

Edge PiecePicture::edge(Side side) const {
  const double wide = cut_.right - cut_.left;
  const double high = cut_.bottom - cut_.top;
  switch (side) {
  case Side::top:
    return {{cut_.left, cut_.top}, {1, 0}, {0, -1}, wide};
  case Side::bottom:
    return {{cut_.left, cut_.bottom}, {1, 0}, {0, 1}, wide};
  case Side::left:
    return {{cut_.left, cut_.top}, {0, 1}, {-1, 0}, high};
  case Side::right:
    break;
  }
  return {{cut_.right, cut_.top}, {0, 1}, {1, 0}, high};
}

/// The cut edges, and a seam line along every side that has an allowance.
void PiecePicture::outline() {
  add(rectangle({cut_.left, cut_.top}, cut_.right - cut_.left, cut_.bottom - cut_.top, cut_pen));
  for (const Side side : all_sides) {
    if (!(allowance_[side] > 0)) continue;
    const Edge cut = edge(side);
    const double before = allowance_[side_before(side)] * scale_;
    const double after = allowance_[runs_across(side) ? Side::right : Side::bottom] * scale_;
    const Point in = -allowance_[side] * scale_ * cut.outwards;
    Line seam = segment(cut.at(before) + in, cut.at(cut.length - after) + in, seam_pen);
    seam.dashed = true;
    add(std::move(seam));
  }
}

/// A named mark is a heavy line with a solid triangle at the cut edge, a pin a light one with an open circle at the
/// seam line.
void PiecePicture::signs(Side side) {
  const Edge cut = edge(side);
  double last = -closest_pins;
  for (const Shown &shown : sides_[side]) {
    const double place = shown.mark->exact * scale_;
    if (!shown.reference && place - last < closest_pins) continue;
    last = place;
    const Point foot = cut.at(place);
    const double in = std::max(allowance_[side] * scale_, shown.reference ? 1.4 : 0.0);
    const Point end = foot - (in + (shown.reference ? 1.0 : 0.0)) * cut.outwards;
    add(segment(foot, end, shown.reference ? 0.45 : 0.18, shown.reference ? Tone::ink : Tone::soft));
    if (shown.reference)
      add(Line{.points = {foot, foot + 2 * cut.outwards - 1.0 * cut.along, foot + 2 * cut.outwards + 1.0 * cut.along},
               .closed = true,
               .pen = 0,
               .fill = Tone::ink});
    else
      add(circle(end, 0.6, 0.2, Tone::paper));
  }
}

constexpr double labels_apart(Side side) {
  return runs_across(side) ? slanted_apart : rows_apart;
}

std::size_t PiecePicture::room_for_labels(Side side) const {
  return static_cast<std::size_t>(std::floor(edge(side).length / labels_apart(side))) + 1;
}

bool PiecePicture::tells_every_mark() {
  lay_out();
  return std::all_of(all_sides.begin(), all_sides.end(), [this](Side side) {
    return sides_[side].size() <= room_for_labels(side) &&
           std::none_of(sides_[side].begin(), sides_[side].end(), [](const Shown &shown) { return shown.cut_short; });
  });
}

/// Distances of all marks where they have room, else of the named ones, else of as many of those as have.
void PiecePicture::labels(Side side) {
  const Edge cut = edge(side);
  const double apart = labels_apart(side);
  const std::size_t room = room_for_labels(side);
  std::vector<const Shown *> told;
  for (const Shown &shown : sides_[side])
    told.push_back(&shown);
  if (told.size() > room) std::erase_if(told, [](const Shown *shown) { return !shown->reference; });
  if (told.size() > room) told.resize(room);
  std::vector<LabelPlace> wanted;
  for (const Shown *shown : told)
    wanted.push_back({shown->mark->exact * scale_, cut.length});
  const std::vector<double> placed = spread_labels(wanted, apart, 0);
  for (std::size_t i = 0; i < told.size(); ++i)
    label(side, *told[i], wanted[i].wanted, placed[i]);
}

void PiecePicture::label(Side side, const Shown &shown, double at, double placed) {
  const Edge cut = edge(side);
  const Point from = cut.at(at) + (shown.reference ? 2.0 : 0.4) * cut.outwards;
  const Point to = cut.at(placed) + leader * cut.outwards;
  add(segment(from, to, 0.15, Tone::soft));
  Text text{.at = to + 0.6 * cut.outwards, .says = shown.says, .size = label_size, .bold = shown.reference};
  // A line of text is as high above its base as this much of its size.
  constexpr double middle = 0.36 * label_size;
  if (side == Side::top) {
    text.turned = -45;
    text.at.x += slanted(middle);
  } else if (side == Side::bottom) {
    text.turned = 45;
    text.at = {text.at.x - slanted(middle), text.at.y + 2 * slanted(middle)};
  } else {
    text.at.y += middle;
    text.anchor = side == Side::left ? Anchor::end : Anchor::start;
  }
  add(std::move(text));
}

/// What is sewn to a side, along its own part of it, where there is room.
void PiecePicture::captions(Side side) {
  const Edge cut = edge(side);
  const std::vector<Shown> &all = sides_[side];
  const double deep = (runs_across(side) ? cut_.bottom - cut_.top : cut_.right - cut_.left) / 2;
  if (deep < allowance_[side] * scale_ + caption_room + 2) return;
  for (std::size_t first = 0; first < all.size();) {
    const EdgeAt sewn = all[first].mark->edge;
    std::size_t last = first;
    while (last + 1 < all.size() && all[last + 1].mark->edge == sewn)
      ++last;
    const double from = all[first].mark->exact * scale_;
    const double to = all[last].mark->exact * scale_;
    const std::string says = words::where(job_, sewn.join);
    const double ends = runs_across(side) ? 2 : 3;
    if (text_width(says, label_size) < to - from - 2 * ends) {
      const double in = std::max(allowance_[side] * scale_, 1.4) + caption_room;
      Point at = cut.at((from + to) / 2) - in * cut.outwards;
      if (side == Side::top || side == Side::left) at = at + Point{runs_across(side) ? 0.0 : 0.6, 0.4};
      if (side == Side::bottom) at.y += 2;
      if (side == Side::right) at.x += 2;
      add(Text{.at = at,
               .says = says,
               .size = label_size,
               .anchor = Anchor::middle,
               .turned = runs_across(side) ? 0.0 : -90.0});
    }
    first = last + 1;
  }
}

/// The name in the middle, and the warp beside it.
void PiecePicture::middle() {
  Box within = cut_;
  const auto inset = [&](Side side) {
    return std::max(allowance_[side] * scale_, 1.4) + (sides_[side].empty() ? 0.5 : caption_room + 1.5);
  };
  within = {cut_.left + inset(Side::left), cut_.top + inset(Side::top), cut_.right - inset(Side::right),
            cut_.bottom - inset(Side::bottom)};
  constexpr double for_arrow = 5;
  const double high = within.bottom - within.top;
  double wide = within.right - within.left;
  arrow_ = high >= 9 && wide >= 2 * for_arrow;
  if (arrow_) {
    const double x = within.right - for_arrow / 2;
    const double half = std::min(high, 22.0) / 2 - 0.5;
    const double y = (within.top + within.bottom) / 2;
    add(segment({x, y - half}, {x, y + half}, 0.3));
    for (const double way : {-1.0, 1.0})
      add(Line{.points = {{x - 1, y + way * (half - 1.6)}, {x, y + way * half}, {x + 1, y + way * (half - 1.6)}},
               .pen = 0.3});
    const bool room = half > 6;
    if (room)
      add(Text{.at = {x - 0.9, y},
               .says = "warp",
               .size = label_size,
               .anchor = Anchor::middle,
               .turned = -90,
               .tone = Tone::ink});
    wide -= for_arrow;
    arrow_ = room;
  }
  const std::string name = words::where(job_, piece_);
  const auto label =
      label_within({{name, fmt::format("cut {}", asked_.cut)}, {name}}, std::max(wide, 0.0), std::max(high, 0.0));
  if (!label) return;
  for (Item &item : drawn_label(*label, {within.left + wide / 2, (within.top + within.bottom) / 2}))
    page_.items.push_back(std::move(item));
}

void PiecePicture::key() {
  Key key(page_.width, bottom_);
  key.scale(job_, scale_);
  key.entry("cut edge", 9, {segment({0, 0}, {9, 0}, cut_pen)});
  const auto has = [&](auto of) { return std::any_of(all_sides.begin(), all_sides.end(), of); };
  if (has([this](Side side) { return allowance_[side] > 0; })) {
    Line dashed = segment({0, 0}, {9, 0}, seam_pen);
    dashed.dashed = true;
    key.entry("seam line", 9, {dashed});
  }
  if (!arrow_) key.warp();
  const auto any = [&](bool reference) {
    return has([&](Side side) {
      return std::any_of(sides_[side].begin(), sides_[side].end(),
                         [&](const Shown &shown) { return shown.reference == reference; });
    });
  };
  if (any(true)) key.named_mark();
  if (any(false)) key.pin();
  if (!marks().empty())
    key.entry(fmt::format("distances{}, from the cut corner at the left or the top", read_in(tape_.unit)), -1.5, {});
  for (Item &item : std::move(key).items())
    page_.items.push_back(std::move(item));
  page_.height = key.bottom();
}

/// "sleeve, cut 2: 54 cm across, 58.5 cm along"
std::string PiecePicture::heading() const {
  std::string text = words::where(job_, piece_);
  if (planned_.marks_mirrored)
    text += shown_ == PieceShown::mirrored ? ", the second of a pair" : ", the first of a pair";
  if (asked_.cut > 1) text += fmt::format(", cut {}", asked_.cut);
  return text + fmt::format(": {} across, {} along", words::length(planned_.cut_across.tape, tape_),
                            words::length(planned_.cut_along.tape, tape_));
}

std::string PiecePicture::says() const {
  std::string text = fmt::format("Picture: {}", heading());
  std::vector<std::string> sides;
  for (const Side side : all_sides)
    if (!sides_[side].empty())
      sides.push_back(fmt::format("{} at the {}", sides_[side].size(), words::side_called(side)));
  text += sides.empty() ? "; no marks" : "; marks: " + words::listed(sides);
  return text + ".";
}

Page PiecePicture::draw() {
  page_.label = says();
  lay_out();
  double base = heading_size;
  for (const std::string &line : broken(heading(), page_.width, heading_size, true)) {
    add(Text{.at = {0, base}, .says = line, .size = heading_size, .bold = true});
    base += heading_leading * heading_size;
  }
  outline();
  for (const Side side : all_sides) {
    signs(side);
    labels(side);
    captions(side);
  }
  middle();
  key();
  return std::move(page_);
}

} // namespace

Page piece_picture(const Job &job, const Plan &plan, PieceId piece, PieceShown shown, double width) {
  return PiecePicture(job, plan, piece, shown, width).draw();
}

bool tells_every_mark(const Job &job, const Plan &plan, PieceId piece, PieceShown shown, double width) {
  return PiecePicture(job, plan, piece, shown, width).tells_every_mark();
}

} // namespace gatherwright::paper
