// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/formula.hpp"

#include <catch2/catch.hpp>

#include <limits>
#include <random>
#include <vector>

using namespace gatherwright;

namespace {

using Code = Formula::Code;
using Steps = std::vector<Formula::Step>;

bool is_program(Steps steps) {
  return Formula::of_steps(std::move(steps), "w").has_value();
}

constexpr Formula::Step cuff{Code::symbol, 0, 0};
constexpr Formula::Step inch{Code::length, 25.4};
constexpr Formula::Step two{Code::number, 2};
constexpr Code of_two_operands[] = {Code::add, Code::subtract, Code::multiply, Code::divide, Code::least, Code::most};

} // namespace

TEST_CASE("a formula of which nothing is said is a length of 0") {
  const Formula nothing;
  REQUIRE(nothing.steps().size() == 1);
  CHECK(nothing.steps()[0].code == Code::length);
  CHECK(nothing.steps()[0].value == 0);
  CHECK(nothing.written() == "0 mm");
  CHECK(symbols_of(nothing).empty());
  const auto value = evaluate(nothing, {});
  REQUIRE(value);
  CHECK(value->fixed());
  CHECK(value->constant == 0);
}

TEST_CASE("a program keeps its steps and its words") {
  const auto sum = Formula::of_steps({two, cuff, {Code::multiply}, inch, {Code::add}}, "2 * cuff + 1 in");
  REQUIRE(sum);
  CHECK(sum->written() == "2 * cuff + 1 in");
  CHECK(sum->steps().size() == 5);
  CHECK(symbols_of(*sum) == std::vector<int>{0});
  const std::vector<Affine> values{{100, {}}};
  CHECK(evaluate(*sum, values)->constant == 225.4);
  const Formula renamed = sum->written_as("2 * c + 1 in");
  CHECK(renamed.written() == "2 * c + 1 in");
  CHECK(evaluate(renamed, values)->constant == 225.4);
  CHECK(symbols_of(Formula::of_symbol(3, "cuff")) == std::vector<int>{3});
}

TEST_CASE("steps that are no program are refused") {
  CHECK_FALSE(is_program({}));
  CHECK_FALSE(is_program({{Code::negate}}));
  CHECK(is_program({cuff, {Code::negate}}));
  for (const Code code : of_two_operands) {
    CHECK_FALSE(is_program({{code}}));
    CHECK_FALSE(is_program({cuff, {code}}));
    CHECK_FALSE(is_program({cuff, {code}, inch}));
    CHECK(is_program({cuff, inch, {code}}));
    CHECK_FALSE(is_program({two, cuff, inch, {code}}));
  }
  CHECK_FALSE(is_program({cuff, inch}));
  CHECK_FALSE(is_program({{static_cast<Code>(-1)}}));
  CHECK_FALSE(is_program({cuff, inch, {static_cast<Code>(static_cast<int>(Code::most) + 1)}}));
  CHECK_FALSE(is_program({{Code::symbol, 0, -1}}));
  CHECK_FALSE(is_program({{Code::symbol, 0, std::numeric_limits<int>::min()}}));
  for (const double figure : {std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::infinity(),
                              -std::numeric_limits<double>::infinity()}) {
    CHECK_FALSE(is_program({{Code::length, figure}}));
    CHECK_FALSE(is_program({cuff, {Code::number, figure}, {Code::multiply}}));
  }
}

TEST_CASE("random steps are a program where the values they leave say so") {
  std::mt19937_64 random(61);
  int programs = 0;
  for (int trial = 0; trial < 20000; ++trial) {
    Steps steps;
    // What is on the stack, counted apart; below 0 once an operator lacked an operand.
    int left = 0;
    bool lacked = false;
    for (int i = 1 + static_cast<int>(random() % 7); i > 0; --i) {
      switch (random() % 4) {
      case 0:
        steps.push_back({Code::negate});
        lacked = lacked || left < 1;
        break;
      case 1:
        steps.push_back({of_two_operands[random() % 6]});
        lacked = lacked || left < 2;
        --left;
        break;
      default:
        steps.push_back(random() % 2 == 0 ? cuff : inch);
        ++left;
      }
    }
    const bool meant = !lacked && left == 1;
    CHECK(is_program(steps) == meant);
    programs += meant;
  }
  CHECK(programs > 1000);
}
