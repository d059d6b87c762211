// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/job/join.hpp"

#include "cli/job/cloth.hpp"
#include "cli/job/fields.hpp"
#include "cli/job/values.hpp"
#include "gatherwright/defaults.hpp"
#include "gatherwright/validate.hpp"

namespace gatherwright::cli {

namespace {

constexpr std::array<std::pair<std::string_view, Use>, 2> uses = {{{"skirt", Use::skirt}, {"curtain", Use::curtain}}};

Fault words_of(SegmentLacks::Lack lack) {
  switch (lack) {
  case SegmentLacks::Lack::band_beside_equal:
    return {"\"band\" is missing: another segment gives neither length and takes what the others leave of the band",
            "write this one's \"band\", or the \"long\" of every segment that is not flat"};
  case SegmentLacks::Lack::flat_beside_equal:
    return {"the flat segment has no length, and another segment gives neither length and takes what the others leave "
            "of the band",
            "write this one's \"long\""};
  case SegmentLacks::Lack::second_flat:
    break;
  }
  return {"two flat segments have no length", "write the \"long\" of one of them"};
}

void judge_segments(Reading &reading, const Value &list, const std::vector<SegmentGives> &gives) {
  const auto lacks = lacking(gives);
  auto lack = lacks.begin();
  for (const Value &each : reading.document.children(list)) {
    if (lack == lacks.end()) return;
    if (each.place == lack->segment) reading.fault(each, words_of((lack++)->lack));
  }
}

/// Whether the marks at their ends are known.
bool read_segments(Reading &reading, const Value &value, Join &join) {
  if (value.kind != Value::Kind::list) {
    refuse_kind(reading, value, R"(a list of segments: [ { "kind": "flat", "long": "3 cm" }, { "kind": "gather" } ])");
    return false;
  }
  if (reading.document.children(value).empty()) {
    reading.fault(value, {"there is no segment", "leave \"segments\" out, and all of the join is gathered"});
    return false;
  }
  bool kinds_known = true;
  bool marks_known = true;
  std::vector<SegmentGives> gives;
  for (const Value &each : reading.document.children(value)) {
    if (reading.faults.full()) return false;
    ReadSegment read = to_segment(reading, each, join.long_edge.drawn() != nullptr);
    kinds_known = kinds_known && read.kind_known;
    marks_known = marks_known && read.to_known;
    gives.push_back({read.segment.kind, read.gives_long, read.gives_band});
    join.segments.push_back(std::move(read.segment));
  }
  if (kinds_known) judge_segments(reading, value, gives);
  return marks_known;
}

void lay_over(Reading &reading, const Fields &fields, const JobWide &job, Join &join) {
  const Value *fabric = fields["fabric"];
  const Value *gathering = fields["gathering"];
  const ReadFabric read = fabric ? to_fabric(reading, *fabric) : ReadFabric();
  const GivenFabric &own_fabric = read.given;
  const GivenGathering own_gathering = gathering ? to_gathering(reading, *gathering, job.gathering) : GivenGathering{};
  const GivenFabric cloth = laid_over(own_fabric, job.fabric);
  // Nothing is cut from it, so the job's selvedges are not held against it.
  if (read.cloth_known && (own_fabric.selvedge || own_fabric.stock))
    leaves_a_width(reading, *fabric, own_fabric, cloth);
  join.fabric = fabric_of(cloth);
  join.gathering = gathering_of(laid_over(own_gathering, job.gathering));
  join.own_weight = own_fabric.weight.has_value();
  join.own_stitch = own_gathering.stitch || own_gathering.threads || own_gathering.count_per_mm;
}

} // namespace

ReadJoin to_join(Reading &reading, const Value &value, const JobWide &job) {
  static constexpr std::string_view keys[] = {"name",  "long",      "band", "closed", "make",      "mirrored",
                                              "marks", "allowance", "use",  "fabric", "gathering", "segments"};
  const Fields fields(reading, value, "a join", keys);
  ReadJoin read{{}, value.kind == Value::Kind::object && (fields["segments"] || !fields.meant("segments"))};
  Join &join = read.join;
  if (const Value *name = fields.required("name", "call the join by what is sewn: \"sleeve into cuff\""))
    join.name = to_name(reading, *name).value_or("");
  if (const Value *closed = fields["closed"]) join.closed = to_truth(reading, *closed).value_or(false);
  if (const Value *edge = fields.required("long", "write the length of the edge that is gathered"))
    join.long_edge = to_edge(reading, *edge, join.closed);
  if (const Value *edge = fields.required("band", "write the length of the edge it is sewn to"))
    join.band = to_edge(reading, *edge, join.closed);
  if (const Value *make = fields["make"]) join.make = to_whole(reading, *make, bounds::most_made).value_or(1);
  join.mirrored = mirrored_by_default(join.make);
  if (const Value *mirrored = fields["mirrored"]) join.mirrored = to_truth(reading, *mirrored).value_or(false);
  join.marks = job.marks;
  if (const Value *marks = fields["marks"]) join.marks = to_pin_marks(reading, *marks).value_or(job.marks);
  if (const Value *allowance = fields["allowance"]) join.allowance = to_fixed(reading, *allowance, Least::at_least_0);
  if (const Value *use = fields["use"]) join.use = to_choice(reading, *use, uses);
  lay_over(reading, fields, job, join);
  if (const Value *segments = fields["segments"]) read.marks_known = read_segments(reading, *segments, join);
  if (join.segments.empty()) join.segments.emplace_back();
  return read;
}

} // namespace gatherwright::cli
