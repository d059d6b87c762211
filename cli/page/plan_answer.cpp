// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/page/plan_answer.hpp"

#include "cli/job/read_job.hpp"
#include "cli/page/faults.hpp"
#include "cli/page/tapes.hpp"
#include "cli/page/text/written.hpp"
#include "cli/report/json_text.hpp"
#include "cli/report/plan_json.hpp"
#include "cli/sheet/fragments.hpp"
#include "gatherwright/gatherwright.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <memory>
#include <utility>
#include <vector>

namespace gatherwright::page {

namespace {

using cli::InputFault;
using report::JsonText;

/// A job that was planned, or why it was not.
struct Planned {
  Job job;
  Plan plan;
};
using PlannedOutcome = Outcome<Planned, std::vector<InputFault>>;

/// Whether it is a slide that is not let go yet, with nothing in view that layouts are told in.
bool is_without_layouts(const PlanAsked &asked) {
  return asked.held && asked.seen && std::none_of(asked.seen->begin(), asked.seen->end(), [](std::string_view name) {
           return name.starts_with("cloth") || name == "notes";
         });
}

PlannedOutcome planned(std::shared_ptr<const cli::Document> document, cli::FaultList faults, const PlanAsked &asked) {
  auto read = cli::read_job(std::move(document), std::move(faults), asked.beside);
  if (!read) return std::move(read).fault();
  PlanOutcome outcome = plan(read->job, {.profile = true,
                                         .outlines = asked.width.has_value(),
                                         .layouts = !is_without_layouts(asked),
                                         .savings = !asked.held});
  if (outcome) return Planned{std::move(read->job), *std::move(outcome)};
  return placed_faults(*read, outcome.fault());
}

/// It is only compared with what this run of the program has sent.
std::string digest_of(std::string_view html) {
  return fmt::format("{:016x}", std::hash<std::string_view>{}(html));
}

void write_sheet(JsonText &json, const Planned &made, const PlanAsked &asked) {
  const auto leave = [&](std::string_view name) {
    return asked.seen && !asked.seen->contains(name) && asked.have.contains(name);
  };
  json.key("sheet");
  json.open_object();
  for (const paper::Fragment &fragment :
       paper::sheet_fragments(made.job, made.plan, *asked.width == Width::wide ? paper::wide : paper::narrow,
                              report::Pins::needed, leave)) {
    json.key(fragment.name);
    json.open_object(JsonText::Lay::one_line);
    if (fragment.html) {
      const std::string digest = digest_of(*fragment.html);
      json.text_field("digest", digest);
      const auto had = asked.have.find(fragment.name);
      if (had == asked.have.end() || had->second != digest) json.text_field("html", *fragment.html);
    }
    json.close();
  }
  json.close();
}

void write_written(JsonText &json, const cli::Document &document, std::string_view text) {
  const Written said = written(text, document);
  json.key("job");
  json.json(said.job);
  json.key("remarks");
  json.open_object();
  for (const auto &[pointer, remark] : said.remarks)
    json.text_field(pointer, remark);
  json.close();
}

} // namespace

std::string plan_answer(std::string_view text, const PlanAsked &asked) {
  cli::FaultList faults;
  auto found = cli::read_document(text, faults);
  if (!found) return faults_json(std::move(faults).by_line());
  const auto document = std::make_shared<const cli::Document>(*std::move(found));
  JsonText json;
  json.open_object();
  if (asked.text_told) json.text_field("text", text);
  const PlannedOutcome outcome = planned(document, std::move(faults), asked);
  write_faults(json, outcome ? std::vector<InputFault>{} : outcome.fault());
  write_written(json, *document, text);
  if (outcome) {
    json.key("plan");
    json.json(report::plan_json(outcome->job, outcome->plan, !asked.held));
    json.key("tapes");
    write_tapes(json, outcome->job, outcome->plan);
    json.key("rules");
    write_rules(json, outcome->job, outcome->plan);
    if (asked.width) write_sheet(json, *outcome, asked);
  }
  json.close();
  return json.take();
}

} // namespace gatherwright::page
