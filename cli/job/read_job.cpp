// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/job/read_job.hpp"

#include "cli/job/cloth.hpp"
#include "cli/job/fields.hpp"
#include "cli/job/job_lines.hpp"
#include "cli/job/join.hpp"
#include "cli/job/lengths.hpp"
#include "cli/job/piece.hpp"
#include "cli/job/side.hpp"
#include "cli/job/values.hpp"
#include "cli/words/quoted.hpp"
#include "gatherwright/defaults.hpp"

#include <unordered_set>

namespace gatherwright::cli {

namespace {

constexpr std::string_view keys[] = {"title",     "unit",   "tape_step", "allowance", "fabric", "gathering", "marks",
                                     "tolerance", "wearer", "measures",  "lengths",   "rules",  "joins",     "pieces"};

Length to_tape_step(Reading &reading, const Value &value) {
  const auto step = to_length(reading, value, Least::above_0);
  return step.value_or(default_tape_step(reading.unit));
}

std::optional<double> to_age(Reading &reading, const Value &value) {
  static constexpr std::string_view wearer_keys[] = {"age"};
  const Fields fields(reading, value, "a wearer", wearer_keys);
  const Value *age = fields["age"];
  return age ? to_number(reading, *age, 0, bounds::oldest, "34") : std::nullopt;
}

/// The unit, and what is measured by it.
void read_heading(Reading &reading, const Fields &fields, Job &job) {
  if (const Value *unit = fields["unit"]) reading.unit = to_unit(reading, *unit, Units::of_a_job).value_or(Unit::cm);
  job.unit = reading.unit;
  if (const Value *title = fields["title"]) job.title = to_text(reading, *title);
  job.tape_step = default_tape_step(job.unit);
  if (const Value *step = fields["tape_step"]) job.tape_step = to_tape_step(reading, *step);
  if (const Value *tolerance = fields["tolerance"]) job.tolerance = to_tolerance(reading, *tolerance);
  if (const Value *wearer = fields["wearer"]) job.wearer_age = to_age(reading, *wearer);
}

JobWide read_job_wide(Reading &reading, const Fields &fields, Job &job) {
  JobWide wide{{}, fields["fabric"] || !fields.meant("fabric"), {}, default_pin_marks(job.unit)};
  reading.names.cloth_width_left_out = !fields.meant("fabric");
  if (const Value *given = fields["fabric"]) {
    const ReadFabric fabric = to_fabric(reading, *given);
    wide.fabric = fabric.given;
    reading.names.cloth_width_left_out = !fabric.width_meant;
    wide.cloth_known = fabric.cloth_known && leaves_a_width(reading, *given, wide.fabric, wide.fabric);
  }
  if (const Value *gathering = fields["gathering"]) wide.gathering = to_gathering(reading, *gathering, {});
  job.fabric = fabric_of(wide.fabric);
  job.gathering = gathering_of(wide.gathering);
  return wide;
}

/// How far the joins are known by their names and marks.
struct JoinsKnown {
  std::vector<bool> marks; ///< of each
  bool all = false;        ///< no join is missing, or without its name
};

JoinsKnown read_joins(Reading &reading, const Value &value, const JobWide &wide, Job &job) {
  constexpr std::string_view such_as = R"([ { "name": "sleeve into cuff", "long": "52 cm", "band": "22 cm" } ])";
  if (value.kind != Value::Kind::list) {
    refuse_kind(reading, value, "a list of joins such as " + std::string(such_as));
    return {};
  }
  if (reading.document.children(value).empty())
    reading.fault(value, {"there is no join", "write at least one: " + std::string(such_as)});
  job.joins.reserve(static_cast<std::size_t>(reading.document.count(value)));
  std::unordered_set<std::string> names;
  std::size_t told = 0;
  JoinsKnown known;
  bool all_named = true;
  for (const Value &each : reading.document.children(value)) {
    if (reading.faults.full()) return known;
    ReadJoin read = to_join(reading, each, wide);
    Join &join = read.join;
    if (!join.name.empty() && !names.insert(join.name).second)
      reading.fault(*reading.document.child(each, "name"),
                    {"another join is called " + quoted(join.name), "give each its own name"});
    told += join.name.size() * join.segments.size();
    if (told > bounds::most_told) {
      reading.fault(*reading.document.child(each, "name"),
                    {"the names of the joins, told for each of their segments, come to more than " +
                         std::to_string(bounds::most_told) + " bytes",
                     "write shorter names"});
      return known;
    }
    all_named = all_named && !join.name.empty();
    known.marks.push_back(read.marks_known);
    job.joins.push_back(std::move(join));
  }
  known.all = all_named && !job.joins.empty();
  return known;
}

Job to_job(Reading &reading) {
  const Value &root = reading.document.root();
  const Fields fields(reading, root, "a job", keys);
  Job job;
  if (root.kind != Value::Kind::object) return job;
  read_heading(reading, fields, job);
  JobWide wide = read_job_wide(reading, fields, job);
  read_names(reading, fields["measures"], fields["lengths"], job.fabric.width, job);
  if (const Value *allowance = fields["allowance"]) job.allowance = to_fixed(reading, *allowance, Least::at_least_0);
  if (const Value *marks = fields["marks"]) wide.marks = to_pin_marks(reading, *marks).value_or(wide.marks);
  if (const Value *rules = fields["rules"]) read_rules(reading, *rules, job);
  JoinsKnown known;
  if (const Value *joins = fields.required(
          "joins",
          R"(write at least one: "joins": [ { "name": "sleeve into cuff", "long": "52 cm", "band": "22 cm" } ])"))
    known = read_joins(reading, *joins, wide, job);
  if (const Value *pieces = fields["pieces"]) {
    Sewable sewable(job.joins, std::move(known.marks), known.all);
    read_pieces(reading, *pieces, wide, sewable, job);
  }
  job.bare_lengths = reading.bare_lengths;
  return job;
}

} // namespace

Outcome<ReadJob, std::vector<InputFault>> read_job(std::shared_ptr<const Document> document, FaultList faults,
                                                   const Beside &beside) {
  Reading reading{*document, faults, Unit::cm, false, {}, beside};
  Job job = to_job(reading);
  if (faults.empty()) return ReadJob{std::move(job), std::move(document)};
  return std::move(faults).by_line();
}

Outcome<ReadJob, std::vector<InputFault>> read_job(std::string_view text, const Beside &beside) {
  struct Kept {
    std::string text; // which the document points into
    std::optional<Document> document;
  };
  const auto kept = std::make_shared<Kept>(Kept{std::string(text), {}});
  FaultList faults;
  kept->document = read_document(kept->text, faults);
  if (!kept->document) return std::move(faults).by_line();
  return read_job(std::shared_ptr<const Document>(kept, &*kept->document), std::move(faults), beside);
}

std::vector<InputFault> placed(const ReadJob &read, std::span<const Refusal> refusals) {
  const JobLines lines = lines_of(*read.document);
  std::vector<InputFault> faults;
  faults.reserve(refusals.size());
  for (const Refusal &refusal : refusals)
    faults.push_back(placed(read.job, lines, refusal));
  return faults;
}

} // namespace gatherwright::cli
