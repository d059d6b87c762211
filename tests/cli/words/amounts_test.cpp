// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/words/amounts.hpp"

#include <catch2/catch.hpp>

#include <numeric>
#include <string>

using namespace gatherwright;
using words::amount;

namespace {

constexpr double yard = 914.4;
constexpr Length eighth{yard / 8};
constexpr Length ten_cm{100};

} // namespace

TEST_CASE("cloth is bought in metres where a job is metric") {
  for (const Unit unit : {Unit::mm, Unit::cm, Unit::m}) {
    CHECK(amount(2500, ten_cm, unit) == "2.5 m");
    CHECK(amount(600, ten_cm, unit) == "0.6 m");
    CHECK(amount(2000, ten_cm, unit) == "2 m");
    CHECK(amount(2500, eighth, unit) == "2.5 m");
  }
}

TEST_CASE("cloth is bought in metres with as many decimals as its step has") {
  CHECK(amount(0.1 * 3 * 1000, ten_cm, Unit::cm) == "0.3 m"); // 300.00000000000006
  CHECK(amount(1750, Length{250}, Unit::cm) == "1.75 m");
  CHECK(amount(25.4 * 7, Length{25.4}, Unit::cm) == "0.1778 m");
  CHECK(amount(25.4 / 64, Length{25.4 / 64}, Unit::cm) == "0.000396875 m");
}

TEST_CASE("cloth is bought in eighths of a yard where a job is in inches, feet or yards") {
  for (const Unit unit : {Unit::in, Unit::ft, Unit::yd}) {
    CHECK(amount(yard * 19 / 8, eighth, unit) == "2 3/8 yd");
    CHECK(amount(yard * 7 / 8, eighth, unit) == "7/8 yd");
    CHECK(amount(yard * 3, eighth, unit) == "3 yd");
    CHECK(amount(yard * 5 / 4, Length{yard / 4}, unit) == "1 1/4 yd");
    CHECK(amount(yard * 1.5, Length{yard / 2}, unit) == "1 1/2 yd");
  }
}

TEST_CASE("a step that is no whole eighth of a yard is told in metres also in inches") {
  CHECK(amount(2500, ten_cm, Unit::in) == "2.5 m");
  CHECK(amount(yard / 16, Length{yard / 16}, Unit::yd) == "0.05715 m");
}

TEST_CASE("every amount in eighths of a yard reads back as itself with its fraction reduced") {
  for (int eighths = 1; eighths <= 200; ++eighths) {
    const std::string text = amount(eighths * eighth.mm, eighth, Unit::yd);
    const auto read = read_length(text, Unit::yd);
    REQUIRE(read);
    CHECK(read->mm == Approx(eighths * eighth.mm).epsilon(1e-12));
    const std::size_t slash = text.find('/');
    if (slash == std::string::npos) continue;
    CHECK(std::gcd(text[slash - 1] - '0', text[slash + 1] - '0') == 1);
  }
}

TEST_CASE("a share used is never told as more than it is") {
  CHECK(words::percent(0.93) == "93 %");
  CHECK(words::percent(0.9999) == "99 %");
  CHECK(words::percent(1) == "100 %");
  CHECK(words::percent(0.29 * 100 / 100) == "29 %"); // 28.999999999999996 of a hundred
}
