// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/strip/strip_drawing.hpp"

#include "cli/drawing/type.hpp"
#include "cli/strip/flags.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <iterator>
#include <utility>

namespace gatherwright::paper {

namespace {

// From the strip's edge downwards, in millimetres.
constexpr double caption_height = 6.4; ///< of one line
constexpr double caption_base = 4;     ///< of its first line
constexpr double caption_line = 4.8;   ///< from one to the next
constexpr std::size_t most_title_lines = 3;
constexpr double title_size = 3.6;
constexpr double after_size = 3.2;
constexpr double tick = 9.5;
constexpr double bar_top = 10.5;
constexpr double bar_height = 3.4;
constexpr double first_row = 18.6;
constexpr double row_height = 4.7;
constexpr double foot_height = 5;

constexpr double number_size = 3.8;
constexpr double name_size = 3.6;
constexpr double reading_size = 2.7;
constexpr double small = 2.7;
constexpr double widest_name = 70;
constexpr int most_rows = 7;

/// Marks on the part's very ends belong to it.
constexpr double on_the_end = 1e-6;

struct Words {
  std::string number;
  std::string name;
  std::string reading;
};

double width_of(const Words &words) {
  double width = 0.9 + text_width(words.number, number_size, true);
  if (!words.name.empty()) width += 1.2 + text_width(words.name, name_size);
  if (!words.reading.empty()) width += 1.4 + text_width(words.reading, reading_size);
  return width;
}

class Layout {
public:
  Layout(const Strip &strip, const Part &part) : strip_(strip), part_(part), width_(part.to - part.from) { flag(); }

  double height() const { return foot() + foot_height; }
  std::vector<Item> take() && { return std::move(items_); }

  void draw(int number, int count) {
    allowances();
    stretches();
    leaders();
    marks();
    flags();
    match_lines(number);
    identity(number, count);
    items_.push_back({rectangle({0, 0}, width_, height(), 0.35)});
  }

private:
  double x(double along) const { return along - part_.from; }
  double foot() const { return first_row + row_height * (rows_ - 1) + 2; }
  void flag();
  void allowances();
  void allowance(double from, double to, const std::string &called);
  void stretches();
  std::pair<double, double> widest_gap(double from, double to) const; ///< between marks
  void leaders();
  void marks();
  void flags();
  void match_lines(int number);
  void match_line(double at, int joint);
  void identity(int number, int count);
  void paragraph(Text text) { paragraph(std::vector<Item>{{std::move(text)}}); }
  void paragraph(std::vector<Item> texts) { items_.push_back({Group{Role::paragraph, "", std::move(texts)}}); }
  void add(std::vector<Item> items) {
    items_.insert(items_.end(), std::make_move_iterator(items.begin()), std::make_move_iterator(items.end()));
  }

  const Strip &strip_;
  const Part &part_;
  double width_;
  std::vector<const StripMark *> shown_;
  std::vector<Words> words_;
  std::vector<Place> places_;
  int rows_ = 1;
  bool some_unnumbered_ = false;
  std::string unplaced_; ///< names for which there is room at the foot only
  std::vector<Item> items_;
};

void Layout::flag() {
  for (const StripMark &mark : strip_.marks)
    if (mark.at >= part_.from - on_the_end && mark.at <= part_.to + on_the_end) shown_.push_back(&mark);
  bool brief = false;
  for (std::size_t i = 0; i < shown_.size(); ++i) {
    const StripMark &mark = *shown_[i];
    words_.push_back({std::to_string(mark.number), fitted(mark.name, widest_name, name_size), mark.reading});
    // Numbers that go on each time have no one reading.
    if (part_.times > 1) words_.back().reading.clear();
    const double to_next = i + 1 < shown_.size() ? shown_[i + 1]->at - mark.at : width_;
    brief = brief || (!mark.reference && width_of(words_.back()) + 1.2 > to_next);
  }
  std::vector<Flag> wanted;
  for (std::size_t i = 0; i < shown_.size(); ++i) {
    if (brief && !shown_[i]->reference) words_[i].reading.clear();
    wanted.push_back({x(shown_[i]->at), width_of(words_[i]), width_of({words_[i].number, {}, {}})});
  }
  places_ = places(wanted, std::min(width_ - 0.5, x(strip_.length + 0.5)), most_rows);
  for (std::size_t i = 0; i < places_.size(); ++i) {
    const Place &place = places_[i];
    rows_ = std::max(rows_, place.row + 1);
    some_unnumbered_ = some_unnumbered_ || place.row < 0;
    if (!place.brief) continue;
    if (!words_[i].name.empty()) unplaced_ += fmt::format("{} is {}; ", words_[i].number, words_[i].name);
    words_[i] = {words_[i].number, {}, {}};
  }
}

void Layout::allowance(double from, double to, const std::string &called) {
  const auto within = [this](double at) { return std::max(0.0, std::min(at, width_)); };
  const double left = within(x(from));
  const double right = within(x(to));
  if (called.empty() || right - left < 0.2) return;
  Line zone = rectangle({left, 0}, right - left, height(), 0, Tone::pale);
  zone.tone = Tone::none;
  items_.push_back({zone});
  const double room = std::min(height() - 2, text_width(called, small) + 1);
  if (right - left >= small + 0.6 && room > 8)
    paragraph({Text{{(left + right) / 2 + small / 3, height() / 2},
                    fitted(called, room, small),
                    small,
                    false,
                    Anchor::middle,
                    -90}});
}

void Layout::allowances() {
  allowance(-strip_.before, 0, strip_.before_called);
  allowance(strip_.length, strip_.length + strip_.after, strip_.after_called);
}

std::pair<double, double> Layout::widest_gap(double from, double to) const {
  std::pair<double, double> best{from, from};
  double before = from;
  const auto end_at = [&](double at) {
    if (at - before > best.second - best.first + 1e-9) best = {before, at};
    before = at;
  };
  const auto after = [](double at, const StripMark *mark) { return at < mark->at; };
  for (auto mark = std::upper_bound(shown_.begin(), shown_.end(), from, after);
       mark != shown_.end() && (*mark)->at < to; ++mark)
    end_at((*mark)->at);
  end_at(to);
  return best;
}

void Layout::stretches() {
  for (const StripStretch &stretch : strip_.stretches) {
    const double from = std::max(stretch.from, part_.from);
    const double to = std::min(stretch.to, part_.to);
    if (to <= from) continue;
    const auto [clear_from, clear_to] = widest_gap(from, to);
    const double room = clear_to - clear_from - 1.6;
    const double words = text_width(stretch.worked, small) + 1.2;
    if (!stretch.plain) add(fullness_bar({x(from), bar_top}, to - from, bar_height));
    if (words > room) continue;
    const double middle = x((clear_from + clear_to) / 2);
    if (!stretch.plain) {
      Line clear = rectangle({middle - words / 2, bar_top}, words, bar_height, 0, Tone::paper);
      clear.tone = Tone::none;
      items_.push_back({clear});
    }
    paragraph({Text{{middle, bar_top + bar_height - 0.8}, stretch.worked, small, false, Anchor::middle}});
  }
}

void Layout::leaders() {
  for (std::size_t i = 0; i < shown_.size(); ++i) {
    if (places_[i].row < 0) continue;
    const double at = x(shown_[i]->at);
    const double down = first_row + row_height * places_[i].row + 0.6;
    items_.push_back({segment({at, tick}, {at, down}, 0.15, Tone::soft)});
  }
}

void Layout::marks() {
  for (const StripMark *mark : shown_)
    add(mark->reference ? reference_sign({x(mark->at), 0}, {0, 1}, tick) : pin_sign({x(mark->at), 0}, {0, 1}, tick));
}

void Layout::flags() {
  for (std::size_t i = 0; i < shown_.size(); ++i) {
    const Place &place = places_[i];
    if (place.row < 0) continue;
    const Words &words = words_[i];
    const double width = width_of(words);
    const double base = first_row + row_height * place.row;
    double at = x(shown_[i]->at) + (place.to_left ? -width : 0.9);
    if (place.crossed) {
      Line clear = rectangle({at - 0.3, base - 3}, width - 0.3, 3.9, 0, Tone::paper);
      clear.tone = Tone::none;
      items_.push_back({clear});
    }
    std::vector<Item> texts{{Text{{at, base}, words.number, number_size, true}}};
    at += text_width(words.number, number_size, true) + 1.2;
    if (!words.name.empty()) {
      texts.push_back({Text{{at, base}, words.name, name_size}});
      at += text_width(words.name, name_size) + 1.2;
    }
    if (!words.reading.empty())
      texts.push_back({Text{{at + 0.2, base}, words.reading, reading_size, false, Anchor::start, 0, Tone::soft}});
    paragraph(std::move(texts));
  }
}

void Layout::match_line(double at, int joint) {
  // Words lie between its two ends.
  for (const auto &[from, to] : {std::pair(0.0, bar_top + bar_height), std::pair(foot(), height())}) {
    Line line = segment({at, from}, {at, to}, 0.3);
    line.dashed = true;
    items_.push_back({line});
  }
  add(lozenge({at, height() - foot_height / 2}, joint_called(joint)));
}

void Layout::match_lines(int number) {
  if (part_.joins_before) match_line(overlap / 2, number - 1);
  if (part_.joins_after) match_line(width_ - overlap / 2, number);
}

void Layout::identity(int number, int count) {
  const double left = (part_.joins_before                             ? overlap
                       : strip_.before > part_.from && part_.from < 0 ? -part_.from
                                                                      : 0) +
                      1;
  const double right = width_ - (part_.joins_after ? overlap : 1);
  const bool starts = part_.from <= 0;
  std::string says = count > 1 ? fmt::format("{}; part {} of {}", strip_.brief, number, count) : strip_.brief;
  double at = left;
  const double base = height() - 1.7;
  if (starts) {
    constexpr std::string_view start = "starts here";
    items_.push_back({Line{.points = {{at + 4, base - 2.6}, {at + 4, base + 0.4}, {at, base - 1.1}},
                           .closed = true,
                           .pen = 0,
                           .fill = Tone::ink}});
    at += 5;
    if (at + text_width(start, small, true) < right) paragraph({Text{{at, base}, std::string(start), small, true}});
    at += text_width(start, small, true) + 3;
  }
  if (part_.times > 1) says = fmt::format("repeat {} times; {}", part_.times, says);
  says.insert(0, unplaced_);
  if (some_unnumbered_) says += "; marks too close for a number are counted on from the last";
  if (right - at > 12) paragraph({Text{{at, base}, fitted(says, right - at, small), small}});
}

std::string caption(const Part &part, int number, int count) {
  std::string text;
  if (count > 1) text = fmt::format("; part {} of {}", number, count);
  if (part.times > 1) {
    const bool several = part.group_parts > 1;
    text += fmt::format("; repeat {}{} times, {} mark on the last; numbers go on by {} each time",
                        several ? fmt::format("these {} parts in turn ", part.group_parts) : std::string(), part.times,
                        several ? "their first" : "the first", part.marks_on);
  }
  if (part.joins_before) text += "; lay line " + joint_called(number - 1) + " on the one before";
  return text;
}

} // namespace

std::string joint_called(int joint) {
  std::string name;
  for (int left = joint; left > 0; left = (left - 1) / 26)
    name.insert(name.begin(), static_cast<char>('A' + (left - 1) % 26));
  return name;
}

std::vector<Item> lozenge(Point middle, const std::string &letter) {
  constexpr double half = 3.2;
  return {{Line{.points = {{middle.x, middle.y - half},
                           {middle.x + half, middle.y},
                           {middle.x, middle.y + half},
                           {middle.x - half, middle.y}},
                .closed = true,
                .pen = 0.3,
                .fill = Tone::paper}},
          {Text{{middle.x, middle.y + 1}, letter, 2.8, true, Anchor::middle}}};
}

std::vector<Item> reference_sign(Point foot, Point inwards, double reach) {
  const Point end{foot.x + reach * inwards.x, foot.y + reach * inwards.y};
  constexpr double half = 1.5;
  constexpr double depth = 3.2;
  const Point base{foot.x + depth * inwards.x, foot.y + depth * inwards.y};
  return {{segment(foot, end, 0.6)},
          {Line{.points = {foot,
                           {base.x - half * inwards.y, base.y + half * inwards.x},
                           {base.x + half * inwards.y, base.y - half * inwards.x}},
                .closed = true,
                .pen = 0,
                .fill = Tone::ink}}};
}

std::vector<Item> pin_sign(Point foot, Point inwards, double reach) {
  constexpr double radius = 1.1;
  const double middle = reach - radius;
  const double meets = middle - radius;
  return {{segment(foot, {foot.x + meets * inwards.x, foot.y + meets * inwards.y}, 0.25)},
          {circle({foot.x + middle * inwards.x, foot.y + middle * inwards.y}, radius, 0.25)}};
}

std::vector<Item> fullness_bar(Point corner, double width, double height) {
  const Line outline = rectangle(corner, width, height, 0.15);
  std::vector<Item> items;
  for (Line &stroke : hatching(outline.points, 1.2, 0.18))
    items.push_back({std::move(stroke)});
  items.push_back({segment(corner, {corner.x + width, corner.y}, 0.18)});
  items.push_back({segment({corner.x, corner.y + height}, {corner.x + width, corner.y + height}, 0.18)});
  return items;
}

Caption caption_of(const std::string &title, const std::string &after, double width) {
  std::vector<std::string> titles = broken(title, width, title_size, true);
  if (titles.size() > most_title_lines) {
    titles.resize(most_title_lines);
    titles.back() = fitted(titles.back() + "……", width, title_size, true);
  }
  Caption caption{{Role::paragraph, "", {}}, caption_height};
  double base = caption_base;
  const auto add = [&](double left, std::string says, double size, bool bold) {
    caption.words.items.push_back({Text{{left, base}, std::move(says), size, bold}});
  };
  // A space, which is not seen, for whoever copies it or has it read out.
  const auto next_line = [&] {
    std::get<Text>(caption.words.items.back().is).says += ' ';
    base += caption_line;
    caption.height += caption_line;
  };
  for (std::size_t i = 0; i < titles.size(); ++i) {
    if (i > 0) next_line();
    add(0, titles[i], title_size, true);
  }
  if (after.empty()) return caption;
  const double beside = text_width(titles.back(), title_size, true) + 0.6;
  if (beside + text_width(after, after_size) <= width) {
    add(beside, after, after_size, false);
    return caption;
  }
  for (const std::string &line : broken(after.substr(after.starts_with("; ") ? 2 : 0), width, after_size)) {
    next_line();
    add(0, line, after_size, false);
  }
  return caption;
}

PartDrawing part_drawing(const Strip &strip, const Part &part, int number, int count, double page_width) {
  Layout layout(strip, part);
  layout.draw(number, count);
  const std::string after = caption(part, number, count);
  Caption above = caption_of(strip.title, after, page_width);
  PartDrawing drawing{{Role::section, strip.title + after, {}}, above.height + layout.height()};
  drawing.group.items.push_back({std::move(above.words)});
  std::vector<Item> items = std::move(layout).take();
  move_by(items, {0, above.height});
  drawing.group.items.insert(drawing.group.items.end(), std::make_move_iterator(items.begin()),
                             std::make_move_iterator(items.end()));
  return drawing;
}

} // namespace gatherwright::paper
