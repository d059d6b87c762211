// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/picture/layout_picture.hpp"

#include "cli/drawing/type.hpp"
#include "cli/picture/box_label.hpp"
#include "cli/picture/fold.hpp"
#include "cli/picture/key.hpp"
#include "cli/picture/label_places.hpp"
#include "cli/report/pieces_words.hpp"
#include "cli/words/cut_parts.hpp"
#include "cli/words/figures.hpp"
#include "cli/words/listed.hpp"
#include "cli/words/names.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <tuple>
#include <utility>

namespace gatherwright::paper {

namespace {

using words::LaidCloth;
using words::LayPart;

constexpr double figure_size = 2.5; ///< of places beside the cloth and of cuts' numbers
constexpr double figure_high = 3.1; ///< from one place to the next
constexpr double least_cut_margin = 7;
constexpr double box_air = 0.6;   ///< beside a number in its box
constexpr double above_cloth = 5; ///< the cloth in a column
constexpr double below_cloth = 2;
constexpr double thinnest_selvedge = 1.2;
constexpr double piece_pen = 0.45;
constexpr double cut_pen = 0.2;
constexpr std::size_t most_explained = 40;

/// A, B, ... Z, AA and so on, from 0.
std::string lettered(std::size_t number) {
  std::string text;
  for (std::size_t left = number + 1; left > 0; left = (left - 1) / 26)
    text.insert(text.begin(), static_cast<char>('A' + (left - 1) % 26));
  return text;
}

/// What a letter stands for: pieces that are named and measure alike.
struct Sign {
  int piece = 0;
  bool turned = false;

  friend auto operator<=>(const Sign &, const Sign &) = default;
};

Sign sign_of(const Placement &placed) {
  return {placed.piece.at, placed.turned};
}

/// A column on a page: what of the cloth it shows, and where.
struct Column {
  Stretch shows;
  double left = 0; ///< of the usable width
  double top = 0;
};

/// Where pieces end, and how many others lie across there.
std::vector<Break> breaks_of(const words::CutParts &parts, double length) {
  std::vector<double> begin;
  std::vector<double> end;
  for (const LayPart &part : parts.parts) {
    if (!part.placement) continue;
    begin.push_back(part.along);
    end.push_back(part.along + part.length);
  }
  std::sort(begin.begin(), begin.end());
  std::sort(end.begin(), end.end());
  const double rounding = 1e-9 * length;
  std::vector<Break> breaks;
  for (const double at : end) {
    if (!breaks.empty() && at - breaks.back().at <= rounding) continue;
    const auto begun = std::lower_bound(begin.begin(), begin.end(), at - rounding) - begin.begin();
    const auto ended = std::upper_bound(end.begin(), end.end(), at + rounding) - end.begin();
    breaks.push_back({at, static_cast<std::size_t>(std::max<std::ptrdiff_t>(begun - ended, 0))});
  }
  return breaks;
}

class LayoutPicture {
public:
  LayoutPicture(const LaidCloth &laid, double width, double highest)
      : laid_(laid), tape_(laid.job.tape()), parts_(words::cut_parts(laid.cloth)), width_(width), highest_(highest) {
    if (!parts_.steps.empty() && parts_.steps.front().run == Cut::Run::across) whole_ = parts_.steps.front().cuts;
    is_whole_.resize(cloth().cuts.size());
    places_wide_ = text_width(words::place(cloth().length, tape_), figure_size);
    for (const std::size_t cut : whole_) {
      is_whole_[cut] = true;
      places_wide_ = std::max(places_wide_, text_width(words::place(cloth().cuts[cut].at, tape_), figure_size));
      const double number = text_width(std::to_string(cut + 1), figure_size) + 2 * box_air;
      cut_margin_ = std::max(cut_margin_, 2 + number);
    }
    breaks_ = breaks_of(parts_, cloth().length);
  }

  std::vector<Page> draw();
  double scale() const { return scale_; }

private:
  const ClothPlan &cloth() const { return laid_.cloth; }

  template <class Drawn> void add(Drawn drawn) { items_.push_back({std::move(drawn)}); }
  void add_all(std::vector<Item> items) {
    for (Item &item : items)
      items_.push_back(std::move(item));
  }

  void fold(double for_key);
  std::vector<Page> pages();
  Page page(const std::vector<Stretch> &stretches, std::size_t number);
  void column(const Column &column);
  void squares(const Column &column);
  void edges(const Column &column);
  void ends(const Column &column);
  void parts(const Column &column);
  void piece(const LayPart &part, const Box &box);
  void cuts(const Column &column);
  void whole_cuts(const Column &column);
  void cut(std::size_t number, Point from, Point to);
  void letters();
  void numbers();
  bool number(std::size_t cut, Point middle);
  double key(double top);
  std::string says(std::size_t number) const;
  std::vector<std::vector<std::string>> wordings(const Placement &placed) const;
  std::string letter_of(const Placement &placed) const;
  std::string explained_as(const Sign &sign) const;
  std::optional<Box> on_page(const Column &column, const LayPart &part) const;
  double y(const Column &column, double along) const { return column.top + (along - column.shows.from) * scale_; }
  double selvedge() const { return selvedge_ > 0 ? std::max(selvedge_ * scale_, thinnest_selvedge) : 0; }

  const LaidCloth &laid_;
  Tape tape_;
  words::CutParts parts_;
  double width_;
  double highest_;
  std::vector<std::size_t> whole_; ///< cuts across the whole width
  std::vector<bool> is_whole_;     ///< of the cloth's cuts
  std::vector<Break> breaks_;
  double places_wide_ = 0;
  double cut_margin_ = least_cut_margin; ///< for the numbers of cuts across the whole width
  double selvedge_ = laid_.cloth.cloth.selvedge.mm;
  Folded folded_;
  double scale_ = 1;
  double square_ = 0;

  // Of the page at hand.
  std::vector<Item> items_;
  std::optional<Taken> taken_;
  std::map<Sign, std::optional<std::size_t>> sign_at_; ///< which letter; nothing where none has room for one
  struct Lettered {
    const Placement *placed;
    Box box;
  };
  std::vector<Lettered> to_letter_;
  struct Numbered {
    std::size_t cut;
    Point from;
    Point to;
  };
  std::vector<Numbered> to_number_;
  std::set<int> lettered_wearers_; ///< whose pieces have a letter
  bool scraps_ = false;
  bool numbers_left_out_ = false;
  bool names_left_out_ = false;
};

void LayoutPicture::fold(double for_key) {
  const double beside = cut_margin_ + places_wide_ + 2.5 + (selvedge_ > 0 ? 2 * thinnest_selvedge : 0);
  const double high = std::max(highest_ - above_cloth - below_cloth - for_key, 30.0);
  folded_ = folded(cloth().usable + 2 * selvedge_, cloth().length, breaks_, {width_, high, beside});
  scale_ = folded_.scale;
  square_ = round_length(9 / scale_, is_imperial(tape_.unit));
}

/// Folded again with more room for what is explained below the cloth, until each page is no higher than it may be.
std::vector<Page> LayoutPicture::draw() {
  double for_key = 14;
  constexpr int most_tries = 5;
  std::vector<Page> drawn;
  for (int tries = 0; tries < most_tries; ++tries) {
    fold(for_key);
    drawn = pages();
    double over = 0;
    for (const Page &page : drawn)
      over = std::max(over, page.height - highest_);
    if (over <= 0) break;
    for_key += over + 0.1;
  }
  return drawn;
}

std::vector<Page> LayoutPicture::pages() {
  std::vector<Page> drawn;
  for (std::size_t i = 0; i < folded_.pages.size(); ++i)
    drawn.push_back(page(folded_.pages[i], i));
  return drawn;
}

Page LayoutPicture::page(const std::vector<Stretch> &stretches, std::size_t number) {
  items_.clear();
  sign_at_.clear();
  to_letter_.clear();
  to_number_.clear();
  lettered_wearers_.clear();
  scraps_ = numbers_left_out_ = names_left_out_ = false;
  taken_.emplace(width_, highest_);
  const double wide = cut_margin_ + 2 * selvedge() + cloth().usable * scale_ + places_wide_ + 2.5;
  const double columns = static_cast<double>(stretches.size());
  const double all_wide = columns * wide + (columns - 1) * between_columns;
  double left = folded_.pages.size() == 1 ? std::max(0.0, (width_ - all_wide) / 2) : 0;
  double bottom = 0;
  for (const Stretch &stretch : stretches) {
    const Column shown{stretch, left + cut_margin_ + selvedge(), above_cloth};
    column(shown);
    bottom = std::max(bottom, y(shown, stretch.to));
    left += wide + between_columns;
  }
  letters();
  numbers();
  Page page{.width = width_, .height = 0, .label = says(number), .items = {}};
  page.height = key(bottom + below_cloth);
  page.items = std::move(items_);
  return page;
}

void LayoutPicture::column(const Column &column) {
  squares(column);
  edges(column);
  parts(column);
  cuts(column);
  ends(column);
  whole_cuts(column);
}

/// The lines of squared paper, from the cut end and the first selvedge.
void LayoutPicture::squares(const Column &column) {
  const double right = column.left + cloth().usable * scale_;
  for (double at = square_; at < cloth().usable; at += square_) {
    const double x = column.left + at * scale_;
    add(segment({x, column.top}, {x, y(column, column.shows.to)}, 0.15, Tone::pale));
  }
  for (double at = std::ceil(column.shows.from / square_) * square_; at < column.shows.to; at += square_)
    add(segment({column.left, y(column, at)}, {right, y(column, at)}, 0.15, Tone::pale));
}

void LayoutPicture::edges(const Column &column) {
  const double bottom = y(column, column.shows.to);
  const double right = column.left + cloth().usable * scale_;
  for (const auto &[usable, edge] :
       {std::pair(column.left, column.left - selvedge()), std::pair(right, right + selvedge())}) {
    if (selvedge_ > 0)
      add(Line{.points = {{usable, column.top}, {edge, column.top}, {edge, bottom}, {usable, bottom}},
               .closed = true,
               .pen = 0,
               .fill = Tone::pale});
    add(segment({edge, column.top}, {edge, bottom}, 0.6));
    if (selvedge_ > 0) add(segment({usable, column.top}, {usable, bottom}, piece_pen));
  }
}

/// Solid where the cloth is cut already, dashed where it goes on.
void LayoutPicture::ends(const Column &column) {
  const double right = column.left + cloth().usable * scale_;
  const auto edge = [&](double along, bool dashed) {
    Line line = segment({column.left - selvedge(), y(column, along)}, {right + selvedge(), y(column, along)}, 0.6);
    line.dashed = dashed;
    add(std::move(line));
  };
  const bool first = column.shows.from <= 0;
  edge(column.shows.from, !first);
  edge(column.shows.to, true);
  const std::string says =
      first ? "cut end" : fmt::format("on from {}", words::nearest_length(column.shows.from, tape_));
  add(Text{.at = {column.left, column.top - 1.5}, .says = says, .size = 2.9, .bold = true});
  const std::string wide = words::length(cloth().usable, tape_);
  const double told = text_width(says, 2.9, true);
  if (told + text_width(wide, figure_size) + 2 < cloth().usable * scale_)
    add(Text{.at = {right, column.top - 1.5}, .says = wide, .size = figure_size, .anchor = Anchor::end});
}

/// A part as far as the column shows it.
std::optional<Box> LayoutPicture::on_page(const Column &column, const LayPart &part) const {
  const double from = std::max(part.along, column.shows.from);
  const double to = std::min(part.along + part.length, column.shows.to);
  if (to - from <= 1e-9 * cloth().length) return std::nullopt;
  return Box{column.left + part.across * scale_, y(column, from), column.left + (part.across + part.width) * scale_,
             y(column, to)};
}

void LayoutPicture::parts(const Column &column) {
  for (const LayPart &part : parts_.parts) {
    if (part.step) continue;
    const std::optional<Box> box = on_page(column, part);
    if (!box) continue;
    if (part.placement) {
      piece(part, *box);
      continue;
    }
    scraps_ = true;
    const std::vector<Point> corners{
        {box->left, box->top}, {box->right, box->top}, {box->right, box->bottom}, {box->left, box->bottom}};
    for (Line &stroke : hatching(corners, 2, 0.18))
      add(std::move(stroke));
  }
}

void LayoutPicture::piece(const LayPart &part, const Box &box) {
  const double wide = box.right - box.left;
  const double high = box.bottom - box.top;
  add(rectangle({box.left, box.top}, wide, high, std::min(piece_pen, std::min(wide, high) / 4)));
  const Placement &placed = cloth().lay[*part.placement];
  const std::optional<BoxLabel> label = label_within(wordings(placed), wide, high);
  if (!label) {
    to_letter_.push_back({&placed, box});
    return;
  }
  const Point middle{(box.left + box.right) / 2, (box.top + box.bottom) / 2};
  taken_->take(extent_of(*label, middle));
  add_all(drawn_label(*label, middle));
}

/// What is written in a piece, the fullest first.
std::vector<std::vector<std::string>> LayoutPicture::wordings(const Placement &placed) const {
  std::string name = words::piece_called(laid_, placed);
  const std::string size = words::cut_size(laid_, placed) + (placed.turned ? " turned" : "");
  const std::string numbered = laid_.job[placed.piece].cut > 1 ? fmt::format("{} {}", name, placed.copy) : name;
  std::vector<std::vector<std::string>> all;
  const auto with = [&](std::vector<std::string> lines) {
    if (!laid_.wearers.empty()) lines.push_back(words::printable(laid_.wearers[placed.wearer]));
    lines.push_back(size);
    all.push_back(std::move(lines));
  };
  with({numbered});
  // Over several lines, each about as long as the others, where it has the words for that.
  const double whole = text_width(numbered, 1, true);
  constexpr double uneven = 1.25;
  for (const double count : {2.0, 3.0, 4.0}) {
    std::vector<std::string> lines = broken(numbered, uneven * whole / count, 1, true);
    if (lines.size() > 1 && fmt::format("{}", fmt::join(lines, " ")) == numbered) with(std::move(lines));
  }
  if (laid_.wearers.empty()) all.push_back({fmt::format("{}, {}", numbered, size)});
  return all;
}

std::string LayoutPicture::letter_of(const Placement &placed) const {
  std::string letter = lettered(*sign_at_.at(sign_of(placed)));
  if (!laid_.wearers.empty()) letter += std::to_string(placed.wearer + 1);
  return letter;
}

/// Letters in the pieces that have no room for more, in the job's order.
void LayoutPicture::letters() {
  const auto fits = [this](const std::string &letter, const Box &box) {
    constexpr double nearer = 0.4; // than words stand to the lines round them
    return label_within({{letter}}, box.right - box.left + nearer, box.bottom - box.top + nearer);
  };
  for (const auto &[placed, box] : to_letter_) {
    std::optional<std::size_t> &at = sign_at_[sign_of(*placed)];
    if (fits("M", box)) at = 0;
  }
  std::size_t next = 0;
  for (auto &[sign, at] : sign_at_)
    if (at) at = next++;
  for (const auto &[placed, box] : to_letter_) {
    const auto label = sign_at_.at(sign_of(*placed)) ? fits(letter_of(*placed), box) : std::nullopt;
    if (!label) {
      names_left_out_ = true;
      continue;
    }
    if (!laid_.wearers.empty()) lettered_wearers_.insert(placed->wearer);
    const Point middle{(box.left + box.right) / 2, (box.top + box.bottom) / 2};
    taken_->take(extent_of(*label, middle));
    add_all(drawn_label(*label, middle));
  }
}

void LayoutPicture::cuts(const Column &column) {
  for (std::size_t number = 0; number < cloth().cuts.size(); ++number) {
    const Cut &is = cloth().cuts[number];
    if (is.run == Cut::Run::across) {
      if (is.at > column.shows.from && is.at < column.shows.to)
        cut(number, {column.left + is.from * scale_, y(column, is.at)},
            {column.left + is.to * scale_, y(column, is.at)});
      continue;
    }
    const double from = std::max(is.from, column.shows.from);
    const double to = std::min(is.to, column.shows.to);
    const double x = column.left + is.at * scale_;
    if (from < to) cut(number, {x, y(column, from)}, {x, y(column, to)});
  }
}

/// Numbers of those across the whole width stand beside the cloth.
void LayoutPicture::cut(std::size_t number, Point from, Point to) {
  add(segment(from, to, cut_pen));
  if (!is_whole_[number]) to_number_.push_back({number, from, to});
}

/// A number in a box of its own, where it is clear of all else. Wider than a cut is long it is left out.
bool LayoutPicture::number(std::size_t cut, Point middle) {
  const std::string says = std::to_string(cut + 1);
  const double wide = text_width(says, figure_size) / 2 + box_air;
  const double high = figure_size / 2 + 0.3;
  const Box box{middle.x - wide, middle.y - high, middle.x + wide, middle.y + high};
  if (!taken_->leaves(box)) return false;
  taken_->take(box);
  Line frame = rectangle({box.left, box.top}, 2 * wide, 2 * high, cut_pen, Tone::paper);
  add(std::move(frame));
  add(Text{
      .at = {middle.x, middle.y + 0.36 * figure_size}, .says = says, .size = figure_size, .anchor = Anchor::middle});
  return true;
}

/// On the line, as near its middle as there is room.
void LayoutPicture::numbers() {
  for (const auto &[cut, from, to] : to_number_) {
    const double length = std::hypot(to.x - from.x, to.y - from.y);
    const bool upright = from.x == to.x;
    const double needs = upright ? figure_size + 0.6 : text_width(std::to_string(cut + 1), figure_size) + 1.2;
    bool placed = false;
    if (length >= needs + 1)
      for (const double share : {0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.12, 0.88, 0.06, 0.94}) {
        const double nearest = (needs + 0.6) / 2 / length;
        const double at = std::clamp(share, nearest, 1 - nearest);
        placed = number(cut, {from.x + at * (to.x - from.x), from.y + at * (to.y - from.y)});
        if (placed) break;
      }
    if (!placed) numbers_left_out_ = true;
  }
}

/// Beside the cloth on the left the numbers of the cuts across all of it, on the right how far they are from the cut
/// end.
void LayoutPicture::whole_cuts(const Column &column) {
  std::vector<std::size_t> shown;
  std::vector<LabelPlace> wanted;
  const double lowest = column.top;
  const double highest = y(column, column.shows.to);
  const bool last = column.shows.to >= cloth().length;
  const double rounding = 1e-9 * cloth().length;
  for (const std::size_t cut : whole_) {
    const double at = cloth().cuts[cut].at;
    if (at <= column.shows.from + rounding || at > column.shows.to + rounding) continue;
    shown.push_back(cut);
    wanted.push_back({y(column, at), highest});
  }
  const double room = (highest - lowest) / (figure_high + 0.4);
  if (static_cast<double>(shown.size()) > room) {
    numbers_left_out_ = true;
    return;
  }
  const std::vector<double> numbered = spread_labels(wanted, figure_high + 0.3, lowest);
  for (std::size_t i = 0; i < shown.size(); ++i) {
    const double edge = column.left - selvedge();
    add(segment({edge, wanted[i].wanted}, {edge - 2, numbered[i]}, cut_pen));
    number(shown[i], {edge - 2 - (cut_margin_ - 2) / 2, numbered[i]});
  }
  if (last) wanted.push_back({highest, highest});
  const std::vector<double> placed = spread_labels(wanted, figure_high, lowest);
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    const double edge = column.left + cloth().usable * scale_ + selvedge();
    const double along = i < shown.size() ? cloth().cuts[shown[i]].at : cloth().length;
    add(segment({edge, wanted[i].wanted}, {edge + 1.2, placed[i]}, cut_pen));
    add(Text{.at = {edge + 1.8, placed[i] + 0.36 * figure_size},
             .says = words::place(along, tape_),
             .size = figure_size,
             .bold = i == shown.size()});
  }
}

/// "strap 10 x 22"; of many wearers' without a size, which is not the same for all.
std::string LayoutPicture::explained_as(const Sign &sign) const {
  const Placement placed{.piece = PieceId(sign.piece), .turned = sign.turned};
  std::string says = words::piece_called(laid_, placed);
  if (laid_.wearers.empty()) says += " " + words::cut_size(laid_, placed);
  return sign.turned ? says + " turned" : says;
}

/// The scale, what signs mean and what letters stand for. Where it ends.
double LayoutPicture::key(double top) {
  Key key(width_, top);
  key.scale(laid_.job, scale_);
  key.entry(fmt::format("a square is {}", words::fine_length(square_, tape_)), 3.4,
            {rectangle({0, -1.7}, 3.4, 3.4, 0.15)});
  key.warp();
  if (selvedge_ > 0)
    key.entry(fmt::format("selvedge, {}", words::fine_length(selvedge_, tape_)), 3.4,
              {rectangle({0, -1.7}, 3.4, 3.4, 0.3, Tone::pale)});
  if (scraps_) {
    std::vector<Line> hatched = hatching({{0, -1.7}, {5, -1.7}, {5, 1.7}, {0, 1.7}}, 1.4, 0.18);
    hatched.push_back(rectangle({0, -1.7}, 5, 3.4, 0.2));
    key.entry("left over", 5, std::move(hatched));
  }
  if (!cloth().cuts.empty()) key.boxed("1", "cuts, in their order");
  key.entry(fmt::format("sizes{}, across x along", read_in(tape_.unit)), -1.5, {});
  std::size_t explained = 0;
  std::vector<std::string> without;
  for (const auto &[sign, at] : sign_at_) {
    if (!at) {
      without.push_back(explained_as(sign));
    } else if (++explained <= most_explained) {
      key.stands_for(lettered(*at), explained_as(sign));
    }
  }
  std::size_t named = 0;
  for (const int wearer : lettered_wearers_)
    if (++named <= most_explained) key.stands_for(std::to_string(wearer + 1), words::printable(laid_.wearers[wearer]));
  if (named > most_explained) key.entry(fmt::format("and {} more wearers", named - most_explained), -1.5, {});
  if (explained > most_explained) key.entry(fmt::format("and {} more", explained - most_explained), -1.5, {});
  constexpr std::size_t most_without = 4;
  if (!without.empty() && without.size() <= most_without)
    key.entry("too small to be named: " + fmt::format("{}", fmt::join(without, ", ")), -1.5, {});
  else if (!without.empty() || names_left_out_)
    key.entry("the smallest pieces are not named", -1.5, {});
  if (numbers_left_out_) key.entry("cuts too short for a number have none", -1.5, {});
  add_all(std::move(key).items());
  return key.bottom();
}

/// "Picture: how 2 bodies and 2 sleeves lie on washed linen, ..."
std::string LayoutPicture::says(std::size_t number) const {
  std::map<int, std::size_t> counted;
  for (const Placement &placed : cloth().lay)
    ++counted[placed.piece.at];
  std::vector<std::string> pieces;
  constexpr std::size_t most_told = 20;
  for (const auto &[piece, count] : counted) {
    if (pieces.size() == most_told) {
      pieces.push_back(fmt::format("{} more pieces by name", counted.size() - most_told));
      break;
    }
    pieces.push_back(words::so_many(count, words::where(laid_.job, PieceId(piece))));
  }
  std::string text =
      fmt::format("Picture: how {} lie on {}, on {} of it, {} wide, with {} cuts numbered in their order",
                  words::listed(pieces), report::cloth_called_short(cloth().cloth),
                  words::length(cloth().length, tape_), words::length(cloth().usable, tape_), cloth().cuts.size());
  if (folded_.pages.size() > 1) {
    const std::vector<Stretch> &shown = folded_.pages[number];
    text +=
        fmt::format("; {} of {}, from {} to {}", number + 1, folded_.pages.size(),
                    words::nearest_length(shown.front().from, tape_), words::nearest_length(shown.back().to, tape_));
  }
  return text + ".";
}

} // namespace

std::vector<Page> layout_pictures(const LaidCloth &laid, double width, double highest) {
  return LayoutPicture(laid, width, highest).draw();
}

DrawnLayout drawn_layout(const LaidCloth &laid, double width, double highest) {
  LayoutPicture picture(laid, width, highest);
  std::vector<Page> pages = picture.draw();
  return {std::move(pages), picture.scale()};
}

} // namespace gatherwright::paper
