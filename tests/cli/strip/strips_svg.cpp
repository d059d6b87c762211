// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/drawing/svg.hpp"
#include "cli/drawing/type.hpp"
#include "cli/report/shown_marks.hpp"
#include "cli/strip/strips.hpp"
#include "tests/cli/press/printed.hpp"
#include "tests/made_job.hpp"
#include "tests/where.hpp"

#include <catch2/catch.hpp>
#include <pugixml.hpp>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <set>
#include <string>
#include <vector>

namespace {

using namespace gatherwright;

/// Places are written to a micrometre, twice rounded.
constexpr double written_mm = 0.0021;

double number_in(std::string_view text) {
  double value = NAN;
  std::from_chars(text.data(), text.data() + text.size(), value);
  return value;
}

struct Path {
  std::vector<std::array<double, 2>> points;
  double pen = 0;
  bool closed = false;
  std::string classes;
};

Path path_of(const pugi::xml_node &node) {
  Path path;
  std::vector<double> figures;
  const std::string d = node.attribute("d").value();
  for (std::size_t at = 0; at < d.size();) {
    const std::size_t start = d.find_first_of("-0123456789", at);
    if (start == std::string::npos) break;
    at = std::min(d.find_first_not_of("-.0123456789", start), d.size());
    figures.push_back(number_in(std::string_view(d).substr(start, at - start)));
  }
  for (std::size_t i = 0; i + 1 < figures.size(); i += 2)
    path.points.push_back({figures[i], figures[i + 1]});
  path.closed = d.ends_with('Z');
  path.pen = number_in(node.attribute("stroke-width").value());
  path.classes = node.attribute("class").value();
  return path;
}

/// One part of a strip as a reader sees it.
struct Seen {
  double width = 0;
  std::vector<std::pair<double, bool>> marks; ///< from the left side; true: a reference mark
  std::set<std::string> texts;
};

Seen seen(const pugi::xml_node &section) {
  std::vector<Path> paths;
  Seen part;
  for (const auto &found : section.select_nodes(".//path"))
    paths.push_back(path_of(found.node()));
  for (const auto &found : section.select_nodes(".//text"))
    part.texts.insert(found.node().text().get());
  const auto outline =
      std::find_if(paths.begin(), paths.end(), [](const Path &path) { return path.closed && path.pen == 0.35; });
  REQUIRE(outline != paths.end());
  const auto [left, top] = outline->points[0];
  part.width = outline->points[1][0] - left;
  for (const Path &path : paths) {
    const bool from_edge =
        path.points.size() == 2 && path.points[0][1] == top && path.points[0][0] == path.points[1][0];
    if (from_edge && (path.pen == 0.6 || path.pen == 0.25))
      part.marks.emplace_back(path.points[0][0] - left, path.pen == 0.6);
  }
  return part;
}

struct Drawn {
  Job job;
  Plan plan;
  pugi::xml_document svg;
};

void draw(Drawn &drawn, const std::string &text) {
  drawn.job = tests::job_of(text);
  drawn.plan = tests::plan_of(drawn.job, {.outlines = true});
  const std::string svg = paper::svg_file(paper::strips(drawn.job, drawn.plan, paper::PaperSize::a4));
  REQUIRE(drawn.svg.load_buffer(svg.data(), svg.size()));
}

/// Parts of strips in the order they are drawn: what each is called, and what is seen of it.
std::vector<std::pair<std::string, Seen>> parts(const Drawn &drawn) {
  std::vector<std::pair<std::string, Seen>> found;
  for (const auto &node : drawn.svg.select_nodes("//g[@aria-label and path[@stroke-width='0.35']]"))
    found.emplace_back(node.node().attribute("aria-label").value(), seen(node.node()));
  return found;
}

using Places = std::vector<std::pair<double, bool>>;

/// Marks of an edge put together from its parts, which share 16 mm with the next. By the parts' widths alone.
Places put_together(const std::vector<Seen> &of_strip, double before) {
  Places all;
  double from = -before;
  for (const Seen &part : of_strip) {
    for (const auto &[at, reference] : part.marks) {
      const bool known = std::any_of(all.begin(), all.end(), [&, place = from + at](const auto &other) {
        return std::fabs(other.first - place) < 0.02;
      });
      if (!known) all.emplace_back(from + at, reference);
    }
    from += part.width - 16;
  }
  std::sort(all.begin(), all.end());
  return all;
}

Places expected(const std::vector<Mark> &marks, MarkPlace Mark::*edge, bool closed, double length) {
  Places all;
  for (const Mark &mark : marks)
    all.emplace_back((mark.*edge).tape, mark.reference);
  if (closed) all.emplace_back(length, true);
  return all;
}

void check_same(const Places &got, const Places &wanted) {
  REQUIRE(got.size() == wanted.size());
  for (std::size_t i = 0; i < got.size(); ++i) {
    CHECK(std::fabs(got[i].first - wanted[i].first) < 0.02);
    CHECK(got[i].second == wanted[i].second);
  }
}

} // namespace

TEST_CASE("put together from their parts, the strips have the plan's marks at their places on the tape") {
  for (const std::string file : {"docs/examples/porters-smock.json", "cli/start/cuff.jsonc", "cli/start/collar.jsonc",
                                 "cli/start/sleeve-head.jsonc", "cli/start/set-in-sleeve.jsonc"}) {
    INFO(file);
    Drawn drawn;
    draw(drawn, printed::contents(in_project(file)));
    const auto all = parts(drawn);
    std::size_t at = 0;
    const auto next_strip = [&] {
      std::vector<Seen> strip;
      const std::string title = all.at(at).first.substr(0, all.at(at).first.find("; part"));
      while (at < all.size() && all[at].first.substr(0, all[at].first.find("; part")) == title)
        strip.push_back(all[at++].second);
      return std::pair(title, strip);
    };
    for (std::size_t j = 0; j < drawn.plan.joins.size(); ++j) {
      const JoinPlan &join = drawn.plan.joins[j];
      const Join &asked = drawn.job.joins[j];
      for (const bool band : {true, false}) {
        const auto edge = band ? &Mark::band : &Mark::long_edge;
        const double length = band ? join.band : join.long_length;
        const auto &ends = band ? join.band_ends : join.long_ends;
        const auto [title, strip] = next_strip();
        INFO(title);
        CHECK(title.starts_with(band ? "Band" : "Long edge"));
        Places wanted = expected(join.marks, edge, asked.closed, length);
        if (title.find("one half") != std::string::npos) {
          CHECK(report::reads_alike(asked, join));
          wanted.resize(report::last_of_half(asked, join) + 1);
        }
        check_same(put_together(strip, ends ? (*ends)[0] : 0), wanted);
        for (const Seen &part : strip)
          CHECK(part.width <= 277.0001);
        if (title.find("first piece") == std::string::npos) continue;
        const auto [other, mirrored] = next_strip();
        INFO(other);
        CHECK(other.find("mirrored piece") != std::string::npos);
        check_same(put_together(mirrored, ends ? (*ends)[1] : 0),
                   expected(join.marks_mirrored.value(), edge, asked.closed, length));
      }
    }
    CHECK(at == all.size());
  }
}

TEST_CASE("every mark's number stands on its strip, and every name that has room") {
  Drawn drawn;
  draw(drawn, printed::contents(in_project("docs/examples/porters-smock.json")));
  const auto all = parts(drawn);
  std::set<std::string> texts;
  for (const auto &[title, part] : all)
    if (title.starts_with("Band: collar")) texts.insert(part.texts.begin(), part.texts.end());
  const std::size_t last = report::last_of_half(drawn.job.joins[0], drawn.plan.joins[0]);
  for (std::size_t n = 0; n <= last; ++n) // one half, for both
    CHECK(texts.contains(std::to_string(n)));
  for (const std::string name : {"start", "gathers begin, gathers end", "left shoulder, right shoulder", "centre back"})
    CHECK(texts.contains(name));
}

TEST_CASE("a drawn edge is drawn as it is: its marks cross the stitching line where the plan has them") {
  for (const std::string file : {"worked/83-drawn-with-allowance.job.json", "worked/122-neckline-and-cap.job.json"}) {
    Drawn drawn;
    draw(drawn, printed::contents(test_data(file)));
    // On one sheet each: distances between marks do not depend on where the sheet has them.
    std::size_t found = 0;
    for (const auto &node : drawn.svg.select_nodes("//g[@role='img']")) {
      const std::string label = node.node().attribute("aria-label").value();
      std::vector<Path> strokes;
      for (const auto &each : node.node().select_nodes("path")) {
        const Path path = path_of(each.node());
        if (path.points.size() == 2 && path.pen == 0.6) strokes.push_back(path);
      }
      for (std::size_t j = 0; j < drawn.plan.joins.size(); ++j) {
        const JoinPlan &join = drawn.plan.joins[j];
        std::vector<const Mark *> references;
        for (const Mark &mark : join.marks)
          if (mark.reference && mark.long_edge.at) references.push_back(&mark);
        if (references.size() != 2 || strokes.size() != 2 || !label.starts_with("Long edge")) continue;
        const double allowance = join.drawn_long->allowance;
        const auto place = [&](const Path &stroke, const Mark &mark) {
          // From the cut edge inwards by the allowance.
          const auto &normal = *mark.long_edge.normal;
          return std::array{stroke.points[0][0] - allowance * normal[0], stroke.points[0][1] - allowance * normal[1]};
        };
        const auto a = place(strokes[0], *references[0]);
        const auto b = place(strokes[1], *references[1]);
        const auto &wanted_a = *references[0]->long_edge.at;
        const auto &wanted_b = *references[1]->long_edge.at;
        if (std::fabs((b[0] - a[0]) - (wanted_b[0] - wanted_a[0])) > 1) continue; // another join's
        ++found;
        CHECK(std::fabs((b[0] - a[0]) - (wanted_b[0] - wanted_a[0])) < written_mm * 2);
        CHECK(std::fabs((b[1] - a[1]) - (wanted_b[1] - wanted_a[1])) < written_mm * 2);
      }
    }
    if (file.find("122") != std::string::npos) CHECK(found >= 1);
  }
}

TEST_CASE("names that would be markup stay text, and what XML cannot hold is escaped") {
  const std::string name = R"(</text><script>alert(1)</script> & \"q\" 'r' \uffff)";
  Drawn drawn;
  draw(drawn, R"({ "title": ")" + name + R"(", "joins": [ { "name": ")" + name +
                  R"(", "long": "20 cm", "band": "10 cm", "segments": [ { "to": ")" + name + R"(" } ] } ] })");
  CHECK(drawn.svg.select_nodes("//script").empty());
  CHECK(std::string(drawn.svg.select_node("//title").node().text().get()) ==
        R"(</text><script>alert(1)</script> & "q" 'r' \uffff: marking strips)");
}

TEST_CASE("an even run is drawn once and told how often to lay it") {
  Drawn drawn;
  draw(drawn, R"({ "marks": { "every": "5 cm" }, "joins": [ { "name": "frill", "long": "8 m", "band": "4 m" } ] })");
  const auto all = parts(drawn);
  // 80 gaps of 10 cm on the long edge and of 5 cm on the band.
  REQUIRE(all.size() == 2);
  CHECK(all[0].first.find("repeat 16 times") != std::string::npos);
  CHECK(all[0].first.find("numbers go on by 5 each time") != std::string::npos);
  CHECK(all[0].second.width == Approx(250));
  CHECK(all[0].second.marks.size() == 6);
  CHECK(all[1].first.find("repeat 40 times") != std::string::npos);
  CHECK(all[1].second.width == Approx(200));
}

TEST_CASE("pins that the table tells in one line stand on the strip in equal parts, laid again and again") {
  Drawn drawn;
  // 64 parts of 5.125 cm of the band and of 12.84375 cm of the long edge, on a tape of 5 mm.
  draw(drawn, R"({ "tape_step": "5 mm", "marks": { "parts": 64 },
                   "joins": [ { "name": "tier", "long": "822 cm", "band": "328 cm", "closed": true } ] })");
  const auto all = parts(drawn);
  REQUIRE(all.size() == 3);
  CHECK(all[0].first.find("repeat 12 times") != std::string::npos); // five at a time, and four left over
  REQUIRE(all[0].second.marks.size() == 6);
  for (std::size_t n = 0; n < 6; ++n)
    CHECK(std::fabs(all[0].second.marks[n].first - 51.25 * static_cast<double>(n)) < 0.02);
  CHECK(all[2].first.find("repeat 32 times") != std::string::npos);
  CHECK(all[2].second.width == Approx(256.875));
}

TEST_CASE("strips of several joins share a page, each under its name") {
  Drawn drawn;
  draw(drawn, R"({ "joins": [ { "name": "first", "long": "40 cm", "band": "20 cm" },
                              { "name": "second", "long": "40 cm", "band": "20 cm" } ] })");
  CHECK(drawn.svg.select_nodes("/svg/g").size() == 1);
  for (const char *name : {"first", "second"})
    CHECK(drawn.svg.select_nodes(("//text[.='" + std::string(name) + "']").c_str()).size() == 1);
}

TEST_CASE("a mirrored piece of a join that reads the same from both ends has no strips of its own") {
  Drawn drawn;
  draw(drawn, R"({ "tape_step": "2 mm", "joins": [ { "name": "sleeve", "long": "50.3 cm", "band": "22.1 cm", "make": 2,
                   "segments": [ { "kind": "flat", "long": "1.5 cm", "to": "a" }, { "to": "b" },
                                 { "kind": "flat", "long": "1.5 cm" } ] } ] })");
  for (const auto &[title, part] : parts(drawn)) {
    CHECK(title.find("both pieces") != std::string::npos);
    CHECK(title.find("one half") != std::string::npos);
  }
}

TEST_CASE("a plan that is not within limits says so on every page") {
  Drawn drawn;
  draw(
      drawn,
      R"({ "joins": [ { "name": "a", "long": "2 m", "band": "10 cm" }, { "name": "b", "long": "2 m", "band": "1 m" } ] })");
  const std::size_t pages = drawn.svg.select_nodes("/svg/g").size();
  CHECK(pages >= 2);
  CHECK(
      drawn.svg.select_nodes("//text[starts-with(., 'This plan is not within limits (cannot be gathered)')]").size() ==
      pages);
}

TEST_CASE("an edge that no paper would hold is named and not drawn") {
  for (const std::string edge :
       {R"("90000 m")", R"({ "length": "2 m", "ends": ["90000 m", "0"] })", R"({ "path": "M 0 0 H 9000" })",
        R"({ "path": "M 0 0 H 900", "path_unit": "m" })", R"({ "path": "M 0 0 H 900", "ends": ["0", "90000 m"] })"}) {
    INFO(edge);
    Drawn drawn;
    draw(drawn, R"({ "joins": [ { "name": "a", "long": )" + edge + R"(, "band": "50 cm" } ] })");
    CHECK(drawn.svg.select_nodes("//text[contains(., 'too long for paper')]").size() == 1);
    CHECK(drawn.svg.select_nodes("/svg/g").size() <= 2);
  }
}

namespace {

struct Lying {
  std::string says;
  double left = 0;
  double right = 0;
  double top = 0;
  double bottom = 0;
};

/// Texts that are not turned, by where they are reckoned to lie.
void gather_lying(const std::vector<paper::Item> &items, std::vector<Lying> &into) {
  for (const paper::Item &item : items) {
    if (const auto *group = std::get_if<paper::Group>(&item.is)) gather_lying(group->items, into);
    const auto *text = std::get_if<paper::Text>(&item.is);
    if (text == nullptr || text->turned != 0) continue;
    const std::string says = text->says.substr(0, text->says.find_last_not_of(' ') + 1);
    const double width = paper::text_width(says, text->size, text->bold);
    const double left = text->anchor == paper::Anchor::start    ? text->at.x
                        : text->anchor == paper::Anchor::middle ? text->at.x - width / 2
                                                                : text->at.x - width;
    into.push_back({says, left, left + width, text->at.y - 0.7 * text->size, text->at.y});
  }
}

} // namespace

TEST_CASE("on strips and drawn edges no words lie on others, and none is cut short or off the paper") {
  for (const std::string &text : {printed::contents(in_project("docs/examples/porters-jacket.json")),
                                  printed::contents(in_project("docs/examples/porters-smock.json")), std::string(R"({
      "unit": "cm", "tape_step": "2 mm", "fabric": { "weight": "320 g/m2", "shrinks": true }, "marks": { "apart": "5 cm" },
      "joins": [ { "name": "cap into armhole", "make": 2, "band": "47 cm",
        "long": { "path": "M 0 140 C 60 140 70 60 110 25 C 150 -10 210 -10 250 25 C 290 60 310 140 370 140",
          "path_unit": "mm", "allowance": "1.5 cm", "garment": "right", "ends": ["1.5 cm", "2 cm"] },
        "segments": [
          { "name": "back under", "kind": "flat", "band": "7 cm", "to": "back notch" },
          { "name": "back cap", "kind": "ease", "to": "shoulder" },
          { "name": "front cap", "kind": "ease", "to": "front notch" },
          { "name": "front under", "kind": "flat", "band": "6 cm" } ] } ] })")})
    for (const paper::PaperSize size : {paper::PaperSize::a4, paper::PaperSize::letter}) {
      const Job job = tests::job_of(text);
      const Plan plan = tests::plan_of(job, {.outlines = true});
      for (const paper::Page &page : paper::strips(job, plan, size).pages) {
        INFO(job.joins[0].name << ", " << page.label);
        std::vector<Lying> words;
        gather_lying(page.items, words);
        const auto rounded = [](const Lying &word) { return word.says.find("ends about") != std::string::npos; };
        CHECK(std::none_of(words.begin(), words.end(), rounded)); // allowances of 1.5 cm with a tape of 2 mm
        for (std::size_t i = 0; i < words.size(); ++i) {
          INFO(words[i].says);
          CHECK_FALSE(words[i].says.ends_with("…"));
          CHECK((words[i].left >= 0 && words[i].right <= page.width));
          for (std::size_t j = 0; j < i; ++j) {
            INFO(words[j].says);
            const bool meet = words[i].left < words[j].right - 0.01 && words[j].left < words[i].right - 0.01 &&
                              words[i].top < words[j].bottom && words[j].top < words[i].bottom;
            CHECK_FALSE(meet);
          }
        }
      }
    }
}

TEST_CASE("the rows of gathering are told with every join, where its strips begin") {
  Drawn drawn;
  draw(drawn, R"({"fabric": {"weight": "150 g/m2"}, "allowance": "2 cm", "joins": [
    {"name": "first", "long": "20 cm", "band": "10 cm"},
    {"name": "second", "long": "18 cm", "band": "9 cm"},
    {"name": "third", "long": "16 cm", "band": "8 cm", "allowance": "1.5 cm"}]})");
  std::vector<std::string> headings;
  std::vector<std::string> rows;
  for (const auto &found : drawn.svg.select_nodes("//text")) {
    const std::string says = found.node().text().get();
    if (says == "first" || says == "second" || says == "third") headings.push_back(says);
    if (!says.starts_with("Rows of gathering:")) continue;
    rows.push_back(says);
    CHECK(headings.size() == rows.size()); // each under the name of its join
  }
  CHECK(headings == std::vector<std::string>{"first", "second", "third"});
  REQUIRE(rows.size() == 3);
  CHECK(rows[0] == rows[1]);
  CHECK(rows[1] != rows[2]);
}
