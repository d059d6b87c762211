// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/quantity.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <random>
#include <string>
#include <vector>

using namespace gatherwright;

namespace {

Tape tape(Unit unit, std::string_view step) {
  return {unit, *read_length(step, unit)};
}

struct Case {
  const char *place;
  Unit unit;
  const char *step;
  const char *reading;
  const char *named;
};

} // namespace

TEST_CASE("a place is read off the tape as a person reads it") {
  const std::vector<Case> cases{
      {"46 mm", Unit::cm, "1 mm", "4.6", "4.6 cm"},
      {"15 cm", Unit::cm, "1 mm", "15", "15 cm"},
      {"82 cm", Unit::cm, "2 mm", "82", "82 cm"},
      {"0 cm", Unit::cm, "1 mm", "0", "0 cm"},
      {"46 mm", Unit::mm, "1 mm", "46", "46 mm"},
      {"46.5 mm", Unit::mm, "0.5 mm", "46.5", "46.5 mm"},
      {"1.205 m", Unit::m, "5 mm", "1.205", "1.205 m"},
      {"1.2 m", Unit::m, "5 mm", "1.2", "1.2 m"},
      {"100 cm", Unit::cm, "1 cm", "100", "100 cm"},
      {"24 3/4 in", Unit::in, "1/16 in", "24 3/4", "24 3/4 in"},
      {"24 1/16 in", Unit::in, "1/16 in", "24 1/16", "24 1/16 in"},
      {"3/4 in", Unit::in, "1/8 in", "3/4", "3/4 in"},
      {"24 in", Unit::in, "1/8 in", "24", "24 in"},
      {"0 in", Unit::in, "1/8 in", "0", "0 in"},
      {"27 1/2 in", Unit::ft, "1/16 in", "2 ft 3 1/2 in", "2 ft 3 1/2 in"},
      {"24 in", Unit::ft, "1/16 in", "2 ft", "2 ft"},
      {"11 15/16 in", Unit::ft, "1/16 in", "11 15/16 in", "11 15/16 in"},
      {"0 in", Unit::ft, "1/16 in", "0", "0 ft"},
      {"40 1/2 in", Unit::yd, "1/16 in", "1 yd 4 1/2 in", "1 yd 4 1/2 in"},
      {"36 in", Unit::yd, "1/16 in", "1 yd", "1 yd"},
      {"71 in", Unit::yd, "1/16 in", "1 yd 35 in", "1 yd 35 in"},
      {"4 1/2 in", Unit::yd, "1/16 in", "4 1/2 in", "4 1/2 in"},
      {"2 yd", Unit::yd, "1/16 in", "2 yd", "2 yd"},
      {"0 in", Unit::yd, "1/16 in", "0", "0 yd"},
  };
  for (const Case &one : cases) {
    const Length place = *read_length(one.place, one.unit);
    INFO(one.place << " in " << name(one.unit) << " at " << one.step);
    CHECK(reading(place, tape(one.unit, one.step)) == one.reading);
    CHECK(named_reading(place, tape(one.unit, one.step)) == one.named);
  }
}

TEST_CASE("a place off the tape is read to the nearest step and says so") {
  const std::vector<Case> cases{
      {"52.33 cm", Unit::cm, "1 mm", "~52.3", "~52.3 cm"},
      {"52.27 cm", Unit::cm, "1 mm", "~52.3", "~52.3 cm"},
      {"52.3 cm", Unit::cm, "2 mm", "~52.2", "~52.2 cm"}, // halfway: the lower
      {"0.04 cm", Unit::cm, "1 mm", "~0", "~0 cm"},
      {"99.97 cm", Unit::cm, "1 mm", "~100", "~100 cm"},
      {"24 25/32 in", Unit::in, "1/8 in", "~24 3/4", "~24 3/4 in"},
      {"11.97 in", Unit::ft, "1/16 in", "~1 ft", "~1 ft"},
      {"35.99 in", Unit::yd, "1/8 in", "~1 yd", "~1 yd"},
      {"0.01 in", Unit::yd, "1/8 in", "~0", "~0 yd"},
  };
  for (const Case &one : cases) {
    const Length place = *read_length(one.place, one.unit);
    INFO(one.place << " in " << name(one.unit) << " at " << one.step);
    CHECK(reading(place, tape(one.unit, one.step)) == one.reading);
    CHECK(named_reading(place, tape(one.unit, one.step)) == one.named);
  }
  const Tape millimetre = tape(Unit::cm, "1 mm");
  CHECK(reading(Length{46.0000009}, millimetre) == "4.6");
  CHECK(reading(Length{46.0000011}, millimetre) == "~4.6");
  CHECK(reading(Length{45.9999989}, millimetre) == "~4.6");
}

TEST_CASE("steps that are no binary fraction of an inch still read sanely") {
  CHECK(reading(*read_length("24.7", Unit::in), tape(Unit::in, "0.1 in")) == "24.7");
  CHECK(reading(*read_length("27.7", Unit::in), tape(Unit::ft, "0.1 in")) == "2 ft 3.7 in");
  CHECK(reading(*read_length("7 2/3", Unit::in), tape(Unit::in, "1/3 in")) == "7 2/3");
  CHECK(reading(*read_length("7 5/12", Unit::in), tape(Unit::in, "1/12 in")) == "7 5/12");
  CHECK(reading(Length{629}, tape(Unit::in, "1 mm")) == "24.764"); // 629 / 25.4 = 24.76378
  CHECK(reading(Length{4.7625}, tape(Unit::cm, "1/16 in")) == "0.47625");
  CHECK(reading(Length{254.0 / 3}, tape(Unit::cm, "1/3 in")) == "8.47"); // 8.4667, read to a tenth of the step
}

TEST_CASE("the sign is never lost and never put before nothing") {
  const Tape millimetre = tape(Unit::cm, "1 mm");
  CHECK(reading(Length{-14}, millimetre) == "-1.4");
  CHECK(named_reading(Length{-28.575}, tape(Unit::in, "1/16 in")) == "-1 1/8 in");
  CHECK(reading(Length{-0.0}, millimetre) == "0");
  CHECK(reading(Length{-0.01}, millimetre) == "~0");
}

TEST_CASE("what a tape says is read back as the same length") {
  struct Graduated {
    Unit unit;
    const char *step;
    double n; // the step is n / d millimetres
    double d;
  };
  const std::vector<Graduated> tapes{
      {Unit::mm, "1 mm", 1, 1},        {Unit::mm, "0.5 mm", 1, 2},     {Unit::cm, "1 mm", 1, 1},
      {Unit::cm, "2 mm", 2, 1},        {Unit::cm, "0.5 mm", 1, 2},     {Unit::m, "1 mm", 1, 1},
      {Unit::m, "1 cm", 10, 1},        {Unit::in, "1/16 in", 127, 80}, {Unit::in, "1/8 in", 127, 40},
      {Unit::in, "1/64 in", 127, 320}, {Unit::in, "1/10 in", 127, 50}, {Unit::in, "1/3 in", 127, 15},
      {Unit::ft, "1/16 in", 127, 80},  {Unit::ft, "1/2 in", 127, 10},  {Unit::yd, "1/16 in", 127, 80},
      {Unit::yd, "1/4 in", 127, 20},   {Unit::cm, "1/16 in", 127, 80}};
  std::mt19937_64 random(3);
  for (const Graduated &one : tapes) {
    const Tape its_tape = tape(one.unit, one.step);
    int wrong = 0;
    for (int round = 0; round < 3000; ++round) {
      const auto steps = static_cast<double>(random() % (round < 1000 ? 2000 : 2000000));
      const Length place{steps * one.n / one.d};
      const std::string text = named_reading(place, its_tape);
      const Outcome<Length> back = read_length(text, Unit::mm);
      wrong += back && back->mm == place.mm ? 0 : 1;
      // The same place as a sum of steps, whose last bits differ, reads the same.
      wrong += named_reading(Length{steps * its_tape.step.mm}, its_tape) == text ? 0 : 1;
      wrong += named_reading(Length{place.mm + 0.3 * its_tape.step.mm}, its_tape) == '~' + text ? 0 : 1;
      wrong += steps == 0 || named_reading(Length{place.mm - 0.3 * its_tape.step.mm}, its_tape) == '~' + text ? 0 : 1;
    }
    INFO(name(one.unit) << " at " << one.step);
    CHECK(wrong == 0);
  }
}

TEST_CASE("places beyond counting are still finite figures") {
  CHECK(reading(Length{1e30}, tape(Unit::mm, "1 mm")) == '1' + std::string("000000000000000019884624838656"));
  CHECK(reading(Length{0}, Tape{Unit::cm, Length{1e300}}) == "0");
  CHECK(reading(Length{std::nan("")}, tape(Unit::cm, "1 mm")).empty());
}
