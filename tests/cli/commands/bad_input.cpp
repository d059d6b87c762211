// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/cli/commands/command_test.hpp"

#include "cli/job/read_job.hpp"
#include "cli/report/ink.hpp"
#include "cli/report/plan_json.hpp"
#include "cli/report/plan_text.hpp"
#include "tests/outcomes.hpp"
#include "tests/where.hpp"

#include <catch2/catch.hpp>

#include <array>
#include <ctime>
#include <fstream>
#include <iterator>
#include <string>
#include <variant>
#include <vector>

// Jobs broken in every place: whatever stands there, the job is planned or refused in words, and soon.

using namespace gatherwright;
using namespace gatherwright::cli;
using command_test::contents;

namespace {

bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

/// Whether a text holds a word by itself.
bool has_word(std::string_view text, std::string_view word) {
  for (std::size_t at = text.find(word); at != std::string_view::npos; at = text.find(word, at + 1)) {
    const std::size_t end = at + word.size();
    if ((at == 0 || !is_letter(text[at - 1])) && (end == text.size() || !is_letter(text[end]))) return true;
  }
  return false;
}

std::string wrong_with(const std::vector<InputFault> &faults) {
  if (faults.empty()) return "refused without a word";
  for (const InputFault &fault : faults)
    if (fault.fault.what.empty() || fault.line < 1) return "a fault without a word or a line";
  return {};
}

std::string wrong_with(const Job &job, const Plan &plan) {
  for (const std::string &text : {report::plan_text(job, plan, report::Ink{false}), report::plan_json(job, plan)}) {
    if (text.empty()) return "an empty plan";
    for (const char *word : {"nan", "inf"})
      if (has_word(text, word)) return std::string("a plan with ") + word;
  }
  return {};
}

/// Of what would save cloth there are tests of its own; of thousands of changed jobs it would take nearly all the time.
constexpr PlanSettings without_savings{.savings = false};

/// What a text gives that no text may give; empty where all is well.
std::string wrong_with(const std::string &text, const PlanSettings &settings = without_savings) {
  constexpr double longest = 10; // seconds of the processor's time: a layout that is hard to prove takes some
  const std::clock_t begun = std::clock();
  const auto read = read_job(text);
  std::string wrong;
  if (const auto *faults = tests::fault_in(read)) {
    wrong = wrong_with(*faults);
  } else {
    const ReadJob &job = *read;
    const PlanOutcome outcome = plan(job.job, settings);
    if (const auto *made = tests::value_in(outcome)) {
      wrong = wrong_with(job.job, *made);
    } else {
      wrong = wrong_with(placed(job, outcome.fault()));
    }
  }
  const double seconds = static_cast<double>(std::clock() - begun) / CLOCKS_PER_SEC;
  return wrong.empty() && seconds > longest ? "it took " + std::to_string(seconds) + " s" : wrong;
}

using Bytes = std::array<char, 6>;
constexpr Bytes braces{'{', '}', '[', ']', ':', ','};
constexpr Bytes quotes{'"', '\\', '/', '*', '(', '='};
constexpr Bytes figures{'-', '+', '.', '0', '1', '9'};
constexpr Bytes others{'e', ' ', '\n', '\0', '\x80', '\xff'}; // the last three begin no text

const std::string example = in_project("docs/examples/porters-smock.json");

#ifdef __SANITIZE_ADDRESS__
constexpr std::size_t share = 211; // one in so many is tried: with no factor in common with six
#else
constexpr std::size_t share = 29;
#endif

/// Puts each of the bytes in place of each byte of the example.
void replace_by(const Bytes &bytes) {
  const std::string text = contents(example);
  REQUIRE(text.size() > 1000);
  std::string broken = text;
  std::size_t way = 0;
  for (std::size_t at = 0; at < text.size(); ++at)
    for (const char byte : bytes) {
      if (way++ % share != 0) continue;
      broken[at] = byte;
      const std::string wrong = wrong_with(broken);
      if (!wrong.empty()) FAIL_CHECK("byte " << at << " replaced by " << static_cast<int>(byte) << ": " << wrong);
      broken[at] = text[at];
    }
}

/// The text with each of its numbers, one at a time, replaced by another; those in comments and names are left.
std::vector<std::string> with_numbers_replaced(const std::string &text, const std::string &number) {
  const auto is_figure = [&](std::size_t at) { return at < text.size() && text[at] >= '0' && text[at] <= '9'; };
  std::vector<std::string> replaced;
  for (std::size_t at = 0; at < text.size();) {
    if (text.compare(at, 2, "//") == 0) {
      at = std::min(text.find('\n', at), text.size());
    } else if (is_figure(at) && (at == 0 || (!is_letter(text[at - 1]) && text[at - 1] != '_'))) {
      std::size_t end = at;
      while (is_figure(end) || (text[end] == '.' && is_figure(end + 1)))
        ++end;
      replaced.push_back(text.substr(0, at) + number + text.substr(end));
      at = end;
    } else {
      ++at;
    }
  }
  return replaced;
}

/// Jobs that between them have a number in every place that takes one.
std::vector<std::string> jobs_full_of_numbers() {
  std::vector<std::string> jobs{contents(example),
                                contents(in_project("tests/schema/good/cord-and-counted-threads.json"))};
  for (const char *name : {"111-fabric-of-a-join", "122-neckline-and-cap", "51-swatch-whole", "67-fade-cap-bites",
                           "71-shape-hump", "83-drawn-with-allowance", "44-mirrored-inches", "105-gauged-wool"})
    jobs.push_back(contents(test_data(std::string("worked/") + name + ".job.json")));
  return jobs;
}

} // namespace

TEST_CASE("the example cut at any byte is refused or planned", "[broken]") {
  const std::string text = contents(example);
  for (std::size_t length = 0; length <= text.size(); length += share) {
    const std::string wrong = wrong_with(text.substr(0, length));
    if (!wrong.empty()) FAIL_CHECK("cut at byte " << length << ": " << wrong);
  }
}

TEST_CASE("the example with a brace or comma in place of any byte is refused or planned", "[broken]") {
  replace_by(braces);
}
TEST_CASE("the example with a quote or stroke in place of any byte is refused or planned", "[broken]") {
  replace_by(quotes);
}
TEST_CASE("the example with a figure or sign in place of any byte is refused or planned", "[broken]") {
  replace_by(figures);
}
TEST_CASE("the example with a space or what is no text in place of any byte is refused or planned", "[broken]") {
  replace_by(others);
}

TEST_CASE("jobs with any number at the edge of what numbers are, are refused or planned", "[broken]") {
  const std::string tiny = "0." + std::string(320, '0') + "1";
  const std::string huge(320, '9');
  const std::array numbers{std::string("1e-300"),
                           std::string("1e300"),
                           std::string("5e-324"),
                           std::string("1e999"),
                           std::string("-0"),
                           std::string("-1e-300"),
                           std::string("0"),
                           std::string("1e-7"),
                           std::string("0.000001"),
                           std::string("99999999"),
                           std::string("1e15"),
                           tiny,
                           huge,
                           std::string("4294967296"),
                           std::string("0.1234567890123456789012345")};
  std::size_t tried = 0;
  for (const std::string &job : jobs_full_of_numbers())
    for (const std::string &number : numbers)
      for (const std::string &text : with_numbers_replaced(job, number)) {
        if (tried++ % share != 0) continue;
        const std::string wrong = wrong_with(text, {.profile = true});
        if (!wrong.empty()) FAIL_CHECK(number << ": " << wrong << "\n" << text);
      }
  CHECK(tried > 3000);
}
