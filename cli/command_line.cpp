// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/command_line.hpp"

#include "cli/job/fault_list.hpp"
#include "cli/words/names.hpp"
#include "cli/words/quoted.hpp"
#include "gatherwright/nearest.hpp"

#include <CLI/App.hpp>
#include <CLI/Config.hpp>
#include <CLI/Formatter.hpp>
#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace gatherwright::cli {

namespace {

constexpr OptionForm json{"--json", "", "write JSON instead of text"};
constexpr OptionForm profile{"--profile", "", "with --json: fullness at stations along every join"};
constexpr OptionForm weight{"--weight", "W", R"(of the cloth: "165 g/m2", "4.4 oz/yd2" (150 g/m2))"};
constexpr OptionForm thickness{"--thickness", "T", R"(of the cloth, measured: "0.34 mm")"};
constexpr OptionForm bending_length{"--bending-length", "C", R"(of the cloth, measured: "2.3 cm")"};
constexpr OptionForm stitch{"--stitch", "S", R"(hole to hole: "4 mm"; or counted on the face: "8 / in" (4 mm))"};
constexpr OptionForm shrinks{"--shrinks", "", "steam shrinks the cloth, as it does wool: it takes more ease"};
constexpr OptionForm swatch{
    "--swatch", "C,T,A,B",
    R"(a gathered test strip cut C long, T long drawn up tight, good from A to B: "30 cm,3.4 cm,10 cm,16 cm"; T, or A and B, may be left out)"};
constexpr OptionForm swatch_stitch{"--swatch-stitch", "S", "of the test strip (as --stitch)"};
constexpr OptionForm threads{"--threads", "N,M", "stitch by the cloth's threads: N taken up, M passed"};
constexpr OptionForm count{"--count", "C", R"(threads of the cloth, for --threads: "18 / cm", "40 / in")"};

constexpr OptionForm strips{"--strips", "FILE", "write marking strips at true scale: .pdf or .svg"};
constexpr OptionForm sheet{"--sheet", "FILE", "write a worksheet to pin to the wall: .html or .pdf"};
constexpr OptionForm paper{"--paper", "a4|letter", "what they are printed on (a4)"};

constexpr OptionForm use{"--use", "skirt|curtain", "what the join is for (as a sleeve, a neck or a frill)"};

constexpr OptionForm unit{"--unit", "U", "of bare numbers and of what is printed: mm cm m in ft yd (cm)"};

constexpr std::array plan_arguments{OptionForm{"JOB", "", "the job file; - reads standard input", true}};
constexpr std::array plan_options{strips, sheet, paper, json, profile};

constexpr std::array join_arguments{OptionForm{"LONG", "", R"(the long edge: "52 cm", "24 3/4 in")", true},
                                    OptionForm{"BAND", "", "the edge it is sewn to", true}};
constexpr std::array join_options{
    weight,
    thickness,
    bending_length,
    shrinks,
    swatch,
    swatch_stitch,
    stitch,
    threads,
    count,
    OptionForm{"--rows", "N", "rows of gathering (2; 3 where it is gauged)"},
    OptionForm{"--parts", "N", "marks: so many equal parts"},
    OptionForm{"--apart", "D", "marks: no further apart than this on the band (6 cm, in halves)"},
    OptionForm{"--every", "D", "marks: at every D along the band"},
    OptionForm{"--fade", "A,B", "let the fullness fall away over A at the start and B at the end"},
    OptionForm{"--flat", "A,B", "leave A plain at the start of the band and B at its end"},
    OptionForm{"--closed", "", "a ring: its end meets its start"},
    OptionForm{
        "--unit", "U",
        "of bare numbers and of what is printed: mm cm m in ft yd (cm; in where LONG and BAND are both in inches)"},
    OptionForm{"--tape-step", "D", "smallest division marked on the tape (1 mm, or 1/16 in)"},
    OptionForm{"--kind", "K", "gather, gauge, draw, ease or flat (gather)"},
    use,
    strips,
    sheet,
    paper,
    json,
    profile};

constexpr std::array cast_arguments{
    OptionForm{"JOB", "", "the job file; - reads standard input", true},
    OptionForm{"MEASURES", "",
               "the list (CSV): a column wearer, then a column a measure of the job, as wrist or wrist [cm], and age",
               true}};
constexpr std::array cast_options{
    OptionForm{"--into", "DIR", "the folder for the plans and tables, new or empty"},
    OptionForm{"--threads", "N", "plan with so many threads at once (as many as the machine has)"},
    OptionForm{"--resume", "", "go on with a cast that was broken off"},
    OptionForm{"--strips", "", "write marking strips for each wearer too, as PDF"},
    OptionForm{"--sheet", "", "write a worksheet for each wearer too, as HTML"},
    paper};

constexpr std::array limits_options{
    OptionForm{"--weight", "W",
               R"(of the cloth: "165 g/m2", "4.4 oz/yd2" (150 g/m2); 60..400 for a table over weights)"},
    thickness,
    bending_length,
    shrinks,
    swatch,
    swatch_stitch,
    stitch,
    threads,
    count,
    use,
    OptionForm{"--study", "FILE", "what a list of gathered test strips (CSV) would change in the table over weights"},
    unit,
    json};

constexpr std::array start_arguments{OptionForm{"NAME", "", "which job; left out, they are listed", false}};

constexpr std::array forms{
    CommandForm{"plan", "plan a job file", plan_arguments, plan_options, "gatherwright plan smock.json"},
    CommandForm{"join", "plan one join without a file", join_arguments, join_options,
                R"(gatherwright join "52 cm" "22 cm" --weight "165 g/m2" --parts 4)"},
    CommandForm{"cast", "plan a job for every wearer of a list", cast_arguments, cast_options,
                "gatherwright cast smock.json chorus.csv --into chorus"},
    CommandForm{"limits",
                "how full a cloth can be gathered, and why",
                {},
                limits_options,
                R"(gatherwright limits --weight "165 g/m2" --thickness "0.34 mm")"},
    CommandForm{
        "start", "write a commented job to start from", start_arguments, {}, "gatherwright start cuff > cuff.json"},
};

constexpr std::array common{
    OptionForm{"--help", "", "show this"}, OptionForm{"--version", "", "show the version"},
    OptionForm{"--color", "WHEN", "auto, always or never (auto: on a terminal, unless NO_COLOR)"}};

bool is_option(std::string_view name) {
  return name.starts_with("-");
}

/// CLI11's view of the forms: everything is taken as text, checked and judged here.
struct Parser {
  CLI::App app{"", "gatherwright"};
  std::vector<std::pair<std::string_view, CLI::Option *>> options; ///< of the program and of every command

  Parser();
  void add(CLI::App &to, const OptionForm &form);
};

Parser::Parser() {
  app.set_help_flag();
  app.allow_extras();
  app.require_subcommand(0, 1);
  for (const OptionForm &form : common)
    add(app, form);
  for (const CommandForm &form : forms) {
    CLI::App &command = *app.add_subcommand(std::string(form.name));
    command.set_help_flag();
    command.allow_extras();
    for (const auto &own : {form.arguments, form.options, std::span<const OptionForm>(common)})
      for (const OptionForm &each : own)
        add(command, each);
  }
}

void Parser::add(CLI::App &to, const OptionForm &form) {
  const std::string name = form.name == "--help" ? "-h,--help" : std::string(form.name);
  const bool is_switch = is_option(form.name) && form.value.empty();
  CLI::Option *option = is_switch ? to.add_flag(name) : to.add_option(name);
  if (is_switch) option->disable_flag_override();
  // Taken as often as it comes, so that what is given twice can be told.
  option->multi_option_policy(CLI::MultiOptionPolicy::TakeAll);
  options.emplace_back(form.name, option);
}

const CommandForm *command_named(std::string_view name) {
  const auto found =
      std::find_if(forms.begin(), forms.end(), [&](const CommandForm &form) { return form.name == name; });
  return found == forms.end() ? nullptr : &*found;
}

std::vector<std::string> names_of(const CommandForm *command) {
  const std::span<const OptionForm> own = command == nullptr ? std::span<const OptionForm>() : command->options;
  std::vector<std::string> names;
  names.reserve(common.size() + own.size());
  for (const auto &each : {std::span<const OptionForm>(common), own})
    for (const OptionForm &form : each)
      names.emplace_back(form.name);
  return names;
}

std::string unknown_option(std::string_view given, const CommandForm *command) {
  const std::string_view name = given.substr(0, given.find('='));
  if (name.size() > 1 && (name[1] == '.' || (name[1] >= '0' && name[1] <= '9')))
    return option_fault(given, "a length is not negative", "leave the - out");
  const std::vector<std::string> known = names_of(command);
  if (const auto near = nearest(name, known))
    return option_fault(name, "there is no such option", fmt::format("write {}", *near));
  return option_fault(name, "there is no such option",
                      command == nullptr ? "gatherwright --help lists them"
                                         : fmt::format("gatherwright {} --help lists them", command->name));
}

std::string surplus(std::string_view given, const CommandForm &command) {
  if (command.arguments.empty())
    return option_fault(given, "this is one too many", fmt::format("{} takes only options", command.name));
  std::string takes;
  for (const OptionForm &argument : command.arguments)
    takes += fmt::format(" {}", argument.name);
  return option_fault(
      given, "this is one too many",
      fmt::format("{} takes{}; what has a space stands in quotes, as in \"52 cm\"", command.name, takes));
}

std::string no_such_command(std::string_view given) {
  std::vector<std::string> names;
  names.reserve(forms.size());
  for (const CommandForm &form : forms)
    names.emplace_back(form.name);
  if (const auto near = nearest(given, names))
    return option_fault(given, "there is no such command", fmt::format("write {}", *near));
  return option_fault(given, "there is no such command", fmt::format("write one of {}", fmt::join(names, ", ")));
}

/// Whatever stands where nothing is known: unknown options first, since what follows one may have been meant for it.
std::vector<std::string> faults_of_extras(const std::vector<std::string> &extras, const CommandForm *command) {
  std::vector<std::string> faults;
  for (const std::string &extra : extras)
    if (is_option(extra) && extra != "-" && extra != "--") faults.push_back(unknown_option(extra, command));
  if (!faults.empty() || extras.empty()) return faults;
  if (command == nullptr) return {no_such_command(extras.front())};
  for (const std::string &extra : extras)
    faults.push_back(surplus(extra, *command));
  return faults;
}

std::vector<std::string> missing(const Asked &asked) {
  std::vector<std::string> faults;
  for (const OptionForm &argument : asked.command->arguments)
    if (argument.needed && !asked.has(argument.name))
      faults.push_back(
          option_fault(argument.name, "it is missing",
                       fmt::format("write it after {}, as in {}", asked.command->name, asked.command->example)));
  return faults;
}

/// CLI11 stops at an option without its value and at a switch that is given one; it can find no other fault here.
std::string value_fault(const std::string &said) {
  if (const std::size_t end = said.find(" was given a disallowed flag override"); end != std::string::npos) {
    const std::string name = "--" + said.substr(0, end);
    return option_fault(name, "it takes no value", "write " + name + " alone");
  }
  return option_fault(said.substr(0, said.find(':')), "its value is missing", "write it after the option");
}

} // namespace

std::span<const CommandForm> commands() {
  return forms;
}

std::span<const OptionForm> common_options() {
  return common;
}

std::optional<std::string> Asked::value(std::string_view name) const {
  const auto found = values.find(name);
  return found == values.end() ? std::nullopt : std::optional(found->second);
}

std::variant<Asked, std::vector<std::string>> read_command_line(std::span<const std::string> arguments) {
  Parser parser;
  try {
    parser.app.parse(std::vector<std::string>(arguments.rbegin(), arguments.rend()));
  } catch (const CLI::ParseError &error) {
    return std::vector{value_fault(error.what())};
  }
  Asked asked;
  const std::vector<CLI::App *> given = parser.app.get_subcommands();
  if (!given.empty()) asked.command = command_named(given.front()->get_name());
  std::vector<std::string> faults = faults_of_extras(parser.app.remaining(true), asked.command);
  for (const auto &[name, option] : parser.options) {
    if (option->count() == 0) continue;
    const bool valued = !is_option(name) || option->get_type_size() > 0;
    if (valued && (option->count() > 1 || asked.has(name)))
      faults.push_back(option_fault(name, "it is given twice", "give it once"));
    asked.values[name] = valued ? option->results().front() : "";
  }
  asked.help = asked.has("--help");
  asked.version = asked.has("--version");
  if (asked.help || asked.version) return asked;
  if (faults.empty() && asked.command == nullptr)
    faults.push_back("gatherwright: no command is given; gatherwright --help lists them");
  if (faults.empty()) faults = missing(asked);
  if (!faults.empty()) return faults;
  return asked;
}

} // namespace gatherwright::cli
