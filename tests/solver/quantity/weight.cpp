// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/quantity.hpp"

#include <catch2/catch.hpp>

#include <string>
#include <vector>

using namespace gatherwright;

namespace {

struct Hint {
  const char *text;
  const char *instead;
};

} // namespace

TEST_CASE("cloth is weighed in grams to the square metre or ounces to the square yard") {
  for (const char *text : {"150 g/m2", "150 g/m²", "150 gsm", "150gsm", "150.0 g / m2", " 150 g/m2 "}) {
    INFO(text);
    REQUIRE(read_weight(text));
    CHECK(read_weight(text)->grams == 150.0);
  }
  // 28.349523125 / 0.9144^2 = 33.90574747488229681... in exact arithmetic
  for (const char *text : {"1 oz/yd2", "1 oz/yd²", "1oz / yd2"}) {
    INFO(text);
    REQUIRE(read_weight(text));
    CHECK(read_weight(text)->grams == 33.905747474882297);
  }
  CHECK(read_weight("4.4 oz/yd2")->grams == Approx(4.4 * 28.349523125 / (0.9144 * 0.9144)).epsilon(1e-15));
  CHECK(read_weight("4 1/2 oz/yd2")->grams == read_weight("4.5 oz/yd2")->grams);
}

TEST_CASE("a weight that is none is refused with how to write it") {
  const std::vector<Hint> hints{
      {"150", "write 150 g/m2"},          {"4.4 oz", "write 4.4 oz/yd2"},    {"4 ounces", "write 4 oz/yd2"},
      {"150 g", "write 150 g/m2"},        {"150 GSM", "write 150 g/m2"},     {"150 g/m^2", "write 150 g/m2"},
      {"4,4 oz/yd2", "write 4.4 oz/yd2"}, {"150 cm", "g/m2 or oz/yd2"},      {"0 g/m2", "above 0"},
      {"0.00 oz/yd2", "above 0"},         {"-150 g/m2", "such as 150 g/m2"}, {"9999999 g/m2", "check"},
      {"heavy", "such as 150 g/m2"},      {"g/m2", "such as 150 g/m2"},      {"", "such as 150 g/m2"}};
  for (const Hint &hint : hints) {
    const Outcome<Weight> weight = read_weight(hint.text);
    INFO(hint.text);
    REQUIRE(!weight);
    INFO(weight.fault().what << "; " << weight.fault().instead);
    CHECK(weight.fault().instead.find(hint.instead) != std::string::npos);
  }
  CHECK(read_weight("4.4 oz").fault().what.find("\"4.4 oz\"") == 0);
}

TEST_CASE("a count is so many to a length") {
  CHECK(*read_count("8 / in") == 80.0 / 254);
  CHECK(*read_count("18/cm") == 1.8);
  CHECK(*read_count("3 / cm") == 0.3);
  CHECK(*read_count("7 1/2 / in") == 75.0 / 254);
  CHECK(*read_count("½ / mm") == 0.5);
}

TEST_CASE("a count that is none is refused with how to write it") {
  const std::vector<Hint> hints{
      {"0.0000001 / ell", "check"},   {"8 per in", "write 8 / in"},   {"8 in", "write 8 / in"},
      {"8", "write 8 / in"},          {"8 / inches", "write 8 / in"}, {"8 / in.", "write 8 / in"},
      {"18 per cm", "write 18 / cm"}, {"8 / 2 cm", "write 4 / cm"},   {"2,5 / cm", "write 2.5 / cm"},
      {"0 / in", "above 0"},          {"-3 / in", "such as 8 / in"},  {"", "such as 8 / in"},
      {"many", "such as 8 / in"},     {"8 /", "write 8 / in"}};
  for (const Hint &hint : hints) {
    const Outcome<double> count = read_count(hint.text);
    INFO(hint.text);
    REQUIRE(!count);
    INFO(count.fault().what << "; " << count.fault().instead);
    CHECK(count.fault().instead.find(hint.instead) != std::string::npos);
  }
}
