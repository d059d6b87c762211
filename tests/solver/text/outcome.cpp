// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/outcome.hpp"

#include <catch2/catch.hpp>

#include <memory>
#include <string>
#include <utility>

using namespace gatherwright;

TEST_CASE("an outcome is true and gives its value, or is false and gives its fault") {
  const Outcome<std::string> made = std::string("cuff");
  REQUIRE(made);
  CHECK(*made == "cuff");
  CHECK(made->size() == 4);
  const Outcome<std::string> refused = Fault{"this is no name", "write one"};
  REQUIRE_FALSE(refused);
  CHECK(refused.fault() == Fault{"this is no name", "write one"});
  // A value may be taken out of it, whether or not it can be copied.
  Outcome<std::unique_ptr<int>> alone = std::make_unique<int>(7);
  const std::unique_ptr<int> taken = *std::move(alone);
  CHECK(*taken == 7);
}

TEST_CASE("what comes after a value is done where there is one, and else its faults go on") {
  using Number = Outcome<int, std::string>;
  const auto halved = [](int number) -> Number {
    if (number % 2 != 0) return std::to_string(number) + " is odd";
    return number / 2;
  };
  const Number twelve = 12;
  CHECK(*twelve.and_then(halved).and_then(halved) == 3);
  CHECK(twelve.and_then(halved).and_then(halved).and_then(halved).fault() == "3 is odd");
  CHECK(Number("there is none").and_then(halved).fault() == "there is none");
  // The value may be of another type then, and is handed on where no one else holds it.
  const auto told = [](std::unique_ptr<int> number) -> Outcome<std::string, Fault> { return std::to_string(*number); };
  CHECK(*Outcome<std::unique_ptr<int>>(std::make_unique<int>(7)).and_then(told) == "7");
}
