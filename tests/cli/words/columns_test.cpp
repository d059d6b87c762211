// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/words/columns.hpp"

#include <catch2/catch.hpp>

#include <random>

using namespace gatherwright;

namespace {

std::vector<std::string> lines_of(const std::string &text) {
  std::vector<std::string> lines;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = text.find('\n', at);
    lines.push_back(text.substr(at, end - at));
    at = end + 1;
  }
  return lines;
}

} // namespace

TEST_CASE("accents take no column, wide characters two, colour none") {
  CHECK(report::columns("cuff") == 4);
  CHECK(report::columns("Ärmel") == 5);
  CHECK(report::columns("A\u0308rmel") == 5);
  CHECK(report::columns("袖口") == 4);
  CHECK(report::columns("\U0001f9f5") == 2);
  CHECK(report::columns("\x1b[1;32mcuff\x1b[0m") == 4);
  CHECK(report::columns("각") == 2); // one syllable of three letters
  CHECK(report::columns("\u1100\u1161\u11a8") == 2);
  CHECK(report::columns("") == 0);
}

TEST_CASE("a text that is cut ends in an ellipsis and fits") {
  CHECK(report::cut_to("beside the slit", 15) == "beside the slit");
  CHECK(report::cut_to("beside the slit", 9) == "beside t…");
  CHECK(report::cut_to("袖口袖口", 4) == "袖…");
  CHECK(report::columns(report::cut_to("袖口袖口", 4)) <= 4);
}

TEST_CASE("a text is broken at spaces, and within words only where it must be") {
  CHECK(report::wrapped("make the sleeve longer", "- ", "  ", 12) == "- make the\n  sleeve\n  longer\n");
  CHECK(report::wrapped("abcdefghij", "", "", 4) == "abcd\nefgh\nij\n");
  CHECK(report::wrapped("", "- ", "  ", 12) == "- \n");
  CHECK(report::wrapped("one two", "", "", 7) == "one two\n");
}

TEST_CASE("however it is broken, nothing is lost and nothing is too wide") {
  std::mt19937_64 random(7);
  const std::vector<std::string> pieces{"a",          "cuff",         " ",   " ", "ä", "A\u0308", "袖",
                                        "\U0001f9f5", "verylongword", "\xff"};
  for (int i = 0; i < 2000; ++i) {
    std::string text;
    for (int n = static_cast<int>(random() % 40); n > 0; --n)
      text += pieces[random() % pieces.size()];
    const int width = 6 + static_cast<int>(random() % 40);
    std::string joined;
    for (const std::string &line : lines_of(report::wrapped(text, "- ", "  ", width))) {
      REQUIRE(report::columns(line) <= width);
      joined += line.substr(2);
    }
    std::erase(joined, ' ');
    std::erase(text, ' ');
    REQUIRE(joined == text);
  }
}
