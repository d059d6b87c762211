// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/job/document.hpp"

#include "tests/seconds.hpp"

#include <catch2/catch.hpp>

#include <random>

using namespace gatherwright::cli;

namespace {

std::vector<InputFault> faults_of(std::string_view text) {
  FaultList faults;
  const auto document = read_document(text, faults);
  CHECK(document.has_value() == faults.empty());
  return std::move(faults).by_line();
}

InputFault only_fault(std::string_view text) {
  const auto faults = faults_of(text);
  CAPTURE(text);
  REQUIRE(faults.size() == 1);
  CHECK(faults.front().pointer.empty());
  return faults.front();
}

/// Every value as "pointer kind line text".
std::vector<std::string> laid_out(const Document &document, const Value &value) {
  constexpr const char *kinds[] = {"null", "boolean", "number", "text", "list", "object"};
  std::vector<std::string> rows;
  rows.push_back(document.pointer(value) + " " + kinds[static_cast<int>(value.kind)] + " " +
                 std::to_string(value.line) + " " +
                 (value.kind == Value::Kind::boolean ? (value.truth ? "true" : "false") : std::string(value.text)));
  for (const Value &child : document.children(value))
    for (auto &row : laid_out(document, child))
      rows.push_back(row);
  return rows;
}

std::vector<std::string> laid_out(std::string_view text) {
  FaultList faults;
  const auto document = read_document(text, faults);
  REQUIRE(document);
  return laid_out(*document, document->root());
}

bool mentions(const std::string &text, std::string_view part) {
  return text.find(part) != std::string::npos;
}

} // namespace

TEST_CASE("every value has its pointer, its line and its text as written") {
  CHECK(laid_out(
            "{ \"a\": [1.50,\n  -2e3\n,\n\"x\\u00e9\\n\"], // a comment\n\"b\":\n{\"c/d~e\": true, \"\": null}\n}") ==
        std::vector<std::string>{" object 1 ", "/a list 1 ", "/a/0 number 1 1.50", "/a/1 number 2 -2e3",
                                 "/a/2 text 4 x\u00e9\n", "/b object 6 ", "/b/c~1d~0e boolean 6 true", "/b/ null 6 "});
}

TEST_CASE("a number at the end of a line or of the file has its own line") {
  CHECK(laid_out("[1\n,2\r\n,3 \n,4/*\n*/\n]") ==
        std::vector<std::string>{" list 1 ", "/0 number 1 1", "/1 number 2 2", "/2 number 3 3", "/3 number 4 4"});
  CHECK(laid_out("\n12") == std::vector<std::string>{" number 2 12"});
  CHECK(laid_out("\n12\n") == std::vector<std::string>{" number 2 12"});
}

TEST_CASE("comments and a byte order mark are passed over") {
  CHECK(laid_out("\xEF\xBB\xBF// one\n/* two\n three */{/**/}//four") == std::vector<std::string>{" object 3 "});
}

TEST_CASE("texts are the same whether written plainly or with escapes") {
  FaultList faults;
  const std::string text = R"(["sleeve", "sl\u0065eve", "\"\\\/\b\f\n\r\t", "\ud83e\udea1", ""])";
  const auto document = read_document(text, faults);
  REQUIRE(document);
  std::vector<std::string> texts;
  for (const Value &value : document->children(document->root()))
    texts.emplace_back(value.text);
  CHECK(texts == std::vector<std::string>{"sleeve", "sleeve", "\"\\/\b\f\n\r\t", "\U0001FAA1", ""});
}

TEST_CASE("a repeated key is told at its second place and is passed over") {
  FaultList faults;
  const auto document = read_document("{\"a\": {\"x\": 1,\n\"y\": 2,\n\"x\":\n3, \"\\u0078\": 4},\n\"b\": 5}", faults);
  REQUIRE(document);
  const auto told = std::move(faults).by_line();
  REQUIRE(told.size() == 2);
  CHECK(told[0].line == 3);
  CHECK(told[1].line == 4);
  for (const auto &fault : told) {
    CHECK(fault.pointer == "/a/x");
    CHECK(mentions(fault.fault.what, "\"x\""));
  }
  CHECK(document->child(*document->child(document->root(), "a"), "x")->text == "1");
}

TEST_CASE("repeated keys are found among many") {
  std::string text = "{\n";
  for (int i = 0; i < 1000; ++i)
    text += "\"k" + std::to_string(i % 997) + "\": " + std::to_string(i) + ",\n";
  text += "\"last\": 0}";
  FaultList faults;
  REQUIRE(read_document(text, faults));
  const auto told = std::move(faults).by_line();
  REQUIRE(told.size() == 3);
  CHECK(told[0].line == 999);
  CHECK(told[2].pointer == "/k2");
}

TEST_CASE("broken JSON is told in words, with its line") {
  struct Case {
    const char *text;
    int line;
    const char *what;
    const char *instead;
  };
  const auto broken = GENERATE(values<Case>({
      {"", 1, "holds nothing", "gatherwright start"},
      {" \n // only this\n", 3, "holds nothing", "gatherwright start"},
      {"{\n\"a\": 1,\n}", 2, "trailing comma", "leave the comma out"},
      {"{\"a\": [1,\n2, /* two */ ]}", 2, "trailing comma", "leave the comma out"},
      {"{\n\"long\": \"24 3/4\"\",\n\"band\": 1}", 2, "\"24 3/4\" is followed by another double quote", "inch mark"},
      {"{\n\"long\": \"24 3/4\"\", \"band\": 1}", 2, " is followed by another double quote", "inch mark"},
      {"{\n\"long\": \"5' 10\"\"\n}", 2, " is followed by another double quote", "inch mark"},
      {"{\"a\": [\"24 3/4\"\"]}", 1, " is followed by another double quote", "inch mark"},
      {"{\n\"title\": \"a 6\" hem\"\n}", 2, "\"a 6\" is followed by \"h\"", "inch mark"},
      {"{\n\"a\": \"24¾\" \"\n}", 2, " is followed by another double quote", "inch mark"},
      {"{\n\"a\": 1\n\"b\": 2}", 3, "a comma is missing", "write one"},
      {"{\"a\": \"x\"\n\"b\": 2}", 2, "a comma is missing", "write one"},
      {"[1 2]", 1, "\"1\" is followed by \"2\"", "double quotes"},
      {"[[1] [2]]", 1, "a comma is missing", "write one"},
      {"{\n\"a\": 24 3/4 in}", 2, "\"24\" is followed by", "double quotes"},
      {"{\"a\": 24-3/4}", 1, "\"24\" is followed by", "double quotes"},
      {"{\"a\": 3/4}", 1, "\"3\" is followed by", "double quotes"},
      {"{\"a\": 62cm}", 1, "\"62\" is followed by \"c\"", "double quotes"},
      {"{\"a\": 2,5}", 1, "2,5 has a comma before its decimals", "write a point: 2.5"},
      {"{\"a\": 17,50 , \"b\": 1}", 1, "17,50 has a comma before its decimals", "17.50"},
      {"{\"a\": 2, 5}", 1, "the key \"5\" stands without quotes", "double quotes"},
      {"{\n\"a\": “17 cm”, \"b\": 1}", 2, "17 cm stands in curly quotes", "straight ones: \"17 cm\""},
      {"{“a”: 1}", 1, "a stands in curly quotes", "straight ones: \"a\""},
      {"{\"a\": 1, „b“: 1}", 1, "b stands in curly quotes", "\"b\""},
      {"{\"a\": “17 cm\", \"b\": 1}", 1, "curly quotes", "straight"},
      {"{\"a\": \"17 cm”, \"b\": 1}", 1, "a curly quote within", "straight one"},
      {"{\"a\": \"17 cm”\n}", 1, "ends in a curly one", "straight one"},
      {"{ /* a\n\"a\": 1}", 1, "a comment that begins with /* is not closed", "*/"},
      {"{\"a\": 1, \n/* a\n\"b\": 1}", 2, "a comment that begins with /* is not closed", "*/"},
      {"{\"a\": /* 1}", 1, "a comment that begins with /* is not closed", "*/"},
      {"{\"a\": 05}", 1, "begins with a 0 too many", "leave it out"},
      {"{\"a\": .5}", 1, "begins with a point", "write a 0"},
      {"{\"a\": -.5}", 1, "begins with a point", "write a 0"},
      {"{\"a\": +5}", 1, "begins with +", "leave"},
      {"{\"a\": 5.}", 1, "\"5.\" is no number", "digits"},
      {"{\"a\": -}", 1, "\"-\" is no number", "digits"},
      {"{\"a\": True}", 1, "\"True\" is not known", "write true"},
      {"{\"a\": no}", 1, "\"no\" is not known", "write false"},
      {"{\"a\": gather}", 1, "\"gather\" stands here without quotes", "\"gather\""},
      {"{a: 1}", 1, "the key \"a\" stands without quotes", "double quotes"},
      {"{'a': 1}", 1, "a key stands in single quotes", "double quotes"},
      {"{\"a\": 'b'}", 1, "a text stands in single quotes", "double quotes"},
      {"{\"a\" 1}", 1, "a colon is missing after the key \"a\"", "\"key\": value"},
      {"{\"a\": }", 1, "a value is missing before \"}\"", "write it"},
      {"{\"a\": 1,,\n\"b\": 2}", 1, "two commas", "leave one out"},
      {"[,1]", 1, "a value is missing before \",\"", "write it"},
      {"{,}", 1, "stands where a key is due", "double quotes"},
      {"{\"a\": [1}", 1, "\"}\" closes what was opened with [", "write ]"},
      {"[{\"a\": 1]", 1, "\"]\" closes what was opened with {", "write }"},
      {"{\n\"a\": [1,\n2\n\n\n", 3, "opened on line 2", "write the missing ]"},
      {"{\"a\": 1", 1, "opened on line 1", "write the missing }"},
      {"{\"a\":", 1, "opened on line 1", "write the missing }"},
      {"{\"a\"", 1, "opened on line 1", "write the missing }"},
      {"{", 1, "opened on line 1", "write the missing }"},
      {"{\"a\": 1} {", 1, "\"{\" stands after the end", "leave out"},
      {"{}\n}", 2, "\"}\" stands after the end", "leave out"},
      {"{\n/* a\n", 2, "comment", "*/"},
      {"{\"a\": \"b\n\"}", 1, "not closed on its line", "double quote"},
      {"{\"a\nb\": 1}", 1, "not closed on its line", "double quote"},
      {"{\"a\": \"b", 1, "not closed on its line", "double quote"},
      {"{\"a\": \"b\tc\"}", 1, "a tab", "space"},
      {"{\"a\": \"b\x01\"}", 1, "control character", "leave it out"},
      {R"({"a": "C:\work"})", 1, "a backslash", "\\\\"},
      {R"({"a": "\u12g4"})", 1, "\\u escape", "itself"},
      {R"({"a": "\ud800"})", 1, "\\u escape", "itself"},
      {R"({"a": "\udc00"})", 1, "\\u escape", "itself"},
      {R"({"a": "\ud800\u0041"})", 1, "\\u escape", "itself"},
      {R"({"a": "\u00)", 1, "\\u escape", "itself"},
      {"{\"a\": ;}", 1, "\";\" cannot stand here", "double quotes"},
      {"{\"a\": \"b\";}", 1, "\";\" cannot stand here", "comma"},
      {"{\"a\": 1 : 2}", 1, "\":\"", "double quotes"},
      {"# a job\n{}", 1, "\"#\" cannot stand here", "double quotes"},
  }));
  const InputFault fault = only_fault(broken.text);
  CAPTURE(broken.text, fault.fault.what, fault.fault.instead);
  CHECK(fault.line == broken.line);
  CHECK(mentions(fault.fault.what, broken.what));
  CHECK(mentions(fault.fault.instead, broken.instead));
}

TEST_CASE("a number too large for a double is told at its own place") {
  const auto faults = faults_of("{\"joins\": [{\n\"make\": 1e999 }]}");
  REQUIRE(faults.size() == 1);
  CHECK(faults[0].line == 2);
  CHECK(faults[0].pointer == "/joins/0/make");
  CHECK(mentions(faults[0].fault.what, "\"1e999\""));
}

TEST_CASE("what is not UTF-8 is refused at its line") {
  // Ill-formed sequences of each sort: Unicode 15, table 3-7.
  for (const char *bad : {"\x80", "\xC1\x81", "\xC3(", "\xE0\x80\x80", "\xED\xA0\x80", "\xF0\x8F\xBF\xBF",
                          "\xF4\x90\x80\x80", "\xF5\x80\x80\x80", "\xE2\x82"})
    CHECK(only_fault("{\n\"a\": 1, // " + std::string(bad) + "\n}").line == 2);
  const InputFault nul = only_fault(std::string_view("{\n\n\0}", 5));
  CHECK(nul.line == 3);
  CHECK(mentions(nul.fault.what, "NUL"));
  CHECK(faults_of("{\"a\": \"\xC2\x80\xDF\xBF\xE0\xA0\x80\xED\x9F\xBF\xEF\xBF\xBF\xF0\x90\x80\x80\xF4\x8F\xBF\xBF\"}")
            .empty());
}

TEST_CASE("nesting is taken to 100 levels and refused beyond") {
  const auto nested = [](std::size_t levels) { return std::string(levels, '[') + std::string(levels, ']'); };
  CHECK(faults_of(nested(100)).empty());
  CHECK(mentions(only_fault("\n" + nested(101)).fault.what, "100 deep"));
  CHECK(only_fault("\n" + nested(101)).line == 2);
  CHECK(mentions(only_fault(std::string(10'000, '[')).fault.what, "100 deep"));
}

TEST_CASE("a million values are read and more are refused") {
  const auto values = [](std::size_t count) {
    std::string text = "[0";
    for (std::size_t i = 2; i < count; ++i) // the list is one of them
      text += ",0";
    return text + "]";
  };
  CHECK(faults_of(values(1'000'000)).empty());
  const InputFault fault = only_fault("\n" + values(1'000'001));
  CHECK(fault.line == 2);
  CHECK(fault.fault.what == "the file has more than 1,000,000 values");
  CHECK(fault.fault.instead == "a job has a few hundred");
}

TEST_CASE("files of 10 MB are read or refused in less than a second") {
  const auto seconds = [](const std::string &text) {
    return seconds_of([&] {
      FaultList faults;
      static_cast<void>(read_document(text, faults));
    });
  };
  constexpr std::size_t size = longest_text;
  CHECK(mentions(only_fault(std::string(size + 1, ' ')).fault.what, "10 MB"));
  CHECK(seconds(std::string(size + 1, '[')) < seconds_allowed);
  CHECK(seconds(std::string(size, ' ')) < seconds_allowed);
  CHECK(seconds("\"" + std::string(size - 2, 'x') + "\"") < seconds_allowed);
  CHECK(seconds("/*" + std::string(size - 2, '*')) < seconds_allowed);
  std::string numbers = "[0";
  while (numbers.size() < size - 3)
    numbers += ",0";
  CHECK(seconds(numbers + "]") < seconds_allowed);
  std::string repeated = "{\"\":0";
  while (repeated.size() < size - 6)
    repeated += ",\"\":0";
  CHECK(seconds(repeated + "}") < seconds_allowed);
}

TEST_CASE("random bytes and random changes give values or a fault, with a line that exists") {
  std::mt19937_64 random(20250101);
  const std::string whole =
      "{ \"a\": [1.5, -2e3, \"x\\u00e9\\n¾\"], // c\n\"b\": {\"c\": true, \"d\": null /* e */} }\n";
  constexpr std::string_view pieces = "{}[]:,\"'\\/*0123.eE+-ut \n\tn\xC2\xBE";
  for (int round = 0; round < 20'000; ++round) {
    std::string text = round % 4 ? whole : std::string();
    const auto changes = 1 + random() % 4;
    for (std::size_t i = 0; i < changes; ++i) {
      const std::string piece(1, pieces[random() % pieces.size()]);
      const std::size_t at = random() % (text.size() + 1);
      if (random() % 3)
        text.insert(at, piece);
      else
        text.erase(at, random() % 3);
    }
    FaultList faults;
    const auto document = read_document(text, faults);
    CAPTURE(text);
    REQUIRE((document || !faults.empty()));
    for (const auto &fault : std::move(faults).by_line()) {
      REQUIRE(fault.line >= 1);
      REQUIRE(fault.line <= 1 + std::count(text.begin(), text.end(), '\n'));
      REQUIRE(!fault.fault.what.empty());
    }
  }
}
