// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/cast/check_list.hpp"
#include "cli/machine/answer.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cstring>

using namespace gatherwright::cli;
using namespace gatherwright::cli::cast;

namespace {

constexpr std::string_view with_measures = R"({ "measures": { "wrist": "17 cm", "hand": "24 cm" },
  "lengths": { "cuff": "wrist + 5 cm" }, "joins": [ { "name": "n", "long": "52 cm", "band": "cuff" } ] })";
constexpr std::string_view without = R"({ "joins": [ { "name": "n", "long": "52 cm", "band": "22 cm" } ] })";

std::vector<std::string> faults_of(const std::string &list, std::string_view job) {
  const auto read = read_job(job);
  REQUIRE(static_cast<bool>(read));
  std::size_t at = 0;
  const ReadBytes bytes = [&](char *into, std::size_t most) {
    const std::size_t count = std::min(most, list.size() - at);
    std::memcpy(into, list.data() + at, count);
    at += count;
    return count;
  };
  std::vector<std::string> lines;
  for (const ListFault &fault : check_list("list", bytes, {"job", *read}).faults)
    lines.push_back(fault.line);
  return lines;
}

struct Told {
  std::string list;
  const char *line; ///< the whole of the one fault
  std::string_view job = with_measures;
};

} // namespace

TEST_CASE("a list of wearers is at fault where it is wrong, with what would be right") {
  const std::string in_utf8 = "; save the file as CSV in UTF-8";
  const std::vector<Told> all{
      // the header
      {"", "list:1: row 1: the list is empty; begin with a row that names the columns: wearer,wrist [cm]"},
      {"wearer,wrist\n", "list:1: row 1: there is no wearer below it; write a row a wearer"},
      {"wearer|wrist\nAnna|17\nBert|18\n",
       "list:1: row 1, column 1: the columns are parted by \"|\"; part them by commas, semicolons or tabs"},
      {"PK\x03\x04 and more", "list:1: row 1: this is a spreadsheet's own file and no text; "
                              "save the list from the spreadsheet as CSV in UTF-8"},
      {"name,wrist\nAnna,17\n", "list:1: row 1, column name: the first column is \"name\"; "
                                "it must be the wearers' names: write wearer"},
      {"wearer,,wrist\nAnna,,17\n", "list:1: row 1, column 2: the column has no name; name it, or leave it out"},
      {"wearer,wrist,wrist [mm]\nAnna,17,\n",
       "list:1: row 1, column wrist [mm]: the column \"wrist\" is there twice; leave one of them out"},
      {"wearer,wearer\nAnna,Anna\n",
       "list:1: row 1, column wearer: the column \"wearer\" is there twice; leave one of them out"},
      {"wearer,wrist [ml]\nAnna,17\n",
       "list:1: row 1, column wrist [ml]: \"ml\" is no unit; write one of mm, cm, m, in, ft, yd, nail, ell"},
      {"wearer,age [cm]\nAnna,7\n",
       "list:1: row 1, column age [cm]: an age has no unit of length; write age; it is in years"},
      {"wearer,wirst\nAnna,17\n", "list:1: row 1, column wirst: the job has no measure \"wirst\"; write wrist"},
      {"wearer,cuff\nAnna,17\n", "list:1: row 1, column cuff: \"cuff\" is a length of the job and no measure; "
                                 "leave it out; or make it one of the job's measures"},
      {"wearer,shoe size\nAnna,40\n", "list:1: row 1, column shoe size: the job has no measure \"shoe size\"; "
                                      "leave it out; or add it to the job's measures"},
      {"wearer,wrist\nAnna,17\n", "list:1: row 1, column wrist: the job has no measures; leave the column out",
       without},
      // cells
      {"wearer,wrist\nAnna,2 * 8 cm\n",
       "list:2: row 2, column wrist: a measure is one quantity, not a formula; write what it comes to"},
      {"wearer,wrist\nAnna,200 km\n", "list:2: row 2, column wrist: \"200 km\": km is no unit; "
                                      "write 200 and one of mm, cm, m, in, ft, yd, nail or ell"},
      {"wearer,wrist\nAnna,200000 m\n", "list:2: row 2, column wrist: this comes to more than 100 km; "
                                        "write the length of a piece of cloth"},
      {"wearer,age\nAnna,old\n", "list:2: row 2, column age: \"old\" is no age; write years, such as 34"},
      {"wearer,age\nAnna,nan\n", "list:2: row 2, column age: \"nan\" is no age; write years, such as 34"},
      {"wearer,age\nAnna,-1\n", "list:2: row 2, column age: \"-1\" is no one's age; write years from 0 to 150"},
      {"wearer,age\nAnna,151\n", "list:2: row 2, column age: \"151\" is no one's age; write years from 0 to 150"},
      {"wearer,wrist\nAnna\n", "list:2: row 2: it has 1 cell where the header has 2; "
                               "give every row as many; a text with a comma in it stands in quotes"},
      {"wearer,wrist\nAnna,17\nANNA,18\n", "list:3: row 3, column wearer: the name \"ANNA\" stands in line 2 too "
                                           "(capitals and small letters are one); give each a name of its own"},
      // names of files
      {"wearer,wrist\n,17\n", "list:2: row 2, column wearer: the wearer has no name; write one, for the plan's file"},
      {"wearer\n..\n", "list:2: row 2, column wearer: \"..\" cannot be a file's name; write the wearer's name"},
      {"wearer\na/b\n", "list:2: row 2, column wearer: \"a/b\" has a /, which cannot be in a file's name; "
                        "write a - in its place"},
      {"wearer\nwho?\n", "list:2: row 2, column wearer: \"who?\" has a ?, which cannot be in a file's name; "
                         "write a - in its place"},
      {"wearer\nAn\u00adna\n",
       "list:2: row 2, column wearer: \"An\\u00adna\" has a character that cannot be seen; take it out"},
      {"wearer\nAnna\u00a0\n",
       "list:2: row 2, column wearer: \"Anna\u00a0\" has a space before or after it that cannot "
       "be seen; take it out"},
      {"wearer\nAnna Maria\nANNA\u00a0MARIA\n",
       "list:3: row 3, column wearer: the name \"ANNA\u00a0MARIA\" stands in line 2 too "
       "(capitals and small letters are one); give each a name of its own"},
      {"wearer\ncom¹.x\n", "list:2: row 2, column wearer: \"com¹.x\" is the name of a device on some systems, "
                           "and no file can have it; write more of the name"},
      {"wearer\na\tb\n",
       "list:2: row 2, column wearer: \"a\\u0009b\" has a character that cannot be seen; take it out"},
      {"wearer\nCON\n", "list:2: row 2, column wearer: \"CON\" is the name of a device on some systems, "
                        "and no file can have it; write more of the name"},
      // what is no CSV
      {std::string("wearer\nA\0a\n", 11), "list:2: row 2, column wearer: there is a NUL in this cell"},
      {"wearer\n\xff\n", "list:2: row 2, column wearer: this is not UTF-8"},
      {"wearer\n\"Anna\n", "list:2: row 2, column wearer: the quote that begins this cell is never closed; "
                           "write \" after its last character"},
      {"wearer\n\"An\"na\n", "list:2: row 2, column wearer: there is text after the closing quote; "
                             "put all of the cell in quotes, a quote in it twice"},
      {"wearer\nAn\"na\n", "list:2: row 2, column wearer: there is a quote in a cell that does not begin with one; "
                           "put all of the cell in quotes, a quote in it twice: \"5' 10\"\"\""},
      {"wearer\nAn\rna\n",
       "list:2: row 2, column wearer: there is a carriage return by itself; end rows with CRLF or LF"},
  };
  for (const Told &told : all) {
    CAPTURE(told.list);
    const std::vector<std::string> lines = faults_of(told.list, told.job);
    REQUIRE(lines.size() == 1);
    const std::string line = told.line;
    CHECK(lines.front() == (line.find("; ") == std::string::npos ? line + in_utf8 : line));
  }
}

TEST_CASE("a name too long for a file is told with its length") {
  const auto lines = faults_of("wearer\n" + std::string(240, 'a') + "\n", without);
  REQUIRE(lines.size() == 1);
  CHECK(lines.front().ends_with("is too long for a file's name; write at most 239 bytes"));
  CHECK(faults_of("wearer\n" + std::string(239, 'a') + "\n", without).empty());
}

TEST_CASE("a list that is sound has no fault") {
  CHECK(faults_of("wearer,wrist [in],age\nAnna, 7 ,\nBert,,8\n", with_measures).empty());
  CHECK(faults_of("wearer\nAnna\n", without).empty());
}

TEST_CASE("a header of nothing but slips is read up to as many faults as are told") {
  const auto read = read_job(with_measures);
  CsvRow row{.row = 1, .line = 1, .cells = {{"wearer", 1}}, .faults = {}};
  row.cells.resize(5000, CsvCell{"waist", 1});
  std::vector<CsvFault> faults;
  const Header header = read_header(row, read->job, faults);
  CHECK(faults.size() == most_faults_told);
  CHECK(header.columns.size() == 1 + most_faults_told);
  CHECK(header.left_out == std::vector<int>{0, 1});
}

TEST_CASE("a list of more wearers than are kept in mind is refused where it passes them, and read no further") {
  const auto read = read_job(without);
  const NamedJob job{"job", *read};
  const std::string header = "wearer\n";
  // Rows without an end, made as they are asked for.
  long long wearers = 0;
  std::string waiting = header;
  const ReadBytes endless = [&](char *into, std::size_t most) {
    while (waiting.size() < most)
      waiting += std::to_string(++wearers) + "\n";
    std::memcpy(into, waiting.data(), most);
    waiting.erase(0, most);
    return most;
  };
  const CheckedList checked = check_list("list", endless, job);
  CHECK(checked.too_many);
  CHECK(checked.wearers == most_wearers);
  CHECK(checked.names.size() == static_cast<std::size_t>(most_wearers));
  REQUIRE(checked.faults.size() == 1);
  CHECK(checked.faults.front().line == "list:500002: row 500002: with this row the list has more than 500000 wearers; "
                                       "split it into several lists");
  CHECK(wearers < most_wearers + 20'000);
}
