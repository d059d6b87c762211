// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/picture/key.hpp"

#include "cli/drawing/type.hpp"
#include "cli/picture/sizes.hpp"
#include "cli/words/figures.hpp"

#include <algorithm>
#include <array>
#include <string>
#include <utility>

namespace gatherwright::paper {

double round_length(double most, bool imperial) {
  constexpr double inch = 25.4;
  constexpr std::array inches{0.125, 0.25, 0.5, 1.0, 2.0, 6.0, 12.0, 36.0};
  double best = imperial ? inches.front() * inch : 1;
  if (imperial)
    for (const double each : inches)
      if (each * inch <= most) best = each * inch;
  double decade = imperial ? 36 * inch : 1;
  for (int noughts = 0; noughts < 9; ++noughts, decade *= 10)
    for (const double each : {1.0, 2.0, 5.0})
      if (each * decade <= most) best = std::max(best, each * decade);
  return best;
}

std::string read_in(Unit unit) {
  if (unit == Unit::ft || unit == Unit::yd) return "";
  return unit == Unit::in ? " in inches" : " in " + std::string(name(unit));
}

void Key::entry(std::string_view says, double room, std::vector<Line> sign) {
  constexpr double gap = 4;
  constexpr double line_high = 6;
  const double needed = room + 1.5 + text_width(says, label_size);
  if (x_ > 1 && x_ + needed > width_) {
    x_ = 0.4;
    base_ += line_high;
  }
  std::vector<Item> items;
  for (Line &line : sign)
    items.push_back({std::move(line)});
  move_by(items, {x_, base_ - 1.1});
  for (Item &item : items)
    items_.push_back(std::move(item));
  items_.push_back({Text{.at = {x_ + room + 1.5, base_}, .says = std::string(says), .size = label_size}});
  x_ += needed + gap;
}

void Key::stands_for(std::string_view sign, std::string_view says) {
  const double room = text_width(sign, label_size, true);
  const std::string shown = fitted(says, width_ - room - 2, label_size);
  entry(shown, room, {});
  // Before the words just written.
  const Point words = std::get<Text>(items_.back().is).at;
  items_.push_back(
      {Text{.at = {words.x - 1.5 - room, words.y}, .says = std::string(sign), .size = label_size, .bold = true}});
}

void Key::boxed(std::string_view number, std::string_view says) {
  constexpr double size = 2.5;
  constexpr double room = 3.4;
  entry(says, room, {rectangle({0, -1.6}, room, 3.2, 0.2)});
  const Point words = std::get<Text>(items_.back().is).at;
  items_.push_back({Text{.at = {words.x - 1.5 - room / 2, words.y - 1.1 + 0.36 * size},
                         .says = std::string(number),
                         .size = size,
                         .anchor = Anchor::middle}});
}

void Key::scale(const Job &job, double scale) {
  const bool imperial = is_imperial(job.tape().unit);
  const Tape tape{job.tape().unit, Length{imperial ? 25.4 / 8 : 1.0}};
  const double bar = round_length(std::min(40.0, width_ / 3) / scale, imperial);
  const double long_bar = bar * scale;
  entry(words::length(bar, tape), long_bar,
        {segment({0, 0}, {long_bar, 0}, 0.4), segment({0, -1.3}, {0, 1.3}, 0.4),
         segment({long_bar, -1.3}, {long_bar, 1.3}, 0.4)});
}

void Key::warp() {
  entry("warp", 2,
        {segment({1, -2.2}, {1, 2.2}, 0.3), Line{.points = {{0, -1}, {1, -2.2}, {2, -1}}, .pen = 0.3},
         Line{.points = {{0, 1}, {1, 2.2}, {2, 1}}, .pen = 0.3}});
}

void Key::named_mark() {
  entry("named mark", 3,
        {Line{.points = {{1.2, 1.1}, {0, -1.3}, {2.4, -1.3}}, .closed = true, .pen = 0, .fill = Tone::ink}});
}

void Key::pin() {
  entry("pin", 2.4, {circle({1.2, 0}, 0.8, 0.2, Tone::paper)});
}

} // namespace gatherwright::paper
