// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/nearest.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <random>
#include <string>
#include <vector>

using namespace gatherwright;

namespace {

// Optimal string alignment as its recurrence reads, for short words.
std::size_t distance(std::string_view a, std::string_view b) {
  if (a.empty() || b.empty()) return std::max(a.size(), b.size());
  const std::string_view a_rest = a.substr(1);
  const std::string_view b_rest = b.substr(1);
  std::size_t best = distance(a_rest, b_rest) + (a[0] == b[0] ? 0 : 1);
  best = std::min({best, distance(a_rest, b) + 1, distance(a, b_rest) + 1});
  if (a.size() > 1 && b.size() > 1 && a[0] == b[1] && a[1] == b[0])
    best = std::min(best, distance(a.substr(2), b.substr(2)) + 1);
  return best;
}

} // namespace

TEST_CASE("a misspelt word finds the one that was meant") {
  const std::vector<std::string> keys{"name",   "weight", "width",  "thickness", "bending_length", "shrinks",
                                      "swatch", "cuff",   "sleeve", "collar",    "épaule",         "cut"};
  CHECK(nearest("wieght", keys) == "weight");
  CHECK(nearest("Weight", keys) == "weight");
  CHECK(nearest("WEIGHT", keys) == "weight");
  CHECK(nearest("thicknes", keys) == "thickness");
  CHECK(nearest("bending length", keys) == "bending_length");
  CHECK(nearest("slev", keys) == "sleeve");
  CHECK(nearest("epaule", keys) == "épaule");
  CHECK(nearest("cuf", keys) == "cuff"); // as near as "cut", and before it
  CHECK_FALSE(nearest("gathering", keys));
  CHECK_FALSE(nearest("x", keys));
  CHECK_FALSE(nearest("", keys));
  CHECK_FALSE(nearest("weight", {}));
}

TEST_CASE("an equal word comes before one that differs in case, and that before one changed") {
  const std::vector<std::string> known{"cups", "CUFF", "cuff"};
  CHECK(nearest("cuff", known) == "cuff");
  CHECK(nearest("Cuff", known) == "CUFF");
  CHECK(nearest("cupf", known) == "cups");
}

TEST_CASE("the nearest word is the least number of changes away, the first of those") {
  std::mt19937_64 random(5);
  const auto word = [&random] {
    std::string letters;
    for (std::size_t size = 1 + random() % 6; letters.size() < size;)
      letters += static_cast<char>('a' + random() % 3);
    return letters;
  };
  int wrong = 0;
  for (int round = 0; round < 400; ++round) {
    const std::string wanted = word();
    std::vector<std::string> known(1 + random() % 5);
    std::generate(known.begin(), known.end(), word);
    std::string expected;
    std::size_t best = 100;
    for (const std::string &one : known) {
      const std::size_t changes = distance(wanted, one);
      const std::size_t longer = std::max(wanted.size(), one.size());
      const bool offered = changes == 0 || (3 * changes <= longer + 1 && changes < std::min(wanted.size(), one.size()));
      if (!offered || changes >= best) continue;
      expected = one;
      best = changes;
    }
    const auto found = nearest(wanted, known);
    wrong += (best == 100 ? !found : found && *found == expected) ? 0 : 1;
  }
  CHECK(wrong == 0);
}

TEST_CASE("more changes than a third of one letter more than the longer word has, or as many as the shorter has "
          "letters, are too many for an offer") {
  const auto offered = [](std::string_view word, const std::string &known) {
    return nearest(word, std::vector<std::string>{known}).has_value();
  };
  CHECK(offered("abcde", "abcxy"));       // 2 of (5 + 1) / 3
  CHECK_FALSE(offered("abcd", "abxy"));   // 2 of 5 / 3
  CHECK(offered("abcdefgh", "abcdexyz")); // 3 of 9 / 3
  CHECK_FALSE(offered("abcdefg", "abcdxyz"));
  CHECK(offered("ab", "ax"));     // 1 of 3 / 3
  CHECK_FALSE(offered("a", "x")); // nothing of it would be left
  CHECK_FALSE(offered("a", "ab"));
}

TEST_CASE("words of more than 64 code points are never offered and get no offer") {
  const auto of_letters = [](int count, const std::string &letter) {
    std::string word;
    for (int i = 0; i < count; ++i)
      word += letter;
    return word;
  };
  for (const std::string letter : {"a", "é"}) {
    const std::vector<std::string> longest{of_letters(64, letter)}, too_long{of_letters(65, letter)};
    CHECK(nearest(of_letters(64, letter), longest) == longest[0]);
    CHECK(nearest(of_letters(63, letter), longest) == longest[0]);
    CHECK_FALSE(nearest(of_letters(65, letter), longest));
    CHECK_FALSE(nearest(of_letters(65, letter), too_long));
    CHECK_FALSE(nearest(of_letters(64, letter), too_long));
  }
}

TEST_CASE("words of any length and any bytes are taken") {
  const std::vector<std::string> known{std::string(1000000, 'a'), "\xFF\xFE", "collar"};
  CHECK_FALSE(nearest(std::string(1000000, 'a'), known));
  CHECK(nearest("colar", known) == "collar");
  CHECK_NOTHROW(nearest("\xC3\xFF", known));
}
