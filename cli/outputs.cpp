// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/outputs.hpp"

#include "cli/drawing/svg.hpp"
#include "cli/machine/file_place.hpp"
#include "cli/machine/whole_file.hpp"
#include "cli/sheet/sheet.hpp"
#include "cli/strip/strips.hpp"
#include "cli/words/names.hpp"
#include "cli/words/quoted.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace gatherwright::cli {

namespace {

using paper::PaperSize;
using paper::PdfOutcome;

PdfOutcome strips_pdf(const Job &job, const Plan &plan, PaperSize size) {
  return paper::pdf(paper::strips(job, plan, size));
}

PdfOutcome strips_svg(const Job &job, const Plan &plan, PaperSize size) {
  return paper::svg_file(paper::strips(job, plan, size));
}

PdfOutcome sheet_html(const Job &job, const Plan &plan, PaperSize) {
  return paper::sheet_html(job, plan);
}

constexpr std::array forms{
    OutputForm{"--strips", ".pdf", strips_pdf},
    OutputForm{"--strips", ".svg", strips_svg},
    OutputForm{"--sheet", ".html", sheet_html, false},
    OutputForm{"--sheet", ".pdf", paper::sheet_pdf, false},
};

bool ends_with(std::string_view path, std::string_view ending) {
  const auto lower = [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; };
  return path.size() > ending.size() &&
         std::equal(ending.begin(), ending.end(), path.end() - static_cast<std::ptrdiff_t>(ending.size()),
                    [&](char a, char b) { return a == lower(b); });
}

const OutputForm *form_of(std::string_view option, std::string_view path) {
  const auto found = std::find_if(forms.begin(), forms.end(), [&](const OutputForm &form) {
    return form.option == option && ends_with(path, form.ending);
  });
  return found == forms.end() ? nullptr : &*found;
}

std::string ending_fault(std::string_view option) {
  std::vector<std::string> examples;
  std::string endings;
  for (const OutputForm &form : forms) {
    if (form.option != option) continue;
    endings += fmt::format("{}{}", endings.empty() ? "" : " or ", form.ending);
    examples.push_back(fmt::format("{} {}{}", option, option.substr(2), form.ending));
  }
  return option_fault(option, fmt::format("its file ends in {}", endings), "write " + examples.front());
}

/// Every option that asks for a file, once.
std::vector<std::string_view> options() {
  std::vector<std::string_view> names;
  for (const OutputForm &form : forms)
    if (names.empty() || names.back() != form.option) names.push_back(form.option);
  return names;
}

Answer failed(const std::string &what, const std::vector<std::string> &written) {
  return machine_fault(written.empty() ? what : fmt::format("{}; {} is written", what, fmt::join(written, " and ")));
}

} // namespace

std::variant<PaperSize, std::string> paper_asked(const Asked &asked) {
  const std::string size = asked.value("--paper").value_or("a4");
  if (size == "a4") return PaperSize::a4;
  if (size == "letter") return PaperSize::letter;
  return option_fault("--paper", "it is a4 or letter", "write --paper a4");
}

std::variant<Outputs, std::vector<std::string>> outputs_asked(const Asked &asked) {
  Outputs outputs;
  std::vector<std::string> faults;
  std::vector<Taken> taken = taken_by_job_and_answer(asked.value("JOB").value_or(""));
  for (const std::string_view option : options()) {
    const std::optional<std::string> path = asked.value(option);
    if (!path) continue;
    const OutputForm *const form = form_of(option, *path);
    const FilePlace place = place_of(*path);
    if (form == nullptr) {
      faults.push_back(ending_fault(option));
    } else if (const Taken *other = taken_at(taken, place)) {
      faults.push_back(option_fault(option, other->by, "write another name"));
    } else {
      outputs.files.push_back({form, *path});
      taken.push_back({place, "another output goes to the same file"});
    }
  }
  const auto size = paper_asked(asked);
  if (const auto *fault = std::get_if<std::string>(&size))
    faults.push_back(*fault);
  else
    outputs.paper = std::get<PaperSize>(size);
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
    if (file.form->of_joins && plan.joins.empty()) {
      answer.err +=
          fmt::format("gatherwright: {} is not written: the rules conflict, so there is nothing to mark\n", path);
      continue;
    }
    PdfOutcome outcome = file.form->make(job, plan, outputs.paper);
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
