// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/picture/join_picture.hpp"

#include "cli/drawing/type.hpp"
#include "cli/picture/label_places.hpp"
#include "cli/picture/sizes.hpp"
#include "cli/picture/stretch_pattern.hpp"
#include "cli/report/join_words.hpp"
#include "cli/words/figures.hpp"
#include "cli/words/names.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <numbers>

namespace gatherwright::paper {

namespace {

constexpr double slant = 45;          ///< degrees by which names rise
constexpr double names_apart = 4.7;   ///< along the edge, so that slanted lines of text stand clear
constexpr double names_end = 1.5;     ///< from the last letter of a name to the right end of the page
constexpr double numbers_apart = 5.2; ///< room of a number of two figures and a little air
constexpr double cloth_high = 7;
constexpr double band_high = 5;
constexpr double number_row = 4.2;
constexpr double leader_row = 4;
constexpr double closest_lines = 1.1; ///< pins nearer than this on either edge are left to the table

/// Where the edges lie on the page.
struct Frame {
  double left = 0;      ///< of the long edge
  double band_left = 0; ///< of the band
  double scale = 1;     ///< page to cloth
  double cloth_top = 0;
  double seam = 0;      ///< of the long edge
  double band_seam = 0; ///< of the band
  double band_bottom = 0;

  double on_long(double mm) const { return left + mm * scale; }
  double on_band(double mm) const { return band_left + mm * scale; }
};

struct MarkLabel {
  std::string says;
  double width = 0; ///< of the text
};

/// "5 gathers end"
MarkLabel label_of(const Join &asked, const Mark &mark, std::size_t n, double longest) {
  const std::string says = fitted(fmt::format("{} {}", n, words::mark_called(asked, mark)), longest, label_size, true);
  return {says, text_width(says, label_size, true)};
}

double slanted(double length) {
  return length * std::numbers::sqrt2 / 2;
}

std::vector<std::size_t> reference_marks(const std::vector<Mark> &marks) {
  std::vector<std::size_t> found;
  for (std::size_t n = 0; n < marks.size(); ++n)
    if (marks[n].reference) found.push_back(n);
  return found;
}

class JoinPicture {
public:
  JoinPicture(const Job &job, const Join &asked, const JoinPlan &planned, double width, MarksCalled called)
      : job_(job), asked_(asked), planned_(planned), named_(reference_marks(planned.marks)) {
    page_.width = width;
    lay_out(called);
  }

  Page draw();

private:
  template <class Drawn> void add(Drawn drawn) { page_.items.push_back({std::move(drawn)}); }
  void add_all(std::vector<Item> items) {
    for (Item &item : items)
      page_.items.push_back(std::move(item));
  }
  /// What `draw` adds, as what shows a stretch or a mark.
  void add_part(PartShown shown, const std::function<void()> &draw) {
    const std::size_t first = page_.items.size();
    draw();
    as_part(page_.items, first, shown);
  }
  void add_mark(std::size_t mark, const std::function<void()> &draw) { add_part({PartShown::Of::marks, mark}, draw); }

  void lay_out(MarksCalled called);
  double heading(std::string_view what, const Edge &edge, double mm, double base);
  void stretches();
  void matching_lines();
  void names();
  void pin_numbers();
  void ring_end();
  void band_numbers();
  /// A sign and what it means.
  struct KeyEntry {
    std::string says;
    double drawn; ///< width of the sign
    std::function<void(double left, double base)> draw;
  };
  std::vector<KeyEntry> key_entries();
  void key(double words_end, double words_base);
  std::size_t numbered_every(double length) const;
  std::string says() const;

  const Job &job_;
  const Join &asked_;
  const JoinPlan &planned_;
  Page page_;
  Frame frame_;
  std::vector<std::size_t> named_; ///< marks with a name
  std::vector<MarkLabel> labels_;  ///< of the named marks, where they have room
  double names_base_ = 0;
};

/// Sizes from the top down. Names that rise beyond the right end take up to an eighth of the width there; a name is as
/// long as there is room on its own way up, and one at the right end, which moves to the left, as long as does not move
/// it far.
void JoinPicture::lay_out(MarksCalled called) {
  const double width = page_.width;
  constexpr double side = 2.5;
  const bool room_for_names =
      called == MarksCalled::by_name && static_cast<double>(named_.size()) * names_apart < width - 2 * side;
  const double whole = std::max(planned_.long_length, planned_.band);
  const double longest = std::min(50.0, width * 0.48);
  const double longest_moved = std::min(34.0, width * 0.36);
  if (room_for_names)
    for (const std::size_t n : named_) {
      // Where it would stand without the names beyond the right end; with them, farther to the left.
      const double along = planned_.marks[n].long_edge.exact + (whole - planned_.long_length) / 2;
      const double to_right = width - names_end - side - along / whole * (width - 2 * side);
      const double room = std::clamp(to_right * std::numbers::sqrt2, longest_moved, longest);
      labels_.push_back(label_of(asked_, planned_.marks[n], n, room));
    }
  double beyond = 0;
  double highest = 0;
  for (std::size_t i = 0; i < labels_.size(); ++i) {
    const double along = planned_.marks[named_[i]].long_edge.exact / whole * (width - 2 * side);
    beyond = std::max(beyond, along + slanted(labels_[i].width) - (width - 2 * side));
    highest = std::max(highest, slanted(labels_[i].width + label_size));
  }
  const double right = side + std::min(beyond, width / 8);
  frame_.scale = (width - side - right) / whole;
  frame_.left = side + (whole - planned_.long_length) * frame_.scale / 2;
  frame_.band_left = side + (whole - planned_.band) * frame_.scale / 2;
  names_base_ = 6 + highest;
  frame_.cloth_top = names_base_ + (labels_.empty() ? 0 : leader_row) + number_row;
  frame_.seam = frame_.cloth_top + cloth_high;
  frame_.band_seam = frame_.seam + std::clamp(width / 7, 13.0, 26.0);
  frame_.band_bottom = frame_.band_seam + band_high;
}

/// Where its words end.
double JoinPicture::heading(std::string_view what, const Edge &edge, double mm, double base) {
  const std::string text =
      fitted(fmt::format("{}: {}", what, report::edge_said(job_, edge, mm)), page_.width, heading_size, true);
  add(Text{.at = {0, base}, .says = text, .size = heading_size, .bold = true});
  return text_width(text, heading_size, true);
}

/// Cloth, band and what lies between them, stretch by stretch.
void JoinPicture::stretches() {
  for (std::size_t i = 0; i < planned_.segments.size(); ++i) {
    const SegmentPlan &segment = planned_.segments[i];
    const Kind kind = asked_.segments.at(i).kind;
    const ClothStrip strip{frame_.on_long(segment.long_from), frame_.on_long(segment.long_to), frame_.cloth_top,
                           frame_.seam};
    const std::vector<Point> between{{strip.left, frame_.seam},
                                     {strip.right, frame_.seam},
                                     {frame_.on_band(segment.to), frame_.band_seam},
                                     {frame_.on_band(segment.from), frame_.band_seam}};
    add_part({PartShown::Of::stretches, i}, [&] {
      if (takes_fullness(kind)) add(Line{.points = between, .closed = true, .pen = 0, .fill = Tone::pale});
      if (segment.verdict != Verdict::within_limits)
        for (Line &stroke : hatching(between, 2.2, 0.2, Tone::alarm))
          add(std::move(stroke));
      add_all(stretch_pattern(kind, strip));
    });
  }
  const double long_width = planned_.long_length * frame_.scale;
  const double band_width = planned_.band * frame_.scale;
  add(rectangle({frame_.left, frame_.cloth_top}, long_width, cloth_high, 0.25));
  add(rectangle({frame_.band_left, frame_.band_seam}, band_width, band_high, 0.25));
  add(segment({frame_.left, frame_.seam}, {frame_.left + long_width, frame_.seam}, 0.5));
  add(segment({frame_.band_left, frame_.band_seam}, {frame_.band_left + band_width, frame_.band_seam}, 0.5));
}

/// A named mark is a heavy line with a solid triangle at either end, a pin a light one with an open circle.
void JoinPicture::matching_lines() {
  const auto triangle = [this](double x, double y, double up) {
    add(Line{.points = {{x, y}, {x - 1.1, y + up}, {x + 1.1, y + up}}, .closed = true, .pen = 0, .fill = Tone::ink});
  };
  const auto line = [&](double on_long, double on_band, bool named, bool circled) {
    const Point from{frame_.on_long(on_long), frame_.seam};
    const Point to{frame_.on_band(on_band), frame_.band_seam};
    add(segment(from, to, named ? 0.45 : 0.18, named ? Tone::ink : Tone::soft));
    if (named) {
      triangle(from.x, from.y, -2.2);
      triangle(to.x, to.y, 2.2);
    } else if (circled) {
      add(circle({from.x, from.y - 1.1}, 0.6, 0.2, Tone::paper));
      add(circle({to.x, to.y + 1.1}, 0.6, 0.2, Tone::paper));
    }
  };
  Point last{-closest_lines, -closest_lines};
  for (std::size_t n = 0; n < planned_.marks.size(); ++n) {
    const Mark &mark = planned_.marks[n];
    const Point at{frame_.on_long(mark.long_edge.exact), frame_.on_band(mark.band.exact)};
    const double apart = std::min(at.x - last.x, at.y - last.y);
    if (!mark.reference && apart < closest_lines) continue;
    last = at;
    add_mark(n, [&] { line(mark.long_edge.exact, mark.band.exact, mark.reference, apart >= closest_pins); });
  }
  if (asked_.closed) line(planned_.long_length, planned_.band, true, false);
}

/// How many marks on a number of a pin stands again, on an edge so long on the page.
std::size_t JoinPicture::numbered_every(double length) const {
  const std::size_t marks = planned_.marks.size();
  return number_step(marks, length, text_width(std::to_string(marks), label_size) + 1);
}

/// Names rise from the long edge, moved apart where their marks lie close, each with a line down to its mark.
void JoinPicture::names() {
  std::vector<LabelPlace> wanted;
  for (std::size_t i = 0; i < labels_.size(); ++i)
    wanted.push_back({frame_.on_long(planned_.marks[named_[i]].long_edge.exact),
                      page_.width - slanted(labels_[i].width) - names_end});
  const std::vector<double> at = spread_labels(wanted, names_apart, label_size / 2);
  for (std::size_t i = 0; i < labels_.size(); ++i) {
    const double x = wanted[i].wanted;
    add_mark(named_[i], [&] {
      add(Line{.points = {{x, frame_.cloth_top}, {x, names_base_ + leader_row}, {at[i], names_base_ + 0.6}},
               .pen = 0.2,
               .tone = Tone::soft});
      add(Text{.at = {at[i] + label_size / 3, names_base_},
               .says = labels_[i].says,
               .size = label_size,
               .bold = true,
               .turned = -slant});
    });
  }
}

/// Numbers of pins, above the long edge, as many as have room beside the lines of names.
void JoinPicture::pin_numbers() {
  const std::size_t step = numbered_every(planned_.long_length * frame_.scale);
  double free_from = 0;
  std::size_t next_named = 0;
  for (std::size_t n = 0; n < planned_.marks.size(); ++n) {
    const double x = frame_.on_long(planned_.marks[n].long_edge.exact);
    const std::string says = std::to_string(n);
    const double half = text_width(says, label_size) / 2;
    if (planned_.marks[n].reference) {
      if (labels_.empty() && x - half >= free_from) {
        add(Text{
            .at = {x, frame_.cloth_top - 1}, .says = says, .size = label_size, .bold = true, .anchor = Anchor::middle});
        free_from = x + half + 1;
      }
      if (!labels_.empty()) free_from = std::max(free_from, x + 0.8);
      ++next_named;
      continue;
    }
    if (n % step != 0) continue;
    const double next = next_named < named_.size() ? frame_.on_long(planned_.marks[named_[next_named]].long_edge.exact)
                                                   : frame_.on_long(planned_.long_length);
    if (x - half < free_from || x + half > next - 0.8) continue;
    add(Text{.at = {x, frame_.cloth_top - 1}, .says = says, .size = label_size, .anchor = Anchor::middle});
    free_from = x + half + 1;
  }
}

/// The other end of a ring, which is its start again.
void JoinPicture::ring_end() {
  if (!asked_.closed) return;
  add(Text{.at = {frame_.on_long(planned_.long_length), frame_.cloth_top - 1},
           .says = "0",
           .size = label_size,
           .bold = true,
           .anchor = Anchor::middle});
}

/// Numbers under the band: those of named marks first, moved apart, then of pins where there is room left.
void JoinPicture::band_numbers() {
  const bool all_named = static_cast<double>(named_.size()) * numbers_apart < page_.width;
  std::vector<LabelPlace> wanted;
  std::vector<std::string> numbers;
  const auto want = [&](double band, std::size_t n) {
    wanted.push_back({frame_.on_band(band), page_.width - 2});
    numbers.push_back(std::to_string(n));
  };
  if (all_named)
    for (const std::size_t n : named_)
      want(planned_.marks[n].band.exact, n);
  if (asked_.closed && all_named) want(planned_.band, 0);
  const std::vector<double> at = spread_labels(wanted, numbers_apart, 2);
  const double base = frame_.band_bottom + 6;
  for (std::size_t i = 0; i < at.size(); ++i) {
    add(Line{.points = {{wanted[i].wanted, frame_.band_bottom}, {at[i], base - label_size}},
             .pen = 0.2,
             .tone = Tone::soft});
    add(Text{.at = {at[i], base}, .says = numbers[i], .size = label_size, .bold = true, .anchor = Anchor::middle});
  }
  const auto free = [&](double x, double half) {
    for (std::size_t i = 0; i < at.size(); ++i) {
      const double named = text_width(numbers[i], label_size, true) / 2 + 0.8;
      if (x + half > std::min(at[i] - named, wanted[i].wanted - 0.6) &&
          x - half < std::max(at[i] + named, wanted[i].wanted + 0.6))
        return false;
    }
    return true;
  };
  const std::size_t step = numbered_every(planned_.band * frame_.scale);
  double free_from = 0;
  for (std::size_t n = 0; n < planned_.marks.size(); ++n) {
    if (planned_.marks[n].reference ? all_named : n % step != 0) continue;
    const double x = frame_.on_band(planned_.marks[n].band.exact);
    const std::string says = std::to_string(n);
    const double half = text_width(says, label_size) / 2;
    if (x - half < free_from || !free(x, half)) continue;
    add(Text{.at = {x, base}, .says = says, .size = label_size, .anchor = Anchor::middle});
    free_from = x + half + 1;
  }
}

std::vector<JoinPicture::KeyEntry> JoinPicture::key_entries() {
  constexpr double swatch = 9;
  std::vector<KeyEntry> entries;
  for (const Kind kind : all_kinds) {
    const auto is = [kind](const Segment &segment) { return segment.kind == kind; };
    if (std::none_of(asked_.segments.begin(), asked_.segments.end(), is)) continue;
    entries.push_back({std::string(words::worked(kind)), swatch, [this, kind](double left, double y) {
                         add_all(stretch_pattern(kind, {left, left + swatch, y - 4, y + 0.6}));
                         add(rectangle({left, y - 4}, swatch, 4.6, 0.2));
                       }});
  }
  entries.push_back({"named mark", 3, [this](double left, double y) {
                       add(Line{.points = {{left + 1.2, y}, {left, y - 2.4}, {left + 2.4, y - 2.4}},
                                .closed = true,
                                .pen = 0,
                                .fill = Tone::ink});
                     }});
  const auto pin = [](const Mark &mark) { return !mark.reference; };
  if (std::any_of(planned_.marks.begin(), planned_.marks.end(), pin))
    entries.push_back({"pin", 2.4, [this](double left, double y) {
                         add(circle({left + 1.2, y - 1.1}, 0.8, 0.2, Tone::paper));
                       }});
  const auto beyond = [](const SegmentPlan &segment) { return segment.verdict != Verdict::within_limits; };
  if (std::any_of(planned_.segments.begin(), planned_.segments.end(), beyond))
    entries.push_back({"not within limits", swatch, [this](double left, double y) {
                         const Line box = rectangle({left, y - 4}, swatch, 4.6, 0.2);
                         for (Line &stroke : hatching(box.points, 2.2, 0.2, Tone::alarm))
                           add(std::move(stroke));
                         add(box);
                       }});
  return entries;
}

/// What the patterns and the two sorts of mark mean: beside the words of the band, which end at `words_end`, where all
/// of it has room there, else below them in as many lines as it takes.
void JoinPicture::key(double words_end, double words_base) {
  constexpr double gap = 4;
  const auto width_of = [](const KeyEntry &entry) { return entry.drawn + 1.5 + text_width(entry.says, label_size); };
  const std::vector<KeyEntry> entries = key_entries();
  double all = -gap;
  for (const KeyEntry &entry : entries)
    all += width_of(entry) + gap;
  const bool beside = words_end + 2 * gap + all <= page_.width;
  double x = beside ? page_.width - all : 0.2;
  double base = beside ? words_base : words_base + 6.5;
  for (const KeyEntry &entry : entries) {
    const double needed = width_of(entry);
    if (x > 1 && x + needed > page_.width + 1e-6) {
      x = 0.2;
      base += 6;
    }
    entry.draw(x, base);
    add(Text{.at = {x + entry.drawn + 1.5, base}, .says = entry.says, .size = label_size});
    x += needed + gap;
  }
  page_.height = base + 2;
}

std::string JoinPicture::says() const {
  std::string text =
      fmt::format("Picture: the long edge, {}, over the band, {}, to one scale, with lines that join the "
                  "{} marks of the one to those of the other.",
                  words::length(planned_.long_length, job_.tape()), words::length(planned_.band, job_.tape()),
                  planned_.marks.size());
  constexpr std::size_t most_told = 20;
  if (planned_.segments.size() > most_told) return text;
  text += " From the start: ";
  for (std::size_t i = 0; i < planned_.segments.size(); ++i) {
    const std::string &name = asked_.segments.at(i).name;
    const std::string called = name.empty() ? "" : words::printable(name) + " ";
    text += fmt::format("{}{}{}, {} to {}", i == 0 ? "" : "; ", called, words::worked(asked_.segments[i].kind),
                        words::nearest_length(planned_.segments[i].long_length, job_.tape()),
                        words::nearest_length(planned_.segments[i].band, job_.tape()));
  }
  return text + ".";
}

Page JoinPicture::draw() {
  page_.label = says();
  heading("long edge", asked_.long_edge, planned_.long_length, heading_size);
  stretches();
  matching_lines();
  names();
  pin_numbers();
  ring_end();
  band_numbers();
  const double band_base = frame_.band_bottom + 11.5;
  key(heading("band", asked_.band, planned_.band, band_base), band_base);
  return std::move(page_);
}

} // namespace

Page join_picture(const Job &job, const Join &asked, const JoinPlan &planned, double width, MarksCalled called) {
  return JoinPicture(job, asked, planned, width, called).draw();
}

} // namespace gatherwright::paper
