// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/report/json_text.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <array>
#include <bit>
#include <charconv>
#include <cmath>
#include <cstdint>
#include <limits>
#include <random>

using gatherwright::report::JsonText;

TEST_CASE("JSON is laid out by level, or on one line where so opened") {
  JsonText json;
  json.open_object();
  json.text_field("a", "b");
  json.key("c");
  json.open_array();
  json.open_object(JsonText::Lay::one_line);
  json.integer_field("n", 0);
  json.key("at");
  json.open_array();
  json.number(1);
  json.number(0.5);
  json.close();
  json.close();
  json.close();
  json.key("none");
  json.open_array();
  json.close();
  json.close();
  CHECK(json.take() ==
        "{\n  \"a\": \"b\",\n  \"c\": [\n    { \"n\": 0, \"at\": [1.0, 0.5] }\n  ],\n  \"none\": []\n}\n");
}

TEST_CASE("any text comes back from JSON as it went in") {
  std::string every;
  for (int byte = 0; byte < 128; ++byte)
    every += static_cast<char>(byte);
  every += "ä袖\U0001f9f5\u2028";
  JsonText json;
  json.open_object();
  json.text_field(every, every);
  json.close();
  const auto back = nlohmann::json::parse(json.take());
  CHECK(back.at(every) == every);
}

TEST_CASE("a byte is written the same wherever it stands in a text") {
  const auto written = [](const std::string &text) {
    JsonText json;
    json.text(text);
    return json.take();
  };
  for (int byte = 0; byte < 128; ++byte) {
    const std::string alone = written(std::string(1, static_cast<char>(byte)));
    const std::string as_written = alone.substr(1, alone.size() - 3); // without quotes and line feed
    for (std::size_t before = 0; before < 20; ++before) {
      std::string text(20, 'n');
      text[before] = static_cast<char>(byte);
      const std::string all = written(text);
      CHECK(all == '"' + std::string(before, 'n') + as_written + std::string(19 - before, 'n') + "\"\n");
      CHECK(nlohmann::json::parse(all).get<std::string>() == text);
    }
  }
}

TEST_CASE("what turns the direction is written by its number, and no other letter is") {
  const auto written = [](const std::string &text) {
    JsonText json;
    json.open_array(JsonText::Lay::one_line);
    json.text(text);
    json.close();
    return json.take();
  };
  CHECK(written("a\u202eb\u202c\u2066c\u2069") == "[\"a\\u202eb\\u202c\\u2066c\\u2069\"]\n");
  CHECK(written("\u061c\u200e\u200f") == "[\"\\u061c\\u200e\\u200f\"]\n");
  // Every character of the two blocks and of Arabic, some of which begin with the same byte.
  const auto turns = [](int code) {
    return code == 0x61c || code == 0x200e || code == 0x200f || (code >= 0x202a && code <= 0x202e) ||
           (code >= 0x2066 && code <= 0x2069);
  };
  for (int code = 0x600; code < 0x2100; ++code) {
    if (code == 0x700) code = 0x2000;
    std::string letter;
    if (code < 0x800)
      letter = {static_cast<char>(0xc0 | code >> 6), static_cast<char>(0x80 | (code & 63))};
    else
      letter = {static_cast<char>(0xe0 | code >> 12), static_cast<char>(0x80 | (code >> 6 & 63)),
                static_cast<char>(0x80 | (code & 63))};
    CAPTURE(code);
    const std::string text = written("x" + letter + "y");
    CHECK((text == "[\"x" + letter + "y\"]\n") != turns(code));
    CHECK(nlohmann::json::parse(text).at(0) == "x" + letter + "y");
  }
  // What is no UTF-8 is left as it is, for whoever reads it to refuse.
  CHECK(written("a\xe2") == "[\"a\xe2\"]\n");
}

TEST_CASE("any finite number comes back from JSON with the same bits") {
  std::mt19937_64 random(20);
  for (int i = 0; i < 20000; ++i) {
    const auto value = std::bit_cast<double>(random());
    if (!std::isfinite(value)) continue;
    JsonText json;
    json.open_array();
    json.number(value);
    json.close();
    REQUIRE(nlohmann::json::parse(json.take()).at(0).get<double>() == value);
  }
}

TEST_CASE("a number in JSON is the shortest that reads back, and has a point or an exponent") {
  const auto expect_shortest = [](double value) {
    JsonText json;
    json.open_array(JsonText::Lay::one_line);
    json.number(value);
    json.close();
    std::array<char, 32> digits;
    const auto end = std::to_chars(digits.data(), digits.data() + digits.size(), value).ptr;
    std::string shortest(digits.data(), end);
    if (shortest.find_first_of(".e") == std::string::npos) shortest += ".0";
    REQUIRE(json.take() == "[" + shortest + "]\n");
  };
  std::mt19937_64 random(21);
  for (int i = 0; i < 100000; ++i) {
    const int decimals = static_cast<int>(random() % 8);
    const int digits = 1 + static_cast<int>(random() % 11);
    const auto whole = static_cast<double>(random() % static_cast<std::uint64_t>(std::pow(10, digits)));
    const double value = whole / std::pow(10, decimals) * (random() % 2 == 0 ? 1 : -1);
    if (value == 0.0) continue;
    expect_shortest(value);
    expect_shortest(std::nextafter(value, 0.0));
  }
  for (const double value :
       {0.0, 0.001, 0.0001, 0.00015, 99999.9999, 99999.99996, 100000.0, 123456.5, 1e15, 1e22, 1e-300})
    expect_shortest(value);
}

TEST_CASE("what is not a finite number is never written") {
  const double nothing = std::numeric_limits<double>::quiet_NaN();
  const double infinite = std::numeric_limits<double>::infinity();
  JsonText json;
  json.open_object();
  json.number_field("nan", nothing);
  json.number_field("zero", -0.0);
  json.number_field("inf", infinite);
  json.key("list");
  json.open_array();
  json.number(nothing);
  json.number(-infinite);
  json.close();
  json.close();
  const std::string text = json.take();
  CHECK(text == "{\n  \"zero\": 0.0,\n  \"list\": [\n    null,\n    null\n  ]\n}\n");
}
