// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/page/text/written.hpp"

#include <catch2/catch.hpp>

using namespace gatherwright;
using Remarks = std::vector<std::pair<std::string, std::string>>;

namespace {

page::Written written_of(std::string_view text) {
  cli::FaultList faults;
  const auto document = cli::read_document(text, faults);
  REQUIRE(document);
  return page::written(text, *document);
}

} // namespace

TEST_CASE("remarks lose their signs, and several of one thing are one") {
  const page::Written written = written_of(R"(// of nothing

// A smock,
/// for the chorus
{ // of linen
  "title": "Smock", /* a
    * title */ // shown above
  /**
   * the unit
   */
  "unit": // of numbers
    "cm",
  "lengths": { "cuff": /* wide */ 22 /* folded */ // twice
    // of no length
  },
  // of nothing

  "a~/b": [ /* one */ 1, /* two */ 2 // the last
  ]
  // of nothing
} // all
)");
  CHECK(written.job == R"({"title":"Smock","unit":"cm","lengths":{"cuff":22},"a~/b":[1,2]})");
  CHECK(written.remarks == Remarks{{"", "A smock, for the chorus of linen all"},
                                   {"/title", "a title shown above"},
                                   {"/unit", "the unit of numbers"},
                                   {"/lengths/cuff", "wide folded twice"},
                                   {"/a~0~1b/0", "one"},
                                   {"/a~0~1b/1", "two the last"}});
}

TEST_CASE("what is written has the first of keys that come twice, and numbers as they are spelt") {
  const page::Written written = written_of("\xEF\xBB\xBF{ \"b\": 1.50, \"a\": [1e0, -0, \"\\u0061/*\"], \"b\": { "
                                           "\"c\": 2 }, \"z\": null, \"y\": true } // x");
  CHECK(written.job == "{\"b\":1.50,\"a\":[1e0,-0,\"\\u0061/*\"],\"z\":null,\"y\":true}");
  CHECK(written.remarks == Remarks{{"", "x"}});
}

TEST_CASE("remarks on what is sewn to a piece's sides are told of the part, however it is written") {
  const page::Written written = written_of(R"({ "pieces": [ {
    // all four
    "sides": {
      "top": "sleeve head into armhole", // a text
      // one part
      "right": { "join": "hem into cuff", // its join
        "edge": "band" /* its edge */, "at": "2 cm" // its place
      },
      // a list
      "bottom": [
        "hem into cuff", // the first
        { // the second
          "join": "hem into cuff", "from": "slit end", "to": "end" } // to the end
      ]
    } } ] })");
  CHECK(written.remarks == Remarks{{"/pieces/0/sides", "all four"},
                                   {"/pieces/0/sides/top", "a text"},
                                   {"/pieces/0/sides/right", "one part"},
                                   {"/pieces/0/sides/right/join", "its join"},
                                   {"/pieces/0/sides/right/edge", "its edge"},
                                   {"/pieces/0/sides/right/at", "its place"},
                                   {"/pieces/0/sides/bottom", "a list"},
                                   {"/pieces/0/sides/bottom/0", "the first"},
                                   {"/pieces/0/sides/bottom/1", "the second to the end"}});
}
