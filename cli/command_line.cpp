// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/command_line.hpp"

#include "cli/words/quoted.hpp"
#include "gatherwright/nearest.hpp"

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

/// What stands on a command line, word by word.
struct Reading {
  struct Given {
    const OptionForm *form;
    std::string value;
  };
  const CommandForm *command = nullptr;
  std::vector<Given> given;
  std::vector<std::string> unknown; ///< options that there are not
  std::vector<std::string> surplus; ///< words that stand for nothing
  std::vector<std::string> faults;  ///< of values
  bool options_over = false;        ///< after "--" all words are arguments
  std::size_t arguments = 0;
};

bool is_option(std::string_view name) {
  return name.starts_with("-");
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
  if (std::find(known.begin(), known.end(), name) != known.end())
    return option_fault(name, "it stands before the command", fmt::format("write it after {}", command->name));
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
std::vector<std::string> faults_of_extras(const Reading &reading) {
  std::vector<std::string> faults;
  for (const std::string &option : reading.unknown)
    faults.push_back(unknown_option(option, reading.command));
  if (!faults.empty() || reading.surplus.empty()) return faults;
  if (reading.command == nullptr) return {no_such_command(reading.surplus.front())};
  for (const std::string &word : reading.surplus)
    faults.push_back(surplus(word, *reading.command));
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

/// Whether a word is an option, known or not. A dash alone, and a number or a space after it, are an argument's; so is
/// what no name begins with.
bool reads_as_option(std::string_view word) {
  constexpr std::string_view begins_no_name = "-! \n";
  if (!word.starts_with("-")) return false;
  const bool is_long = word.starts_with("--");
  word.remove_prefix(is_long ? 2 : 1);
  if (word.empty() || begins_no_name.find(word.front()) != std::string_view::npos) return false;
  return is_long || word.front() < '0' || word.front() > '9';
}

const OptionForm *form_named(std::string_view name, const CommandForm *command) {
  for (const auto &known : {command == nullptr ? std::span<const OptionForm>() : command->options, common_options()})
    for (const OptionForm &form : known)
      if (form.name == name) return &form;
  return nullptr;
}

void read_switch(Reading &reading, const OptionForm &form, std::string_view value) {
  if (value.empty() || value == "true")
    reading.given.push_back({&form, ""});
  else
    reading.faults.push_back(
        option_fault(form.name, "it takes no value", "write " + std::string(form.name) + " alone"));
}

/// An option, and the word after it where that is its value: how many words it took. "-h" is the one short name, and
/// whatever is written behind it asks for help all the same. With nothing after its "=" an option takes the next word.
std::size_t read_option(Reading &reading, std::span<const std::string> words) {
  const std::string_view word = words.front();
  const std::size_t equals = word.find('=');
  const bool short_help = word.starts_with("-h");
  const OptionForm *form = form_named(short_help ? "--help" : word.substr(0, equals), reading.command);
  if (form == nullptr) {
    reading.unknown.emplace_back(word);
    return 1;
  }
  const std::string_view value = short_help || equals == std::string_view::npos ? "" : word.substr(equals + 1);
  if (form->value.empty()) {
    read_switch(reading, *form, value);
    return 1;
  }
  if (value.empty() && words.size() < 2) {
    reading.faults.push_back(option_fault(form->name, "its value is missing", "write it after the option"));
    return 1;
  }
  reading.given.push_back({form, value.empty() ? words[1] : std::string(value)});
  return value.empty() ? 2 : 1;
}

void read_argument(Reading &reading, const std::string &word) {
  if (reading.command == nullptr && (reading.command = command_named(word)) != nullptr) return;
  if (reading.command != nullptr && reading.arguments < reading.command->arguments.size())
    reading.given.push_back({&reading.command->arguments[reading.arguments++], word});
  else if (!reading.options_over && is_option(word) && word != "-")
    reading.unknown.push_back(word);
  else
    reading.surplus.push_back(word);
}

Reading read_words(std::span<const std::string> words) {
  Reading reading;
  while (!words.empty()) {
    std::size_t read = 1;
    if (reading.options_over || !(words.front() == "--" || reads_as_option(words.front())))
      read_argument(reading, words.front());
    else if (words.front() == "--")
      reading.options_over = true;
    else
      read = read_option(reading, words);
    words = words.subspan(read);
  }
  return reading;
}

/// Every option that is given more than once, in the order of help.
std::vector<std::string> given_twice(const Reading &reading) {
  std::vector<std::string> faults;
  for (const auto &known :
       {reading.command == nullptr ? std::span<const OptionForm>() : reading.command->options, common_options()})
    for (const OptionForm &form : known) {
      const auto same = [&](const Reading::Given &given) { return given.form == &form; };
      if (std::count_if(reading.given.begin(), reading.given.end(), same) > 1)
        faults.push_back(option_fault(form.name, "it is given twice", "give it once"));
    }
  return faults;
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
  const Reading reading = read_words(arguments);
  Asked asked;
  asked.command = reading.command;
  for (const Reading::Given &given : reading.given)
    asked.values[given.form->name] = given.value;
  asked.help = asked.has("--help");
  asked.version = asked.has("--version");
  if (asked.help || asked.version) return asked;
  std::vector<std::string> faults = faults_of_extras(reading);
  faults.insert(faults.end(), reading.faults.begin(), reading.faults.end());
  for (std::string &fault : given_twice(reading))
    faults.push_back(std::move(fault));
  if (faults.empty() && asked.command == nullptr)
    faults.push_back("gatherwright: no command is given; gatherwright --help lists them");
  if (faults.empty()) faults = missing(asked);
  if (!faults.empty()) return faults;
  return asked;
}

} // namespace gatherwright::cli
