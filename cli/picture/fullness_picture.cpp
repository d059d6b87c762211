// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/picture/fullness_picture.hpp"

#include "cli/drawing/type.hpp"
#include "cli/picture/label_places.hpp"
#include "cli/picture/sizes.hpp"
#include "cli/words/figures.hpp"
#include "cli/words/names.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <string_view>

namespace gatherwright::paper {

namespace {

constexpr double plot_top = 9;
constexpr double highest_plot = 40;
constexpr double lowest_plot = 23;
constexpr double axis_wide = 12;   ///< figures at the left
constexpr double limits_gap = 1.5; ///< from the plot to the words at its right
constexpr double lines_apart = 3.4;

/// A step of 1, 2 or 5 times a power of ten of which a span takes at most `most`.
double round_step(double span, int most) {
  const double least = span / most;
  const double power = std::pow(10, std::floor(std::log10(least)));
  for (const double times : {1.0, 2.0, 5.0})
    if (times * power >= least * (1 - 1e-9)) return times * power;
  return 10 * power;
}

/// What sits well in one stretch that is not plain.
struct Zone {
  std::size_t segment = 0;
  double from = 0;
  double to = 0;
  Limits limits;
  Kind kind = Kind::gather;
};

bool same_limits(const Zone &a, const Zone &b) {
  return a.kind == b.kind && a.limits.least == b.limits.least && a.limits.ideal == b.limits.ideal &&
         a.limits.most == b.limits.most;
}

std::vector<Zone> zones_of(const Join &asked, const JoinPlan &planned) {
  std::vector<Zone> zones;
  for (std::size_t i = 0; i < planned.segments.size(); ++i) {
    const SegmentPlan &segment = planned.segments[i];
    const Kind kind = asked.segments.at(i).kind;
    if (!takes_fullness(kind)) continue;
    Zone zone{i, segment.from, segment.to, segment.limits, kind};
    // Ease begins at length for length, and half of the most is aimed at.
    if (!has_least(kind)) {
      zone.limits.least = 1;
      zone.limits.ideal = (1 + zone.limits.most) / 2;
      zone.limits.packed = 0;
    }
    zones.push_back(zone);
  }
  return zones;
}

class FullnessPicture {
public:
  FullnessPicture(const Join &asked, const JoinPlan &planned, double width)
      : asked_(asked), planned_(planned), curve_(local_fullness(planned)), zones_(zones_of(asked, planned)) {
    page_.width = width;
    plot_high_ = std::clamp(width / 3, lowest_plot, highest_plot);
    scale();
  }

  bool empty() const { return zones_.empty(); }
  Page draw();

private:
  struct Fullest {
    std::size_t segment = 0;
    double fullness = 0;
    Point at;                ///< on the page
    std::string_view beyond; ///< a verdict that is not within limits, or empty
  };

  template <class Drawn> void add(Drawn drawn) { page_.items.push_back({std::move(drawn)}); }

  double x(double band) const { return axis_wide + band / planned_.band * plot_wide_; }
  double y(double fullness) const {
    return plot_top + plot_high_ * (high_ - std::clamp(fullness, low_, high_)) / (high_ - low_);
  }

  /// A limit with its name, for the right of the plot.
  struct NamedLimit {
    double fullness = 1;
    std::string says;
    Tone tone = Tone::soft;
  };

  void scale();
  std::vector<NamedLimit> named_limits() const;
  void zone(const Zone &zone);
  void zones();
  void axis();
  void marks();
  void curve();
  void too_full(std::size_t segment);
  std::optional<Fullest> find_fullest() const;
  std::string said_of(const Fullest &fullest) const;
  void mark_fullest();
  void limit_words();
  void limit_words_within(const Zone &zone);
  std::string figure(double fullness, int places) const;
  std::string limit_figure(double fullness) const;
  std::string says() const;

  const Join &asked_;
  const JoinPlan &planned_;
  std::vector<std::vector<LocalFullness>> curve_;
  std::vector<Zone> zones_;
  Page page_;
  double low_ = 1;
  double high_ = 2;
  double plot_wide_ = 1;
  double plot_high_ = highest_plot;
  bool alike_ = true;    ///< one set of limits for all
  bool percents_ = true; ///< all is ease, and told in percent
  bool packed_ = false;  ///< closest packing is near enough to be drawn
};

/// From 1, or what is less, to what is fullest or most, with room over it for the words at the place of the fullest.
void FullnessPicture::scale() {
  double top = 1;
  for (const Zone &zone : zones_) {
    top = std::max(top, zone.limits.most);
    alike_ = alike_ && same_limits(zone, zones_.front());
    percents_ = percents_ && told_in_percent(zone.kind);
  }
  for (const auto &segment : curve_)
    for (const LocalFullness &at : segment) {
      top = std::max(top, at.fullness);
      low_ = std::min(low_, at.fullness);
    }
  for (const Zone &zone : zones_)
    if (zone.limits.packed > 0 && zone.limits.packed <= 1 + 1.35 * (top - 1)) {
      packed_ = true;
      top = std::max(top, zone.limits.packed);
    }
  const double span = std::max(top - low_, 1e-3);
  low_ -= 0.04 * span;
  high_ = top + 0.22 * span;
  double words_wide = 3;
  if (alike_)
    for (const NamedLimit &each : named_limits())
      words_wide = std::max(words_wide, limits_gap + text_width(each.says, label_size));
  plot_wide_ = page_.width - axis_wide - words_wide;
}

std::string FullnessPicture::figure(double fullness, int places) const {
  return percents_ ? words::trimmed(100 * (fullness - 1), std::max(0, places)) + " %"
                   : words::decimals(fullness, places);
}

/// As the words under the picture and the table have it.
std::string FullnessPicture::limit_figure(double fullness) const {
  return percents_ ? words::ease_percents(fullness, 1).measured : figure(fullness, 2);
}

/// Where one set of limits holds throughout, from the top.
std::vector<FullnessPicture::NamedLimit> FullnessPicture::named_limits() const {
  if (zones_.empty()) return {};
  const Zone &zone = zones_.front();
  std::vector<NamedLimit> named;
  const auto name = [&](std::string_view called, double fullness, Tone tone) {
    named.push_back({fullness, fmt::format("{} {}", called, limit_figure(fullness)), tone});
  };
  if (packed_ && zone.limits.packed > 0) name("packed", zone.limits.packed, Tone::alarm);
  name("most", zone.limits.most, Tone::alarm);
  name("best", zone.limits.ideal, Tone::soft);
  if (has_least(zone.kind)) name("least", zone.limits.least, Tone::soft);
  std::stable_sort(named.begin(), named.end(),
                   [](const NamedLimit &a, const NamedLimit &b) { return a.fullness > b.fullness; });
  return named;
}

void FullnessPicture::zone(const Zone &zone) {
  const double left = x(zone.from);
  const double wide = x(zone.to) - left;
  const double top = y(zone.limits.most);
  const std::size_t first = page_.items.size();
  add(rectangle({left, top}, wide, y(zone.limits.least) - top, 0, Tone::pale));
  as_part(page_.items, first, {PartShown::Of::stretches, zone.segment});
}

void FullnessPicture::zones() {
  for (const Zone &each : zones_)
    zone(each);
  const auto line = [this](const Zone &zone, double fullness, double pen, Tone tone, bool dashed) {
    Line drawn = segment({x(zone.from), y(fullness)}, {x(zone.to), y(fullness)}, pen, tone);
    drawn.dashed = dashed;
    add(std::move(drawn));
  };
  for (const Zone &each : zones_) {
    line(each, each.limits.most, 0.5, Tone::alarm, false);
    line(each, each.limits.ideal, 0.25, Tone::soft, true);
    if (has_least(each.kind)) line(each, each.limits.least, 0.25, Tone::soft, false);
    if (packed_ && each.limits.packed > 0) line(each, each.limits.packed, 0.5, Tone::alarm, true);
  }
}

void FullnessPicture::axis() {
  const double step = round_step(high_ - low_, 5);
  const double shown = percents_ ? step * 100 : step;
  const int places = std::clamp(static_cast<int>(std::ceil(-std::log10(shown) - 1e-9)), 0, 6);
  const double bottom = plot_top + plot_high_;
  for (double n = std::ceil((low_ - 1) / step - 1e-9); 1 + n * step <= high_; ++n) {
    const double at = y(1 + n * step);
    add(segment({axis_wide - 1.2, at}, {axis_wide, at}, 0.2));
    add(Text{.at = {axis_wide - 2, at + label_size / 3},
             .says = figure(1 + n * step, places),
             .size = label_size,
             .anchor = Anchor::end});
  }
  add(segment({axis_wide, plot_top}, {axis_wide, bottom}, 0.25));
  add(segment({axis_wide, bottom}, {axis_wide + plot_wide_, bottom}, 0.25));
}

/// Marks along the band, those with names first, as many as have room.
void FullnessPicture::marks() {
  const double bottom = plot_top + plot_high_;
  struct Taken {
    double from;
    double to;
  };
  std::vector<Taken> taken;
  const auto place = [&](std::size_t n, double at, bool named) {
    const std::string says = std::to_string(n);
    const double half = text_width(says, label_size, named) / 2 + 0.4;
    const auto over = [&](const Taken &other) { return at + half > other.from && at - half < other.to; };
    if (std::any_of(taken.begin(), taken.end(), over)) return;
    taken.push_back({at - half, at + half});
    add(Text{.at = {at, bottom + 5.2}, .says = says, .size = label_size, .bold = named, .anchor = Anchor::middle});
  };
  const std::size_t step =
      number_step(planned_.marks.size(), plot_wide_, text_width(std::to_string(planned_.marks.size()), label_size) + 1);
  for (const bool named : {true, false}) {
    double last = -1;
    for (std::size_t n = 0; n < planned_.marks.size(); ++n) {
      if (planned_.marks[n].reference != named) continue;
      const double at = x(planned_.marks[n].band.exact);
      if (at - last < 0.5 && !named) continue;
      last = at;
      const std::size_t first = page_.items.size();
      add(segment({at, bottom}, {at, bottom + (named ? 2 : 1.2)}, named ? 0.45 : 0.2));
      if (named || n % step == 0) place(n, at, named);
      as_part(page_.items, first, {PartShown::Of::marks, n});
    }
  }
  add(Text{.at = {axis_wide, bottom + 10},
           .says = "marks along the band, as in the table",
           .size = label_size,
           .tone = Tone::soft});
}

/// What lies over the most, hatched.
void FullnessPicture::too_full(std::size_t segment) {
  const double most = planned_.segments[segment].limits.most;
  std::vector<Point> over;
  for (const LocalFullness &at : curve_[segment])
    over.push_back({x(at.band), y(std::max(at.fullness, most))});
  if (over.empty()) return;
  over.push_back({over.back().x, y(most)});
  over.push_back({over.front().x, y(most)});
  for (Line &stroke : hatching(over, 1.6, 0.2, Tone::alarm))
    add(std::move(stroke));
}

void FullnessPicture::curve() {
  Line line{.points = {}, .pen = 0.7, .tone = Tone::accent};
  for (std::size_t i = 0; i < curve_.size(); ++i) {
    if (takes_fullness(asked_.segments.at(i).kind)) too_full(i);
    for (const LocalFullness &at : curve_[i])
      line.points.push_back({x(at.band), y(at.fullness)});
  }
  if (line.points.size() > 1) add(std::move(line));
}

/// The middle of the first stretch that is as full as any; none where there is no cloth at all.
std::optional<FullnessPicture::Fullest> FullnessPicture::find_fullest() const {
  std::optional<Fullest> fullest;
  for (std::size_t i = 0; i < curve_.size(); ++i)
    for (const LocalFullness &at : curve_[i])
      if (takes_fullness(asked_.segments.at(i).kind) && (!fullest || at.fullness > fullest->fullness * (1 + 1e-6)))
        fullest = Fullest{.segment = i, .fullness = at.fullness, .at = {}, .beyond = {}};
  if (!fullest) return fullest;
  const auto as_full = [&](const LocalFullness &at) { return at.fullness >= fullest->fullness * (1 - 1e-3); };
  const auto &curve = curve_[fullest->segment];
  const auto first = std::find_if(curve.begin(), curve.end(), as_full);
  const auto after = std::find_if_not(first, curve.end(), as_full);
  fullest->at = {(x(first->band) + x(std::prev(after)->band)) / 2, y(fullest->fullness)};
  return fullest;
}

/// "fullest 3.40: too full"
std::string FullnessPicture::said_of(const Fullest &fullest) const {
  const SegmentPlan &segment = planned_.segments[fullest.segment];
  const bool ease = told_in_percent(asked_.segments[fullest.segment].kind);
  const words::Pair figures = ease ? words::ease_percents(fullest.fullness, segment.limits.most)
                                   : words::ratios(fullest.fullness, segment.limits.most);
  return fmt::format("fullest {}{}{}", figures.measured, fullest.beyond.empty() ? "" : ": ", fullest.beyond);
}

/// A mark where it is fullest, with its figure above the curve, clear of the line of the most where that is just there.
void FullnessPicture::mark_fullest() {
  std::optional<Fullest> fullest = find_fullest();
  if (!fullest) return;
  const SegmentPlan &segment = planned_.segments[fullest->segment];
  // Too full in places alone is no verdict of the whole stretch.
  if (segment.verdict != Verdict::within_limits)
    fullest->beyond = words::verdict(segment.verdict);
  else if (fullest->fullness > segment.limits.most * (1 + 1e-9))
    fullest->beyond = words::verdict(Verdict::too_full);
  const std::string says = said_of(*fullest);
  const Tone tone = fullest->beyond.empty() ? Tone::accent : Tone::alarm;
  const double wide = text_width(says, label_size, true);
  const double farthest = std::max(axis_wide + 1, axis_wide + plot_wide_ - wide);
  const double left = std::clamp(fullest->at.x - wide / 2, axis_wide + 1, farthest);
  double base = fullest->at.y - 2.4;
  const double line = y(segment.limits.most);
  if (line < base + 0.8 && line > base - label_size - 0.4) base = line - 1;
  base = std::max(base, plot_top + label_size - 1);
  add(rectangle({left - 0.6, base - label_size + 0.2}, wide + 1.2, label_size + 0.6, 0, Tone::paper));
  add(Text{.at = {left, base}, .says = says, .size = label_size, .bold = true, .tone = tone});
  add(circle(fullest->at, 1.2, 0.5, tone));
}

/// At the right, where one set of limits holds throughout.
void FullnessPicture::limit_words() {
  if (!alike_) {
    for (const Zone &each : zones_)
      limit_words_within(each);
    return;
  }
  const std::vector<NamedLimit> lines = named_limits();
  std::vector<LabelPlace> wanted;
  wanted.reserve(lines.size());
  for (const NamedLimit &line : lines)
    wanted.push_back({y(line.fullness), plot_top + plot_high_});
  const std::vector<double> at = spread_labels(wanted, lines_apart, plot_top);
  for (std::size_t i = 0; i < lines.size(); ++i)
    add(Text{.at = {axis_wide + plot_wide_ + limits_gap, at[i] + label_size / 3},
             .says = lines[i].says,
             .size = label_size,
             .tone = lines[i].tone});
}

/// In the stretch itself where limits differ, if it is wide enough.
void FullnessPicture::limit_words_within(const Zone &zone) {
  const double wide = x(zone.to) - x(zone.from);
  const std::string says = told_in_percent(zone.kind)
                               ? "ease, most " + words::ease_percents(zone.limits.most, 1).measured
                               : "most " + words::decimals(zone.limits.most, 2);
  if (text_width(says, label_size) + 2 > wide) return;
  add(Text{.at = {x(zone.from) + 1, y(zone.limits.most) - 0.8}, .says = says, .size = label_size, .tone = Tone::alarm});
}

std::string FullnessPicture::says() const {
  std::string text = "Curve: fullness along the band against what sits well.";
  constexpr std::size_t most_told = 20;
  if (planned_.segments.size() > most_told) return text;
  for (std::size_t i = 0; i < planned_.segments.size(); ++i) {
    const SegmentPlan &segment = planned_.segments[i];
    const Kind kind = asked_.segments.at(i).kind;
    const std::string called = words::segment_called(asked_, static_cast<int>(i));
    text += fmt::format(" {}{}: ", asked_.segments[i].name.empty() ? "Stretch " : "", words::printable(called));
    if (!takes_fullness(kind)) {
      text += "plain.";
      continue;
    }
    const std::string low = words::decimals(segment.slackest, 2);
    const std::string high = words::decimals(segment.fullest, 2);
    text += low == high ? high : fmt::format("{} to {}", low, high);
    text += fmt::format(", most {}.", words::decimals(segment.limits.most, 2));
  }
  return text;
}

Page FullnessPicture::draw() {
  page_.label = says();
  page_.height = plot_top + plot_high_ + 12;
  add(Text{.at = {0, heading_size},
           .says = percents_ ? "ease along the band" : "fullness along the band",
           .size = heading_size,
           .bold = true});
  constexpr double swatch = 6;
  const std::string shaded = "sits well";
  const double key = page_.width - text_width(shaded, label_size) - swatch - 1.5;
  add(rectangle({key, 0.6}, swatch, 3.4, 0.15, Tone::pale));
  add(Text{.at = {key + swatch + 1.5, heading_size}, .says = shaded, .size = label_size});
  zones();
  axis();
  marks();
  curve();
  limit_words();
  mark_fullest();
  return std::move(page_);
}

/// Differences of long runs may be off by rounding; the plan has the extremes.
double within(const SegmentPlan &segment, double fullness) {
  const double low = std::min(1.0, segment.slackest);
  return std::clamp(fullness, low, std::max(low, segment.fullest));
}

/// The slope of each gap between stations that lies within a segment, at the middle of the gap; carried on to the
/// segment's ends.
std::vector<LocalFullness> slopes(const SegmentPlan &segment, const Profile &profile) {
  const double same = 1e-9 * segment.band;
  std::vector<LocalFullness> found;
  const auto first = std::lower_bound(profile.band.begin(), profile.band.end(), segment.from - same);
  for (std::size_t i = first - profile.band.begin(); i + 1 < profile.band.size(); ++i) {
    const double gap = profile.band[i + 1] - profile.band[i];
    if (profile.band[i + 1] > segment.to + same) break;
    if (!(gap > same)) continue;
    const double slope = (profile.long_edge[i + 1] - profile.long_edge[i]) / gap;
    found.push_back({(profile.band[i] + profile.band[i + 1]) / 2, within(segment, slope)});
  }
  return found;
}

} // namespace

std::vector<std::vector<LocalFullness>> local_fullness(const JoinPlan &planned) {
  std::vector<std::vector<LocalFullness>> all;
  for (const SegmentPlan &segment : planned.segments) {
    std::vector<LocalFullness> found;
    if (planned.profile) found = slopes(segment, *planned.profile);
    const auto carried = [&](double to, const LocalFullness &near, const LocalFullness &next) {
      const double slope = next.band == near.band ? 0 : (next.fullness - near.fullness) / (next.band - near.band);
      return LocalFullness{to, within(segment, near.fullness + slope * (to - near.band))};
    };
    if (found.empty())
      found = {{segment.from, segment.fullness}, {segment.to, segment.fullness}};
    else {
      const LocalFullness start =
          carried(segment.from, found.front(), found[std::min<std::size_t>(1, found.size() - 1)]);
      const LocalFullness end =
          carried(segment.to, found.back(), found[found.size() - std::min<std::size_t>(2, found.size())]);
      found.insert(found.begin(), start);
      found.push_back(end);
    }
    all.push_back(std::move(found));
  }
  return all;
}

std::optional<Page> fullness_picture(const Join &asked, const JoinPlan &planned, double width) {
  FullnessPicture picture(asked, planned, width);
  if (picture.empty()) return std::nullopt;
  return picture.draw();
}

} // namespace gatherwright::paper
