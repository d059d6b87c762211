// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/cast/cast_run.hpp"
#include "cli/cast/progress.hpp"
#include "cli/cast/wearer_files.hpp"
#include "cli/job/read_job.hpp"
#include "cli/report/plan_json.hpp"
#include "tests/cli/cast/folder_test.hpp"
#include "tests/cli/commands/command_test.hpp"
#include "tests/where.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <map>
#include <sstream>

using namespace gatherwright;
using namespace gatherwright::cli;
using cast_test::files_in;
using cast_test::Folder;
using cast_test::smock;
using cast_test::text_of;
using command_test::lines_of;
using command_test::run;
using gatherwright::tests::holds;

namespace {

constexpr std::string_view header = "wearer,neck [mm],wrist [mm],hand [mm],head [mm],neck_to_tip [mm],chest [mm]\n";

/// The survey's people as wearers of the smock, in the order of the file.
std::vector<std::string> people() {
  std::istringstream file(text_of(test_data("ansur_sample.csv")));
  std::string line;
  std::getline(file, line);
  std::vector<std::string> rows;
  while (std::getline(file, line)) {
    std::istringstream cells(line);
    std::vector<std::string> of;
    for (std::string cell; std::getline(cells, cell, ',');)
      of.push_back(cell);
    // subject, neck at its base, wrist, hand, head, shoulder, chest
    rows.push_back(of[0] + of[1] + "," + of[3] + "," + of[4] + "," + of[5] + "," + of[8] + "," + of[9] + "," + of[13]);
  }
  return rows;
}

std::string list_of(const std::vector<std::string> &rows, std::size_t from = 0, std::size_t to = SIZE_MAX) {
  std::string text(header);
  for (std::size_t i = from; i < std::min(to, rows.size()); ++i)
    text += rows[i] + "\n";
  return text;
}

Answer cast_into(const std::string &job, const std::string &list, const std::string &into,
                 std::vector<std::string> more = {}) {
  std::vector<std::string> words{"cast", job, list, "--into", into};
  words.insert(words.end(), more.begin(), more.end());
  return run(words);
}

/// What `plan` says of the smock with its measures written anew: the text of the job is changed, nothing else.
std::string planned_alone(const std::string &row) {
  std::string text = text_of(smock);
  std::istringstream cells(row);
  std::string cell;
  std::getline(cells, cell, ',');
  for (const char *measure : {"neck", "wrist", "hand", "head", "neck_to_tip", "chest"}) {
    std::getline(cells, cell, ',');
    const std::string key = "\"" + std::string(measure) + "\": \"";
    const std::size_t at = text.find(key) + key.size();
    text.replace(at, text.find('"', at) - at, cell + " mm");
  }
  auto read = read_job(text);
  REQUIRE(static_cast<bool>(read));
  const Job &job = read->job;
  PlanOutcome outcome = plan(job);
  REQUIRE(static_cast<bool>(outcome));
  return report::plan_json(job, *outcome);
}

constexpr std::string_view small_job = R"({ "measures": { "wrist": "17 cm", "hand": "24 cm" },
  "lengths": { "cuff": "wrist + 5 cm", "mitten": "hand + 2 cm" },
  "joins": [ { "name": "sleeve into cuff", "long": "52 cm", "band": "cuff" } ] })";

} // namespace

TEST_CASE("everyone in a cast gets the plan that the job alone would give with those measures") {
  const Folder folder;
  std::vector<std::string> rows = people();
  REQUIRE(rows.size() == 200);
  rows.resize(60);
  const Answer answer = cast_into(smock, folder.with("people.csv", list_of(rows)), folder.in("out"));
  CHECK(answer.status == Status::not_within_limits);
  CHECK(answer.err.empty());
  long long within = 0;
  for (const std::string &row : rows) {
    const std::string plan = text_of(folder.in("out/" + row.substr(0, row.find(',')) + ".json"));
    CHECK(plan == planned_alone(row));
    within += nlohmann::json::parse(plan)["verdict"] == "within limits";
  }
  CHECK(files_in(folder.in("out")).size() == 63);
  CHECK(answer.out.starts_with("60 wearers: " + std::to_string(within) + " within limits, " +
                               std::to_string(60 - within) + " not.\n"));
}

TEST_CASE("the tables have a row a wearer and join, and a row a wearer, in the order of the list") {
  const Folder folder;
  const std::string job = folder.with("job.json", small_job);
  const std::string list = folder.with("list.csv", "wearer,wrist\nZoe,18\nAnna,\n\"=1+1, Bert\",40 cm\n");
  CHECK(cast_into(job, list, folder.in("out")).status == Status::not_within_limits);
  CHECK(lines_of(text_of(folder.in("out/cast.csv"))) ==
        std::vector<std::string>{"wearer,join,verdict,long,band,fullness,from_job",
                                 "Zoe,sleeve into cuff,within limits,52,23,2.2609,hand",
                                 "Anna,sleeve into cuff,within limits,52,22,2.3636,\"wrist; hand\"",
                                 "\"'=1+1, Bert\",sleeve into cuff,too scant,52,45,1.1556,hand"});
  CHECK(lines_of(text_of(folder.in("out/cut.csv"))) ==
        std::vector<std::string>{"wearer,cuff [cm],mitten [cm]", "Zoe,23,26", "Anna,22,26", "\"'=1+1, Bert\",45,26"});
}

TEST_CASE("a list parted by semicolons or tabs has decimal commas and the plans of the list with commas") {
  const Folder folder;
  const std::string job = folder.with("job.json", small_job);
  cast_into(job, folder.with("commas.csv", "wearer,wrist [cm],age\nZoe,17.5,8\n\"A;b\",18,\n"), folder.in("commas"));
  cast_into(job, folder.with("semicolons.csv", "wearer;wrist [cm];age;;\nZoe;17,5;8;;\n\"A;b\";18;;;\n;;;;\n"),
            folder.in("semicolons"));
  cast_into(job, folder.with("tabs.csv", "wearer\twrist [cm]\tage\nZoe\t17,5\t8\nA;b\t18\n\t\t\n"), folder.in("tabs"));
  for (const char *name : {"Zoe.json", "cast.csv", "cut.csv"}) {
    const std::string told = text_of(folder.in("commas/" + std::string(name)));
    CHECK_FALSE(told.empty());
    CHECK(text_of(folder.in("semicolons/" + std::string(name))) == told);
  }
  CHECK_FALSE(std::filesystem::exists(folder.in("tabs"))); // the second row lacks a cell, and that is told
}

TEST_CASE("figures of the cutting list are the tape's, as decimals in the job's unit") {
  const Folder folder;
  const std::string job =
      folder.with("job.json", R"({"unit": "in", "tape_step": "1/8 in", "measures": {"wrist": "7 in"},
                      "lengths": {"cuff": "wrist + 1 3/4 in", "sleeve": "2.5 * cuff"},
                      "joins": [{"name": "sleeve into cuff", "long": "sleeve", "band": "cuff"}]})");
  cast_into(job, folder.with("list.csv", "wearer,wrist\nZoe,7\n"), folder.in("out"));
  CHECK(lines_of(text_of(folder.in("out/cut.csv"))).at(0) == "wearer,cuff [in],sleeve [in]");
  CHECK(lines_of(text_of(folder.in("out/cut.csv"))).at(1) == "Zoe,8.75,21.875");
  CHECK(lines_of(text_of(folder.in("out/cast.csv"))).at(1) == "Zoe,sleeve into cuff,within limits,21.875,8.75,2.5,");
}

TEST_CASE("a measure taken from the job is told in the plan, the table and the summary") {
  const Folder folder;
  const std::string job = folder.with("job.json", small_job);
  const std::string list = folder.with("list.csv", "wearer,wrist [in],age\nAnna, 7 ,\nBert,,8\n");
  const Answer answer = cast_into(job, list, folder.in("out"));
  CHECK(answer.status == Status::within_limits);
  CHECK(answer.out.starts_with("2 wearers, all within limits.\n"));
  CHECK(holds(answer.out, "since their cells are empty\n  Bert: wrist\n"));
  CHECK(holds(answer.out, "since they have no column\n  hand 24 cm\n"));
  const auto anna = nlohmann::json::parse(text_of(folder.in("out/Anna.json")));
  const auto bert = nlohmann::json::parse(text_of(folder.in("out/Bert.json")));
  CHECK(anna["measures"]["wrist"].get<double>() == Approx(17.78));
  CHECK(bert["measures"]["wrist"] == 17.0);
  CHECK(anna["notes"][0] == "The measure hand is not this wearer's own but the job's, 24 cm.");
  CHECK(bert["notes"][0] == "The measure wrist is not this wearer's own but the job's, 17 cm.");
  CHECK(bert["notes"][1] == "The measure hand is not this wearer's own but the job's, 24 cm.");
}

TEST_CASE("an age brings the cautions of that age") {
  const Folder folder;
  const std::string job = folder.with("job.json", R"({ "wearer": { "age": 40 }, "measures": { "neck": "40 cm" },
    "joins": [ { "name": "hood", "long": "62 cm", "band": "neck", "segments": [ { "kind": "draw" } ] } ] })");
  cast_into(job, folder.with("list.csv", "wearer,age\nAnna,6\nBert,\n"), folder.in("out"));
  CHECK(holds(text_of(folder.in("out/Anna.json")), "For a child: no cord"));
  CHECK_FALSE(holds(text_of(folder.in("out/Bert.json")), "For a child"));
}

TEST_CASE("every fault of a list is told with row and column, and nothing is written") {
  const Folder folder;
  const std::string job = folder.with("job.json", small_job);
  const std::string list = folder.with("list.csv", "wearer,wrsit,wrist,cuff,wrist [cm],hand [ml]\n"
                                                   "Anna,1,\"17,5\",1,1,1\n"
                                                   "anna,1,17,1,1,1\n"
                                                   "../x,1,17 inches,1,1,1\n"
                                                   "Bert,1,17\n"
                                                   "Carl,1,5\" ,1,1,1\n");
  const Answer answer = cast_into(job, list, folder.in("out"));
  CHECK(answer.status == Status::unusable);
  CHECK(answer.out.empty());
  CHECK_FALSE(std::filesystem::exists(folder.in("out")));
  const std::vector<std::string> lines = lines_of(answer.err);
  const auto told = [&](std::string_view begins, std::string_view then) {
    for (const std::string &line : lines)
      if (line.starts_with(list + std::string(begins)) && holds(line, then)) return true;
    return false;
  };
  CAPTURE(answer.err);
  CHECK(lines.size() == 10);
  CHECK(told(":1: row 1, column wrsit: ", "the job has no measure \"wrsit\"; write wrist"));
  CHECK(told(":1: row 1, column cuff: ", "is a length of the job and no measure"));
  CHECK(told(":1: row 1, column wrist [cm]: ", "is there twice"));
  CHECK(told(":1: row 1, column hand [ml]: ", "\"ml\" is no unit"));
  CHECK(told(":2: row 2, column wrist: ", "17.5"));
  CHECK(told(":3: row 3, column wearer: ", "stands in line 2 too"));
  CHECK(told(":4: row 4, column wearer: ", "cannot be in a file's name"));
  CHECK(told(":4: row 4, column wrist: ", "in"));
  CHECK(told(":6: row 6, column wrist: ", "in quotes"));
  CHECK(told(":5: row 5: ", "it has 3 cells where the header has 6"));
}

TEST_CASE("what of the job comes to nothing with a wearer's measures is told with the row") {
  const Folder folder;
  const std::string job = folder.with("job.json", R"({ "measures": { "neck": "40 cm" },
    "lengths": { "edge": "72 cm - neck" }, "joins": [ { "name": "j", "long": "edge", "band": "15 cm" } ] })");
  const std::string list = folder.with("list.csv", "wearer,neck\nAnna,41\nBert,80\nCarl,72\n");
  const Answer answer = cast_into(job, list, folder.in("out"));
  CHECK(answer.status == Status::unusable);
  CHECK(answer.err == list + ":3: row 3: with these measures, " + job +
                          ":2: /lengths/edge: this comes to -8 cm; a length is never below 0\n" + list +
                          ":4: row 4: with these measures, " + job +
                          ":2: /joins/0/long: this comes to 0; a length above 0 is needed here\n");
  CHECK_FALSE(std::filesystem::exists(folder.in("out")));
}

TEST_CASE("the faults of the job itself are told before the list is looked at") {
  const Folder folder;
  const std::string job = folder.with("job.json", R"({"joins": [{"name": "x", "long": "sleeve", "band": "20 cm"}]})");
  const Answer answer = cast_into(job, folder.in("none.csv"), folder.in("out"));
  CHECK(answer.status == Status::unusable);
  CHECK(answer.err == job + ":1: /joins/0/long: \"sleeve\" is not known; no names are known\n");
  CHECK_FALSE(std::filesystem::exists(folder.in("out")));
}

TEST_CASE("a wearer's measure by which the job would divide by 0 is told with the row") {
  const Folder folder;
  const std::string job = folder.with("job.json", R"({ "measures": { "arm": "60 cm", "wrist": "17 cm" },
    "lengths": { "edge": "20 cm * arm / wrist" }, "joins": [ { "name": "j", "long": "edge", "band": "25 cm" } ] })");
  const std::string list = folder.with("list.csv", "wearer,arm,wrist\nAnna,60,17\nBert,60,0\n");
  const Answer answer = cast_into(job, list, folder.in("out"));
  CHECK(answer.status == Status::unusable);
  CHECK(answer.err == list + ":3: row 3: with these measures, " + job +
                          ":2: /lengths/edge: 20 cm * arm / wrist divides by 0; divide by something else\n");
  CHECK_FALSE(std::filesystem::exists(folder.in("out")));
}

TEST_CASE("a fault that only planning sees takes back what was written, and all are told") {
  const Folder folder;
  const std::string job = folder.with("job.json", R"({ "measures": { "wrist": "17 cm" },
    "joins": [ { "name": "j", "long": "3 * wrist", "band": "wrist", "segments": [
      { "kind": "flat", "long": "5 cm" }, { "spread": { "fade": ["4 cm", "4 cm"] } } ] } ] })");
  std::string text = "wearer,wrist\n";
  for (int i = 2; i <= 400; ++i)
    text += "w" + std::to_string(i) + (i == 300 || i == 350 ? ",12\n" : ",17\n");
  const std::string list = folder.with("list.csv", text);
  for (const char *threads : {"1", "3"}) {
    const Answer answer = cast_into(job, list, folder.in("out"), {"--threads", threads});
    CHECK(answer.status == Status::unusable);
    const std::vector<std::string> lines = lines_of(answer.err);
    REQUIRE(lines.size() == 2);
    CHECK(lines[0].starts_with(list + ":300: row 300: with these measures, " + job + ":3: /joins/0/segments/1/spread"));
    CHECK(lines[1].starts_with(list + ":350: row 350: "));
    CHECK_FALSE(std::filesystem::exists(folder.in("out")));
  }
  // Beside a fault of the list itself it is told as well.
  const std::string both = folder.with("both.csv", "wearer,wrist\nAnna,12\nBert,x\n");
  const Answer answer = cast_into(job, both, folder.in("out"));
  CHECK(lines_of(answer.err).size() == 2);
  CHECK(answer.err.starts_with(both + ":2: row 2: with these measures"));
  CHECK_FALSE(std::filesystem::exists(folder.in("out")));
}

TEST_CASE("at most twenty faults are told") {
  const Folder folder;
  std::string text = "wearer,wrist\n";
  for (int i = 0; i < 50; ++i)
    text += "w" + std::to_string(i) + ",x\n";
  const Answer answer = cast_into(folder.with("job.json", small_job), folder.with("list.csv", text), folder.in("out"));
  CHECK(answer.status == Status::unusable);
  CHECK(lines_of(answer.err).size() == 20);
}

TEST_CASE("the number of threads and a split of the list change no byte") {
  const Folder folder;
  std::vector<std::string> rows = people();
  rows.resize(30);
  const std::string list = folder.with("people.csv", list_of(rows));
  const Answer one = cast_into(smock, list, folder.in("one"), {"--threads", "1"});
  const auto whole = files_in(folder.in("one"));
  for (const char *threads : {"2", "5"}) {
    const std::string out = folder.in(std::string("by-") + threads);
    CHECK(cast_into(smock, list, out, {"--threads", threads}).status == one.status);
    CHECK(files_in(out) == whole);
  }
  cast_into(smock, folder.with("a.csv", list_of(rows, 0, 11)), folder.in("a"));
  cast_into(smock, folder.with("b.csv", list_of(rows, 11)), folder.in("b"));
  auto parts = files_in(folder.in("a"));
  for (const auto &[name, bytes] : files_in(folder.in("b"))) {
    if (!name.ends_with(".csv"))
      parts[name] = bytes;
    else
      parts[name] += bytes.substr(bytes.find('\n') + 1);
  }
  CHECK(parts == whole);
}

TEST_CASE("a folder must be new or empty, or the cast resumed with what it was begun with") {
  const Folder folder;
  const std::string job = folder.with("job.json", small_job);
  const std::string list = folder.with("list.csv", "wearer,wrist\nAnna,17\nBert,18\n");
  std::filesystem::create_directory(folder.in("out"));
  CHECK(cast_into(job, list, folder.in("out")).status == Status::within_limits);
  const auto whole = files_in(folder.in("out"));
  const Answer again = cast_into(job, list, folder.in("out"));
  CHECK(again.status == Status::unusable);
  CHECK(again.err.starts_with("--into: "));
  std::filesystem::remove(folder.in("out/Bert.json"));
  std::filesystem::remove(folder.in("out/cut.csv"));
  CHECK(cast_into(job, list, folder.in("out"), {"--resume"}).status == Status::within_limits);
  CHECK(files_in(folder.in("out")) == whole);
  CHECK(cast_into(job, list, folder.in("new/one"), {"--resume"}).status == Status::within_limits);

  std::filesystem::remove(folder.in("out/Anna.json"));
  auto before = files_in(folder.in("out"));
  const std::string other = folder.with("other.csv", "wearer,wrist\nAnna,17\nBert,19\n");
  const Answer altered = cast_into(job, other, folder.in("out"), {"--resume"});
  CHECK(altered.status == Status::unusable);
  CHECK(altered.err.starts_with(other + ":3: row 3: "));
  CHECK(files_in(folder.in("out")) == before);
  const std::string fewer = folder.with("fewer.csv", "wearer,wrist\nAnna,17\n");
  CHECK(holds(cast_into(job, fewer, folder.in("out"), {"--resume"}).err, "is there and no wearer of the list"));
  CHECK(files_in(folder.in("out")) == before);
}

TEST_CASE("what cannot be a list or a folder is told") {
  const Folder folder;
  const std::string job = folder.with("job.json", small_job);
  const std::string list = folder.with("list.csv", "wearer,wrist\nAnna,17\n");
  CHECK(run({"cast", job, list}).err.starts_with("--into: it is missing"));
  CHECK(cast_into(job, "-", folder.in("out")).status == Status::unusable);
  CHECK(cast_into(job, "/dev/null", folder.in("out")).status == Status::unusable);
  CHECK(cast_into(job, folder.in("none.csv"), folder.in("out")).status == Status::machine);
  CHECK(cast_into(job, folder.path(), folder.in("out")).status == Status::machine);
  CHECK(cast_into(job, list, folder.in("list.csv")).err.starts_with("--into: "));
  CHECK(cast_into(job, list, folder.in("out"), {"--threads", "0"}).err.starts_with("--threads: "));
  CHECK(holds(cast_into(job, folder.with("s.csv", "wearer|wrist\nA|1\n"), folder.in("out")).err, "are parted by"));
  CHECK(holds(cast_into(job, folder.with("e.csv", ""), folder.in("out")).err, "the list is empty"));
  CHECK(holds(cast_into(job, folder.with("h.csv", "wearer,wrist\n"), folder.in("out")).err, "there is no wearer"));
  CHECK_FALSE(std::filesystem::exists(folder.in("out")));
}

TEST_CASE("where a file or a folder cannot be made, written or read, a cast ends with one line of the machine's") {
  const Folder folder;
  const std::string job = folder.with("job.json", small_job);
  const std::string list = folder.with("list.csv", "wearer,wrist\nAnna,17\n");
  const auto fault = [&](const std::string &into, std::vector<std::string> more = {}) {
    const Answer answer = cast_into(job, list, into, std::move(more));
    CHECK(answer.status == Status::machine);
    CHECK(answer.out.empty());
    return answer.err;
  };
  CHECK(fault(list + "/out") == "gatherwright: " + list + "/out cannot be made: Not a directory\n");
  const std::string too_long = folder.in(std::string(300, 'x'));
  CHECK(fault(too_long) == "gatherwright: " + too_long + " cannot be read: File name too long\n");
  // A file whose first page the system will not give.
  CHECK(cast_into(job, "/proc/self/mem", folder.in("c")).err ==
        "gatherwright: /proc/self/mem cannot be read: Input/output error\n");
}

TEST_CASE("a list that is cut off while a cast goes on is told, and the tables are not written") {
  const Folder folder;
  std::string text = "wearer,wrist\n";
  for (int i = 0; i < 40000; ++i) // more than are planned before the first word of progress
    text += std::string(100, 'w') + std::to_string(i) + ",17\n";
  const std::string list = folder.with("list.csv", text);
  const auto read = read_job(small_job);
  bool cut = false;
  const Answer answer = cast::run_cast(
      {"job", *read}, {.list = list, .folder = folder.in("out"), .threads = 2, .resume = false, .paper = {}},
      [&](std::string_view) {
        cut = true;
        std::filesystem::resize_file(list, text.size() / 100);
      });
  REQUIRE(cut);
  CHECK(answer.status == Status::machine);
  CHECK(answer.err == "gatherwright: " + list + " was altered while it was read\n");
  CHECK_FALSE(std::filesystem::exists(folder.in("out/cast.csv")));
}

TEST_CASE("progress tells the count, the rate and the time left") {
  CHECK(cast::progress_line(1200, 10000, 0.25) == "1200 of 10000 wearers, 4800 a second, 2 s left");
  CHECK(cast::progress_line(10, 10000, 2) == "10 of 10000 wearers, 5 a second, 33 min 18 s left");
  CHECK(cast::progress_line(0, 5, 0) == "0 of 5 wearers");
}

TEST_CASE("the porters' chorus of the examples is within limits") {
  const Folder folder;
  const Answer answer = cast_into(smock, in_project("docs/examples/porters-chorus.csv"), folder.in("out"));
  CAPTURE(answer.out, answer.err);
  CHECK(answer.status == Status::within_limits);
  CHECK(files_in(folder.in("out")).size() == 15);
}

TEST_CASE("measures move fades, allowances and pins, and what they make no length is told with its row") {
  const auto job_with = [](const std::string &wrist) {
    return R"({ "allowance": "wrist / 17", "measures": { "wrist": ")" + wrist + R"(" },
      "joins": [
        { "name": "sleeve", "long": { "length": "52 cm", "ends": ["wrist / 10", "1 cm"] }, "band": "22 cm",
          "marks": { "apart": "wrist / 4" }, "segments": [ { "spread": { "fade": ["wrist / 5", "wrist - 15 cm"] } } ] },
        { "name": "cap", "band": "15 cm", "long": { "path": "M 0 200 A 200 200 0 0 1 200 0", "garment": "right",
          "allowance": "wrist - 16 cm" } } ] })";
  };
  const Folder folder;
  const std::string job = folder.with("job.json", job_with("17 cm"));
  const std::string list = folder.with("list.csv", "wearer,wrist\nann,17 cm\nbea,18 cm\n");
  CHECK(cast_into(job, list, folder.in("into")).status == Status::within_limits);
  for (const auto &[wearer, wrist] : {std::pair("ann", "17 cm"), std::pair("bea", "18 cm")}) {
    const std::string alone = folder.with(wearer, job_with(wrist));
    CHECK(text_of(folder.in("into") + "/" + wearer + ".json") == run({"plan", alone, "--json"}).out);
  }
  const std::string bad = folder.with("bad.csv", "wearer,wrist\nann,17 cm\ncy,14 cm\n");
  const Answer refused = cast_into(job, bad, folder.in("none"));
  CHECK(refused.status == Status::unusable);
  CHECK(holds(refused.err, "row 3"));
  CHECK(holds(refused.err, "/joins/0/segments/0/spread/fade: the fade at the end comes to -1 cm"));
  CHECK(holds(refused.err, "/joins/1/long/allowance: the allowance comes to -2 cm"));
  CHECK_FALSE(std::filesystem::exists(folder.in("none")));
}
