// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/manual/offer.hpp"

#include "cli/start_jobs.hpp"
#include "gatherwright/kind.hpp"
#include "gatherwright/quantity.hpp"

#include <algorithm>

namespace gatherwright::cli::pages {

namespace {

Offer of_words(std::vector<std::string> words) {
  return {Offer::Kind::words, std::move(words)};
}

Offer of_units() {
  std::vector<std::string> units;
  for (const Unit unit : all_units)
    if (may_be_of_a_job(unit)) units.emplace_back(name(unit));
  return of_words(std::move(units));
}

Offer of_kinds() {
  std::vector<std::string> names;
  for (const KindRow &kind : kinds)
    names.emplace_back(kind.name);
  return of_words(std::move(names));
}

Offer of_start_jobs() {
  std::vector<std::string> names;
  for (const StartJob &job : start_jobs())
    names.emplace_back(job.name);
  return of_words(std::move(names));
}

Offer of_choices(std::string_view choices) {
  std::vector<std::string> words;
  for (std::size_t at = 0; at <= choices.size();) {
    const std::size_t end = std::min(choices.find('|', at), choices.size());
    words.emplace_back(choices.substr(at, end - at));
    at = end + 1;
  }
  return of_words(std::move(words));
}

} // namespace

Offer offer(const OptionForm &form) {
  const std::string_view called = is_option(form) ? form.value : form.name;
  if (called == "U") return of_units();
  if (called == "K") return of_kinds();
  if (called == "WHEN") return of_choices("auto|always|never");
  if (called == "NAME") return of_start_jobs();
  if (called.find('|') != std::string_view::npos) return of_choices(called);
  if (called == "FILE" || called == "JOB" || called.ends_with(".csv")) return {Offer::Kind::files, {}};
  if (called == "DIR") return {Offer::Kind::folders, {}};
  return {};
}

std::vector<OptionForm> all_options(const CommandForm &command) {
  std::vector<OptionForm> options(command.options.begin(), command.options.end());
  options.insert(options.end(), common_options().begin(), common_options().end());
  return options;
}

std::string joined(const std::vector<std::string> &words, std::string_view between) {
  std::string text;
  for (const std::string &word : words) {
    if (!text.empty()) text += between;
    text += word;
  }
  return text;
}

std::string in_quotes(std::string_view text, std::string_view inner) {
  std::string quoted = "'";
  for (const char c : text) {
    if (c == '\'')
      quoted += inner;
    else
      quoted += c;
  }
  return quoted + "'";
}

} // namespace gatherwright::cli::pages
