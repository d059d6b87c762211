// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/outputs.hpp"

#include "cli/machine/file_place.hpp"
#include "cli/machine/whole_file.hpp"
#include "cli/words/names.hpp"
#include "cli/words/quoted.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace gatherwright::cli {

namespace {

using paper::PaperSize;

/// An option that asks for a file, the file, and the kinds that it can be of.
struct Output {
  std::string_view option;
  const std::optional<std::string> &path;
  std::span<const paper::Form> forms;
};

bool ends_with(std::string_view path, std::string_view ending) {
  const auto lower = [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; };
  return path.size() > ending.size() &&
         std::equal(ending.begin(), ending.end(), path.end() - static_cast<std::ptrdiff_t>(ending.size()),
                    [&](char a, char b) { return a == lower(b); });
}

const paper::Form *form_of(const Output &output, std::string_view path) {
  for (const paper::Form &form : output.forms)
    if (ends_with(path, form.ending)) return &form;
  return nullptr;
}

std::string ending_fault(const Output &output) {
  std::string endings;
  for (const paper::Form &form : output.forms)
    endings += fmt::format("{}{}", endings.empty() ? "" : " or ", form.ending);
  return option_fault(
      output.option, fmt::format("its file ends in {}", endings),
      fmt::format("write {} {}{}", output.option, output.option.substr(2), output.forms.front().ending));
}

Answer failed(const std::string &what, const std::vector<std::string> &written) {
  return machine_fault(written.empty() ? what : fmt::format("{}; {} is written", what, fmt::join(written, " and ")));
}

/// The size that --paper asks for, or its fault as a line.
Outcome<PaperSize, std::string> paper_of(const std::optional<std::string> &asked) {
  const std::string size = asked.value_or("a4");
  if (size == "a4") return PaperSize::a4;
  if (size == "letter") return PaperSize::letter;
  return option_fault(name_of<&OutputsAsked::paper>, "it is a4 or letter", "write --paper a4");
}

} // namespace

std::optional<std::string> nothing_to_lay(const Job &job) {
  const auto fault = paper::nothing_to_lay(job);
  if (!fault) return std::nullopt;
  return option_fault(name_of<&PlanRequest::layout>, fault->what, fault->instead);
}

Outcome<Outputs, std::vector<std::string>> outputs_of(const OutputsAsked &asked, const std::string &job,
                                                      const std::optional<std::string> &layout) {
  Outputs outputs;
  std::vector<std::string> faults;
  std::vector<Taken> taken = taken_by_job_and_answer(job);
  const Output all_outputs[] = {{name_of<&OutputsAsked::strips>, asked.strips, paper::strips_forms()},
                                {name_of<&OutputsAsked::sheet>, asked.sheet, paper::sheet_forms()},
                                {name_of<&PlanRequest::layout>, layout, paper::layout_forms()}};
  for (const Output &output : all_outputs) {
    const std::optional<std::string> &path = output.path;
    if (!path) continue;
    const paper::Form *const form = form_of(output, *path);
    const FilePlace place = place_of(*path);
    if (form == nullptr) {
      faults.push_back(ending_fault(output));
    } else if (const Taken *other = taken_at(taken, place)) {
      faults.push_back(option_fault(output.option, other->by, "write another name"));
    } else {
      outputs.files.push_back({form, *path});
      taken.push_back({place, "another output goes to the same file"});
    }
  }
  if (asked.every_mark) outputs.wanted.pins = report::Pins::every;
  const auto size = paper_of(asked.paper);
  if (size)
    outputs.wanted.size = *size;
  else
    faults.push_back(size.fault());
  if (!faults.empty()) return faults;
  return outputs;
}

Answer with_files(Answer answer, const Job &job, const Plan &plan, const Outputs &outputs) {
  struct Made {
    const std::string *path;
    std::string bytes;
  };
  std::vector<Made> made;
  for (const Outputs::File &file : outputs.files) {
    const std::string path = words::printable(file.path);
    if (const auto why = paper::why_not_made(*file.form, plan)) {
      answer.err += fmt::format("gatherwright: {} is not written: {}\n", path, *why);
      continue;
    }
    paper::PdfOutcome outcome = file.form->make(job, plan, outputs.wanted);
    if (!outcome) {
      const Fault &fault = outcome.fault();
      return machine_fault(
          fmt::format("{} cannot be made: {}{}{}", path, fault.what, fault.instead.empty() ? "" : "; ", fault.instead));
    }
    made.push_back({&file.path, *std::move(outcome)});
  }
  std::vector<std::string> written;
  for (const Made &file : made) {
    const std::string path = words::printable(*file.path);
    if (const auto why = write_whole_file(*file.path, file.bytes))
      return failed(fmt::format("{} cannot be written: {}", path, *why), written);
    written.push_back(path);
  }
  return answer;
}

} // namespace gatherwright::cli
