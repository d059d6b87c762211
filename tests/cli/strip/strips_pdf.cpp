// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/press/pdf.hpp"
#include "cli/report/shown_marks.hpp"
#include "cli/words/names.hpp"
#include "tests/cli/commands/command_test.hpp"
#include "tests/cli/press/printed.hpp"
#include "tests/made_job.hpp"
#include "tests/where.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>
#include <optional>

namespace {

using namespace gatherwright;
using command_test::run;
using gatherwright::tests::holds;
using printed::dots_to_mm;
using printed::Folder;
using printed::Raster;

/// Half of it is the width of a dot, the rest the pen's edge.
constexpr double measured_mm = 0.15;

/// The first row, from the top, with a dark run so long, and that run.
struct Edge {
  int row = 0;
  Raster::Run run;
};

std::optional<Edge> edge_of(const Raster &page, double length, int from_row) {
  for (int row = from_row; row < page.height; ++row)
    for (const Raster::Run &run : page.dark(row))
      if (std::fabs(run.length() / dots_to_mm - length) < 0.6) return Edge{row, run};
  return std::nullopt;
}

/// Middles of the lines that cross a row, in millimetres from the middle of the first.
std::vector<double> lines_across(const Raster &page, int row, const Raster::Run &within) {
  std::vector<double> middles;
  for (const Raster::Run &line : page.dark(row))
    if (line.to >= within.from - 20 && line.from <= within.to + 20) middles.push_back(line.middle() / dots_to_mm);
  for (double &middle : middles)
    middle -= within.from / dots_to_mm + 0.35 / 2; // the pen of the outline
  return middles;
}

bool any_near(const std::vector<double> &places, double wanted) {
  for (const double place : places)
    if (std::fabs(place - wanted) < measured_mm) return true;
  return false;
}

/// Dots between the outer strokes of the first bar below a row.
int bar_length(const Raster &page, int from_row, int longest) {
  for (int row = from_row; row < page.height; ++row) {
    for (const Raster::Run &run : page.dark(row)) {
      if (run.length() < 1150 || run.length() > longest) continue;
      const std::vector<Raster::Run> strokes = page.dark(row - 21); // 1.8 mm above it only the outer strokes reach
      for (const Raster::Run &stroke : strokes)
        if (std::fabs(stroke.middle() - (run.to - 1)) < 4)
          for (const Raster::Run &first : strokes)
            if (std::fabs(first.middle() - (run.from + 1)) < 4)
              return static_cast<int>(std::lround(stroke.middle() - first.middle()));
    }
  }
  return 0;
}

} // namespace

TEST_CASE("the check bar of every printed page is 100 mm long") {
  Folder folder;
  const std::string pdf = folder.file("smock.pdf");
  REQUIRE(run({"plan", in_project("docs/examples/porters-smock.json"), "--strips", pdf}).status ==
          cli::Status::within_limits);
  const int count = printed::pages(pdf);
  REQUIRE(count >= 3);
  for (int page = 1; page <= count; ++page) {
    const Raster dots = printed::raster(pdf, page);
    CHECK(std::abs(bar_length(dots, dots.height * 9 / 10, 1210) - 1181) <= 1);
  }
}

TEST_CASE("a page of an inch job has a bar of 4 inches too, and Letter is its own size") {
  Folder folder;
  const std::string pdf = folder.file("inches.pdf");
  run({"join", "9 in", "4 1/2 in", "--paper", "letter", "--strips", pdf});
  const Raster dots = printed::raster(pdf, 1);
  CHECK(dots.width == 3300);
  CHECK(dots.height == 2550);
  const int first = bar_length(dots, dots.height * 9 / 10, 1195);
  CHECK(std::abs(first - 1181) <= 1);
  const int below = dots.height - static_cast<int>(16 * dots_to_mm);
  CHECK(std::abs(bar_length(dots, below, 1230) - 1200) <= 1);
}

TEST_CASE("every mark is printed within 0.15 mm of its place in the plan, and no other line is") {
  Folder folder;
  const std::string pdf = folder.file("cuff.pdf");
  const std::string job_file = folder.file("cuff.json");
  std::ofstream(job_file) << R"({ "unit": "cm", "tape_step": "1 mm", "marks": { "parts": 7 }, "joins": [
    { "name": "sleeve into cuff", "long": { "length": "24.3 cm", "ends": ["7 mm", "12 mm"] }, "band": "11.1 cm",
      "segments": [ { "kind": "flat", "long": "1.3 cm" }, {}, { "kind": "flat", "long": "2 cm" } ] } ] })";
  REQUIRE(run({"plan", job_file, "--strips", pdf}).status == cli::Status::within_limits);
  const Plan made = tests::plan_of(printed::contents(job_file));
  const Raster page = printed::raster(pdf, 1);
  const JoinPlan &join = made.joins.front();
  const int below_heading = static_cast<int>(24 * dots_to_mm);
  for (const bool band : {true, false}) {
    const double before = band ? 0 : 7;
    const double whole = band ? join.band : join.long_length + 7 + 12;
    const auto top = edge_of(page, whole + 0.35, below_heading);
    REQUIRE(top);
    // Half way down the strokes, clear of the triangles above and the circles below.
    const auto lines = lines_across(page, top->row + static_cast<int>(5.5 * dots_to_mm), top->run);
    for (const Mark &mark : join.marks)
      CHECK(any_near(lines, before + (band ? mark.band : mark.long_edge).tape));
    // Those, and the outline's two sides where no mark lies on them.
    CHECK(lines.size() == join.marks.size() + (band ? 0 : 2));
  }
}

TEST_CASE("the text of the pages has every mark's number and name") {
  Folder folder;
  const std::string pdf = folder.file("smock.pdf");
  const std::string example = in_project("docs/examples/porters-smock.json");
  run({"plan", example, "--strips", pdf});
  const std::string text = printed::output_of("pdftotext -layout " + pdf + " -");
  const Plan made = tests::plan_of(printed::contents(example));
  for (const std::string name :
       {"gathers begin", "gathers end", "left shoulder", "right shoulder", "centre back", "shoulder seam", "centre",
        "start", "end", "1.3 cm allowance", "starts here", "neck into collar",
        "sleeve hem into cuff (make 2, a mirrored pair)", "100 mm: print at 100 %, measure this bar", "page 2 of "})
    CHECK(holds(text, name));
  // As a screen reader has it, mark by mark.
  const std::string read_out = printed::output_of("pdfinfo -struct-text " + pdf);
  const Join asked = tests::job_of(printed::contents(example)).joins.front();
  // The collar reads the same from both ends, and its strip is one half.
  for (std::size_t n = 0; n <= report::last_of_half(asked, made.joins.front()); ++n) {
    const std::string called = words::mark_called(asked, made.joins.front().marks[n]);
    CHECK(holds(read_out, "\"" + std::to_string(n) + " " + called));
  }
}

TEST_CASE("a PDF of strips is tagged and titled, in English, with its fonts in it and no date") {
  Folder folder;
  const std::string pdf = folder.file("smock.pdf");
  run({"plan", in_project("docs/examples/porters-smock.json"), "--strips", pdf});
  const std::string info = printed::output_of("pdfinfo " + pdf);
  CHECK(holds(info, "Porter's smock: marking strips"));
  CHECK(holds(info, "Tagged:          yes"));
  CHECK_FALSE(holds(info, "Date"));
  const std::string bytes = printed::contents(pdf);
  CHECK(holds(bytes, "/PrintScaling /None"));
  CHECK(holds(bytes, "/Lang (en)"));
  const auto fonts = command_test::lines_of(printed::output_of("pdffonts " + pdf));
  REQUIRE(fonts.size() > 2);
  for (std::size_t i = 2; i < fonts.size(); ++i) {
    CHECK(holds(fonts[i], "DejaVuSans"));
    CHECK(holds(fonts[i].substr(fonts[i].find("  ") + 1), "yes yes"));
  }
  const std::string structure = printed::output_of("pdfinfo -struct-text " + pdf);
  CHECK(structure.find("Document") == 0);
  CHECK(holds(structure, "sleeve head into armhole"));
}

TEST_CASE("the same job gives the same bytes, in PDF and in SVG") {
  Folder folder;
  for (const std::string ending : {".pdf", ".svg"}) {
    for (const std::string name : {"one", "other"})
      run({"plan", test_data("worked/122-neckline-and-cap.job.json"), "--strips", folder.file(name + ending)});
    CHECK(!printed::contents(folder.file("one" + ending)).empty());
    CHECK(printed::contents(folder.file("one" + ending)) == printed::contents(folder.file("other" + ending)));
  }
}

TEST_CASE(
    "names in Greek and Cyrillic are printed, and where no font has the letters that is said and nothing is left") {
  Folder folder;
  const auto job = [&](const std::string &name) {
    std::ofstream(folder.file("job.json"))
        << R"({ "title": ")" + name + R"(", "joins": [ { "name": "j", "long": "20 cm", "band": "10 cm" } ] })";
    return run({"plan", folder.file("job.json"), "--strips", folder.file("strips.pdf")});
  };
  const cli::Answer unwritten = job("\xf0\x93\x80\x80\xf0\x93\x82\x80"); // Egyptian hieroglyphs
  CHECK(unwritten.status == cli::Status::machine);
  CHECK(unwritten.out.empty());
  CHECK(holds(unwritten.err, "no font on this machine has all the characters of"));
  CHECK(command_test::lines_of(unwritten.err).size() == 1);
  CHECK(folder.names() == std::vector<std::string>{"job.json"});
  CHECK(job("Ποδιά и рубаха <b>&amp;").status == cli::Status::within_limits);
  CHECK(holds(printed::output_of("pdftotext " + folder.file("strips.pdf") + " -"), "Ποδιά и рубаха <b>&amp;"));
}

TEST_CASE("what the library cannot draw is a fault with its reason, not half a PDF") {
  paper::Text nowhere{{std::numeric_limits<double>::infinity(), 0}, "nowhere"};
  const auto outcome = paper::pdf({"a page", {{210, 297, "page 1 of 1", {{nowhere}}}}});
  REQUIRE_FALSE(outcome);
  CHECK(outcome.fault().what == "the PDF cannot be drawn: invalid matrix (not invertible)");
}
