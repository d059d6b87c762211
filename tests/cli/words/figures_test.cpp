// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/words/figures.hpp"

#include <catch2/catch.hpp>

using namespace gatherwright;

TEST_CASE("a number that rounds to nothing has no minus") {
  CHECK(words::decimals(-0.004, 2) == "0.00");
  CHECK(words::decimals(-0.0, 1) == "0.0");
  CHECK(words::decimals(-0.006, 2) == "-0.01");
  CHECK(words::trimmed(-0.004, 2) == "0");
}

TEST_CASE("zeros at the end of a number are left out only after its point") {
  CHECK(words::trimmed(1.60, 2) == "1.6");
  CHECK(words::trimmed(4.0, 2) == "4");
  CHECK(words::trimmed(100.0, 0) == "100");
  CHECK(words::trimmed(0.25, 2) == "0.25");
}

TEST_CASE("a very large number does not fill a page") {
  CHECK(words::decimals(1e300, 2).size() < 12);
  CHECK(words::trimmed(-1e300, 2).size() < 12);
  CHECK(words::length(1e300, Tape{Unit::yd, Length{1.5875}}).size() < 20);
  CHECK(words::place(1e300, Tape{Unit::yd, Length{1.5875}}).size() < 20);
}

TEST_CASE("a value and the limit it passes never read the same") {
  CHECK(words::ratios(3.4, 2.7).measured == "3.40");
  CHECK(words::ratios(2.7004, 2.7).measured == "2.7004");
  CHECK(words::ratios(2.7004, 2.7).limit == "2.7000");
  CHECK(words::ratios(2.7, 2.7).limit == "2.70");
  CHECK(words::ease_percents(1.09, 1.08).measured == "9 %");
  CHECK(words::ease_percents(1.0804, 1.08).measured == "8.04 %");
  const Tape tape{Unit::cm, Length{1}};
  CHECK(words::lengths(540, 580, tape).measured == "54 cm");
  CHECK(words::lengths(540.04, 540, tape).measured == "54.004 cm");
  CHECK(words::lengths(540.04, 540, tape).limit == "54 cm");
  CHECK(words::lengths(540.04, 540.01, tape).measured == "54.004 cm");
  CHECK(words::lengths(540.04, 540.01, tape).limit == "54.001 cm");
}

TEST_CASE("what passes a limit by less than anyone could cut is just over or just under it") {
  CHECK(words::ratios(2.70004, 2.7).measured == "just over 2.70");
  CHECK(words::ratios(2.70004, 2.7).limit == "2.70");
  CHECK(words::ratios(1.17999999, 1.18).measured == "just under 1.18");
  CHECK(words::ease_percents(1.0800001, 1.08).measured == "just over 8 %");
  CHECK(words::ease_percents(1.0800001, 1.08).limit == "8 %");
  CHECK(words::ease_percents(1.08 + 1e-12, 1.08).measured == "8 %"); // at the limit, but for rounding
  const Tape inches{Unit::in, Length{25.4 / 16}};
  CHECK(words::lengths(36 * 25.4 + 1e-6, 36 * 25.4, inches).measured == "just over 36 in");
  CHECK(words::lengths(36 * 25.4 + 1e-6, 36 * 25.4, inches).limit == "36 in");
  CHECK(words::lengths(36 * 25.4 - 1e-6, 36 * 25.4, inches).measured == "just under 36 in");
  // A limit that no tape shows is told in figures, one of which is the limit.
  const Tape metric{Unit::cm, Length{1}};
  CHECK(words::lengths(540.04 + 1e-6, 540.04, metric).measured == "just over 54.004 cm");
  CHECK(words::lengths(540.04 + 1e-6, 540.04, metric).limit == "54.004 cm");
}

TEST_CASE("two sides that agree but for rounding read the same") {
  const Tape inches{Unit::in, Length{25.4 / 16}};
  const words::Pair sides = words::sides_that_hold(36 * 25.4 + 1e-12, 36 * 25.4, inches);
  CHECK(sides.measured == "36 in");
  CHECK(sides.limit == "36 in");
  CHECK(words::sides_that_hold(35 * 25.4, 36 * 25.4, inches).measured == "35 in");
  CHECK(words::sides_that_hold(36 * 25.4 - 0.01, 36 * 25.4, inches).measured == "35.9996 in");
}

TEST_CASE("a limit is rounded to the step of the tape that still holds") {
  const Tape metric{Unit::cm, Length{2}};
  CHECK(words::length_down(623.9, metric) == "62.2 cm");
  CHECK(words::length_up(622.1, metric) == "62.4 cm");
  CHECK(words::length_down(624, metric) == "62.4 cm");
  CHECK(words::length_up(624, metric) == "62.4 cm");
  // A step that is there but for rounding is there.
  CHECK(words::length_down(624 - 1e-9, metric) == "62.4 cm");
  CHECK(words::length_up(624 + 1e-9, metric) == "62.4 cm");
  const Tape inches{Unit::in, Length{25.4 / 16}};
  CHECK(words::length_down(24.74 * 25.4, inches) == "24 11/16 in");
  CHECK(words::length_up(24.74 * 25.4, inches) == "24 3/4 in");
}

TEST_CASE("half a step goes up, however it was reckoned") {
  const Tape tape{Unit::cm, Length{1}};
  for (const double mm : {7.5, 7.5 - 1e-13, 7.5 + 1e-13, 1.0 - 0.9 + 7.4})
    CHECK(words::nearest_length(mm, tape) == "0.8 cm");
  CHECK(words::nearest_length(7.4999, tape) == "0.7 cm");
}

TEST_CASE("a length off the tape is told as about") {
  const Tape tape{Unit::cm, Length{1}};
  CHECK(words::length(519.3, tape) == "about 51.9 cm");
  CHECK(words::length(519, tape) == "51.9 cm");
  CHECK(words::place(519.3, tape) == "~51.9");
}
