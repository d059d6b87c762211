// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/command_line.hpp"
#include "cli/from_options.hpp"
#include "tests/cli/commands/command_test.hpp"
#include "tests/outcomes.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <random>

using namespace gatherwright::cli;

namespace {

using Words = std::vector<std::string>;

Request read(const Words &words) {
  const auto line = read_command_line(words);
  CAPTURE(words);
  REQUIRE(static_cast<bool>(line));
  return line->request;
}

template <class Asked> Asked read_as(const Words &words) {
  const Request request = read(words);
  REQUIRE(std::holds_alternative<Asked>(request));
  return std::get<Asked>(request);
}

/// Whatever may stand for a value, much of it like something else.
const Words odd_values{"52 cm",      "",        "-",    "--",    "-5", "-.5 cm", "-h",       "--json",
                       "--help",     "plan",    "a=b",  "=",     " ",  "x",      "\xff\xfe", "é",
                       "--weight=3", "60..400", "a\nb", "[1,2]", "{}", "true"};

const std::string &one_of(const Words &words, std::mt19937 &random) {
  return words[random() % words.size()];
}

/// A command with some of its options, each with some value, in no order; `arguments` stand by their places.
struct Written {
  const CommandForm *command = nullptr;
  std::vector<Given> options;
  Words arguments;
};

Written written(std::mt19937 &random) {
  Written made{&commands()[random() % commands().size()], {}, {}};
  for (const OptionForm &option : made.command->options)
    if (random() % 3 == 0) made.options.push_back({&option, is_switch(option) ? "" : one_of(odd_values, random)});
  for (const OptionForm &argument : made.command->arguments)
    if (argument.needed || random() % 2 == 0) made.arguments.push_back(one_of(odd_values, random));
  return made;
}

/// One option as it may be spelled.
Words spelled(const Given &given, std::mt19937 &random) {
  const std::string name(given.form->name);
  if (is_switch(*given.form)) return {name + one_of({"", "=", "=true"}, random)};
  if (!given.value.empty() && random() % 2 == 0) return {name + "=" + given.value};
  return {name, given.value};
}

/// The same again in another order: options in any, arguments in theirs, and behind "--" once one could be an option.
Words spelled(Written made, std::mt19937 &random) {
  std::shuffle(made.options.begin(), made.options.end(), random);
  Words words;
  if (random() % 4 == 0) words = {"--color", "never"};
  words.emplace_back(made.command->name);
  auto argument = made.arguments.begin();
  for (const Given &option : made.options) {
    if (argument != made.arguments.end() && !argument->starts_with("-") && random() % 2 == 0)
      words.push_back(*argument++);
    const Words one = spelled(option, random);
    words.insert(words.end(), one.begin(), one.end());
  }
  const auto is_dashed = [](const std::string &word) { return word.starts_with("-"); };
  if (std::any_of(argument, made.arguments.end(), is_dashed) || random() % 4 == 0) words.emplace_back("--");
  words.insert(words.end(), argument, made.arguments.end());
  return words;
}

/// What is in a request, as it was written: arguments first, options by name.
std::vector<std::pair<std::string_view, std::string>> sorted(std::vector<Given> given) {
  std::vector<std::pair<std::string_view, std::string>> all;
  for (const Given &each : given)
    all.emplace_back(each.form->name, each.value);
  std::sort(all.begin(), all.end());
  return all;
}

} // namespace

TEST_CASE("a request is the same in whatever order and spelling it is written, and holds what was written") {
  std::mt19937 random(7);
  for (int round = 0; round < 3000; ++round) {
    const Written made = written(random);
    const Words once = spelled(made, random);
    const Words again = spelled(made, random);
    CAPTURE(once, again);
    const Request request = read(once);
    CHECK(request == read(again));
    CHECK(&commands()[request.index() - 2] == made.command);
    std::vector<Given> wanted = made.options;
    for (std::size_t i = 0; i < made.arguments.size(); ++i)
      wanted.push_back({&made.command->arguments[i], made.arguments[i]});
    CHECK(sorted(given_in(request)) == sorted(wanted));
    CHECK(request_of(*made.command, given_in(request)) == request);
  }
}

TEST_CASE("whatever words are written, they are read or every fault is one line") {
  Words pool = odd_values;
  for (const CommandForm &command : commands()) {
    pool.emplace_back(command.name);
    for (const OptionForm &option : command.options)
      for (const char *more : {"", "=", "=1", "x"})
        pool.push_back(std::string(option.name) + more);
  }
  std::mt19937 random(8);
  int refused = 0;
  for (int round = 0; round < 3000; ++round) {
    Words words;
    for (auto left = random() % 8; left > 0; --left)
      words.push_back(one_of(pool, random));
    const auto line = read_command_line(words);
    const auto *faults = gatherwright::tests::fault_in(line);
    if (faults == nullptr) continue;
    ++refused;
    CAPTURE(words);
    CHECK_FALSE(faults->empty());
    for (const std::string &fault : *faults) {
      CHECK(fault.find(": ") != std::string::npos);
      CHECK(std::none_of(fault.begin(), fault.end(), [](char c) { return c >= 0 && c < ' '; }));
    }
  }
  CHECK(refused > 1000);
}

TEST_CASE("every option fills the member of its name") {
  const ClothAsked cloth{"t", "b", true, "w", "ws", "s", "th", "c"};
  const Words of_cloth{
      "--thickness", "t", "--bending-length", "b",  "--shrinks", "--swatch", "w", "--swatch-stitch", "ws",
      "--stitch",    "s", "--threads",        "th", "--count",   "c"};
  const OutputsAsked outputs{"st", "sh", "p", true, true, true};
  const Words of_outputs{"--strips", "st", "--sheet", "sh", "--paper", "p", "--every-mark", "--json", "--profile"};
  const auto with = [](Words words, std::vector<Words> more) {
    for (const Words &each : more)
      words.insert(words.end(), each.begin(), each.end());
    return words;
  };
  CHECK(read_as<PlanRequest>(with({"plan", "j", "--layout", "l"}, {of_outputs})) == PlanRequest{"j", "l", outputs});
  CHECK(read_as<JoinRequest>(with({"join",    "l",      "bd",      "--weight", "wt",      "--rows",      "r",
                                   "--parts", "pt",     "--apart", "a",        "--every", "e",           "--fade",
                                   "fd",      "--flat", "fl",      "--closed", "--unit",  "u",           "--tape-step",
                                   "ts",      "--kind", "k",       "--use",    "us",      "--allowance", "al"},
                                  {of_cloth, of_outputs})) == JoinRequest{"l", "bd", "wt", cloth, "r", "pt", "a", "e",
                                                                          "fd", "fl", true, "u", "ts", "k", "us", "al",
                                                                          outputs});
  CHECK(read_as<CastRequest>({"cast", "j", "m", "--into", "d", "--threads", "2", "--paper", "p", "--sheet"}) ==
        CastRequest{"j", "m", "d", "2", false, false, true, {}, "p"});
  CHECK(read_as<CastRequest>({"cast", "j", "m", "--resume", "--strips"}) ==
        CastRequest{"j", "m", {}, {}, true, true, false, {}, {}});
  CHECK(read_as<CastRequest>({"cast", "j", "m", "--layout", "l.svg"}) ==
        CastRequest{"j", "m", {}, {}, false, false, false, "l.svg", {}});
  CHECK(read_as<PageRequest>({"page", "j", "--port", "80", "--open", "never"}) == PageRequest{"j", "80", "never"});
  CHECK(read_as<PageRequest>({"page"}) == PageRequest{});
  CHECK(read_as<LimitsRequest>(with({"limits", "--weight", "wt", "--use", "us", "--study", "sy", "--unit", "u"},
                                    {of_cloth, {"--json"}})) == LimitsRequest{"wt", cloth, "us", "sy", "u", true});
  CHECK(read_as<StartRequest>({"start", "n"}) == StartRequest{"n"});
  CHECK(read_as<StartRequest>({"start"}) == StartRequest{});
  CHECK(read_as<HelpRequest>({"limits", "--help"}).command->name == "limits");
  CHECK(read_as<HelpRequest>({"-h"}).command == nullptr);
}

TEST_CASE("a table has a row for each member of its struct, and no two fill the same") {
  struct Three {
    std::string text;
    ClothAsked part;
    bool there = false;
  };
  CHECK(binding::members<Three>() == 3);
  CHECK(binding::members<ClothAsked>() == rows_of<ClothAsked>.size());
  CHECK(binding::members<CastRequest>() == rows_of<CastRequest>.size());
  CHECK(binding::members<StartRequest>() == 1);
  CHECK(binding::differ(rows_of<JoinRequest>));
  auto twice = rows_of<CastRequest>;
  twice[1].own = twice[0].own;
  CHECK_FALSE(binding::differ(twice));
}

TEST_CASE("what a job put together from options is blamed on are options that there are") {
  const auto taken = [](std::string_view name, std::string_view command) {
    for (const CommandForm &form : commands())
      if (form.name == command)
        for (const OptionForm &option : form.options)
          if (option.name == name) return true;
    return false;
  };
  for (const OptionOfKey &key : cloth_keys)
    for (const std::string &name : list_from(key.option)) {
      INFO(name);
      CHECK(taken(name, "join"));
      CHECK(taken(name, "limits"));
    }
}

TEST_CASE("after -- every word is an argument, and a dash or a number always is") {
  CHECK(read_as<PlanRequest>({"plan", "--json", "--", "--json"}).job == "--json");
  CHECK(read_as<PlanRequest>({"plan", "--", "--"}).job == "--");
  CHECK(read_as<PlanRequest>({"plan", "-"}).job == "-");
  CHECK(read_as<PlanRequest>({"--", "plan", "x"}).job == "x");
  CHECK(read_as<PlanRequest>({"plan", "plan"}).job == "plan");
  CHECK(read_as<JoinRequest>({"join", "52", "-22"}).band == "-22");
  CHECK(read_as<JoinRequest>({"join", "52", "22", "--flat", "--json"}).flat == "--json");
  CHECK(read_as<JoinRequest>({"join", "52", "22", "--flat=", "3"}).flat == "3");
  CHECK(read_as<JoinRequest>({"join", "52", "22", "--flat", ""}).flat == "");
}
