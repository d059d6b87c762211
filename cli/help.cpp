// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/commands.hpp"
#include "cli/report/plan_text.hpp"
#include "cli/words/columns.hpp"

#include <fmt/format.h>
#include <gsl/gsl_version.h>
#include <nlohmann/json_fwd.hpp>
#include <utf8proc.h>

#include <algorithm>

namespace gatherwright::cli {

namespace {

std::string left_side(const OptionForm &form) {
  return form.value.empty() ? std::string(form.name) : fmt::format("{} {}", form.name, form.value);
}

/// Names on the left, what they mean beside them.
class Listing {
public:
  void add(std::string left, std::string_view right) {
    width_ = std::max(width_, report::columns(left));
    rows_.emplace_back(std::move(left), right);
  }

  std::string lines() const {
    std::string text;
    const std::string rest(static_cast<std::size_t>(width_) + 4, ' ');
    for (const auto &[left, right] : rows_)
      text += report::wrapped(right, "  " + report::left_aligned(left, width_) + "  ", rest, report::text_width);
    return text;
  }

private:
  int width_ = 0;
  std::vector<std::pair<std::string, std::string>> rows_;
};

std::string options(std::span<const OptionForm> own) {
  Listing listing;
  for (const OptionForm &form : own)
    listing.add(left_side(form), form.help);
  for (const OptionForm &form : common_options())
    listing.add(left_side(form), form.help);
  return listing.lines();
}

std::string usage(const CommandForm &command) {
  std::string text(command.name);
  for (const OptionForm &argument : command.arguments)
    text += argument.needed ? fmt::format(" {}", argument.name) : fmt::format(" [{}]", argument.name);
  return text;
}

std::string program_help() {
  Listing listing;
  for (const CommandForm &form : commands()) {
    listing.add(usage(form), form.summary);
  }
  return "gatherwright plans gathers and ease for hand-made garments: how full each\n"
         "stretch comes out, whether the cloth takes it, and where to mark both edges.\n"
         "\n"
         "usage: gatherwright COMMAND ...\n"
         "\n" +
         listing.lines() +
         "\n"
         "Every command takes:\n" +
         options({}) +
         "\n"
         "gatherwright COMMAND --help says more.\n"
         "Exit status: 0 within limits, 1 planned but not within limits, 2 the job or the\n"
         "command line cannot be used, 3 something cannot be read or written.\n";
}

std::string command_help(const CommandForm &command) {
  Listing arguments;
  for (const OptionForm &argument : command.arguments)
    arguments.add(std::string(argument.name), argument.help);
  const std::string listed = arguments.lines();
  return fmt::format("gatherwright {}: {}\n\nusage: gatherwright {} [options]\n{}{}\n{}\nExample:\n  {}\n",
                     command.name, command.summary, usage(command), listed.empty() ? "" : "\n", listed,
                     options(command.options), command.example);
}

/// On one command, or on the program where there is none. No line is wider than 80 columns.
std::string help(const CommandForm *command) {
  return command == nullptr ? program_help() : command_help(*command);
}

/// "gatherwright 1.2.3", and on a line below it the libraries it was built with and their versions.
std::string version() {
  // GSL and utf8proc tell their own when running; of the others it is the version compiled with.
  const auto parted = [](int major, int minor, int patch) { return fmt::format("{}.{}.{}", major, minor, patch); };
  return fmt::format("gatherwright {}\nbuilt with Eigen {}, nlohmann_json {}, fmt {}; runs with GSL {}, utf8proc {}\n",
                     GATHERWRIGHT_VERSION, GATHERWRIGHT_EIGEN_VERSION,
                     parted(NLOHMANN_JSON_VERSION_MAJOR, NLOHMANN_JSON_VERSION_MINOR, NLOHMANN_JSON_VERSION_PATCH),
                     parted(FMT_VERSION / 10000, FMT_VERSION / 100 % 100, FMT_VERSION % 100), gsl_version,
                     utf8proc_version());
}

} // namespace

Answer answer(const HelpRequest &asked, const Voice &) {
  return {Status::within_limits, help(asked.command), {}};
}

Answer answer(const VersionRequest &, const Voice &) {
  return {Status::within_limits, version(), {}};
}

} // namespace gatherwright::cli
