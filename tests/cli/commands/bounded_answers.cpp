// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/cli/commands/command_test.hpp"
#include "tests/cli/commands/shell.hpp"
#include "tests/cli/press/printed.hpp"
#include "tests/hostile_paper.hpp"

#include <catch2/catch.hpp>
#include <pugixml.hpp>

#include <algorithm>
#include <filesystem>
#include <string>
#include <string_view>

// Jobs that are hostile to paper, given to the real program: each is answered with its status, within a bound of
// memory, in files of a bounded size that say what is left out of them. Never how fast: the bench shows that.

using namespace gatherwright;
using command_test::Ran;
using command_test::shell;
using command_test::Written;
using gatherwright::tests::holds;

namespace {

#ifdef __SANITIZE_ADDRESS__ // which takes terabytes of addresses for itself
const std::string within_memory;
#else
/// Of addresses, which is more than what is used of them.
const std::string within_memory = "ulimit -v 500000; ";
#endif

constexpr std::size_t megabyte = 1'000'000;

struct Answered {
  int status = -1;
  std::string file; ///< what was written beside the answer
};

/// Plans a job with an output, which the answer says nothing of.
Answered with_file(const std::string &job, const std::string &option, const std::string &ending) {
  const Written written(job);
  const printed::Folder folder;
  const std::string file = folder.file("out" + ending);
  const Ran ran = shell(within_memory + "exec " + command_test::program() + " plan " + written.path() + " " + option +
                        " '" + file + "' 2>&1 >/dev/null");
  INFO(ran.said.substr(0, 500));
  CHECK(ran.said.empty());
  REQUIRE(std::filesystem::exists(file));
  return {ran.status, printed::contents(file)};
}

/// The words of a PDF, its lines and spaces as one space each.
std::string words_of(const std::string &pdf) {
  const printed::Folder folder;
  const std::string file = folder.file("read.pdf");
  std::ofstream(file, std::ios::binary) << pdf;
  const std::string text = printed::output_of("pdftotext '" + file + "' -");
  std::string words;
  for (const char c : text) {
    const bool space = c == ' ' || c == '\n' || c == '\f';
    if (!space)
      words += c;
    else if (!words.empty() && words.back() != ' ')
      words += ' ';
  }
  return words;
}

int pages_of(const std::string &pdf) {
  const printed::Folder folder;
  const std::string file = folder.file("read.pdf");
  std::ofstream(file, std::ios::binary) << pdf;
  return printed::pages(file);
}

std::size_t count(std::string_view text, std::string_view part) {
  std::size_t found = 0;
  for (std::size_t at = text.find(part); at != std::string_view::npos; at = text.find(part, at + part.size()))
    ++found;
  return found;
}

const std::string five_joins = hostile::joins_of_marks(5, 9999, 10'000);
const std::string tells_all = "to keep the sheet short; gatherwright plan --json tells all of them.";

} // namespace

TEST_CASE("a worksheet of five joins of thousands of marks has as many rows as there is room for, on pages") {
  const Answered sheet = with_file(five_joins, "--every-mark --sheet", ".pdf");
  CHECK(sheet.status == 0);
  CHECK(sheet.file.size() < 4 * megabyte);
  CHECK(pages_of(sheet.file) < 60);
  const std::string words = words_of(sheet.file);
  // Of 2,000 rows five are the joins'.
  CHECK(holds(words, "Marks 1995 to 9998 are left out here, " + tells_all));
  CHECK(holds(words, "4 more joins are left out here, from j1 on, " + tells_all));
}

TEST_CASE("a worksheet of five joins of thousands of marks has as many rows as there is room for, in HTML") {
  const Answered sheet = with_file(five_joins, "--every-mark --sheet", ".html");
  CHECK(sheet.status == 0);
  CHECK(sheet.file.size() < 8 * megabyte);
  CHECK(count(sheet.file, "<tr>") + count(sheet.file, "<tr ") < 20'100);
  CHECK(count(sheet.file, "<tr>") + count(sheet.file, "<tr ") > 9'999);
  // Of 20,000 rows five are the joins', so the second has no room to be whole.
  CHECK_FALSE(holds(sheet.file, "Marks 1"));
  CHECK(holds(sheet.file, "4 more joins are left out here, from j1 on, " + tells_all));
}

TEST_CASE("strips of thousands of marks close together are drawn up to a bound, in PDF and in SVG") {
  const std::string job = hostile::joins_of_marks(30, 9999);
  const std::string left_out = "are left out here";
  const Answered pdf = with_file(job, "--strips", ".pdf");
  CHECK(pdf.status == 0);
  CHECK(pdf.file.size() < 20 * megabyte);
  CHECK(pages_of(pdf.file) <= 201);
  const std::string words = words_of(pdf.file);
  CHECK(count(words, left_out) == 1);
  CHECK(holds(words, "This is as much paper as is drawn: mark them by the tape"));
  const Answered svg = with_file(job, "--strips", ".svg");
  CHECK(svg.status == 0);
  CHECK(svg.file.size() < 100 * megabyte);
  CHECK(count(svg.file, left_out) == 1);
}

TEST_CASE("edges of which even the half is too long are named on paper and not drawn") {
  const std::string far_too_long = hostile::joins_of_marks(5, 9999, 40'000);
  for (const char *ending : {".pdf", ".svg"}) {
    const Answered strips = with_file(far_too_long, "--strips", ending);
    CHECK(strips.status == 0);
    CHECK(strips.file.size() < megabyte);
    const std::string words = std::string_view(ending) == ".pdf" ? words_of(strips.file) : strips.file;
    CHECK(count(words, "This edge is too long for paper: mark it by the tape, from the table.") == 10);
  }
}

TEST_CASE("the text of a plan has twenty thousand rows of marks, and JSON has all of them, said in pieces") {
  const Written job(hostile::joins_of_marks(112, 9999));
  const std::string planning = within_memory + "exec " + command_test::program() + " plan " + job.path();
  const Ran text = shell(planning + " --every-mark 2>&1");
  CHECK(text.status == 0);
  CHECK(text.said.size() < 3 * megabyte);
  CHECK(count(text.said, "are left out here; gatherwright") == 110);
  // Hundreds of megabytes of JSON, which are not held.
  const Ran json = shell("{ " + planning + " --json; } 2>&1 | grep -c '\"n\": '");
  CHECK(json.said == std::to_string(112 * 9999) + "\n");
}

TEST_CASE("a name of twenty thousand accents is set by its beginning, whatever it is set on") {
  const std::string job = hostile::named(hostile::accented(20'000, "nd"));
  const std::string whole = hostile::accented(17);
  const std::string begins = hostile::accented(16) + "…";
  for (const char *option : {"--sheet", "--strips"}) {
    const Answered pdf = with_file(job, option, ".pdf");
    CHECK(pdf.status == 0);
    CHECK(pdf.file.size() < megabyte);
    CHECK(words_of(pdf.file).size() < 10'000);
  }
  for (const auto &[option, ending] : {std::pair("--sheet", ".html"), std::pair("--strips", ".svg")}) {
    const Answered marked_up = with_file(job, option, ending);
    CHECK(marked_up.status == 0);
    CHECK(marked_up.file.size() < megabyte);
    CHECK(holds(marked_up.file, begins));
    CHECK_FALSE(holds(marked_up.file, whole));
    pugi::xml_document parsed;
    CHECK(parsed.load_string(marked_up.file.c_str()));
  }
}

TEST_CASE("hundreds of joins with names of thousands of letters are answered by the beginnings of those") {
  const std::string job = hostile::joins_with_long_names(300, 15'000);
  for (const auto &[option, ending] : {std::pair("--sheet", ".pdf"), std::pair("--sheet", ".html"),
                                       std::pair("--strips", ".pdf"), std::pair("--strips", ".svg")}) {
    INFO(option << ending);
    const Answered made = with_file(job, option, ending);
    CHECK(made.status == 0);
    CHECK(made.file.size() < 20 * megabyte);
    CHECK_FALSE(holds(made.file, std::string(1001, 'n')));
  }
}

TEST_CASE("a cloth's name of megabytes is held once, however many joins and pieces are of that cloth") {
  const std::string job =
      R"({"fabric":{"weight":"165 g/m2","width":"150 cm","name":")" + std::string(4 * megabyte, 'l') +
      R"("},"joins":[)" + hostile::listed(40, [](int i) { return hostile::join(i, "50 cm", "25 cm"); }) +
      R"(],"pieces":[)" +
      hostile::listed(
          400, [](int i) { return R"({"name":"p)" + std::to_string(i) + R"(","across":"20 cm","along":"30 cm"})"; }) +
      "]}";
  const Answered made = with_file(job, "--sheet", ".html");
  CHECK(made.status == 0);
  CHECK(holds(made.file, std::string(100, 'l')));
  CHECK_FALSE(holds(made.file, std::string(1001, 'l')));
}

TEST_CASE("grain over a thousand curves is planned, and refused where its shear has too many pieces") {
  const auto planned = [](const std::string &text) {
    const Written job(text);
    return shell(within_memory + "exec " + command_test::program() + " plan " + job.path() + " 2>&1");
  };
  for (const int segments : {1, 20}) {
    const Ran ran = planned(hostile::humps_by_grain(1000, segments));
    CHECK(ran.status == 0);
    CHECK(holds(ran.said, "frill"));
  }
  const Ran refused = planned(hostile::humps_by_grain(30'000, 1));
  CHECK(refused.status == 2);
  CHECK(command_test::lines_of(refused.said).size() == 1);
  CHECK(holds(refused.said, "/joins/0/long/path: the edges to be eased or spread by the grain bend too often: their "
                            "shear has more than 100000 pieces; draw them with fewer curves, or spread it \"even\""));
}

TEST_CASE("a drawn edge of thousands of curves is drawn on paper within the bound") {
  std::string job = hostile::humps_by_grain(4000, 1);
  job.replace(job.find("\"spread\":\"grain\""), 16, "\"spread\":\"even\"");
  const Answered strips = with_file(job, "--strips", ".pdf");
  CHECK(strips.status == 0);
  CHECK(strips.file.size() < 20 * megabyte);
  CHECK(pages_of(strips.file) <= 201);
}

TEST_CASE("a job of too many marks in all is refused in one line") {
  const Written job(hostile::joins_of_marks(600, 9999));
  const Ran ran = shell(within_memory + "exec " + command_test::program() + " plan " + job.path() + " --json 2>&1");
  CHECK(ran.status == 2);
  REQUIRE(command_test::lines_of(ran.said).size() == 1);
  CHECK(holds(ran.said, "/joins/120: up to j120 the job would get more than 1200000 marks in all"));
}

TEST_CASE("a cast whose table would name thousands of measures for each of thousands of joins is refused") {
  const auto job = [](int measures, int joins) {
    const std::string made = hostile::listed(joins, [](int i) { return hostile::join(i, "52 cm", "22 cm"); });
    return "{\"measures\":{" +
           hostile::listed(measures, [](int i) { return "\"" + hostile::n("m", i) + "\":\"10 cm\""; }) +
           "},\"joins\":[" + made + "]}";
  };
  const Written list("wearer\nAnna\n");
  const auto cast = [&](const std::string &text) {
    const Written written(text);
    const printed::Folder folder;
    return shell(within_memory + "exec " + command_test::program() + " cast " + written.path() + " " + list.path() +
                 " --into '" + folder.file("out") + "' 2>&1");
  };
  const Ran refused = cast(job(5000, 5000));
  CHECK(refused.status == 2);
  REQUIRE(command_test::lines_of(refused.said).size() == 1);
  CHECK(holds(refused.said, "the names of the measures, told for each of the joins, come to more than 2000000 bytes a "
                            "wearer; cast it with fewer measures, or in parts"));
  CHECK(cast(job(30, 30)).status == 0);
}
