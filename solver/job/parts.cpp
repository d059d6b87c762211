// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/job/parts.hpp"

#include "gatherwright/bounds.hpp"
#include "gatherwright/cloths.hpp"
#include "gatherwright/text.hpp"
#include "gatherwright/validate.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <string>

namespace gatherwright::job {

namespace {

using SegmentPart = place::InSegment::Part;

std::string in_words(double number) {
  std::array<char, 32> digits{};
  const auto end =
      std::to_chars(digits.data(), digits.data() + digits.size(), number, std::chars_format::general, 6).ptr;
  return {digits.data(), end};
}

std::string subject(std::string_view what, std::string_view rest) {
  return std::string(what) + std::string(rest);
}

/// Of UTF-8: C0 controls and DEL are one byte, C1 controls are 0xC2 and one of 0x80 to 0x9F.
bool has_control_character(std::string_view text) {
  unsigned char before = 0;
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (byte < 0x20 || byte == 0x7f || (before == 0xc2 && byte < 0xa0)) return true;
    before = byte;
  }
  return false;
}

Fault fault_of(SegmentLacks::Lack lack) {
  switch (lack) {
  case SegmentLacks::Lack::band_beside_equal:
    return {"the segment gives no band, and another gives neither length and takes what the others leave of the band",
            "give this one its band, or every segment that is not flat its long edge"};
  case SegmentLacks::Lack::flat_beside_equal:
    return {"the flat segment has no length, and another gives neither length and takes what the others leave of the "
            "band",
            "give this one its long edge"};
  case SegmentLacks::Lack::second_flat:
    break;
  }
  return {"two flat segments have no length", "give one of them its long edge"};
}

bool is_kind(Kind kind) {
  return is_among(kind, all_kinds.front(), all_kinds.back());
}

} // namespace

bool Judge::utf8(std::string_view text, std::string_view what, Place place) {
  if (is_utf8(text)) return true;
  refuse(place, {subject(what, " is not UTF-8"), "give it in the encoding UTF-8"});
  return false;
}

bool Judge::text(std::string_view text, std::string_view what, Place place) {
  if (is_printable_ascii(text)) return true;
  if (!utf8(text, what, place)) return false;
  if (!has_control_character(text)) return true;
  refuse(place, {subject(what, " has a line break or control character in it"), "put it on one line"});
  return false;
}

bool Judge::number(double number, double least, double most, std::string_view what, Place place) {
  if (number >= least && number <= most) return true;
  refuse(place,
         {subject(what, " is ") + in_words(number), "give a number from " + in_words(least) + " to " + in_words(most)});
  return false;
}

/// A length is told as "this" is, by its name.
bool Judge::length(Length length, bool above_0, std::string_view what, Place place) {
  if (is_length_of_cloth(length, above_0)) return true;
  auto fault = fault_of_length(length, above_0, unit_);
  constexpr std::string_view as_told = "this";
  fault->what.replace(0, as_told.size(), what);
  refuse(place, *std::move(fault));
  return false;
}

bool Judge::whole(int count, int most, std::string_view what, Place place) {
  if (count >= 1 && count <= most) return true;
  refuse(place, {std::to_string(count) + " " + std::string(what) + (count < 1 ? " are too few" : " are too many"),
                 "give a whole number from 1 to " + std::to_string(most)});
  return false;
}

void Judge::written(const Formula &formula, Place place) {
  utf8(formula.written(), "what the formula is written as", place);
}

/// A strip drawn up is no shorter than when tight, no longer than when slack, and never longer than it was cut.
void Judge::swatch(const Swatch &swatch, Place place) {
  bool sound = length(swatch.cut, true, "the cut length of the swatch", place);
  if (swatch.tight) sound = length(*swatch.tight, true, "the tight length of the swatch", place) && sound;
  if (swatch.good)
    for (const Length each : *swatch.good)
      sound = length(each, true, "a good length of the swatch", place) && sound;
  if (swatch.stitch) stitch(*swatch.stitch, "the stitch of the swatch", place);
  if (!swatch.tight && !swatch.good)
    refuse(place, {"the swatch says nothing", "give its tight length, its good ones or both"});
  if (!sound) return;
  const Length shortest = swatch.good ? (*swatch.good)[0] : swatch.cut;
  const Length longest = swatch.good ? (*swatch.good)[1] : swatch.cut;
  const auto out_of_order = [&](std::string what) {
    refuse(place, {std::move(what), "tight, the two good lengths, and cut rise in this order"});
  };
  if (shortest > longest)
    out_of_order("of the good lengths of the swatch the shorter stands second");
  else if (longest > swatch.cut)
    out_of_order("the swatch is longer gathered than it was cut");
  else if (swatch.tight && *swatch.tight > shortest)
    out_of_order("the swatch is longer drawn up tight than it looks good, or was cut");
}

void Judge::shrinkage(const Shrinkage &shrinkage, Place place) {
  const auto judge = [&](double share, std::string_view what) {
    if (!(share >= 0 && share < bounds::most_shrinkage))
      refuse(place, {subject(what, " is ") + in_words(share),
                     "give a share from 0 to below " + in_words(bounds::most_shrinkage)});
  };
  judge(shrinkage.along, "what shrinks along");
  judge(shrinkage.across, "what shrinks across");
}

bool Judge::leaves_a_width(const Fabric &fabric, Place place) {
  if (fabric.stock && !fabric.width) {
    refuse(place, {"it is said how much there is of the cloth, and not how wide it is", "give it its width"});
    return false;
  }
  const auto left = usable(cloth_of(fabric, unit_));
  if (!left || *left > 0) return true;
  refuse(place, {"between its selvedges nothing is left of the width of the cloth",
                 "give it a width that is more than what is lost at its two sides"});
  return false;
}

bool Judge::fabric(const Fabric &fabric, Place place) {
  const std::size_t before = faults_.size();
  if (!sound_name_.is(fabric.name) && text(fabric.name, "the name of the cloth", place)) sound_name_ = fabric.name;
  if (fabric.weight && !(fabric.weight->grams > 0 && fabric.weight->grams <= bounds::heaviest.grams))
    refuse(place, {"the weight of the cloth is " + in_words(fabric.weight->grams) + " g/m2",
                   "give one above 0, up to " + in_words(bounds::heaviest.grams) + " g/m2"});
  if (fabric.width) length(*fabric.width, true, "the width of the cloth", place);
  if (fabric.thickness) length(*fabric.thickness, true, "the thickness of the cloth", place);
  if (fabric.bending_length) length(*fabric.bending_length, true, "the bending length of the cloth", place);
  if (fabric.swatch) swatch(*fabric.swatch, place);
  if (fabric.selvedge) length(*fabric.selvedge, false, "the selvedge of the cloth", place);
  if (fabric.shrinkage) shrinkage(*fabric.shrinkage, place);
  if (fabric.sold_by) length(*fabric.sold_by, true, "the step in which the cloth is sold", place);
  if (fabric.stock) {
    length(fabric.stock->is, true, "what there is of the cloth", place);
    if (const SharedText &written = fabric.stock->written;
        !sound_stock_.is(written) && text(written, "what there is of the cloth, as written", place))
      sound_stock_ = written;
  }
  return faults_.size() == before;
}

void Judge::stitch(Length stitch, std::string_view what, Place place) {
  if (length(stitch, true, what, place) && stitch < bounds::shortest_stitch)
    refuse(place, {subject(what, " is shorter than 0.1 mm"), "give its length from hole to hole, such as 4 mm"});
}

/// The stitch is as long as half the threads that it takes up and passes.
void Judge::threads(const CountedThreads &threads, Length stitch, Place place) {
  constexpr double rounding = 1e-9; // far more than a few roundings come to, and less than any thread
  for (const double count : {threads.taken_up, threads.passed})
    if (!number(count, 1, bounds::most_threads, "a count of threads", place)) return;
  if (!(threads.count_per_mm > 0) || !std::isfinite(threads.count_per_mm)) {
    refuse(place,
           {"the cloth's threads to a millimetre are " + in_words(threads.count_per_mm), "give a number above 0"});
    return;
  }
  const double made = (threads.taken_up + threads.passed) / 2 / threads.count_per_mm;
  if (std::abs(made - stitch.mm) > rounding * made)
    refuse(place, {"the stitch is " + in_words(stitch.mm) + " mm and its threads come to " + in_words(made) + " mm",
                   "give the one or the other"});
}

void Judge::gathering(const Gathering &gathering, Place place) {
  stitch(gathering.stitch, "the stitch", place);
  if (gathering.threads && std::isfinite(gathering.stitch.mm)) threads(*gathering.threads, gathering.stitch, place);
  if (gathering.rows) whole(*gathering.rows, bounds::most_rows, "rows", place);
  length(gathering.tail, false, "the tail of thread", place);
  length(gathering.longest, true, "the longest thread", place);
}

void Judge::marks(const PinMarks &marks, Place place) {
  if (const auto *apart = std::get_if<PinsApart>(&marks)) written(apart->most, place);
  if (const auto *at_parts = std::get_if<PinsAtParts>(&marks))
    whole(at_parts->parts, bounds::most_parts, "parts", place);
  if (const auto *every = std::get_if<PinsEvery>(&marks)) written(every->distance, place);
}

void Judge::drawn(const DrawnEdge &drawn, bool closed, Place place) {
  if (drawn.path.find_first_not_of(" \t\r\n") == std::string::npos)
    refuse(place, {"the edge is drawn and its path is empty", "give path data such as M 0 0 L 200 0"});
  else
    utf8(drawn.path, "the path", place);
  if (!is_among(drawn.path_unit, Unit::mm, Unit::ell))
    refuse(place, {"this is no unit of a path", "take one of mm, cm, m, in, ft, yd, nail and ell"});
  written(drawn.allowance, place);
  if (drawn.part)
    for (const Formula &end : *drawn.part)
      written(end, place);
  if (drawn.misread && !(drawn.misread->mm >= 0 && drawn.misread->mm <= bounds::longest_length.mm))
    refuse(place, {"this is not how much longer a line may be", "give a length from 0, or leave it out"});
  number(drawn.grain, -bounds::full_turn, bounds::full_turn, "the grain", place);
  const std::string sides = closed ? "take inside or outside" : "take left or right of the drawn line";
  if (closed && drawn.part) refuse(place, {"a part of an edge closes no ring", "leave out the part, or open the join"});
  if (!drawn.garment) return; // needed where there is an allowance, which its formula says
  if (!is_among(*drawn.garment, Garment::left, Garment::outside)) {
    refuse(place, {"the garment lies on no side of the line", sides});
  } else if (!closed && !drawn.part && *drawn.garment >= Garment::inside) { // a part may be of a closed line
    refuse(place, {"the inside and the outside are sides of a closed edge only", sides + ", or close the join"});
  }
}

void Judge::edge(const Edge &edge, bool closed, Place place) {
  if (const Formula *formula = edge.formula()) written(*formula, place);
  if (const DrawnEdge *line = edge.drawn()) drawn(*line, closed, place);
  if (!edge.ends) return;
  for (const Formula &end : *edge.ends)
    written(end, place);
}

/// Of a kind that has no least, only the most can be set.
void Judge::own_limits(const Segment &segment, Place place) {
  const OwnLimits &limits = segment.limits;
  if (!limits.least && !limits.ideal && !limits.most) return;
  if (!takes_fullness(segment.kind))
    return refuse(place, {"a flat segment has no limits", "leave them out, or take another kind"});
  bool sound = true;
  const auto check = [&](const std::optional<double> &limit, std::string_view what) {
    if (limit) sound = number(*limit, 1, bounds::most_fullness, what, place) && sound;
  };
  check(limits.least, "the least fullness");
  check(limits.ideal, "the ideal fullness");
  check(limits.most, "the most fullness");
  if (!has_least(segment.kind)) {
    if (limits.least || limits.ideal)
      refuse(place, {"of " + std::string(name(segment.kind)) + " only the most is a limit", "leave the others out"});
  } else if (sound && (limits.least.value_or(1) > limits.most.value_or(bounds::most_fullness) ||
                       limits.ideal.value_or(limits.least.value_or(1)) < limits.least.value_or(1) ||
                       limits.ideal.value_or(1) > limits.most.value_or(bounds::most_fullness))) {
    refuse(place, {"the least, the ideal and the most fullness do not rise in this order", "put them in order"});
  }
}

void Judge::shape(const Shape &shape, Place place) {
  const auto &points = shape.points;
  if (points.size() < 2)
    return refuse(place, {"the shape has fewer than two points", "begin it at the start of the band, and end at its "
                                                                 "end"});
  bool sound = true;
  for (const auto &[fraction, extra] : points) {
    sound = number(fraction, 0, 1, "a fraction of the shape", place) && sound;
    sound =
        (extra == 0 || number(extra, bounds::least_extra, bounds::most_extra, "an extra of the shape", place)) && sound;
  }
  if (!sound) return;
  if (points.front()[0] > 0)
    refuse(place, {"the first point of the shape is not at 0", "begin at the start of the band"});
  if (points.back()[0] < 1) refuse(place, {"the last point of the shape is not at 1", "end at the end of the band"});
  const auto too_near = [](const auto &one, const auto &next) { return next[0] - one[0] < bounds::least_gap; };
  if (std::adjacent_find(points.begin(), points.end(), too_near) != points.end())
    refuse(place, {"a point of the shape does not lie after the one before it", "let the fractions rise from 0 to 1"});
  if (std::all_of(points.begin(), points.end(), [](const auto &point) { return point[1] == 0; }))
    refuse(place, {"the shape has no extra anywhere", "give at least one point some"});
}

void Judge::spread(const Join &join, const Segment &segment, Place place) {
  if (std::holds_alternative<Even>(segment.spread)) return;
  if (!may_be_spread(segment.kind))
    return refuse(place, {"a segment of kind " + std::string(name(segment.kind)) + " is always even",
                          "spread it evenly, or take gather for its kind"});
  if (const auto *fade = std::get_if<Fade>(&segment.spread)) {
    for (const Formula &over : fade->over)
      written(over, place);
  }
  if (const auto *given = std::get_if<Shape>(&segment.spread)) shape(*given, place);
  if (std::holds_alternative<AlongGrain>(segment.spread) && !join.long_edge.drawn())
    refuse(place, {"the grain takes no extra along an edge that is not drawn",
                   "draw the join's long edge, or spread it evenly"});
}

void Judge::segment(const Join &join, SegmentAt at) {
  const Segment &segment = join.segments[static_cast<std::size_t>(at.segment)];
  const auto in = [at](SegmentPart part) { return place::InSegment{at, part}; };
  text(segment.name, "the segment's name", in(SegmentPart::name));
  text(segment.to, "the mark's name", in(SegmentPart::to));
  if (segment.long_edge) written(*segment.long_edge, in(SegmentPart::long_edge));
  if (segment.band) written(*segment.band, in(SegmentPart::band));
  const bool share =
      number(segment.share, bounds::least_share, bounds::most_share, "the share", in(SegmentPart::share));
  if (!is_kind(segment.kind))
    return refuse(in(SegmentPart::kind), {"this is no kind of segment", "take one of gather, gauge, draw, ease and "
                                                                        "flat"});
  if (share && !takes_fullness(segment.kind) && segment.share != 1)
    refuse(in(SegmentPart::share), {"a flat segment has no share", "leave it at 1, or take another kind"});
  own_limits(segment, in(SegmentPart::limits));
  spread(join, segment, in(SegmentPart::spread));
}

void Judge::segments(const Join &join, JoinId at) {
  if (join.segments.empty())
    refuse(place::InJoin{at}, {"there is no segment", "give the join one that is gathered all along"});
  std::vector<SegmentGives> gives;
  gives.reserve(join.segments.size());
  bool kinds_known = true;
  for (int s = 0; s < static_cast<int>(join.segments.size()); ++s) {
    segment(join, SegmentAt(at, s));
    const Segment &given = join.segments[static_cast<std::size_t>(s)];
    kinds_known = kinds_known && is_kind(given.kind);
    gives.push_back({given.kind, given.long_edge.has_value(), given.band.has_value()});
  }
  if (!kinds_known) return;
  for (const SegmentLacks &lacks : lacking(gives))
    refuse(place::InSegment{SegmentAt(at, lacks.segment)}, fault_of(lacks.lack));
}

} // namespace gatherwright::job
