// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/commands.hpp"
#include "cli/from_options.hpp"
#include "cli/outputs.hpp"

#include "cli/words/quoted.hpp"
#include "gatherwright/quantity.hpp"

#include <array>

namespace gatherwright::cli {

namespace {

constexpr std::array join_keys{
    OptionOfKey{"/joins/0/long", "LONG"},
    OptionOfKey{"/joins/0/band", "BAND"},
    OptionOfKey{"/joins/0/closed", "--closed"},
    OptionOfKey{"/marks/parts", "--parts"},
    OptionOfKey{"/marks/apart", "--apart"},
    OptionOfKey{"/marks/every", "--every"},
    OptionOfKey{"/joins/0/segments/0/kind", "--kind"},
    OptionOfKey{"/joins/0/segments/1/kind", "--kind"},
    OptionOfKey{"/joins/0/segments/0/spread", "--fade"},
    OptionOfKey{"/joins/0/segments/1/spread", "--fade"},
    OptionOfKey{"/joins/0/segments/0/long", "--flat"},
    OptionOfKey{"/joins/0/segments/1/long", "--flat"},
    OptionOfKey{"/joins/0/segments/2/long", "--flat"},
    OptionOfKey{"/joins/0", "LONG, BAND"},
};

std::vector<OptionOfKey> keys() {
  std::vector<OptionOfKey> all(cloth_keys.begin(), cloth_keys.end());
  all.insert(all.end(), join_keys.begin(), join_keys.end());
  return all;
}

bool written_in_inches(std::string_view text) {
  const std::size_t end = text.find_last_not_of(' ');
  text = text.substr(0, end + 1);
  for (const std::string_view sign : {"in", "\"", "″", "”"})
    if (text.ends_with(sign)) return true;
  return false;
}

/// The unit asked for; inches where both lengths are written in them.
std::string unit_of(const Asked &asked) {
  if (const auto unit = asked.value("--unit")) return *unit;
  return written_in_inches(*asked.value("LONG")) && written_in_inches(*asked.value("BAND")) ? "in" : "cm";
}

void marks_from(report::JsonText &json, const Asked &asked, std::vector<std::string> &faults) {
  std::vector<std::string_view> given;
  for (const std::string_view option : {"--parts", "--apart", "--every"})
    if (asked.has(option)) given.push_back(option);
  for (std::size_t i = 1; i < given.size(); ++i)
    faults.push_back(
        option_fault(given[i], "the marks are already set by " + std::string(given.front()), "write one of them"));
  if (given.empty()) return;
  json.key("marks");
  json.open_object();
  if (given.front() == "--parts")
    number_from(json, asked, "--parts", "parts", faults);
  else
    text_from(json, asked, given.front(), given.front().substr(2));
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

void segments_from(report::JsonText &json, const Asked &asked, Unit unit, std::vector<std::string> &faults) {
  const auto flat = two_from(asked, "--flat", faults);
  const auto fade = two_from(asked, "--fade", faults);
  if (!flat && !fade && !asked.has("--kind")) return;
  json.key("segments");
  json.open_array();
  const bool plain_start = flat && !is_zero(flat->front(), unit);
  const bool plain_end = flat && !is_zero(flat->back(), unit);
  if (plain_start) flat_segment(json, "plain start", flat->front(), "plain ends");
  json.open_object();
  if (plain_start || plain_end) json.text_field("name", "between");
  if (plain_end) json.text_field("to", "plain begins");
  text_from(json, asked, "--kind", "kind");
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

std::string job_text(const Asked &asked, std::vector<std::string> &faults) {
  report::JsonText json;
  const std::string unit = unit_of(asked);
  json.open_object();
  json.text_field("unit", unit);
  text_from(json, asked, "--tape-step", "tape_step");
  fabric_from(json, asked, faults);
  json.key("gathering");
  json.open_object();
  stitch_from(json, asked, faults);
  number_from(json, asked, "--rows", "rows", faults);
  json.close();
  marks_from(json, asked, faults);
  json.key("joins");
  json.open_array();
  json.open_object();
  json.text_field("name", "this join");
  json.text_field("long", *asked.value("LONG"));
  json.text_field("band", *asked.value("BAND"));
  json.key("closed");
  json.truth(asked.has("--closed"));
  text_from(json, asked, "--use", "use");
  segments_from(json, asked, unit_named(unit).value_or(Unit::cm), faults);
  json.close();
  json.close();
  json.close();
  return json.take();
}

} // namespace

Answer join_command(const Asked &asked, const report::Ink &ink, const Surroundings &surroundings) {
  std::vector<std::string> faults;
  const std::string text = job_text(asked, faults);
  const std::vector<OptionOfKey> written_by = keys();
  auto read = read_from_options(text, written_by);
  if (const auto *more = std::get_if<std::vector<std::string>>(&read)) {
    faults.insert(faults.end(), more->begin(), more->end());
    return unusable(faults);
  }
  const auto outputs = outputs_asked(asked);
  if (const auto *more = std::get_if<std::vector<std::string>>(&outputs))
    faults.insert(faults.end(), more->begin(), more->end());
  if (!faults.empty()) return unusable(faults);
  const ReadJob &job = std::get<ReadJob>(read);
  const PlanOutcome outcome = plan(job.job, settings_asked(asked));
  if (const auto *made = std::get_if<Plan>(&outcome))
    return planned(job.job, *made, asked, std::get<Outputs>(outputs), ink, surroundings);
  for (const PlacedFault &fault : std::get<std::vector<PlacedFault>>(outcome))
    faults.push_back(fault_of_option(placed(job.lines, fault), written_by));
  return unusable(faults);
}

} // namespace gatherwright::cli
