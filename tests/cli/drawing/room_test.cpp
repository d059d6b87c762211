// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/drawing/clip.hpp"
#include "cli/sheet/sheet.hpp"
#include "cli/sheet/sheet_content.hpp"
#include "cli/strip/strips.hpp"
#include "tests/cli/sheet/sheet_jobs.hpp"
#include "tests/good_jobs.hpp"
#include "tests/hostile_paper.hpp"
#include "tests/made_job.hpp"
#include "tests/outcomes.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <random>

using namespace gatherwright;
using namespace gatherwright::paper;

namespace {

using report::Pins;

using sheet_jobs::planned;
using sheet_jobs::Planned;

const std::string tells_all = ", to keep the sheet short; gatherwright plan --json tells all of them.";

std::size_t rows(const paper::SheetTable &table) {
  return table.table.cells().size();
}

/// All words of a page, one line a text.
void gather_texts(const std::vector<Item> &items, std::string &into) {
  for (const Item &item : items) {
    if (const auto *text = std::get_if<Text>(&item.is)) (into += text->says) += '\n';
    if (const auto *group = std::get_if<Group>(&item.is)) gather_texts(group->items, into);
  }
}

std::string texts(const Document &document) {
  std::string all;
  for (const Page &page : document.pages)
    gather_texts(page.items, all);
  return all;
}

std::size_t count(std::string_view text, std::string_view part) {
  std::size_t found = 0;
  for (std::size_t at = text.find(part); at != std::string_view::npos; at = text.find(part, at + part.size()))
    ++found;
  return found;
}

std::size_t points_in(const std::vector<Item> &items) {
  std::size_t sum = 0;
  for (const Item &item : items) {
    if (const auto *line = std::get_if<Line>(&item.is)) sum += line->points.size();
    if (const auto *group = std::get_if<Group>(&item.is)) sum += points_in(group->items);
  }
  return sum;
}

Document strips_of_job(const std::string &text) {
  const Job job = tests::job_of(text);
  return strips(job, tests::plan_of(job, {.outlines = true}), PaperSize::a4);
}

/// A sum over pieces of lines that does not hang on how they are cut: their length, and its moments.
struct Ink {
  double length = 0;
  double x = 0;
  double y = 0;

  void add(Point from, Point to) {
    const double piece = std::hypot(to.x - from.x, to.y - from.y);
    length += piece;
    x += piece * (from.x + to.x) / 2;
    y += piece * (from.y + to.y) / 2;
  }
};

Ink ink_of(const std::vector<Item> &items) {
  Ink ink;
  for (const Item &item : items) {
    const Line &line = std::get<Line>(item.is);
    for (std::size_t i = 1; i < line.points.size(); ++i)
      ink.add(line.points[i - 1], line.points[i]);
    if (line.closed) ink.add(line.points.back(), line.points.front());
  }
  return ink;
}

} // namespace

TEST_CASE("a long line seen through a window is the sum of its sides seen through it, one by one") {
  std::mt19937 random(23);
  std::uniform_real_distribution<double> step(-4, 4);
  std::uniform_real_distribution<double> corner(-60, 60);
  for (int round = 0; round < 60; ++round) {
    Line line;
    Point at;
    // Fewer sides than are bounded together, as many, and many times that; open and closed.
    const int sides = std::vector{3, 63, 64, 65, 127, 128, 129, 130, 1000, 1537}[round % 10];
    for (int i = 0; i <= sides; ++i) {
      line.points.push_back(at);
      at = {at.x + step(random), at.y + step(random)};
    }
    line.closed = round % 3 == 0;
    const std::vector<Item> items{{line}};
    const Clippable whole(items);
    for (int looks = 0; looks < 10; ++looks) {
      const Window window{{corner(random), corner(random)}, 30, 25};
      Ink expected;
      for (std::size_t i = 0; i + (line.closed ? 0 : 1) < line.points.size(); ++i) {
        const Line side{.points = {line.points[i], line.points[(i + 1) % line.points.size()]}};
        const Ink seen = ink_of(clipped({{side}}, window));
        expected.length += seen.length;
        expected.x += seen.x;
        expected.y += seen.y;
      }
      const Ink seen = ink_of(whole.within(window));
      CAPTURE(round, sides, line.closed);
      CHECK(seen.length == Approx(expected.length).margin(1e-8));
      CHECK(seen.x == Approx(expected.x).margin(1e-6));
      CHECK(seen.y == Approx(expected.y).margin(1e-6));
    }
  }
}

TEST_CASE("what is kept of a line through a window grows with what is seen, not with the line") {
  Line line;
  for (int i = 0; i <= 100'000; ++i)
    line.points.push_back({i * 0.1, std::sin(i * 0.01)});
  const std::vector<Item> items{{Group{Role::figure, "", {{line}, {Text{{5, 0}, "here"}}, {Text{{500, 0}, "there"}}}}}};
  const Clippable whole(items);
  const std::vector<Item> seen = whole.within({{0, -2}, 10, 4});
  REQUIRE(seen.size() == 2); // groups are opened
  CHECK(points_in(seen) >= 101);
  CHECK(points_in(seen) <= 104);
  CHECK(std::get<Text>(seen[1].is).says == "here");
  CHECK(whole.within({{20'000, 0}, 10, 10}).empty());
}

TEST_CASE("nothing is left out on the sheet of what people sew") {
  for (const Job &job : tests::good_jobs()) {
    const PlanOutcome outcome = plan(job, {.profile = true, .advice = true});
    const auto *made = tests::value_in(outcome);
    if (!made) continue;
    for (const SheetRoom &room : {SheetRoom{}, room_on_pages}) {
      const paper::Sheet sheet = sheet_of(job, *made, room, Pins::every);
      CHECK(sheet.joins.size() == made->joins.size());
      CHECK(sheet.joins_left_out.empty());
      for (const SheetTable &table : sheet.to_cut)
        CHECK(table.left_out.empty());
      for (const JoinSheet &join : sheet.joins) {
        CHECK(join.marks.left_out.empty());
        CHECK(rows(join.marks) == made->joins[join.join].marks.size());
        CHECK(join.drawn == can_be_drawn(made->joins[join.join]));
      }
    }
  }
}

TEST_CASE("joins beyond the room of a sheet are left out, from which on is said") {
  const Planned five = planned(hostile::joins_of_marks(5, 9));
  const paper::Sheet sheet = sheet_of(five.job, five.plan, {.joins = 2});
  CHECK(sheet.joins.size() == 2);
  CHECK(sheet.joins_left_out == "3 more joins are left out here, from j2 on" + tells_all);
  CHECK(sheet_of(five.job, five.plan, {.joins = 4}).joins_left_out ==
        "1 more join is left out here, from j4 on" + tells_all);
  CHECK(sheet_of(five.job, five.plan, {.joins = 5}).joins_left_out.empty());
}

TEST_CASE("of the first join the first marks are shown, and a later one comes whole or not at all") {
  const Planned three = planned(hostile::joins_of_marks(3, 41));
  // A row for each join goes to the table of edges.
  const paper::Sheet some = sheet_of(three.job, three.plan, {.rows = 3 + 20}, Pins::every);
  REQUIRE(some.joins.size() == 1);
  CHECK(rows(some.joins[0].marks) == 20);
  CHECK(some.joins[0].marks.left_out == "Marks 20 to 40 are left out here" + tells_all);
  CHECK(some.joins_left_out == "2 more joins are left out here, from j1 on" + tells_all);
  const paper::Sheet more = sheet_of(three.job, three.plan, {.rows = 3 + 2 * 41 + 40}, Pins::every);
  REQUIRE(more.joins.size() == 2);
  for (const JoinSheet &join : more.joins) {
    CHECK(rows(join.marks) == 41);
    CHECK(join.marks.left_out.empty());
  }
  CHECK(more.joins_left_out == "1 more join is left out here, from j2 on" + tells_all);
  CHECK(sheet_of(three.job, three.plan, {.rows = 3 + 3 * 41}, Pins::every).joins.size() == 3);
}

TEST_CASE("a row with long words takes the room of several") {
  const Planned one = planned(hostile::named(std::string(450, 'n')));
  // The row of the edges, 1 + 450 / 100, leaves as many; the marks are start, the one that is named, and end.
  const paper::Sheet sheet = sheet_of(one.job, one.plan, {.rows = 5 + 1 + 4}, Pins::every);
  REQUIRE(sheet.joins.size() == 1);
  std::size_t before = 0;
  while (before < one.plan.joins[0].marks.size() && one.plan.joins[0].marks[before].ends_segment != 0)
    ++before;
  CHECK(rows(sheet.joins[0].marks) == std::min<std::size_t>(before, 5));
  CHECK_FALSE(sheet.joins[0].marks.left_out.empty());
}

TEST_CASE("lengths and edges beyond the room of a sheet are counted where they would stand") {
  const Planned many = planned(hostile::fixed_lengths(100, false));
  const paper::Sheet sheet = sheet_of(many.job, many.plan, {.rows = 30});
  REQUIRE(sheet.to_cut.size() == 2);
  CHECK(rows(sheet.to_cut[0]) == 30);
  CHECK(sheet.to_cut[0].left_out == "70 more are left out here" + tells_all);
  CHECK(rows(sheet.to_cut[1]) == 0);
  CHECK(sheet.to_cut[1].left_out == "1 more is left out here" + tells_all);
  CHECK(sheet_html(many.job, many.plan).find("left out here") == std::string::npos);
}

TEST_CASE("sentences beyond the room of a sheet are counted, and what is there is whole") {
  const Job job = tests::job_of(hostile::bad_joins(30));
  const Plan made = tests::plan_of(job, {.advice = true});
  const paper::Sheet whole = sheet_of(job, made);
  const paper::Sheet sheet = sheet_of(job, made, {.letters = 1000});
  const std::vector<std::string> &said = sheet.wrong.sentences;
  REQUIRE(said.size() > 2);
  REQUIRE(said.size() < whole.wrong.sentences.size());
  std::size_t letters = 0;
  for (std::size_t i = 0; i + 1 < said.size(); ++i) {
    CHECK(said[i] == whole.wrong.sentences[i]);
    letters += said[i].size();
  }
  CHECK(letters <= 1000);
  CHECK(letters + whole.wrong.sentences[said.size() - 1].size() > 1000);
  CHECK(said.back() ==
        std::to_string(whole.wrong.sentences.size() - said.size() + 1) + " more are left out here" + tells_all);
}

TEST_CASE("a sentence without end is cut short, between two characters, and says so") {
  // Stretches that are alike are told in one sentence, with all of their names.
  std::string text = R"({"joins":[{"name":"frill","long":"4 m","band":"2 m","segments":[)";
  text += hostile::listed(400, [](int i) {
    std::string name = "{\"name\":\"";
    for (int letter = 0; letter < 60; ++letter)
      name += "é";
    return name + std::to_string(i) + "\"}";
  });
  const Planned many = planned(text + "]}]}");
  const paper::Sheet sheet = sheet_of(many.job, many.plan);
  const std::string rest =
      "… The rest of this is left out here, to keep the sheet short; gatherwright plan tells it whole.";
  const auto &stretches = sheet.joins.at(0).stretches;
  const auto cut = std::find_if(stretches.begin(), stretches.end(),
                                [&](const std::string &sentence) { return sentence.ends_with(rest); });
  REQUIRE(cut != stretches.end());
  CHECK(cut->size() <= 20'000 + rest.size());
  const std::string kept = cut->substr(0, cut->size() - rest.size());
  CHECK(kept.size() >= 20'000 - 4);
  CHECK((kept.back() != '\xc3')); // the first byte of é
}

TEST_CASE("pictures beyond the room of a sheet are left out, and their words stay") {
  const Planned joins = planned(
      R"({"joins":[)" +
      hostile::listed(3,
                      [](int i) {
                        return hostile::join(i, "50 cm", "25 cm", R"(,"segments":[{},{},{},{}],"marks":{"parts":1})");
                      }) +
      "]}");
  const paper::Sheet sheet = sheet_of(joins.job, joins.plan, {.stretches = 9}, Pins::every);
  REQUIRE(sheet.joins.size() == 3);
  CHECK(sheet.joins[0].drawn);
  CHECK(sheet.joins[1].drawn);
  CHECK_FALSE(sheet.joins[2].drawn);
  CHECK(rows(sheet.joins[2].marks) == joins.plan.joins[2].marks.size());
}

TEST_CASE("a join of more stretches than can be told apart is not drawn") {
  const auto drawn = [](int segments) {
    const Planned made = planned(R"({"joins":[{"name":"frill","long":"40 m","band":"20 m","marks":{"parts":1},)"
                                 R"("segments":[)" +
                                 hostile::listed(segments, [](int) { return std::string("{}"); }) + "]}]}");
    return can_be_drawn(made.plan.joins.at(0));
  };
  CHECK(drawn(500));
  CHECK_FALSE(drawn(501));
}

TEST_CASE("strips take no more pages than anyone cuts, and a last one says from which join on they are left out") {
  const Document document = strips_of_job(hostile::joins_of_marks(500, 9));
  CHECK(document.pages.size() <= 201);
  CHECK(document.pages.size() >= 150);
  const std::string all = texts(document);
  CHECK(count(all, "are left out here") == 1);
  CHECK(count(all, "mark them by the tape, from the table, or plan fewer joins") >= 1);
  std::string last;
  gather_texts(document.pages.back().items, last);
  CHECK(last.find("Edges of this join and of ") != std::string::npos);
  // Which joins there are strips of, and which are said to be left out, are all.
  int more = 0;
  const std::size_t at = last.find("and of ") + 7;
  more = std::stoi(last.substr(at));
  CHECK(more > 0);
  CHECK(last.find("j" + std::to_string(500 - more - 1)) != std::string::npos);
  CHECK(all.find("j" + std::to_string(500 - more)) == std::string::npos);
}

TEST_CASE("strips of thousands of marks that are nowhere even stop where drawing them would be too much") {
  // In a fade no run of marks is laid again and again: each of them is drawn. The band has room, the long edge has not.
  const Document document = strips_of_job(R"({"joins":[{"name":"frill","long":"40 m","band":"20 m",
    "marks":{"parts":9998},"segments":[{"spread":{"fade":["9 m","8 m"]}}]}]})");
  const std::string all = texts(document);
  CHECK(count(all, "Edges of this join are left out here") == 1);
  CHECK(count(all, "Band: 2000 cm") > 10);
  CHECK(count(all, "Long edge: 4000 cm") == 0);
  CHECK(document.pages.size() < 100);
  std::size_t drawn = 0;
  for (const Page &page : document.pages)
    drawn += points_in(page.items);
  CHECK(drawn > 100'000);
  CHECK(drawn < 2'000'000);
}

TEST_CASE("strips of an edge that comes out as nothing say so") {
  Planned made = planned(hostile::joins_of_marks(1, 3));
  made.plan.joins[0].band = 0;
  const std::string all = texts(strips(made.job, made.plan, PaperSize::a4));
  CHECK(count(all, "This edge comes out as nothing: there is nothing to mark.") == 1);
}

TEST_CASE("a title of accents without end is set by its beginning, in HTML as on strips") {
  const std::string name = hostile::accented(20'000, "nd");
  const Planned made = planned(hostile::named(name));
  const std::string sheet = sheet_html(made.job, made.plan);
  CHECK(sheet.size() < 100'000);
  CHECK(sheet.find(hostile::accented(17)) == std::string::npos);
  CHECK(sheet.find(hostile::accented(16) + "…") != std::string::npos);
  const std::string on_strips = texts(strips(made.job, made.plan, PaperSize::a4));
  CHECK(on_strips.size() < 20'000);
  CHECK(on_strips.find(hostile::accented(17)) == std::string::npos);
}
