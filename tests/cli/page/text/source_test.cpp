// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/page/text/source.hpp"
#include "tests/cli/page/text/odd_text.hpp"
#include "tests/good_jobs.hpp"
#include "tests/outcomes.hpp"

#include <catch2/catch.hpp>

using namespace gatherwright;
using namespace gatherwright::tests;

TEST_CASE("every value stands where it was written, whatever stands between the tokens") {
  std::uint64_t seed = 0;
  for (const std::string &text : good_job_texts())
    for (int trial = 0; trial < 20; ++trial) {
      const OddText odd(++seed, values_of(text));
      const std::string marked = (trial % 4 == 0 ? "\xEF\xBB\xBF" : "") + odd.text();
      const std::size_t shift = marked.size() - odd.text().size();
      const auto read = page::source_of(marked);
      REQUIRE(read);
      REQUIRE(read->extents.size() == odd.stands().size());
      for (int i = 0; i < static_cast<int>(read->extents.size()); ++i) {
        const cli::Value &value = (&read->document.root())[i];
        const std::string pointer = read->document.pointer(value);
        INFO(pointer << "\n" << odd.text());
        const Stands &stands = odd.stands().at(pointer);
        REQUIRE(read->at(value).begin == stands.begin + shift);
        REQUIRE(read->at(value).end == stands.end + shift);
        if (!value.key.empty()) REQUIRE(read->at(value).key == stands.key + shift);
      }
    }
}

TEST_CASE("a pointer is taken apart into its steps") {
  REQUIRE(*page::steps_of("") == std::vector<std::string>{});
  REQUIRE(*page::steps_of("/joins/0/long") == std::vector<std::string>{"joins", "0", "long"});
  REQUIRE(*page::steps_of("/a~1b~0c//") == std::vector<std::string>{"a/b~c", "", ""});
  for (const char *bad : {"joins", "/a~", "/a~2", "~0"})
    REQUIRE_FALSE(page::steps_of(bad));
  std::string deep;
  for (int step = 0; step < 100; ++step)
    deep += "/a";
  REQUIRE(page::steps_of(deep)->size() == 100);
  REQUIRE_FALSE(page::steps_of(deep + "/a"));
}

TEST_CASE("a place in a list is a whole number, plainly written") {
  REQUIRE(page::place_of("0") == 0);
  REQUIRE(page::place_of("17") == 17);
  for (const char *bad : {"", "-1", "-", "+1", "01", "1.0", "1 ", "99999999999999", "a"})
    REQUIRE_FALSE(page::place_of(bad));
}
