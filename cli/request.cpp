// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/request.hpp"

#include "cli/words/overloaded.hpp"

#include <algorithm>
#include <array>

namespace gatherwright::cli {

namespace {

/// The forms of a table alone.
template <class Asked> constexpr auto forms_of = [] {
  std::array<OptionForm, rows_of<Asked>.size()> forms;
  std::transform(rows_of<Asked>.begin(), rows_of<Asked>.end(), forms.begin(), [](const auto &row) { return row.form; });
  return forms;
}();

template <class Asked> constexpr CommandForm command_form() {
  const std::span<const OptionForm> forms(forms_of<Asked>);
  const auto first_option = std::find_if(forms.begin(), forms.end(), is_option);
  const auto arguments = static_cast<std::size_t>(first_option - forms.begin());
  const CommandWords &words = words_of<Asked>;
  return {words.name, words.summary, forms.first(arguments), forms.subspan(arguments), words.example};
}

void fill(Member member, const std::string &value) {
  std::visit(words::Overloaded{[](bool *there) { *there = true; }, [&](auto *text) { *text = value; }}, member);
}

/// What a member holds, if it is given.
std::optional<std::string> held(Member member) {
  return std::visit(words::Overloaded{
                        [](const std::string *text) { return std::optional(*text); },
                        [](const std::optional<std::string> *text) { return *text; },
                        [](const bool *there) { return *there ? std::optional<std::string>("") : std::nullopt; },
                    },
                    member);
}

template <class Asked> Asked filled(std::span<const Given> given) {
  Asked asked;
  for (const Given &each : given)
    for (std::size_t i = 0; i < forms_of<Asked>.size(); ++i)
      if (each.form == &forms_of<Asked>[i]) fill(rows_of<Asked>[i].member(asked), each.value);
  return asked;
}

template <class Asked> std::vector<Given> given_of(Asked asked) {
  std::vector<Given> given;
  for (std::size_t i = 0; i < forms_of<Asked>.size(); ++i)
    if (auto value = held(rows_of<Asked>[i].member(asked))) given.push_back({&forms_of<Asked>[i], *std::move(value)});
  return given;
}

std::vector<Given> given_of(const HelpRequest &) {
  return given_of(CommonAsked{.help = true, .version = false, .color = {}});
}

std::vector<Given> given_of(const VersionRequest &) {
  return given_of(CommonAsked{.help = false, .version = true, .color = {}});
}

template <class> struct Commands;
template <class... Asked> struct Commands<std::variant<HelpRequest, VersionRequest, Asked...>> {
  static constexpr std::array forms{command_form<Asked>()...};
  using Filled = Request (*)(std::span<const Given>);
  static constexpr std::array requests{
      Filled([](std::span<const Given> given) { return Request(filled<Asked>(given)); })...};
};

} // namespace

std::span<const CommandForm> commands() {
  return Commands<Request>::forms;
}

std::span<const OptionForm> common_options() {
  return forms_of<CommonAsked>;
}

Request request_of(const CommandForm &command, std::span<const Given> given) {
  return Commands<Request>::requests[static_cast<std::size_t>(&command - commands().data())](given);
}

CommonAsked common_of(std::span<const Given> given) {
  return filled<CommonAsked>(given);
}

std::vector<Given> given_in(const Request &request) {
  return std::visit([](const auto &asked) { return given_of(asked); }, request);
}

} // namespace gatherwright::cli
