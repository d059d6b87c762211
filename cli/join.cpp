// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/from_options.hpp"
#include "cli/outputs.hpp"
#include "cli/planned.hpp"

#include "cli/words/quoted.hpp"
#include "gatherwright/quantity.hpp"
#include "gatherwright/text.hpp"

#include <array>

namespace gatherwright::cli {

namespace {

constexpr std::array join_keys{
    OptionOfKey{"/unit", name_of<&JoinRequest::unit>},
    OptionOfKey{"/allowance", name_of<&JoinRequest::allowance>},
    OptionOfKey{"/tape_step", name_of<&JoinRequest::tape_step>},
    OptionOfKey{"/fabric/weight", name_of<&JoinRequest::weight>},
    OptionOfKey{"/gathering/rows", name_of<&JoinRequest::rows>},
    OptionOfKey{"/joins/0/long", name_of<&JoinRequest::long_edge>},
    OptionOfKey{"/joins/0/band", name_of<&JoinRequest::band>},
    OptionOfKey{"/joins/0/closed", name_of<&JoinRequest::closed>},
    OptionOfKey{"/joins/0/use", name_of<&JoinRequest::use>},
    OptionOfKey{"/marks/parts", name_of<&JoinRequest::parts>},
    OptionOfKey{"/marks/apart", name_of<&JoinRequest::apart>},
    OptionOfKey{"/marks/every", name_of<&JoinRequest::every>},
    OptionOfKey{"/joins/0/segments/0/kind", name_of<&JoinRequest::kind>},
    OptionOfKey{"/joins/0/segments/1/kind", name_of<&JoinRequest::kind>},
    OptionOfKey{"/joins/0/segments/0/spread", name_of<&JoinRequest::fade>},
    OptionOfKey{"/joins/0/segments/1/spread", name_of<&JoinRequest::fade>},
    OptionOfKey{"/joins/0/segments/0/long", name_of<&JoinRequest::flat>},
    OptionOfKey{"/joins/0/segments/1/long", name_of<&JoinRequest::flat>},
    OptionOfKey{"/joins/0/segments/2/long", name_of<&JoinRequest::flat>},
    OptionOfKey{"/joins/0", "LONG, BAND"},
};

/// The last unit that a length is written in, where a job can be in it.
std::optional<Unit> last_unit(std::string_view text) {
  text = trimmed(text);
  for (const std::string_view sign : {"\"", "″", "”", "''", "’’", "′′"})
    if (text.ends_with(sign)) return Unit::in;
  for (const std::string_view sign : {"'", "’", "′"})
    if (text.ends_with(sign)) return Unit::ft;
  const std::size_t before = text.find_last_not_of("abcdefghijklmnopqrstuvwxyz");
  const auto unit = unit_named(text.substr(before == std::string_view::npos ? 0 : before + 1));
  return unit && may_be_of_a_job(*unit) ? unit : std::nullopt;
}

/// The unit asked for, or that of the long edge.
std::string unit_of(const JoinRequest &asked) {
  return asked.unit ? *asked.unit : std::string(name(last_unit(asked.long_edge).value_or(Unit::cm)));
}

void marks_from(report::JsonText &json, const JoinRequest &asked, std::vector<std::string> &faults) {
  std::vector<std::string_view> given;
  if (asked.parts) given.push_back(name_of<&JoinRequest::parts>);
  if (asked.apart) given.push_back(name_of<&JoinRequest::apart>);
  if (asked.every) given.push_back(name_of<&JoinRequest::every>);
  for (std::size_t i = 1; i < given.size(); ++i)
    faults.push_back(
        option_fault(given[i], "the marks are already set by " + std::string(given.front()), "write one of them"));
  if (given.empty()) return;
  json.key("marks");
  json.open_object();
  if (asked.parts)
    number_from(json, "parts", asked.parts, name_of<&JoinRequest::parts>, faults);
  else if (asked.apart)
    text_from(json, "apart", asked.apart);
  else
    text_from(json, "every", asked.every);
  json.close();
}

bool is_zero(const std::string &text, Unit unit) {
  const auto length = read_length(text, unit);
  return length && length->mm == 0;
}

void flat_segment(report::JsonText &json, std::string_view name, const std::string &length, std::string_view to) {
  json.open_object();
  json.text_field("name", name);
  json.text_field("kind", "flat");
  json.text_field("long", length);
  if (!to.empty()) json.text_field("to", to);
  json.close();
}

void segments_from(report::JsonText &json, const JoinRequest &asked, Unit unit, std::vector<std::string> &faults) {
  const auto flat = two_from(asked.flat, name_of<&JoinRequest::flat>, faults);
  const auto fade = two_from(asked.fade, name_of<&JoinRequest::fade>, faults);
  if (!flat && !fade && !asked.kind) return;
  json.key("segments");
  json.open_array();
  const bool plain_start = flat && !is_zero(flat->front(), unit);
  const bool plain_end = flat && !is_zero(flat->back(), unit);
  if (plain_start) flat_segment(json, "plain start", flat->front(), "plain ends");
  json.open_object();
  if (plain_start || plain_end) json.text_field("name", "between");
  if (plain_end) json.text_field("to", "plain begins");
  text_from(json, "kind", asked.kind);
  if (fade) {
    json.key("spread");
    json.open_object();
    json.key("fade");
    json.open_array();
    json.text(fade->front());
    json.text(fade->back());
    json.close();
    json.close();
  }
  json.close();
  if (plain_end) flat_segment(json, "plain end", flat->back(), "");
  json.close();
}

std::string job_text(const JoinRequest &asked, std::vector<std::string> &faults) {
  report::JsonText json;
  const std::string unit = unit_of(asked);
  json.open_object();
  json.text_field("unit", unit);
  text_from(json, "tape_step", asked.tape_step);
  text_from(json, "allowance", asked.allowance);
  fabric_from(json, asked.weight, asked.cloth, faults);
  json.key("gathering");
  json.open_object();
  stitch_from(json, asked.cloth, faults);
  number_from(json, "rows", asked.rows, name_of<&JoinRequest::rows>, faults);
  json.close();
  marks_from(json, asked, faults);
  json.key("joins");
  json.open_array();
  json.open_object();
  json.text_field("name", "this join");
  json.text_field("long", asked.long_edge);
  json.text_field("band", asked.band);
  json.key("closed");
  json.truth(asked.closed);
  text_from(json, "use", asked.use);
  segments_from(json, asked, unit_named(unit).value_or(Unit::cm), faults);
  json.close();
  json.close();
  json.close();
  return json.take();
}

} // namespace

Answer answer(const JoinRequest &asked, const Voice &voice) {
  std::vector<std::string> faults;
  const std::string text = job_text(asked, faults);
  const std::vector<OptionOfKey> written_by = with_cloth_keys(join_keys);
  auto read = read_from_options(text, written_by);
  if (!read) faults.insert(faults.end(), read.fault().begin(), read.fault().end());
  const auto outputs = outputs_of(asked.outputs, "");
  if (!outputs) faults.insert(faults.end(), outputs.fault().begin(), outputs.fault().end());
  if (!faults.empty()) return unusable(faults);
  const PlanOutcome outcome = plan(read->job, settings_for(asked.outputs));
  if (outcome) return planned(read->job, *outcome, asked.outputs, *outputs, voice);
  for (const InputFault &fault : placed(*read, outcome.fault()))
    faults.push_back(fault_of_option(fault, written_by));
  return unusable(faults);
}

} // namespace gatherwright::cli
