// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/picture/piece_picture.hpp"

#include "cli/drawing/type.hpp"
#include "cli/picture/box_label.hpp"
#include "cli/picture/key.hpp"
#include "cli/picture/label_places.hpp"
#include "cli/picture/sizes.hpp"
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

constexpr double heading_leading = 1.3;
constexpr double side_label_size = 2.7;
constexpr double outline_pen = 0.45;
constexpr double seam_pen = 0.25;
constexpr double leader = 3.5;        ///< from the cut edge to a label
constexpr double rows_apart = 3.5;    ///< labels beside each other
constexpr double slanted_apart = 4.6; ///< along the edge, of labels that lean
constexpr double caption_room = 4.5;  ///< of what is sewn to a side, inside the seam line
constexpr double inner_leader = 3;    ///< from the seam line to a label within the piece
constexpr double outer_caption = 6;   ///< of what is sewn to a side whose labels are within
constexpr double name_room = 20;      ///< between labels within, for the name and the warp

constexpr double leaning(double length) {
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
  PiecePicture(const Job &job, const Plan &plan, PieceId piece, PieceShown shown, PieceRoom room, Signs signs)
      : job_(job), plan_(plan), piece_(piece), asked_(job[piece]), planned_(plan.pieces.at(piece.at)), shown_(shown),
        signs_(signs), highest_(room.highest), tape_(job.tape()), allowance_(planned_.allowance) {
    page_.width = room.width;
    if (shown == PieceShown::mirrored) std::swap(allowance_[Side::left], allowance_[Side::right]);
    for (const PieceMark &mark : marks())
      sides_[mark.side].push_back(shown_mark(mark));
    if (right_is_as_left()) as_left_ = Shown{sides_[Side::right].front().mark, false, "as left", false};
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
  bool right_is_as_left() const;
  void lay_out();
  void fit_labels();
  void lay_out(double left, double right, double top, double under);
  double longest(Side side) const;
  double within(Side side) const;
  bool labels_fit_within() const;
  Box name_box() const;
  double over(Side side) const;
  double labels_apart(Side side) const;
  double beyond_page() const;
  Edge edge(Side side) const;
  void outline();
  void signs(Side side);
  struct Rows {
    double lowest = 0;
    double highest = 0;
  };
  Rows rows(Side side) const;
  Rows clear_of_ends() const;
  std::size_t room_for_labels(Side side) const;
  struct Labelled {
    const Shown *shown;
    double wanted; ///< along its side, on the page
    double placed;
  };
  std::vector<Labelled> labelled(Side side) const;
  void labels(Side side);
  void label(Side side, const Labelled &labelled);
  void label_within(Side side, const Labelled &labelled);
  void captions(Side side);
  void middle();
  void key();
  void explain(Key &key) const;
  std::string heading() const;
  std::string says() const;

  const Job &job_;
  const Plan &plan_;
  PieceId piece_;
  const Piece &asked_;
  const PiecePlan &planned_;
  PieceShown shown_;
  Signs signs_;
  double highest_;
  Tape tape_;
  BySide<double> allowance_;
  BySide<std::vector<Shown>> sides_;
  std::optional<Shown> as_left_; ///< in place of the labels of the right side
  Page page_;
  Box cut_; ///< the cut edges on the page
  double scale_ = 1;
  BySide<bool> upright_{}; ///< labels of the top and the bottom do not lean
  bool within_ = false;    ///< labels of the left and the right side stand within the piece
  bool arrow_ = false;     ///< there was room for one within
  double bottom_ = 0;
};

Shown PiecePicture::shown_mark(const PieceMark &mark) const {
  const Mark &is = mark_of(mark);
  std::string says = words::place(mark.tape, tape_);
  if (is.reference) says += " " + words::mark_called(job_[mark.edge.join], is);
  const double most = std::min(46.0, page_.width * 0.36);
  std::string fits = fitted(says, most, side_label_size, is.reference);
  const bool cut_short = fits != says;
  return {&mark, is.reference, std::move(fits), cut_short};
}

/// Marked at the same distances, with the same names, for the same edges.
bool PiecePicture::right_is_as_left() const {
  const auto same = [](const Shown &a, const Shown &b) {
    return std::fabs(a.mark->exact - b.mark->exact) < 1e-6 && a.mark->edge == b.mark->edge && a.says == b.says;
  };
  const std::vector<Shown> &left = sides_[Side::left];
  const std::vector<Shown> &right = sides_[Side::right];
  return !right.empty() && std::equal(left.begin(), left.end(), right.begin(), right.end(), same);
}

double PiecePicture::longest(Side side) const {
  if (side == Side::right && as_left_) return text_width(as_left_->says, side_label_size);
  double longest = 0;
  for (const Shown &shown : sides_[side])
    longest = std::max(longest, text_width(shown.says, side_label_size, shown.reference));
  return longest;
}

/// From the cut edge to what stands within beside the seam line and the marks' signs.
double PiecePicture::within(Side side) const {
  return std::max(allowance_[side] * scale_, 1.4) + 1;
}

double PiecePicture::labels_apart(Side side) const {
  return runs_across(side) && !upright_[side] ? slanted_apart : rows_apart;
}

/// Labels along the top and the bottom lean, or stand upright where so all of them have room.
void PiecePicture::lay_out() {
  upright_ = {};
  fit_labels();
  const auto crowded = [this](Side side) { return runs_across(side) && sides_[side].size() > room_for_labels(side); };
  for (const bool upright : {true, false}) {
    bool changed = false;
    for (const Side side : {Side::top, Side::bottom}) {
      if (!crowded(side) || upright_[side] == upright) continue;
      upright_[side] = upright;
      changed = true;
    }
    if (!changed) return;
    fit_labels();
  }
}

/// What labels and their leaders take outside an edge across.
double PiecePicture::over(Side side) const {
  if (sides_[side].empty()) return 1;
  return upright_[side] ? longest(side) + leader + 1.5 : leaning(longest(side)) + leader + 3;
}

/// As large as leaves room for the labels round it. Those of the left and the right side stand within where the piece
/// is wide enough: it is larger so.
void PiecePicture::fit_labels() {
  const double lines = static_cast<double>(broken(heading(), page_.width, heading_size, true).size());
  const double top = lines * heading_leading * heading_size + 2 + over(Side::top);
  for (const bool within : {true, false}) {
    within_ = within;
    const auto beside = [this](Side side) {
      if (sides_[side].empty()) return 1.0;
      return within_ ? outer_caption : longest(side) + leader + 1;
    };
    const double left = beside(Side::left);
    double right = beside(Side::right);
    constexpr int most_tries = 8; // labels that lean reach beyond the right end, the farther the smaller it is
    for (int tries = 0; tries < most_tries; ++tries) {
      lay_out(left, right, top, over(Side::bottom));
      const double beyond = beyond_page();
      if (beyond <= 0) break;
      right += beyond + 0.1;
    }
    if (!within || labels_fit_within()) break;
  }
  bottom_ = cut_.bottom + over(Side::bottom);
}

/// With so much on each side for what stands round it.
void PiecePicture::lay_out(double left, double right, double top, double under) {
  constexpr double scale_bar = 7;
  const double most_high = std::clamp(highest_ - top - under - scale_bar, 40.0, 110.0);
  const double most_wide = std::max(page_.width - left - right, 10.0);
  scale_ = std::min({1.0, most_wide / planned_.cut_across.exact, most_high / planned_.cut_along.exact});
  const double wide = planned_.cut_across.exact * scale_;
  const double spare = std::max(0.0, page_.width - left - right - wide) / 2;
  cut_ = {left + spare, top, left + spare + wide, top + planned_.cut_along.exact * scale_};
}

bool PiecePicture::labels_fit_within() const {
  constexpr double between = 3;
  double taken = between;
  for (const Side side : {Side::left, Side::right}) {
    if (sides_[side].empty()) continue;
    taken += within(side) + inner_leader + longest(side);
    if (labelled(side).size() < (side == Side::right && as_left_ ? 1 : sides_[side].size())) return false;
  }
  const Box name = name_box();
  return taken <= cut_.right - cut_.left && name.right - name.left >= name_room && name.bottom - name.top >= 9;
}

/// Where the name and the warp have most room: between the labels within, or above or below them.
Box PiecePicture::name_box() const {
  const auto inset = [&](Side side) {
    return std::max(allowance_[side] * scale_, 1.4) + (sides_[side].empty() ? 0.5 : caption_room + 1.5);
  };
  const auto inset_by_side = [&](Side side) {
    if (!within_) return inset(side);
    return std::max(allowance_[side] * scale_, 1.4) + 0.5;
  };
  const Box whole{cut_.left + inset_by_side(Side::left), cut_.top + inset(Side::top),
                  cut_.right - inset_by_side(Side::right), cut_.bottom - inset(Side::bottom)};
  if (!within_) return whole;
  Box between = whole;
  Box above = whole;
  Box below = whole;
  for (const Side side : {Side::left, Side::right})
    for (const Labelled &label : labelled(side)) {
      const double wide = within(side) + inner_leader + longest(side);
      if (side == Side::left)
        between.left = cut_.left + wide;
      else
        between.right = cut_.right - wide;
      above.bottom = std::min(above.bottom, cut_.top + label.placed - rows_apart);
      below.top = std::max(below.top, cut_.top + label.placed + rows_apart);
    }
  const auto room = [](const Box &box) { return std::min(box.right - box.left, 2 * (box.bottom - box.top)); };
  Box best = between;
  for (const Box &box : {below, above})
    if (room(box) > room(best)) best = box;
  return best;
}

/// How far the labels that lean reach beyond the page.
double PiecePicture::beyond_page() const {
  double farthest = 0;
  for (const Side side : {Side::top, Side::bottom})
    for (const Labelled &label : labelled(side))
      if (!upright_[side])
        farthest = std::max(
            farthest, label.placed + leaning(text_width(label.shown->says, side_label_size, label.shown->reference)));
  constexpr double end_of_text = 2;
  return farthest > 0 ? cut_.left + farthest + end_of_text - page_.width : 0;
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
  add(rectangle({cut_.left, cut_.top}, cut_.right - cut_.left, cut_.bottom - cut_.top, outline_pen));
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

/// From where to where on a side labels may stand.
PiecePicture::Rows PiecePicture::rows(Side side) const {
  return runs_across(side) || !within_ ? Rows{0, edge(side).length} : clear_of_ends();
}

/// Of the left or the right side within the piece, clear of what is written along top and bottom.
PiecePicture::Rows PiecePicture::clear_of_ends() const {
  const auto kept = [this](Side other) {
    return within(other) + (sides_[other].empty() ? 0.5 * rows_apart : caption_room + 0.5 * rows_apart);
  };
  return {kept(Side::top), cut_.bottom - cut_.top - kept(Side::bottom)};
}

std::size_t PiecePicture::room_for_labels(Side side) const {
  const auto [lowest, highest] = rows(side);
  return static_cast<std::size_t>(std::floor(std::max(highest - lowest, 0.0) / labels_apart(side))) + 1;
}

bool PiecePicture::tells_every_mark() {
  lay_out();
  return std::all_of(all_sides.begin(), all_sides.end(), [this](Side side) {
    return sides_[side].size() <= room_for_labels(side) &&
           std::none_of(sides_[side].begin(), sides_[side].end(), [](const Shown &shown) { return shown.cut_short; });
  });
}

/// Distances of all marks where they have room, else of the named ones, else of as many of those as have.
std::vector<PiecePicture::Labelled> PiecePicture::labelled(Side side) const {
  const std::size_t room = room_for_labels(side);
  std::vector<const Shown *> told;
  for (const Shown &shown : sides_[side])
    told.push_back(&shown);
  if (told.size() > room) std::erase_if(told, [](const Shown *shown) { return !shown->reference; });
  if (told.size() > room) told.resize(room);
  if (side == Side::right && as_left_) told = {&*as_left_};
  const auto [lowest, highest] = rows(side);
  std::vector<LabelPlace> wanted;
  for (const Shown *shown : told)
    wanted.push_back({shown->mark->exact * scale_, highest});
  const std::vector<double> placed = spread_labels(wanted, labels_apart(side), lowest);
  std::vector<Labelled> labelled;
  for (std::size_t i = 0; i < told.size(); ++i)
    labelled.push_back({told[i], wanted[i].wanted, placed[i]});
  return labelled;
}

void PiecePicture::labels(Side side) {
  for (const Labelled &each : labelled(side))
    within_ && !runs_across(side) ? label_within(side, each) : label(side, each);
}

// A line of text is as high above its base as this much of its size.
constexpr double middle_of_line = 0.36 * side_label_size;

void PiecePicture::label_within(Side side, const Labelled &labelled) {
  const Edge cut = edge(side);
  const Shown &shown = *labelled.shown;
  const double sign = shown.reference ? within(side) : allowance_[side] * scale_ + 0.6;
  const Point to = cut.at(labelled.placed) - (within(side) + inner_leader - 0.6) * cut.outwards;
  add(segment(cut.at(labelled.wanted) - sign * cut.outwards, to, 0.15, Tone::soft));
  add(Text{.at = to - 0.6 * cut.outwards + Point{0, middle_of_line},
           .says = shown.says,
           .size = side_label_size,
           .bold = shown.reference,
           .anchor = side == Side::left ? Anchor::start : Anchor::end});
}

void PiecePicture::label(Side side, const Labelled &labelled) {
  const Edge cut = edge(side);
  const Shown &shown = *labelled.shown;
  const Point from = cut.at(labelled.wanted) + (shown.reference ? 2.0 : 0.4) * cut.outwards;
  const Point to = cut.at(labelled.placed) + leader * cut.outwards;
  add(segment(from, to, 0.15, Tone::soft));
  Text text{.at = to + 0.6 * cut.outwards, .says = shown.says, .size = side_label_size, .bold = shown.reference};
  if (upright_[side]) {
    text.turned = side == Side::top ? -90 : 90;
    text.at.x += side == Side::top ? middle_of_line : -middle_of_line;
  } else if (side == Side::top) {
    text.turned = -45;
    text.at.x += leaning(middle_of_line);
  } else if (side == Side::bottom) {
    text.turned = 45;
    text.at = {text.at.x - leaning(middle_of_line), text.at.y + 2 * leaning(middle_of_line)};
  } else {
    text.at.y += middle_of_line;
    text.anchor = side == Side::left ? Anchor::end : Anchor::start;
  }
  add(std::move(text));
}

/// What is sewn to a side, along its own part of it or beyond, where there is room.
void PiecePicture::captions(Side side) {
  const Edge cut = edge(side);
  const std::vector<Shown> &all = sides_[side];
  const double deep = (runs_across(side) ? cut_.bottom - cut_.top : cut_.right - cut_.left) / 2;
  const bool outside = within_ && !runs_across(side);
  if (!outside && deep < allowance_[side] * scale_ + caption_room + 2) return;
  const Rows free = outside || runs_across(side) ? Rows{0, cut.length} : clear_of_ends();
  for (std::size_t first = 0; first < all.size();) {
    const EdgeAt sewn = all[first].mark->edge;
    std::size_t last = first;
    while (last + 1 < all.size() && all[last + 1].mark->edge == sewn)
      ++last;
    const auto place = [&](std::size_t at) { return all[at].mark->exact * scale_; };
    const std::string says = words::where(job_, sewn.join);
    const double ends = runs_across(side) ? 2 : 3;
    const double half = text_width(says, side_label_size) / 2 + ends;
    // As far as what else is sewn to the side, or its ends.
    const double lowest = (first == 0 ? free.lowest : place(first - 1)) + half;
    const double highest = (last + 1 == all.size() ? free.highest : place(last + 1)) - half;
    if (lowest <= highest) {
      const double middle = std::clamp((place(first) + place(last)) / 2, lowest, highest);
      const double in = outside ? -2.8 : std::max(allowance_[side] * scale_, 1.4) + caption_room;
      Point at = cut.at(middle) - in * cut.outwards;
      if (side == Side::top || (side == Side::left && !outside)) at = at + Point{runs_across(side) ? 0.0 : 0.6, 0.4};
      if (side == Side::bottom) at.y += 2;
      if (side == Side::right) at.x += 2;
      add(Text{.at = at,
               .says = says,
               .size = side_label_size,
               .anchor = Anchor::middle,
               .turned = runs_across(side) ? 0.0 : -90.0});
    }
    first = last + 1;
  }
}

/// The name in the middle, and the warp beside it.
void PiecePicture::middle() {
  const Box within = name_box();
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
               .size = side_label_size,
               .anchor = Anchor::middle,
               .turned = -90,
               .tone = Tone::ink});
    wide -= for_arrow;
    arrow_ = room;
  }
  const std::string name = words::where(job_, piece_);
  const auto label = paper::label_within({{name, fmt::format("cut {}", asked_.cut)}, {name}}, std::max(wide, 0.0),
                                         std::max(high, 0.0));
  if (!label) return;
  for (Item &item : drawn_label(*label, {within.left + wide / 2, (within.top + within.bottom) / 2}))
    page_.items.push_back(std::move(item));
}

void PiecePicture::key() {
  Key key(page_.width, bottom_);
  key.scale(job_, scale_);
  if (!arrow_) key.warp();
  if (signs_ == Signs::explained) explain(key);
  for (Item &item : std::move(key).items())
    page_.items.push_back(std::move(item));
  page_.height = key.bottom();
}

void PiecePicture::explain(Key &key) const {
  key.entry("cut edge", 9, {segment({0, 0}, {9, 0}, outline_pen)});
  const auto has = [&](auto of) { return std::any_of(all_sides.begin(), all_sides.end(), of); };
  if (has([this](Side side) { return allowance_[side] > 0; })) {
    Line dashed = segment({0, 0}, {9, 0}, seam_pen);
    dashed.dashed = true;
    key.entry("seam line", 9, {dashed});
  }
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

Page piece_picture(const Job &job, const Plan &plan, PieceId piece, PieceShown shown, PieceRoom room, Signs signs) {
  return PiecePicture(job, plan, piece, shown, room, signs).draw();
}

bool tells_every_mark(const Job &job, const Plan &plan, PieceId piece, PieceShown shown, PieceRoom room) {
  return PiecePicture(job, plan, piece, shown, room, Signs::explained).tells_every_mark();
}

} // namespace gatherwright::paper
