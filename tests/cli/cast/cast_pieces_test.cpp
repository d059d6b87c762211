// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/cast/cast_run.hpp"
#include "cli/cast/csv.hpp"
#include "cli/cast/together.hpp"
#include "gatherwright/cutting.hpp"
#include "tests/cli/cast/folder_test.hpp"
#include "tests/cli/commands/command_test.hpp"
#include "tests/cli/report/sample_pieces.hpp"

#include <catch2/catch.hpp>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <cmath>

// Casts of jobs that say what is cut, made as values: each wearer's cloth, and all of them on one bolt.

using namespace gatherwright;
using namespace gatherwright::cli;
using cast_test::files_in;
using cast_test::Folder;
using cast_test::text_of;
using command_test::lines_of;
using gatherwright::tests::holds;
using nlohmann::json;

namespace {

/// "Anna, the elder" stands in quotes, and so does her name in a table.
constexpr std::string_view three = "wearer,wrist\nBert,19\n\"Anna, the elder\",17\nCid,21.5\n";

struct Stage : Folder {
  ReadJob read{sample::job_with_pieces(), {}};
  std::string list = with("list.csv", three);

  Answer cast(bool resume = false, int threads = 1) {
    return cast::run_cast({"job", read},
                          {.list = list, .folder = in("out"), .threads = threads, .resume = resume, .paper = {}}, {});
  }

  json plan_of(const std::string &wearer) const { return json::parse(text_of(in("out/" + wearer + ".json"))); }
};

/// The rows of a table, cell by cell, without its header.
std::vector<std::vector<std::string>> table_rows(const std::string &table) {
  std::size_t at = 0;
  cast::CsvReader reader([&](char *to, std::size_t most) {
    const std::size_t count = std::min(most, table.size() - at);
    table.copy(to, count, at);
    at += count;
    return count;
  });
  std::vector<std::vector<std::string>> rows;
  for (cast::CsvRow row; reader.next(row);) {
    std::vector<std::string> &cells = rows.emplace_back();
    for (const cast::CsvCell &cell : row.cells)
      cells.push_back(cell.text);
  }
  REQUIRE_FALSE(rows.empty());
  rows.erase(rows.begin());
  return rows;
}

std::string one_line(std::string text) {
  for (std::size_t at = text.find("\n    "); at != std::string::npos; at = text.find("\n    "))
    text.replace(at, 5, " ");
  return text;
}

} // namespace

TEST_CASE("a cast tells each wearer's cloth in the order of the list, as in the wearer's plan") {
  Stage stage;
  const Answer answer = stage.cast();
  REQUIRE(answer.err.empty());
  const std::string table = text_of(stage.in("out/cloth.csv"));
  CHECK(lines_of(table)[0] == "wearer,cloth,length [cm],bound [cm],buy");
  const auto rows = table_rows(table);
  REQUIRE(rows.size() == 3);
  const std::vector<std::string> wearers{"Bert", "Anna, the elder", "Cid"};
  for (std::size_t i = 0; i < wearers.size(); ++i) {
    const json cloth = stage.plan_of(wearers[i])["cloth"][0];
    CHECK(rows[i][0] == wearers[i]);
    CHECK(rows[i][1] == cloth["name"]);
    CHECK(std::stod(rows[i][2]) == Approx(cloth["length"].get<double>()).margin(5e-4));
    CHECK(std::stod(rows[i][3]) == Approx(cloth["bound"].get<double>()).margin(5e-4));
    CHECK(rows[i][4] == cloth["buy"]["text"]);
  }
  CHECK(holds(answer.out, "each one's cloth is in " + stage.in("out") + "/cloth.csv"));
}

TEST_CASE("a cast's cloth has the job's unit and an empty cell where it has no name") {
  Stage stage;
  stage.read.job.unit = Unit::in;
  stage.read.job.fabric.name = {};
  for (Piece &piece : stage.read.job.pieces) {
    piece.fabric.name = {};
    piece.fabric.sold_by = std::nullopt;
  }
  REQUIRE(stage.cast().err.empty());
  const std::string table = text_of(stage.in("out/cloth.csv"));
  CHECK(lines_of(table)[0] == "wearer,cloth,length [in],bound [in],buy");
  for (const auto &row : table_rows(table)) {
    CHECK(row[1].empty());
    CHECK(holds(row[4], " yd"));
  }
}

TEST_CASE("a cast says what all take cut one by one and laid together on one bolt") {
  Stage stage;
  const Answer answer = stage.cast();
  double one_by_one = 0;
  std::vector<WearersPieces> wearers;
  for (const char *wearer : {"Bert", "Anna, the elder", "Cid"}) {
    const json plan = stage.plan_of(wearer);
    one_by_one += std::ceil(plan["cloth"][0]["buy"]["exact"].get<double>() / 10 - 1e-6) / 10;
    WearersPieces &pieces = wearers.emplace_back();
    for (const json &piece : plan["pieces"])
      pieces.sizes.push_back(
          {10 * piece["cut_across"]["exact"].get<double>(), 10 * piece["cut_along"]["exact"].get<double>(), false});
  }
  const auto together = lay_together(stage.read.job, wearers);
  REQUIRE(together);
  const double bolt = std::ceil((*together)[0].buy / 100 - 1e-6) / 10;
  CHECK(holds(one_line(answer.out), fmt::format("washed linen: {:.1f} m cut one by one; {:.1f} m laid together on one "
                                                "bolt. The pieces take",
                                                one_by_one, bolt)));
  CHECK(bolt <= one_by_one + 1e-9);
}

TEST_CASE("a cast resumed has the cloth of those planned before too, and the same bytes in several threads") {
  Stage stage;
  const Answer first = stage.cast();
  const auto whole = files_in(stage.in("out"));
  std::filesystem::remove(stage.in("out/cloth.csv"));
  std::filesystem::remove(stage.in("out/Cid.json"));
  const Answer again = stage.cast(true, 4);
  CHECK(again.out == first.out);
  CHECK(files_in(stage.in("out")) == whole);
}

TEST_CASE("a cast resumed writes its cloth through no link") {
  Stage stage;
  stage.cast();
  std::filesystem::remove(stage.in("out/cloth.csv"));
  std::filesystem::create_symlink(stage.in("list.csv"), stage.in("out/cloth.csv"));
  CHECK(holds(stage.cast(true).err, "is a link, and nothing is written through one"));
  CHECK(text_of(stage.in("list.csv")) == three);
}

TEST_CASE("a job without pieces has no table of cloth and no word of it") {
  Stage stage;
  stage.read.job = sample::job();
  const Answer answer = stage.cast();
  REQUIRE(answer.err.empty());
  CHECK_FALSE(std::filesystem::exists(stage.in("out/cloth.csv")));
  CHECK_FALSE(holds(answer.out, "loth"));
  CHECK(files_in(stage.in("out")).size() == 5); // three plans, two tables
}

TEST_CASE("pieces of a cast that are too many to lay together are counted one by one alone") {
  Stage stage;
  stage.read.job.pieces.resize(1);
  stage.read.job.pieces[0].cut = 40;
  stage.read.job.pieces[0].along = Formula(Length{100});
  cast::Together together(stage.read.job);
  const cast::WearersCloth wearer{{{{540, 125, false}}}, {25}};
  for (int i = 0; i < 250; ++i)
    together.add(wearer);
  CHECK(together.wearers().size() == 250); // 10,000 pieces
  together.add(wearer);
  CHECK(together.wearers().empty());
  together.add(wearer);
  CHECK(together.wearers().empty());
  CHECK_FALSE(together.laid());
  CHECK(one_line(together.said(together.laid())) ==
        "  washed linen: 630 m cut one by one; more than 10000 pieces are too many to lay together.\n");
}

TEST_CASE("a wearer whose rules conflict takes no cloth and is laid with nobody") {
  Stage stage;
  const Cloths cloths = cloths_of(stage.read.job);
  Plan conflicting;
  conflicting.verdict = Verdict::rules_conflict;
  const cast::WearersCloth none = cast::cloth_of_wearer(cloths, conflicting);
  CHECK(none.pieces.sizes.empty());
  CHECK(none.steps == std::vector<double>{0});
  cast::Together together(stage.read.job);
  together.add(none);
  CHECK(together.said(together.laid()).empty());
}
