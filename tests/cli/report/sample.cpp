// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/cli/report/sample.hpp"

using namespace gatherwright;

namespace sample {

namespace {

Formula symbol(int index, std::string written) {
  return Formula::of_symbol(index, std::move(written));
}

Formula length(double mm, std::string written) {
  return Formula::of({mm}, std::move(written));
}

Formula sum(int index, double mm, std::string written) {
  return Formula::of_steps({{Formula::Code::symbol, 0, index}, {Formula::Code::length, mm}, {Formula::Code::add}},
                           std::move(written))
      .value();
}

enum Symbol { wrist, hand, cuff, slit, sleeve };

std::vector<NamedLength> lengths() {
  return {{.name = "cuff", .is = sum(wrist, 50, "wrist + 5 cm")},
          {.name = "slit", .is = length(80, "8 cm")},
          {.name = "sleeve",
           .is = FreeLength{.from = length(450, "45 cm"), .to = length(600, "60 cm"), .aim = length(520, "52 cm")}}};
}

Join sleeve_into_cuff() {
  Join join;
  join.name = "sleeve into cuff";
  join.long_edge.is = symbol(sleeve, "sleeve");
  join.band.is = symbol(cuff, "cuff");
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
  join.long_edge.is = length(820, "82 cm");
  join.band.is = length(410, "41 cm");
  join.segments = {Segment{}};
  return join;
}

MarkPlace at(double mm) {
  return {mm, mm, std::nullopt, std::nullopt, std::nullopt};
}

/// A reference mark that ends a segment, or none: the start of an edge.
Mark reference(int segment, std::optional<int> ends, double long_edge, double band) {
  Mark place;
  place.segment = segment;
  place.reference = true;
  place.ends_segment = ends;
  place.long_edge = at(long_edge);
  place.band = at(band);
  return place;
}

Mark pin(int segment, double long_edge, double band) {
  Mark place = reference(segment, std::nullopt, long_edge, band);
  place.reference = false;
  return place;
}

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
  planned.gathers = Gathers{1.6, false};
  return planned;
}

JoinPlan sleeve_plan() {
  JoinPlan planned;
  planned.long_length = 520;
  planned.band = 220;
  planned.segments = {stretch(0, 30, 0, 30), stretch(30, 220, 30, 520)};
  planned.segments.back().give = {2.5233, 2.6364};
  planned.marks = {
      reference(0, std::nullopt, 0, 0), reference(1, 0, 30, 30), pin(1, 152, 78), pin(1, 275, 125), pin(1, 398, 172),
      reference(1, 1, 520, 220)};
  to_next(planned.marks, 4);
  planned.marks_mirrored = from_other_end(planned.marks);
  planned.gathering = GatheringPlan{4, 2, {6, 10}, {}, 123, 1380, {{1, 5, 690, 123}}};
  planned.pins = 6;
  return planned;
}

JoinPlan neck_plan() {
  JoinPlan planned;
  planned.long_length = 820;
  planned.band = 410;
  planned.segments = {stretch(0, 410, 0, 820)};
  planned.marks = {reference(0, std::nullopt, 0, 0), pin(0, 410, 205), reference(0, 0, 820, 410)};
  to_next(planned.marks, 4);
  planned.gathering = GatheringPlan{4, 2, {6, 10}, {}, 205, 2040, {{0, 2, 1020, 205}}};
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
  made.lengths = {{220, std::nullopt, Interval{202, std::nullopt}},
                  {80, std::nullopt, std::nullopt},
                  {520, FoundLength{519.3, false}, Interval{450, 600}}};
  made.rules = {{true, true, 380, 270}, {true, false, 1040, 1500}};
  made.joins = {sleeve_plan(), neck_plan()};
  made.certificate = Certificate{0, 1e-13, 0};
  return made;
}

namespace {

constexpr PieceId sleeve_piece(0);
constexpr PartAt sleeve_part(SideAt(sleeve_piece, Side::bottom), 0);

} // namespace

std::vector<Finding> every_finding() {
  using Limit = finding::PastLimit::Limit;
  const finding::EdgesAlone alone{620.4, 239.2};
  return {finding::PastLimit{fullness, Limit::least, 3.4, 2.7, alone},
          finding::PastLimit{fullness, Limit::most, 3.4, 2.7, alone},
          finding::PastLimit{fullness, Limit::packed, 3.4, 2.7, alone},
          finding::LessThanBand{fullness, 3.4, 2.7, false, alone},
          finding::LessThanBand{fullness, 3.4, 2.7, true, alone},
          finding::RuleBroken{RuleId(0), 3.4, 2.7},
          finding::TooWide{sleeve_piece, 3.4, 2.7},
          finding::TooWide{sleeve_piece, 3.4, 2.7, 2},
          finding::PastTheEnd{sleeve_part, 3.4, 2.7},
          finding::Overlaps{sleeve_part, 0, 3.4, 2.7},
          finding::OverStock{ClothId(0), 3.4, 2.7}};
}

std::vector<Change> every_change(double by, double to) {
  return {change::Swap{cuff_join},
          change::ToLength{LengthId(0), by, to},
          change::ToEdge{EdgeAt(cuff_join, WhichEdge::long_edge), by, to},
          change::ToEdge{EdgeAt(cuff_join, WhichEdge::band), by, to},
          change::ToWeight{by, to},
          change::ToStitch{cuff_join, by, to},
          change::ToKind{fullness, Kind::gauge},
          change::ToClothLength{ClothId(0), by, to}};
}

std::vector<Caution> every_caution() {
  using Where = caution::Cord::Where;
  return {caution::Cord{Where::neck, true, {cuff_join, JoinId(1)}},
          caution::Cord{Where::waist, true, {cuff_join}},
          caution::Cord{Where::neck, false, {cuff_join}},
          caution::Cord{Where::waist, false, {cuff_join}},
          caution::Pins{},
          caution::Flame{}};
}

std::vector<Note> every_note() {
  using What = note::LeftOut::What;
  return {note::WeightAssumed{},
          note::LeftOut{What::rooms},
          note::LeftOut{What::sensitivity},
          note::LeftOut{What::remedies},
          note::LeftOut{What::conflict},
          note::LeftOut{What::savings},
          note::SharedStep{EdgeAt(cuff_join, WhichEdge::long_edge)},
          note::OverCloth{cuff_join, 2.5, 2.4},
          note::OverCloth{cuff_join, 2.5, 2.4, 10},
          note::OverCloth{cuff_join, std::nullopt, 2.4, 1.2},
          note::RowsInside{cuff_join, 5},
          note::RangeTurned{LengthId(2)},
          note::MeasureFarOff{MeasureId(0), 275, 514},
          note::LongStitch{cuff_join, 2.5},
          note::FoldsPress{fullness, 2.5},
          note::SpreadLevelled{fullness, note::SpreadLevelled::At::most},
          note::SpreadLevelled{fullness, note::SpreadLevelled::At::packed},
          note::GivePasses{fullness, note::GivePasses::Limit::least, 2.5, 2.4},
          note::GivePasses{fullness, note::GivePasses::Limit::most, 2.5, 2.4},
          note::FoundByFolding{fullness},
          note::OffTape{LengthId(2)},
          note::Unproved{2.5},
          note::RuleBroken{RuleId(0)},
          note::LongBareNumber{cuff_join, 2.5},
          note::PairNotMirrored{cuff_join},
          note::StitchingDiffers{EdgeAt(cuff_join, WhichEdge::long_edge), 2.5},
          note::StitchingDiffers{EdgeAt(cuff_join, WhichEdge::long_edge), -2.5},
          note::Misread{EdgeAt(cuff_join, WhichEdge::long_edge), 2.5},
          note::GarmentOutside{EdgeAt(cuff_join, WhichEdge::long_edge)},
          note::SwatchBelieved{std::nullopt, 1.8, 3, 1.2, 2.7, 165},
          note::SwatchBelieved{cuff_join, 1.1, 2.5, 1.2, 2.7, 165},
          note::ShallowFolds{fullness, 960, 1.5},
          note::MostSensitive{LengthId(2)},
          note::StitchWouldDo{fullness, 2.5},
          note::BetterGauged{fullness},
          note::SupplenessUnknown{cuff_join, 2.5},
          note::TakenFromJob{MeasureId(1)},
          note::NoAllowance{{sleeve_piece}},
          note::AllowancesDiffer{sleeve_part, 15, 10},
          note::NotLaid{PieceId(0), note::NotLaid::Why::no_width},
          note::NotLaid{PieceId(0), note::NotLaid::Why::too_wide},
          note::NotLaid{PieceId(0), note::NotLaid::Why::lost},
          note::StockUnused{},
          note::StockUnproved{ClothId(0)}};
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
  for (Piece &piece : job.pieces)
    piece.name = piece.fabric.name = name;
  return job;
}

} // namespace sample
