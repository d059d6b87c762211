// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/quantity.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <cstdint>
#include <limits>
#include <random>
#include <string>
#include <vector>

using namespace gatherwright;

namespace {

double mm_of(std::string_view text, Unit bare = Unit::cm) {
  const Outcome<Length> length = read_length(text, bare);
  INFO(text);
  if (!length) INFO(length.fault().what);
  REQUIRE(length);
  return length->mm;
}

Fault fault_of(std::string_view text, Unit bare = Unit::cm) {
  const Outcome<Length> length = read_length(text, bare);
  INFO(text);
  REQUIRE(!length);
  return length.fault();
}

// The decimal digits / 10^places, read by the standard library, which rounds correctly.
double nearest_double(std::uint64_t digits, std::size_t places) {
  const std::string text = std::to_string(digits) + "e-" + std::to_string(places);
  double value = 0;
  std::from_chars(text.data(), text.data() + text.size(), value);
  return value;
}

} // namespace

TEST_CASE("lengths come out as the nearest double to what is written") {
  CHECK(mm_of("62 cm") == 620.0);
  CHECK(mm_of("7 mm") == 7.0);
  CHECK(mm_of("24 3/4 in") == 628.65);
  CHECK(mm_of("13 7/16 in") == 341.3125);
  CHECK(mm_of("0.57 m") == 570.0);
  CHECK(mm_of("1 yd 4 1/2 in") == 1028.7);
  CHECK(mm_of("1 yd 2 ft 4 1/2 in") == 1638.3);
  CHECK(mm_of("2 1/4 nail") == 128.5875);
  CHECK(mm_of("1 ell") == 1143.0);
  CHECK(mm_of("20 nail") == mm_of("1 1/4 yd")); // 16 nails are a yard
  CHECK(mm_of("1/3 yd") == 304.8);
  CHECK(mm_of(".5 cm") == 5.0);
  CHECK(mm_of("0 cm") == 0.0);
}

TEST_CASE("spaces, primes and vulgar fractions are written as people write them") {
  for (const char *text :
       {"24 3/4 in", "24¾ in", "24 ¾ in", "24 3/4in", "24  3 / 4  in", "24 3\u20444 in", "24\u00A03/4\u00A0in",
        "\t24\u202F¾\u2009in\n", "24 3/4 \"", "24¾\u2033", "24.75 in", "2' ¾\""})
    CHECK(mm_of(text) == 628.65);
  for (const char *text : {"5' 10 1/2\"", "5\u2019 10½\u201D", "5\u203210.5\u2033", "5 ft 10 1/2 in",
                           "1 yd 2 ft 10½ in", "5'10½''", "5' 10 1/2 in"})
    CHECK(mm_of(text) == 1790.7);
  CHECK(mm_of("62cm") == 620.0);
  CHECK(mm_of("3/4 in") == 19.05);
  CHECK(mm_of("¾ in") == 19.05);
}

TEST_CASE("every vulgar fraction has its value") {
  struct Vulgar {
    const char *sign;
    double n;
    double d;
  };
  const std::vector<Vulgar> all{{"¼", 1, 4}, {"½", 1, 2}, {"¾", 3, 4}, {"⅐", 1, 7}, {"⅑", 1, 9}, {"⅒", 1, 10},
                                {"⅓", 1, 3}, {"⅔", 2, 3}, {"⅕", 1, 5}, {"⅖", 2, 5}, {"⅗", 3, 5}, {"⅘", 4, 5},
                                {"⅙", 1, 6}, {"⅚", 5, 6}, {"⅛", 1, 8}, {"⅜", 3, 8}, {"⅝", 5, 8}, {"⅞", 7, 8}};
  for (const Vulgar &vulgar : all) {
    CHECK(mm_of(vulgar.sign + std::string(" m")) == 1000 * vulgar.n / vulgar.d);
    CHECK(mm_of("2" + std::string(vulgar.sign) + " mm") == (2 * vulgar.d + vulgar.n) / vulgar.d);
  }
}

TEST_CASE("a bare number is in the unit of the job") {
  CHECK(mm_of("22", Unit::cm) == 220.0);
  CHECK(mm_of("22", Unit::mm) == 22.0);
  CHECK(mm_of("24 3/4", Unit::in) == 628.65);
  CHECK(mm_of("½", Unit::ft) == 152.4);
  struct Named {
    const char *name;
    Unit unit;
    double mm;
  };
  for (const Named &one : {Named{"mm", Unit::mm, 1}, Named{"cm", Unit::cm, 10}, Named{"m", Unit::m, 1000},
                           Named{"in", Unit::in, 25.4}, Named{"ft", Unit::ft, 304.8}, Named{"yd", Unit::yd, 914.4},
                           Named{"nail", Unit::nail, 57.15}, Named{"ell", Unit::ell, 1143}}) {
    CHECK(unit_named(one.name) == one.unit);
    CHECK(mm_of("1", one.unit) == one.mm);
    CHECK(mm_of(std::string("1 ") + one.name, Unit::m) == one.mm);
  }
  for (const char *word : {"inches", "inch", "IN", "cms", "", "i", "yards", "\""})
    CHECK_FALSE(unit_named(word));
}

TEST_CASE("decimals of up to seventeen figures are rounded once") {
  std::mt19937_64 random(20240229);
  int wrong = 0;
  for (int round = 0; round < 20000; ++round) {
    const std::uint64_t digits =
        random() % 100000000000000000 / static_cast<std::uint64_t>(std::pow(10, random() % 17));
    std::string text = std::to_string(digits);
    const std::size_t places = std::max<std::size_t>(8, text.size()) - 5 + random() % 5;
    if (text.size() <= places) text.insert(0, places + 1 - text.size(), '0');
    text.insert(text.size() - places, ".");
    // An inch is 254 tenths of a millimetre, a centimetre 100 and a nail 5715 hundredths, so the products are decimals
    // too.
    wrong += mm_of(text + " in") == nearest_double(digits * 127, places + 1) * 2 ? 0 : 1;
    wrong += mm_of(text + " cm") == nearest_double(digits * 10, places) ? 0 : 1;
    wrong += mm_of(text + " mm") == nearest_double(digits, places) ? 0 : 1;
    wrong += mm_of(text + " m") == nearest_double(digits, places - 3) ? 0 : 1;
  }
  CHECK(wrong == 0);
}

TEST_CASE("mixed fractions are rounded once") {
  std::mt19937_64 random(7);
  int wrong = 0;
  for (int round = 0; round < 20000; ++round) {
    const std::uint64_t whole = random() % 10000;
    const std::uint64_t d = 1 + random() % 1000;
    const std::uint64_t n = random() % (2 * d);
    const std::string text = std::to_string(whole) + ' ' + std::to_string(n) + '/' + std::to_string(d);
    // Both sides of each division are whole numbers below 2^53: one rounding.
    wrong += mm_of(text + " in") == static_cast<double>((whole * d + n) * 127) / static_cast<double>(5 * d) ? 0 : 1;
    wrong += mm_of(text + " nail") == static_cast<double>((whole * d + n) * 1143) / static_cast<double>(20 * d) ? 0 : 1;
    wrong +=
        mm_of("3 yd " + text + " in") == static_cast<double>(((whole + 108) * d + n) * 127) / static_cast<double>(5 * d)
            ? 0
            : 1;
  }
  CHECK(wrong == 0);
}

TEST_CASE("long strings of digits neither overflow nor lose their value") {
  CHECK(mm_of("3.14159265358979323846264338327950288 cm") == Approx(31.41592653589793).epsilon(1e-15));
  CHECK(mm_of("0000000000000000000000000000000000062 cm") == 620.0);
  CHECK(mm_of("62.0000000000000000000000000000000000000 cm") == 620.0);
  CHECK(mm_of("0." + std::string(400, '0') + "1 cm") == 0.0);
  CHECK(mm_of("1 " + std::string(40, '0') + "1/" + std::string(40, '0') + "4 cm") == 12.5);
  CHECK(mm_of("1000000000 mm") == 1e9);
  for (const char *text :
       {"1000000001 mm", "9999999999999999999999 cm", "1000000000 cm", "1000000000000/3 cm", "5 1/99999999999 in"})
    CHECK(fault_of(text).instead.find("check") == 0);
  CHECK_FALSE(read_length(std::string(10'000'000, '9') + " cm", Unit::cm));
  CHECK_FALSE(read_length(std::string(10'000'000, '-') + "9 cm", Unit::cm));
}

TEST_CASE("a number and the same figures as text are one length") {
  std::mt19937_64 random(11);
  CHECK(length_of(0.57, Unit::m)->mm == 570.0);
  CHECK(length_of(24.75, Unit::in)->mm == 628.65);
  CHECK(length_of(0, Unit::cm)->mm == 0.0);
  CHECK_FALSE(std::signbit(length_of(-0.0, Unit::cm)->mm));
  int wrong = 0;
  for (int round = 0; round < 20000; ++round) {
    const double number = std::ldexp(static_cast<double>(random() >> 11), -static_cast<int>(random() % 60) - 30);
    std::array<char, 400> text{};
    const auto end = std::to_chars(text.data(), text.data() + text.size(), number, std::chars_format::fixed).ptr;
    const Unit unit = all_units[random() % all_units.size()];
    const auto read = read_length({text.data(), static_cast<std::size_t>(end - text.data())}, unit);
    const auto same = length_of(number, unit);
    wrong += bool(read) == bool(same) && (!read || read->mm == same->mm) ? 0 : 1;
  }
  CHECK(wrong == 0);
  for (const double number : {-1.0, -1e-300, std::nan(""), std::numeric_limits<double>::infinity(), 1e10, 1e308})
    CHECK_FALSE(length_of(number, Unit::mm));
  CHECK(length_of(5e-324, Unit::mm)->mm >= 0);
}

TEST_CASE("what is nearly a length is refused with how to write it") {
  struct Hint {
    const char *text;
    const char *what;
    const char *instead;
  };
  const std::vector<Hint> hints{
      {"2,5 cm", "decimal comma", "write 2.5 cm"},
      {"2,5", "decimal comma", "write 2.5"},
      {"2,5 cms", "decimal comma", "write 2.5 cm"},
      {"1,000 cm", "\"1,000 cm\"", "write 1.000 cm, or 1000 cm"},
      {"1,234.5 cm", "comma for thousands", "write 1234.5 cm"},
      {"1,2,3 cm", "more than one decimal point or comma", "check"},
      {"24-3/4 in", "\"24-3/4 in\"", "write 24 3/4 in"},
      {"24\u20133/4 in", "dash", "write 24 3/4 in"},
      {"24-\u00BE inches", "dash", "write 24 ¾ in"},
      {"24-3/4", "dash", "write 24 3/4"},
      {"8 cms", "\"8 cms\": cms is no unit", "write 8 cm"},
      {"8 CM", "CM is no unit", "write 8 cm"},
      {"8 centimetres", "centimetres is no unit", "write 8 cm"},
      {"8 centimeters", "centimeters is no unit", "write 8 cm"},
      {"8 centimters", "centimters is no unit", "write 8 cm"},
      {"8 metres", "metres is no unit", "write 8 m"},
      {"8 meters", "meters is no unit", "write 8 m"},
      {"8 millimetres", "millimetres", "write 8 mm"},
      {"24 3/4 inches", "inches is no unit", "write 24 3/4 in"},
      {"24 inch", "inch is no unit", "write 24 in"},
      {"24 ins", "ins is no unit", "write 24 in"},
      {"24 in.", "point", "write 24 in"},
      {"2 1/4 nails", "nails is no unit", "write 2 1/4 nail"},
      {"2 ells", "ells is no unit", "write 2 ell"},
      {"2 yds", "yds is no unit", "write 2 yd"},
      {"2 yards", "yards is no unit", "write 2 yd"},
      {"3 feet", "feet is no unit", "write 3 ft"},
      {"1 yd 4 inches", "inches is no unit", "write 4 in"},
      {"8 yrd", "yrd is no unit", "write 8 yd"},
      {"8 km", "km is no unit", "mm, cm, m, in, ft, yd, nail or ell"},
      {"8 gsm", "gsm is no unit", "mm, cm, m, in, ft, yd, nail or ell"},
      {"3/0 in", "\"3/0 in\"", "check"},
      {"2 3/0 in", "\"2 3/0 in\"", "check"},
      {"1e3 cm", "no exponents", "write 1000 cm"},
      {"1.5E-2m", "no exponents", "write 0.015 m"},
      {"-5 cm", "negative", "write 5 cm"},
      {"\u22125 cm", "negative", "write 5 cm"},
      {"-5", "negative", "write 5"},
      {"+5 cm", "no sign", "write 5 cm"},
      {"1 m 20 cm", "only yards, feet and inches", "write 1.2 m"},
      {"2 cm 3 mm", "only yards, feet and inches", "write 2.3 cm"},
      {"2 nail 1 in", "only yards, feet and inches", "one unit"},
      {"4 in 1 yd", "larger unit comes first", "write 1 yd 4 in"},
      {"2 in 3 in", "in comes twice", "write 5 in"},
      {"1 yd 4 1/2", "4 1/2 has no unit", "write 1 yd 4 1/2 in"},
      {"5' 10", "10 has no unit", "write 5' 10 in"},
      {"3 in 1/2", "fraction", "write 3 1/2 in"},
      {"1 000 cm", "space", "write 1000 cm"},
      {"2 3 cm", "two numbers", "one number"},
      {"5. cm", "point", "write 5 cm"},
      {"1.2.3 cm", "point", "check"},
      {"62 cm,", "comma at the end", "write 62 cm"},
      {"62 cm wide", "nothing may follow", "write 62 cm"},
      {"62 cm + 3 cm", "more than one quantity", "62 cm"},
      {"wrist", "\"wrist\" is no quantity", "such as 62 cm"},
      {"cm", "no quantity", "such as 62 cm"},
      {"", "nothing", "such as 62 cm"},
      {" \t ", "nothing", "such as 62 cm"},
  };
  for (const Hint &hint : hints) {
    const Fault fault = fault_of(hint.text);
    INFO(hint.text << ": " << fault.what << "; " << fault.instead);
    CHECK(fault.what.find(hint.what) != std::string::npos);
    CHECK(fault.instead.find(hint.instead) != std::string::npos);
  }
}

TEST_CASE("what a hint offers for a length can be read") {
  for (const char *text : {"2,5 cm", "24-3/4 in", "8 cms", "24 3/4 inches", "1e3 cm", "1 m 20 cm", "4 in 1 yd", "5' 10",
                           "3 in 1/2", "1 000 cm", "-5 cm", "62 cm,", "24 in.", "2 in 3 in"}) {
    const Fault fault = fault_of(text);
    REQUIRE(fault.instead.substr(0, 6) == "write ");
    CHECK(read_length(fault.instead.substr(6), Unit::cm));
  }
}

TEST_CASE("text that is not UTF-8 is a fault and is not shown") {
  for (const char *text :
       {"\xFF", "62 \xC3", "62 cm\x80", "\xC0\xAF cm", "\xED\xA0\x80", "\xF5\x80\x80\x80", "\xE2\x82"}) {
    CHECK(fault_of(text).what.find("UTF-8") != std::string::npos);
    CHECK_FALSE(read_weight(text));
    CHECK_FALSE(read_count(text));
  }
}

TEST_CASE("a fault is one short line whatever was written") {
  for (const std::string &text : std::vector<std::string>{"62 cm\n\x1B[31m wide", "62 \u202E cm",
                                                          std::string(1000, 'x'), "5 " + std::string(1000, 'x')}) {
    const Fault fault = fault_of(text);
    CHECK(fault.what.size() < 500);
    CHECK(fault.what.find_first_of("\n\x1B") == std::string::npos);
    CHECK(fault.what.find("\u202E") == std::string::npos);
  }
}
