// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/cli/report/sample.hpp"

using namespace gatherwright;

namespace sample {

namespace {

Formula symbol(int index, std::string written) {
  Formula formula;
  formula.steps.push_back({Formula::Code::symbol, 0, index});
  formula.written = std::move(written);
  return formula;
}

Formula length(double mm, std::string written) {
  Formula formula;
  formula.steps.push_back({Formula::Code::length, mm, -1});
  formula.written = std::move(written);
  return formula;
}

Formula sum(int index, double mm, std::string written) {
  Formula formula = symbol(index, std::move(written));
  formula.steps.push_back({Formula::Code::length, mm, -1});
  formula.steps.push_back({Formula::Code::add, 0, -1});
  return formula;
}

enum Symbol { wrist, hand, cuff, slit, sleeve };

std::vector<NamedLength> lengths() {
  NamedLength cuff_length;
  cuff_length.name = "cuff";
  cuff_length.is = sum(wrist, 50, "wrist + 5 cm");
  NamedLength slit_length;
  slit_length.name = "slit";
  slit_length.is = length(80, "8 cm");
  NamedLength sleeve_length;
  sleeve_length.name = "sleeve";
  sleeve_length.free = true;
  sleeve_length.from = length(450, "45 cm");
  sleeve_length.to = length(600, "60 cm");
  sleeve_length.aim_form = NamedLength::Aim::figure;
  sleeve_length.aim = length(520, "52 cm");
  return {cuff_length, slit_length, sleeve_length};
}

Join sleeve_into_cuff() {
  Join join;
  join.name = "sleeve into cuff";
  join.long_edge.length = symbol(sleeve, "sleeve");
  join.band.length = symbol(cuff, "cuff");
  join.make = 2;
  join.mirrored = true;
  Segment beside;
  beside.name = "beside the slit";
  beside.kind = Kind::flat;
  beside.long_edge = length(30, "3 cm");
  beside.to = "slit end";
  Segment full;
  full.name = "fullness";
  full.to = "end";
  join.segments = {beside, full};
  return join;
}

Join neck_into_collar() {
  Join join;
  join.name = "neck into collar";
  join.long_edge.length = length(820, "82 cm");
  join.band.length = length(410, "41 cm");
  join.segments = {Segment{}};
  return join;
}

MarkPlace at(double mm) {
  return {mm, mm, std::nullopt, std::nullopt, std::nullopt};
}

Mark mark(int segment, int ends, double long_edge, double band) {
  Mark place;
  place.segment = segment;
  place.reference = ends >= -1;
  place.ends_segment = ends;
  place.long_edge = at(long_edge);
  place.band = at(band);
  return place;
}

constexpr int pin = -2;

void to_next(std::vector<Mark> &marks, double stitch) {
  for (std::size_t i = 0; i + 1 < marks.size(); ++i) {
    const double gap = marks[i + 1].long_edge.exact - marks[i].long_edge.exact;
    const double fullness = gap / (marks[i + 1].band.exact - marks[i].band.exact);
    marks[i].fullness_to_next = fullness;
    if (fullness > 1.001) marks[i].stitches_to_next = gap / stitch;
  }
}

std::vector<Mark> from_other_end(const std::vector<Mark> &marks) {
  std::vector<Mark> other(marks.rbegin(), marks.rend());
  const Mark last = marks.back();
  for (Mark &each : other) {
    each.long_edge = at(last.long_edge.exact - each.long_edge.exact);
    each.band = at(last.band.exact - each.band.exact);
    each.fullness_to_next.reset();
    each.stitches_to_next.reset();
  }
  to_next(other, 4);
  return other;
}

SegmentPlan stretch(double from, double to, double long_from, double long_to) {
  SegmentPlan planned;
  planned.from = from;
  planned.to = to;
  planned.long_from = long_from;
  planned.long_to = long_to;
  planned.long_length = long_to - long_from;
  planned.band = to - from;
  planned.fullness = planned.long_length / planned.band;
  planned.fullest = planned.slackest = planned.fullness;
  planned.limits = {1.18, 2.1, 2.7, 8.5};
  planned.ridge = 1.6;
  return planned;
}

JoinPlan sleeve_plan() {
  JoinPlan planned;
  planned.long_length = 520;
  planned.band = 220;
  planned.segments = {stretch(0, 30, 0, 30), stretch(30, 220, 30, 520)};
  planned.segments.back().give = {2.5233, 2.6364};
  planned.marks = {mark(0, -1, 0, 0),      mark(1, 0, 30, 30),     mark(1, pin, 152, 78),
                   mark(1, pin, 275, 125), mark(1, pin, 398, 172), mark(1, 1, 520, 220)};
  to_next(planned.marks, 4);
  planned.marks_mirrored = from_other_end(planned.marks);
  planned.gathering = GatheringPlan{4, 2, {6, 10}, 123, 1380, {{1, 5, 690, 123}}};
  planned.pins = 6;
  return planned;
}

JoinPlan neck_plan() {
  JoinPlan planned;
  planned.long_length = 820;
  planned.band = 410;
  planned.segments = {stretch(0, 410, 0, 820)};
  planned.marks = {mark(0, -1, 0, 0), mark(0, pin, 410, 205), mark(0, 0, 820, 410)};
  to_next(planned.marks, 4);
  planned.gathering = GatheringPlan{4, 2, {6, 10}, 205, 2040, {{0, 2, 1020, 205}}};
  planned.pins = 3;
  return planned;
}

} // namespace

Job job() {
  Job made;
  made.title = "Porter's smock";
  made.unit = Unit::cm;
  made.tape_step = Length{1};
  made.measures = {{"wrist", Length{170}}, {"hand", Length{240}}};
  made.lengths = lengths();
  made.length_order = {0, 1, 2};
  Rule goes_through;
  goes_through.name = "the hand goes through";
  goes_through.holds = {sum(cuff, 160, "cuff + 2 * slit"), Relation::at_least, sum(hand, 30, "hand + 3 cm")};
  Rule in_the_cloth;
  in_the_cloth.name = "2 * sleeve <= 150 cm";
  in_the_cloth.holds = {symbol(sleeve, "2 * sleeve"), Relation::at_most, length(1500, "150 cm")};
  made.rules = {goes_through, in_the_cloth};
  made.joins = {sleeve_into_cuff(), neck_into_collar()};
  return made;
}

Plan plan() {
  Plan made;
  made.lengths = {{220, false, 0, false, Interval{202, std::nullopt}},
                  {80, false, 0, false, std::nullopt},
                  {520, true, 519.3, false, Interval{450, 600}}};
  made.rules = {{true, true, 380, 270}, {true, false, 1040, 1500}};
  made.joins = {sleeve_plan(), neck_plan()};
  made.certificate = Certificate{0, 1e-13, 0};
  return made;
}

Job renamed(Job job, const std::string &name) {
  job.title = name;
  for (Measure &measure : job.measures)
    measure.name = name;
  for (NamedLength &length : job.lengths)
    length.name = name;
  for (Rule &rule : job.rules)
    rule.name = name;
  for (Join &join : job.joins) {
    join.name = name;
    for (Segment &segment : join.segments) {
      segment.name = name;
      segment.to = name;
    }
  }
  return job;
}

} // namespace sample
