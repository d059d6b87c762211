// SPDX-License-Identifier: GPL-3.0-or-later
// Edges as makers have them: in a drawing, through points, and parts of them.
#include "cli/job/read_job.hpp"
#include "gatherwright/plan.hpp"
#include "tests/cli/job/told_of_text.hpp"
#include "tests/solver/edge/drawing.hpp"

#include <catch2/catch.hpp>

#include <map>
#include <string>

using namespace gatherwright;
using namespace gatherwright::cli;
using namespace gatherwright::tests;

namespace {

std::string with_edge(const std::string &edge, const std::string &more = "") {
  return "{ \"joins\": [\n{ \"name\": \"cap\", \"band\": \"20 cm\", \"long\":\n" + edge + more + " } ] }";
}

const std::map<std::string, std::string> files = {
    {"cap.svg", R"(<svg xmlns="http://www.w3.org/2000/svg" width="200mm" height="300mm" viewBox="0 0 200 300">
<line id="cap" x1="0" y1="0" x2="30" y2="40"/><circle id="neck" r="50"/>
<path id="wrong" d="M 0 0 L"/></svg>)"},
    {"no.svg", "<svg>"}};

/// Files that stand beside the job, and how often each was read.
struct Folder {
  std::map<std::string, int> reads;

  Beside beside() {
    return [this](const std::string &name) -> Outcome<std::string, CannotRead> {
      ++reads[name];
      if (name == "long.svg") return std::string(longest_text + 1, ' '); // not made at every start of the tests
      const auto found = files.find(name);
      if (found == files.end()) return CannotRead{"No such file or directory"};
      return found->second;
    };
  }
};

DrawnEdge drawn(const std::string &edge, const std::string &more = "") {
  Folder folder;
  const auto read = read_job(with_edge(edge, more), folder.beside());
  if (!read) FAIL(fault_line("job", read.fault().front()));
  REQUIRE(read->job.joins[0].long_edge.drawn());
  return *read->job.joins[0].long_edge.drawn();
}

/// The faults as lines.
std::string told(const std::string &text, const Beside &beside) {
  const auto read = read_job(text, beside);
  std::string all;
  if (!read)
    for (const InputFault &fault : read.fault())
      all += fault_line("job", fault) + "\n";
  return all;
}

std::string told(const std::string &edge, const std::string &more = "") {
  Folder folder;
  return told(with_edge(edge, more), folder.beside());
}

} // namespace

TEST_CASE("a line of a drawing beside the job is its edge, in millimetres") {
  const DrawnEdge edge = drawn(R"({ "drawing": "cap.svg", "id": "cap", "allowance": "1 cm", "garment": "left" })");
  CHECK(edge.path == "M 0 0 L 30 40");
  CHECK(edge.path_unit == Unit::mm);
  CHECK(edge.garment == Garment::left);
  CHECK_FALSE(edge.misread);
}

TEST_CASE("a drawing is read once, and told of once") {
  Folder folder;
  const std::string text = R"({ "joins": [
    { "name": "a", "long": { "drawing": "cap.svg", "id": "cap" }, "band": "2 cm" },
    { "name": "b", "long": { "drawing": "cap.svg", "id": "cap" }, "band": { "drawing": "cap.svg", "id": "cap" } },
    { "name": "c", "long": { "drawing": "no.svg", "id": "cap" }, "band": "2 cm" },
    { "name": "d", "long": { "drawing": "no.svg", "id": "cap" }, "band": "2 cm" } ] })";
  CHECK(told(text, folder.beside()) ==
        "job:4: /joins/2/long/drawing: \"no.svg\", line 1: the file is no well-formed XML: no element found; save the "
        "drawing as SVG once more\n");
  CHECK(folder.reads["cap.svg"] == 1);
  CHECK(folder.reads["no.svg"] == 1);
}

TEST_CASE("what is wrong with a drawing is told where the job names it") {
  CHECK(told(R"({ "drawing": "cap.svg", "id": "cop" })") ==
        "job:3: /joins/0/long/id: \"cap.svg\", line 1: there is no line of the id \"cop\"; the ids there are: \"cap\", "
        "\"neck\", \"wrong\"\n");
  CHECK(
      told(R"({ "drawing": "cap.svg" })") ==
      "job:3: /joins/0/long: \"id\" is missing, which says what line of \"cap.svg\" it is; the ids there are: \"cap\", "
      "\"neck\", \"wrong\"\n");
  CHECK(told(R"({ "drawing": "cap.svg", "id": "wrong" })")
            .find("job:3: /joins/0/long/id: \"cap.svg\", line 3: \"wrong\": the path goes wrong at byte 7") == 0);
  CHECK(
      told(R"({ "drawing": "cup.svg", "id": "cap" })") ==
      "job:3: /joins/0/long/drawing: \"cup.svg\": it cannot be read: No such file or directory; put the drawing beside "
      "the job\n");
  CHECK(told(R"({ "drawing": "long.svg", "id": "cap" })").find("\"long.svg\": it is longer than 10 MB") !=
        std::string::npos);
  for (const char *name : {"a/cap.svg", "/cap.svg", "..", ".", "../cap.svg"})
    CHECK(told("{ \"drawing\": \"" + std::string(name) + "\", \"id\": \"cap\" }").find("is no plain name of a file") !=
          std::string::npos);
  check_told(with_edge(R"({ "drawing": "cap.svg", "id": "cap" })"),
             {{3, "/joins/0/long/drawing", "this job is in none", "save the job"}});
  check_told(with_edge(R"({ "drawing": 3, "id": "cap" })"), {{3, "/joins/0/long/drawing", "found"}});
}

TEST_CASE("an edge is drawn in one way, and has the keys of that way") {
  CHECK(told(R"({ "drawing": "cap.svg", "id": "cap", "path_unit": "mm" })")
            .find("\"path_unit\" says nothing of an edge of a drawing") != std::string::npos);
  CHECK(told(R"({ "points": [[0, 0], [1, 1]], "id": "cap" })")
            .find("\"id\" says nothing of an edge that is in no drawing") != std::string::npos);
  CHECK(told(R"({ "points": [[0, 0], [1, 1]], "drawing": "cap.svg", "id": "cap" })").find("stand together") !=
        std::string::npos);
  CHECK(told(R"({ "length": 30, "part": [1, 2] })").find("\"part\" says nothing of an edge given by its length") !=
        std::string::npos);
}

TEST_CASE("points are read with y upwards, on either side of 0") {
  const DrawnEdge edge =
      drawn(R"({ "points": [["-1 cm", 0], { "at": ["2 in", "−5 mm"], "corner": true }, [9, -2.5]] })");
  CHECK(edge.path == "M -10 0 L 50.8 5 L 90 25");
  REQUIRE(edge.misread);
  CHECK(edge.misread->mm > 2);
}

TEST_CASE("a closed join's points come round to the first") {
  const std::string ring = R"({ "points": [[5, 0], [0, 5], [-5, 0], [0, -5]], "garment": "outside" })";
  const DrawnEdge edge = drawn(ring, ", \"closed\": true");
  CHECK(edge.path.ends_with("50 0 Z"));
  // A part of them is open, and so is the line then.
  const DrawnEdge part = drawn(R"({ "points": [[5, 0], [0, 5], [-5, 0], [0, -5]], "part": [1, 9] })");
  CHECK_FALSE(part.path.ends_with("Z"));
}

TEST_CASE("points that are none are told each") {
  check_told(with_edge("{ \"points\": 3 }"), {{3, "/joins/0/long/points", "found"}});
  check_told(with_edge("{ \"points\": [[0, 0]] }"),
             {{3, "/joins/0/long/points", "a line through 1 point", "at least two"}});
  check_told(with_edge("{ \"points\": [[0, 0], [1, 1]] }", ", \"closed\": true"),
             {{3, "/joins/0/long/points", "a line through 2 points", "at least three"}});
  check_told(with_edge("{ \"points\": [[0, 0],\n[1], [1, true], [\"2 ins\", 3], { \"corner\": true }] }"),
             {{4, "/joins/0/long/points/1", "found"},
              {4, "/joins/0/long/points/2/1", "found"},
              {4, "/joins/0/long/points/3/0", ""},
              {4, "/joins/0/long/points/4", "\"at\" is missing"}});
  check_told(with_edge("{ \"points\": [[0, 0], [1, 1], [1, 1]] }"),
             {{3, "/joins/0/long/points/2", "this point is the one before it again"}});
  check_told(with_edge("{ \"points\": [[0, 0], [1, 1], [2, 0], [0, 0]] }", ", \"closed\": true"),
             {{3, "/joins/0/long/points", "the last point is the first again"}});
  check_told(with_edge("{ \"points\": [[0, 0], [\"2 km\", 1], [\"1001 m\", 1]] }"),
             {{3, "/joins/0/long/points/1/0", ""}, {3, "/joins/0/long/points/2/0", "further off than 1 km"}});
}

TEST_CASE("a part of an edge is told where it is none") {
  const std::string line = R"({ "path": "M 0 0 H 300", "part": )";
  check_told(with_edge(line + "[5, 3] }"), {{3, "/joins/0/long/part", "the part ends where it begins, or before"}});
  check_told(with_edge(line + "[5, 9] }", ", \"closed\": true"),
             {{3, "/joins/0/long/part", "a part of an edge closes no ring"}});
  check_told(with_edge(line + "[5] }"), {{3, "/joins/0/long/part", "found"}});
  const auto read = read_job(with_edge(line + "[5, 31] }"));
  REQUIRE(read);
  const PlanOutcome planned = plan(read->job);
  REQUIRE_FALSE(planned);
  const InputFault fault = placed(*read, planned.fault()).front();
  CHECK(fault_line("job", fault) ==
        "job:3: /joins/0/long/part: the part ends 31 cm along, and the stitching line is 30 cm "
        "long; a place up to 30 cm");
}

TEST_CASE("the plan of a part is that of a straight edge as long") {
  const auto read = read_job(with_edge(R"({ "path": "M 0 0 H 300 V 300", "part": [5, 45] })"));
  REQUIRE(read);
  const PlanOutcome planned = plan(read->job);
  REQUIRE(planned);
  CHECK(planned->joins[0].long_length == exactly(400));
  REQUIRE(planned->joins[0].marks.back().long_edge.at);
  CHECK((*planned->joins[0].marks.back().long_edge.at)[1] == exactly(150));
}

TEST_CASE("what a misreading could change is told of a whole line, and not of a part, whose length is given") {
  const auto notes_of = [](const std::string &more) {
    const auto read = read_job(with_edge(R"({ "points": [[0, 0], [20, 10], [40, 0]])" + more + " }"));
    REQUIRE(read);
    const PlanOutcome planned = plan(read->job);
    REQUIRE(planned);
    return std::count_if(planned->notes.begin(), planned->notes.end(),
                         [](const Note &note) { return std::holds_alternative<note::Misread>(note); });
  };
  CHECK(notes_of("") == 1);
  CHECK(notes_of(R"(, "part": [1, 40])") == 0);
}
