// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/page/papers.hpp"

#include "cli/job/read_job.hpp"
#include "cli/page/assets.hpp"
#include "cli/page/faults.hpp"
#include "cli/paper/forms.hpp"
#include "gatherwright/gatherwright.hpp"

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace gatherwright::page {

namespace {

using Json = nlohmann::ordered_json;
using paper::Form;

const Form &form_of(const Body &body, std::span<const Form> forms) {
  const auto wanted = body.text_if_any("form");
  for (const Form &form : forms)
    if (!wanted || form.ending == "." + *wanted) return form;
  throw BadBody("\"form\" is none that there is of this");
}

paper::PaperSize paper_of(const Body &body) {
  const std::string size = body.text_if_any("paper").value_or("a4");
  if (size != "a4" && size != "letter") throw BadBody("\"paper\" is a4 or letter");
  return size == "a4" ? paper::PaperSize::a4 : paper::PaperSize::letter;
}

JoinId join_of(const Json &given, const Job &job) {
  for (std::size_t j = 0; j < job.joins.size(); ++j)
    if (given == job.joins[j].name || given == j) return JoinId(static_cast<int>(j));
  throw BadBody("\"joins\" are names or numbers of joins");
}

std::optional<std::vector<JoinId>> joins_of(const Body &body, const Job &job) {
  const Json *const given = body.member("joins");
  if (given == nullptr || given->is_null()) return std::nullopt;
  if (!given->is_array()) throw BadBody("\"joins\" is no list");
  std::vector<JoinId> joins;
  for (const Json &each : *given)
    joins.push_back(join_of(each, job));
  return joins;
}

/// A fault of the job as a whole.
Reply nothing_made(const cli::ReadJob &read, std::string_view what, std::string_view instead) {
  return faults_told({{read.document->root().line, "", {std::string(what), std::string(instead)}}});
}

Reply file_of(const Body &body, const cli::Beside &beside, std::span<const Form> forms) {
  const Form &form = form_of(body, forms);
  const paper::PaperSize size = paper_of(body);
  const auto read = cli::read_job(body.text("text"), beside);
  if (!read) return faults_told(read.fault());
  const paper::Wanted wanted{.size = size, .joins = joins_of(body, read->job)};
  if (form.of == Form::Of::layouts)
    if (const auto nothing = paper::nothing_to_lay(read->job))
      return nothing_made(*read, nothing->what, nothing->instead);
  const bool is_sheet = form.of == Form::Of::anything;
  const PlanOutcome outcome =
      plan(read->job, {.profile = is_sheet, .outlines = form.of != Form::Of::layouts, .advice = true});
  if (!outcome) return faults_told(placed_faults(*read, outcome.fault()));
  if (const auto why = paper::why_not_made(form, *outcome))
    return nothing_made(*read, *why, "mend what is wrong first");
  auto made = form.make(read->job, *outcome, wanted);
  if (!made) return nothing_made(*read, "it cannot be made: " + made.fault().what, made.fault().instead);
  return {200, std::string(type_of(form.ending)), *std::move(made)};
}

} // namespace

Reply strips_file(const Body &body, const cli::Beside &beside) {
  return file_of(body, beside, paper::strips_forms());
}

Reply sheet_file(const Body &body, const cli::Beside &beside) {
  return file_of(body, beside, paper::sheet_forms());
}

Reply layout_file(const Body &body, const cli::Beside &beside) {
  return file_of(body, beside, paper::layout_forms());
}

} // namespace gatherwright::page
