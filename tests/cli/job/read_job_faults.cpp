// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/job/document.hpp"
#include "cli/job/read_job.hpp"
#include "cli/job/syntax.hpp"

#include "tests/cli/job/told_of_text.hpp"
#include "tests/hostile_job.hpp"
#include "tests/seconds.hpp"

#include <catch2/catch.hpp>

#include <array>

using namespace gatherwright::cli;
using gatherwright::tests::check_told;
using gatherwright::tests::faults_of;

namespace {

const std::string simple_join = R"({"name": "n", "long": "52 cm", "band": "22 cm"})";

/// A job that is sound but for what is put in, which begins on line 2; on line 3 of a join, or of its segments.
std::string job(const std::string &keys) {
  return "{\n" + keys + ",\n\"joins\": [" + simple_join + "]}";
}
std::string join(const std::string &keys) {
  return "{\"joins\": [\n{\"name\": \"n\", \"long\": \"52 cm\", \"band\": \"22 cm\",\n" + keys + "\n}]}";
}
std::string segments(const std::string &list) {
  return join("\"segments\": [" + list + "]");
}
/// An edge, on line 2, of an open or a closed join.
std::string edge(const std::string &value, bool closed = false) {
  return "{\"joins\": [{\"name\": \"n\", \"band\": \"22 cm\", \"closed\": " + std::string(closed ? "true" : "false") +
         ", \"long\":\n" + value + "\n}]}";
}
/// Lengths and measures, on line 2, that nothing uses.
std::string lengths(const std::string &entries) {
  return job("\"lengths\": {" + entries + "},\n\"measures\": {\"wrist\": \"17 cm\", \"hand\": \"24 cm\"}");
}
std::string rules(const std::string &list) {
  return job("\"rules\": [" + list + "], \"lengths\": {\"sleeve\": {}, \"cuff\": \"22 cm\"}");
}

} // namespace

TEST_CASE("a job needs a join, and a join its name and both edges") {
  check_told("[]", {{1, "", "found a list", "a job"}});
  check_told("\"a\"", {{1, "", "found a text", "a job"}});
  check_told("\n{}", {{2, "", "\"joins\" is missing", "write at least one"}});
  check_told("{\"joins\":\n[]}", {{2, "/joins", "no join", "write at least one"}});
  check_told("{\"joins\":\n{}}", {{2, "/joins", "found an object", "a list of joins"}});
  check_told("{\"joins\": [\n4,\n{}]}", {{2, "/joins/0", "found a number", "a join"},
                                         {3, "/joins/1", "\"name\" is missing"},
                                         {3, "/joins/1", "\"long\" is missing"},
                                         {3, "/joins/1", "\"band\" is missing"}});
  check_told("{\"joins\": [" + simple_join + ",\n" + simple_join + "]}",
             {{2, "/joins/1/name", "another join is called \"n\""}});
  check_told(R"({"joins": [{"name": "", "long": 1, "band": 1}]})", {{1, "/joins/0/name", "the name is empty"}});
}

TEST_CASE("an unknown key offers the nearest, and does not count as missing as well") {
  check_told(job("\"fabric\": {\n\"wieght\": \"165 g/m2\"}"),
             {{3, "/fabric/wieght", "\"wieght\"", "write \"weight\""}});
  check_told(job("\"colour\":\n\"red\""), {{2, "/colour", "no key \"colour\" in a job", "the keys are title, unit"}});
  check_told(R"({"joins": [{"name": "n", "lon": 1, "band": 1}]})", {{1, "/joins/0/lon", "\"lon\"", "\"long\""}});
  check_told(job("\"rows\": 3"), {{2, "/rows", "no key \"rows\" in a job", "it belongs in \"gathering\""}});
  check_told(join("\"share\": 3, \"unit\": \"cm\""),
             {{3, "/joins/0/share", "in a join", "it belongs in \"segments\""},
              {3, "/joins/0/unit", "in a join", "it belongs in the job itself"}});
  check_told(R"({"jions": []})", {{1, "/jions", "\"jions\"", "\"joins\""}});
  check_told(job("\"a/b~\\n\": 1"), {{2, "/a~1b~0\n", "no key"}});
  check_told(job("\"fabrik\": {\"width\": \"150 cm\"}, \"rules\": [\"cloth_width >= 1 cm\"]"),
             {{2, "/fabrik", "no key"}});
}

TEST_CASE("a key that comes twice is told once, at its second place") {
  check_told(job("\"unit\": \"cm\",\n\"unit\":\n\"furlong\""), {{3, "/unit", "a second time", "keep one"}});
  check_told(lengths("\"cuff\": \"1 cm\",\n\"cuff\": \"wrist +\""),
             {{3, "/lengths/cuff", "\"cuff\" stands here a second time"}});
}

TEST_CASE("the job's own settings are judged") {
  check_told(job(R"("title": 7)"), {{2, "/title", "found a number", "a text in double quotes"}});
  check_told(job(R"("title": "a\nb")"), {{2, "/title", "a line break or control character"}});
  check_told(job(R"("unit": "CM")"), {{2, "/unit", "\"CM\"", "write \"cm\""}});
  check_told(job(R"("unit": "inches")"), {{2, "/unit", "\"inches\" is no unit", "write \"in\""}});
  check_told(job(R"("unit": "nail")"),
             {{2, "/unit", "\"nail\" is not known", "\"mm\", \"cm\", \"m\", \"in\", \"ft\", \"yd\""}});
  check_told(job(R"("unit": 3)"), {{2, "/unit", "found a number", "one of \"mm\""}});
  check_told(job(R"("tape_step": 0)"), {{2, "/tape_step", "comes to 0", "above 0"}});
  check_told(job(R"("tape_step": "2 mm or so")"), {{2, "/tape_step", ""}});
  check_told(job(R"("wearer": {"age": "34"})"), {{2, "/wearer/age", "found a text", "a number such as 34"}});
  check_told(job(R"("wearer": {"age": -1})"), {{2, "/wearer/age", "-1 is too small"}});
  check_told(job(R"("wearer": {"age": 1e300})"), {{2, "/wearer/age", "1e300 is too large"}});
  check_told(job(R"("wearer": 34)"), {{2, "/wearer", "found a number", "a wearer as an object"}});
  check_told(job(R"("tolerance": {"cut": "-1 mm", "mark": -0.5})"),
             {{2, "/tolerance/cut", ""}, {2, "/tolerance/mark", ""}});
}

TEST_CASE("lengths are judged wherever they stand") {
  const auto tail = [](const std::string &value) { return job("\"gathering\": {\"tail\": " + value + "}"); };
  const char *at = "/gathering/tail";
  check_told(tail("true"), {{2, at, "found true", "expected a length such as \"52 cm\""}});
  check_told(tail("null"), {{2, at, "found null", "expected a length"}});
  check_told(tail("[1]"), {{2, at, "found a list", "expected a length"}});
  check_told(tail("-1"), {{2, at, ""}});
  check_told(tail("\"2,5 cm\""), {{2, at, "", "2.5"}});
  check_told(tail("\"24-3/4 in\""), {{2, at, "", "24 3/4"}});
  check_told(tail("\"2 inches\""), {{2, at, "inches", "in"}});
  check_told(tail("\"\""), {{2, at, ""}});
  check_told(tail("1e200"), {{2, at, ""}});
  check_told(tail("2e7"), {{2, at, "100 km"}});
  check_told(tail("1e999"), {{2, at, "too large a number"}});
  for (const char *fine : {"0", "-0", "-0.0", "1e-999", "0.5", "5E0", "\"0 cm\"", "\"2 1/4 nail\"", R"("5' 10 1/2\"")"})
    check_told(tail(fine), {});
}

TEST_CASE("a fabric is judged") {
  check_told(job(R"("fabric": "linen")"), {{2, "/fabric", "found a text", "a fabric as an object in braces"}});
  check_told(job(R"("fabric": {"weight": 165})"), {{2, "/fabric/weight", "a weight has a unit", "\"165 g/m2\""}});
  check_told(job(R"("fabric": {"weight": "4 oz"})"), {{2, "/fabric/weight", "", "yd2"}});
  check_told(job(R"("fabric": {"weight": {}})"), {{2, "/fabric/weight", "found an object", "a weight such as"}});
  check_told(job(R"("fabric": {"width": 0, "thickness": "0 mm", "bending_length": 0, "shrinks": 1, "name": []})"),
             {{2, "/fabric/name", "found a list"},
              {2, "/fabric/width", "comes to 0"},
              {2, "/fabric/thickness", "comes to 0"},
              {2, "/fabric/bending_length", "comes to 0"},
              {2, "/fabric/shrinks", "found a number", "true or false"}});
}

TEST_CASE("the lengths of a swatch rise from tight to cut") {
  const auto swatch = [](const std::string &keys) { return job("\"fabric\": {\"swatch\":\n{" + keys + "}}"); };
  check_told(swatch(R"("tight": 3, "good": [10, 16])"), {{3, "/fabric/swatch", "\"cut\" is missing"}});
  check_told(swatch(R"("cut": 30)"), {{3, "/fabric/swatch", "says nothing"}});
  check_told(swatch(R"("cut": 30, "good": [16, 10])"),
             {{3, "/fabric/swatch/good", "the shorter length stands second"}});
  check_told(swatch(R"("cut": 30, "good": [16, 31])"), {{3, "/fabric/swatch/good", "longer gathered than it was cut"}});
  check_told(swatch(R"("cut": 30, "tight": 31)"),
             {{3, "/fabric/swatch/tight", "longer drawn up tight than it was cut"}});
  check_told(swatch(R"("cut": 30, "tight": 11, "good": [10, 16])"),
             {{3, "/fabric/swatch/tight", "than it looks good"}});
  check_told(swatch(R"("cut": 30, "good": [10])"), {{3, "/fabric/swatch/good", "found a list of 1", "two lengths"}});
  check_told(swatch(R"("cut": 30, "good": [10, "x"])"), {{3, "/fabric/swatch/good/1", ""}});
  check_told(swatch(R"("cut": 30, "tight": 0)"), {{3, "/fabric/swatch/tight", "comes to 0"}});
  check_told(swatch(R"("cut": 30, "tight": 3, "stitch": "0.05 mm")"),
             {{3, "/fabric/swatch/stitch", "no shorter than 0.1 mm"}});
  check_told(swatch(R"("cut": 30, "tight": 30, "good": [30, 30])"), {});
  check_told(swatch(R"("cut": 30, "tight": 3, "stitch": "900 / in")"),
             {{3, "/fabric/swatch/stitch", "cannot be so small"}});
  check_told(swatch(R"("cut": 30, "tight": 3, "threads": [3, 4])"),
             {{3, "/fabric/swatch", "\"threads\" stands without \"count\""}});
  check_told(swatch(R"("cut": 30, "tight": 3, "count": "18 / cm")"),
             {{3, "/fabric/swatch", "\"count\" stands without \"threads\""}});
  check_told(swatch(R"("cut": 30, "tight": 3, "threads": [3, 4], "count": "18 / cm", "stitch": "4 mm")"),
             {{3, "/fabric/swatch/threads", "given twice"}});
  check_told(swatch(R"("cut": 30, "tight": 3, "threads": [3, 4], "count": "9000 / cm")"),
             {{3, "/fabric/swatch/count", "this makes a stitch of"}});
}

TEST_CASE("a gathering is judged, and its stitch is given in one way") {
  const auto gathering = [](const std::string &keys) { return job("\"gathering\": {" + keys + "}"); };
  check_told(gathering(R"("rows": 0)"), {{2, "/gathering/rows", "0 is too few", "a whole number from 1"}});
  check_told(gathering(R"("rows": 2.5)"), {{2, "/gathering/rows", "2.5 is not whole"}});
  check_told(gathering(R"("rows": 1e30)"), {{2, "/gathering/rows", "1e30 is too many"}});
  check_told(gathering(R"("rows": "2")"), {{2, "/gathering/rows", "found a text", "a whole number such as 2"}});
  check_told(gathering(R"("longest": 0)"), {{2, "/gathering/longest", "comes to 0"}});
  check_told(gathering(R"("stitch": "0.01 mm")"), {{2, "/gathering/stitch", "no shorter than 0.1 mm"}});
  check_told(gathering(R"("stitch": "8 / furlong")"), {{2, "/gathering/stitch", ""}});
  check_told(gathering(R"("stitch": "1000 / mm")"), {{2, "/gathering/stitch", "so small"}});
  check_told(gathering(R"("stitch": {"threads": [3, 4]})"),
             {{2, "/gathering/stitch", "found an object", "in place of"}});
  check_told(gathering(R"("threads": [3, 4])"), {{2, "/gathering", "without \"count\"", "18 / cm"}});
  check_told(gathering(R"("count": "18 / cm")"), {{2, "/gathering", "without \"threads\"", "[3, 4]"}});
  check_told(gathering(R"("stitch": "4 mm", "threads": [3, 4], "count": "18 / cm")"),
             {{2, "/gathering/threads", "given twice"}});
  check_told(gathering(R"("stitch": "4 mm", "count": "18 / cm")"), {{2, "/gathering/count", "given twice"}});
  check_told(gathering(R"("threads": 3, "count": 18)"), {{2, "/gathering/threads", "found a number", "[3, 4]"},
                                                         {2, "/gathering/count", "along which length", "\"18 / cm\""}});
  check_told(gathering(R"("threads": [3, 4], "count": true)"),
             {{2, "/gathering/count", "found true", "a count such as \"18 / cm\""}});
  check_told(gathering(R"("threads": [3, 0], "count": "x")"),
             {{2, "/gathering/threads/1", "too few"}, {2, "/gathering/count", ""}});
  check_told(gathering(R"("threads": [1, 1], "count": "300 / cm")"), {{2, "/gathering/count", "makes a stitch of"}});
  check_told(gathering(R"("threads": [3, 4], "count": "18 / cm")"), {});
  check_told(gathering(R"("stitch": "3/8 in")"), {});
  check_told(gathering(R"("stitch": "8 / in")"), {});
}

TEST_CASE("a join's own gathering is judged together with the job's") {
  const auto both = [](const std::string &of_job, const std::string &of_join) {
    return "{\"gathering\": {" + of_job +
           "}, \"joins\": [{\"name\": \"n\", \"long\": 52, \"band\": 22, \"gathering\":\n{" + of_join + "}}]}";
  };
  const std::string counted = R"("threads": [3, 4], "count": "18 / cm")";
  check_told(both(counted, R"("threads": [2, 4])"), {});
  check_told(both(counted, R"("count": "20 / cm")"), {});
  check_told(both(R"("threads": [3, 4], "count": "200 / cm")", R"("threads": [1, 1])"),
             {{2, "/joins/0/gathering/threads", "makes a stitch of 0.005 cm", "how many threads the cloth has"}});
  check_told(both(counted, R"("stitch": "3 mm")"), {});
  check_told(both(R"("stitch": "3 mm")", counted), {});
  check_told(both(R"("stitch": "3 mm")", R"("threads": [2, 4])"), {{2, "/joins/0/gathering", "without \"count\""}});
  check_told(both(R"("threads": [3, 4], "count": 18)", R"("threads": [2, 4])"),
             {{1, "/gathering/count", "along which length"}});
}

TEST_CASE("marks are asked for in one way") {
  const auto marks = [](const std::string &keys) { return job("\"marks\":\n{" + keys + "}"); };
  check_told(marks(""), {{3, "/marks", "do not say where", "\"parts\": 4"}});
  check_told(marks(R"("parts": 8, "apart": "5 cm")"), {{3, "/marks/parts", "\"apart\" and \"parts\" stand together"}});
  check_told(marks(R"("every": 4, "parts": 8)"), {{3, "/marks/every", "\"parts\" and \"every\" stand together"}});
  check_told(marks(R"("parts": 8, "halves": true)"), {{3, "/marks/halves", "without \"apart\""}});
  check_told(marks(R"("halves": true)"), {{3, "/marks/halves", "without \"apart\""}});
  check_told(marks(R"("parts": 0)"), {{3, "/marks/parts", "too few"}});
  check_told(marks(R"("parts": "8")"), {{3, "/marks/parts", "found a text"}});
  check_told(marks(R"("apart": 0)"), {{3, "/marks/apart", "comes to 0"}});
  check_told(marks(R"("apart": 5, "halves": "yes")"), {{3, "/marks/halves", "found a text", "true or false"}});
  check_told(marks(R"("part": 4)"), {{3, "/marks/part", "no key"}});
  check_told(join("\"marks\": {\"every\": \"0 cm\"}"), {{3, "/joins/0/marks/every", "comes to 0"}});
}

TEST_CASE("names are judged where they are given") {
  check_told(lengths("\"1st\": \"1 cm\""), {{2, "/lengths/1st", ""}});
  check_told(lengths("\"cuff width\": \"1 cm\""), {{2, "/lengths/cuff width", "", "cuff_width"}});
  check_told(lengths("\"min\": \"1 cm\", \"cm\": 1, \"cloth_width\": 1"),
             {{2, "/lengths/min", ""}, {2, "/lengths/cm", ""}, {2, "/lengths/cloth_width", ""}});
  check_told(lengths("\"Ärmel_2\": \"1 cm\""), {});
  check_told(lengths("\n\"wrist\": \"1 cm\""), {{4, "/measures/wrist", "the name \"wrist\" is used twice"}});
  check_told(job("\"measures\": {\"wrist\": 17},\n\"lengths\": {\"wrist\": 18}"),
             {{3, "/lengths/wrist", "used twice"}});
  check_told(job("\"lengths\": []"), {{2, "/lengths", "found a list", "lengths as an object"}});
}

TEST_CASE("a measure is one quantity") {
  const auto measures = [](const std::string &entries) { return job("\"measures\": {" + entries + "}"); };
  check_told(measures(R"("wrist": "hand - 7 cm")"), {{2, "/measures/wrist", ""}});
  check_told(measures(R"("wrist": "2 * 8 cm")"), {{2, "/measures/wrist", "not a formula", "lengths"}});
  check_told(measures(R"("wrist": {"is": 17})"), {{2, "/measures/wrist", "found an object", "a length such as"}});
  check_told(measures(R"("wrist": "-17 cm")"), {{2, "/measures/wrist", ""}});
}

TEST_CASE("formulas are judged where they are written") {
  check_told(lengths("\"cuff\": \"wrist + 5\""), {{2, "/lengths/cuff", "5 has no unit", "5 cm"}});
  check_told(lengths("\"cuff\": \"rist + 5 cm\""), {{2, "/lengths/cuff", "rist", "wrist"}});
  check_told(lengths("\"cuff\": \"wrist * hand\""), {{2, "/lengths/cuff", ""}});
  check_told(lengths("\"cuff\": \"wrist +\""), {{2, "/lengths/cuff", ""}});
  check_told(lengths("\"cuff\": [\"wrist\"]"), {{2, "/lengths/cuff", "found a list", "a formula such as"}});
  check_told(lengths("\"cuff\": \"wrist - 20 cm\""), {{2, "/lengths/cuff", "comes to -3 cm", "never below 0"}});
  check_told(lengths("\"cuff\": {\"is\": \"wrist - 17 cm\"}"), {});
  check_told(lengths("\"cuff\": {\"is\": \"wrist / (hand - 24 cm) * hand\"}"), {{2, "/lengths/cuff/is", ""}});
  check_told(lengths("\"cuff\": {\"from\": 1}, \"a\": \"min(cuff, wrist)\""), {{2, "/lengths/a", ""}});
  check_told(lengths("\"cuff\": \"cloth_width / 4\",\n\"b\": \"cloth_width\""),
             {{2, "/lengths/cuff", "cloth_width is not known", "\"width\""}, {3, "/lengths/b", "cloth_width"}});
  check_told(job(R"("fabric": {"width": "150"}, "lengths": {"cuff": "cloth_width / 4"})"), {});
  check_told(job(R"("fabric": {"width": "150 cms"}, "lengths": {"cuff": "cloth_width / 4"})"),
             {{2, "/fabric/width", ""}});
  check_told(job(R"("fabric": {"widht": "150 cm"}, "lengths": {"cuff": "cloth_width / 4"})"),
             {{2, "/fabric/widht", "no key"}});
}

TEST_CASE("what only follows from a fault is not told") {
  check_told(
      lengths("\"a\": \"8 cms\",\n\"b\": \"a * 2\", \"c\": \"a - 100 cm\", \"d\": {\"from\": \"b\", \"aim\": \"c\"}"),
      {{2, "/lengths/a", "cms"}});
  check_told(lengths("\"a\": \"wrist - 1 m\",\n\"b\": \"a - 1 m\""), {{2, "/lengths/a", "comes to -83 cm"}});
  check_told(
      job("\"measures\": {\"wrist\": true},\n\"lengths\": {\"a\": \"wrist - 1 m\"}, \"rules\": [\"wrist >= a\"]"),
      {{2, "/measures/wrist", "found true"}});
  check_told(lengths("\"a b\": \"1 cm\", \"c\": \"wrist\""), {{2, "/lengths/a b", ""}});
  check_told(R"({"lengths": {"a": "1 cms"}, "joins": [{"name": "n", "long": "a - 2 cm", "band": "a"}]})",
             {{1, "/lengths/a", "cms"}});
}

TEST_CASE("a ring of lengths is told once, at its first length in the file") {
  check_told(lengths("\"slit\":\n\"slit + 1 cm\""), {{3, "/lengths/slit", "slit -> slit"}});
  check_told(
      lengths("\"x\": \"b\",\n\"a\": {\"is\": \"b + 1 cm\"}, \"b\": \"c\",\n\"c\": \"2 * a\", \"d\": \"a - 1 m\""),
      {{3, "/lengths/a/is", "a -> b -> c -> a"}});
  check_told(lengths("\"a\": {\"from\": \"a / 2\"},\n\"p\": \"q\", \"q\": {\"to\": \"p\", \"from\": 1}"),
             {{2, "/lengths/a/from", "a -> a"}, {3, "/lengths/p", "p -> q -> p"}});
  check_told(lengths("\"a\": {\"to\": \"a / 2\"},\n\"p\": {\"aim\": \"p + 1 cm\"}"),
             {{2, "/lengths/a/to", "a -> a", "given without"}, {3, "/lengths/p/aim", "p -> p", "given without"}});
  check_told(lengths("\"a\": \"a\",\n\"b\": \"wrist - 1 m\""),
             {{2, "/lengths/a", "a -> a"}, {3, "/lengths/b", "comes to -83 cm"}});
}

TEST_CASE("a free length has a fixed range and an aim") {
  const auto free = [](const std::string &keys) {
    return lengths("\"f\": {}, \"g\": \"2 * f\", \"a\":\n{" + keys + "}");
  };
  check_told(free(""), {});
  check_told(free(R"("keep": true)"), {});
  check_told(free(R"("from": "wrist", "to": "2 * wrist", "aim": "wrist + 1 cm", "keep": true)"), {});
  check_told(free(R"("is": "f", "keep": true)"), {});
  check_told(free(R"("keep": "yes")"), {{3, "/lengths/a/keep", "found a text", "true or false"}});
  check_told(free(R"("from": "f")"), {{3, "/lengths/a/from", "this hangs on \"f\", which is to be found", "fixed"}});
  check_told(free(R"("to": "g + 1 cm")"), {{3, "/lengths/a/to", "hangs on \"f\""}});
  check_told(free(R"("aim": "f")"), {{3, "/lengths/a/aim", "hangs on \"f\""}});
  check_told(free(R"("from": "wrist - 1 m")"), {{3, "/lengths/a/from", "comes to -83 cm"}});
  check_told(free(R"("aim": 0)"), {{3, "/lengths/a/aim", "comes to 0"}});
  check_told(free(R"("aim": "mots")"), {{3, "/lengths/a/aim", "mots"}});
  check_told(free(R"("aim": "most", "from": 3)"), {{3, "/lengths/a/aim", "there must be a most", "\"to\""}});
  check_told(free(R"("aim": "most", "to": 3)"), {});
  check_told(free(R"("aim": "least")"), {});
  check_told(free(R"("is": "wrist", "from": 3, "aim": 4)"),
             {{3, "/lengths/a/from", "\"is\" and \"from\" stand together"}});
  check_told(free(R"("from": 60, "to": 40)"), {}); // a conflict, which planning tells
}

TEST_CASE("rules are linear and their names differ") {
  check_told(rules("\"2 * sleeve <= 150\""), {{2, "/rules/0", "150 has no unit"}});
  check_told(rules("\"sleeve * sleeve <= cuff * 1 cm\""), {{2, "/rules/0", ""}});
  check_told(rules("\"cuff * cuff / sleeve >= 1 cm\""), {{2, "/rules/0", ""}});
  check_told(rules("\"max(sleeve, cuff) >= 1 cm\""), {{2, "/rules/0", ""}});
  check_told(rules("\"1 cm <= sleeve <= 2 cm\""), {{2, "/rules/0", ""}});
  check_told(rules("\"sleeve < cuff\""), {{2, "/rules/0", "", "<="}});
  check_told(rules("\"sleeve\""), {{2, "/rules/0", ""}});
  check_told(rules("7"), {{2, "/rules/0", "found a number", "a rule such as"}});
  check_told(rules("{\"name\": \"n\"}"), {{2, "/rules/0", "\"holds\" is missing"}});
  check_told(rules("{\"name\": 3, \"holds\":\n4}"),
             {{2, "/rules/0/name", "found a number"}, {3, "/rules/0/holds", "found a number"}});
  check_told(rules("{\"name\": \"n\", \"holds\": \"cuff >= 1 cm\"},\n{\"name\": \"n\", \"holds\": \"cuff >= 2 cm\"}"),
             {{3, "/rules/1/name", "another rule is called \"n\""}});
  check_told(rules("\"sleeve >= cloth_width\""), {{2, "/rules/0", "cloth_width is not known"}});
  check_told(rules("\"sleeve >= cuff\", \"sleeve >= cuff\", \"cuff >= 30 cm\""), {});
  check_told(job("\"rules\": \"a\""), {{2, "/rules", "found a text", "a list of rules"}});
}

TEST_CASE("an edge is a length or a path") {
  check_told(edge("true"), {{2, "/joins/0/long", "found true", "a length such as"}});
  check_told(edge("\"0 cm\""), {{2, "/joins/0/long", "comes to 0", "above 0"}});
  check_told(edge("0"), {{2, "/joins/0/long", "comes to 0"}});
  check_told(edge("\"5 cm - 6 cm\""), {{2, "/joins/0/long", "comes to -1 cm"}});
  check_told(edge("{\"length\": \"0 cm\"}"), {{2, "/joins/0/long/length", "comes to 0"}});
  check_told(edge("{}"), {{2, "/joins/0/long", "neither \"length\" nor \"path\""}});
  check_told(edge("{\"lenght\": 52}"), {{2, "/joins/0/long/lenght", "no key"}});
  check_told(edge("{\"length\": 52, \"path\":\n\"M 0 0 L 9 0\"}"), {{2, "/joins/0/long/path", "stand together"}});
  check_told(edge("{\"length\": 52, \"ends\": \"1 cm\"}"), {{2, "/joins/0/long/ends", "found a text", "two lengths"}});
  check_told(edge("{\"length\": 52, \"ends\": [\"1 cm\", -1]}"), {{2, "/joins/0/long/ends/1", ""}});
  check_told(edge("{\"length\": 52, \"allowance\": 1, \"grain\": 45, \"garment\": \"left\", \"path_unit\": \"mm\"}"),
             {{2, "/joins/0/long/path_unit", "edge given by its length"},
              {2, "/joins/0/long/garment", "edge given by its length"},
              {2, "/joins/0/long/grain", "edge given by its length"},
              {2, "/joins/0/long/allowance", "edge given by its length", "\"ends\""}});
  check_told(edge("{\"length\": 52, \"ends\": [0, \"1 cm\"]}"), {});
}

TEST_CASE("a drawn edge says on which side the garment lies") {
  const auto drawn = [](const std::string &keys, bool closed = false) {
    return edge("{\"path\": \"M 0 0 L 9 0\",\n" + keys + "}", closed);
  };
  check_told(edge("{\"path\": 3}"), {{2, "/joins/0/long/path", "found a number", "path data"}});
  check_told(edge("{\"path\": \" \"}"), {{2, "/joins/0/long/path", "the path is empty"}});
  check_told(drawn("\"path_unit\": \"px\""), {{3, "/joins/0/long/path_unit", "\"px\""}});
  check_told(drawn("\"allowance\": \"1 cm\""),
             {{2, "/joins/0/long", "\"garment\" is missing", "\"left\" or \"right\""}});
  check_told(drawn("\"allowance\": \"1 cm\"", true),
             {{2, "/joins/0/long", "\"garment\" is missing", "\"inside\" or \"outside\""}});
  check_told(drawn("\"allowance\": \"1 cm\", \"garment\": \"inside\""),
             {{3, "/joins/0/long/garment", "closed edge only", "\"left\" or \"right\""}});
  check_told(drawn("\"garment\": \"lefft\""), {{3, "/joins/0/long/garment", "\"lefft\"", "\"left\""}});
  check_told(drawn("\"grain\": \"90\""), {{3, "/joins/0/long/grain", "found a text", "a number such as 90"}});
  check_told(drawn("\"allowance\": 0"), {});
  check_told(
      drawn("\"allowance\": \"1 cm\", \"garment\": \"left\", \"grain\": -45, \"path_unit\": \"in\", \"ends\": [1, 1]"),
      {});
  check_told(drawn("\"allowance\": \"1 cm\", \"garment\": \"outside\"", true), {});
}

TEST_CASE("a join's own keys are judged") {
  check_told(join(R"("closed": 1, "make": 0, "mirrored": "yes")"),
             {{3, "/joins/0/closed", "found a number", "true or false"},
              {3, "/joins/0/make", "too few"},
              {3, "/joins/0/mirrored", "found a text"}});
  check_told(join(R"("make": 1.5)"), {{3, "/joins/0/make", "1.5 is not whole"}});
  check_told(join(R"("use": "curtains")"),
             {{3, "/joins/0/use", "\"curtains\" is not known here", "write \"curtain\""}});
  check_told(join(R"("use": "sleeve")"),
             {{3, "/joins/0/use", "\"sleeve\" is not known here", "write one of \"skirt\", \"curtain\""}});
  check_told(join(R"("use": null)"), {{3, "/joins/0/use", "found null", "one of \"skirt\", \"curtain\""}});
  check_told(join(R"("segments": {})"), {{3, "/joins/0/segments", "found an object", "a list of segments"}});
  check_told(join(R"("segments": [])"), {{3, "/joins/0/segments", "there is no segment"}});
  check_told(join(R"("segments": [4])"), {{3, "/joins/0/segments/0", "found a number", "a segment as an object"}});
  check_told(join(R"("fabric": {"weight": 1}, "gathering": {"rows": 0}, "marks": 4)"),
             {{3, "/joins/0/marks", "found a number"},
              {3, "/joins/0/fabric/weight", "has a unit"},
              {3, "/joins/0/gathering/rows", "too few"}});
}

TEST_CASE("a segment is judged by its kind") {
  check_told(segments(R"({"kind": "gathered"})"), {{3, "/joins/0/segments/0/kind", "\"gathered\"", "\"gather\""}});
  check_told(segments(R"({"kind": 1})"), {{3, "/joins/0/segments/0/kind", "found a number", "one of \"gather\""}});
  check_told(segments(R"({"name": 1, "to": 2, "share": 0})"), {{3, "/joins/0/segments/0/name", "found a number"},
                                                               {3, "/joins/0/segments/0/to", "found a number"},
                                                               {3, "/joins/0/segments/0/share", "too small"}});
  check_told(segments(R"({"long": 0, "band": "1 cm - 1 cm"})"),
             {{3, "/joins/0/segments/0/long", "comes to 0"}, {3, "/joins/0/segments/0/band", "comes to 0"}});
  check_told(segments(R"({"long": {"length": 3}})"),
             {{3, "/joins/0/segments/0/long", "found an object", "a length such as"}});
  check_told(segments("{\"kind\": \"flat\", \"long\": 3,\n\"limits\": {}, \"share\": 1, \"spread\": \"even\"}, {}"),
             {{4, "/joins/0/segments/0/limits", "a flat segment has no \"limits\""},
              {4, "/joins/0/segments/0/share", "a flat segment has no \"share\""},
              {4, "/joins/0/segments/0/spread", "a flat segment has no \"spread\""}});
  check_told(segments(R"({"kind": "gauge", "spread": {"fade": [1, 1]}})"),
             {{3, "/joins/0/segments/0/spread", "kind \"gauge\" is always even"}});
  check_told(segments(R"({"kind": "draw", "spread": {"shape": [[0, 1], [1, 1]]}})"),
             {{3, "/joins/0/segments/0/spread", "kind \"draw\" is always even"}});
  check_told(segments(R"({"kind": "gauge", "spread": "even"}, {"kind": "ease", "spread": {"fade": [0, 1]}})"), {});
}

TEST_CASE("limits rise from 1") {
  const auto limits = [](const std::string &keys, const std::string &kind = "gather") {
    return segments("{\"kind\": \"" + kind + "\", \"limits\": {" + keys + "}}");
  };
  const std::string at = "/joins/0/segments/0/limits";
  check_told(limits(R"("least": 0.9)"), {{3, "/joins/0/segments/0/limits/least", "0.9 is too small", "from 1"}});
  check_told(limits(R"("most": "2.5 to 1")"), {{3, "/joins/0/segments/0/limits/most", "found a text", "2.5"}});
  check_told(limits(R"("least": 2, "most": 1.5)"),
             {{3, "/joins/0/segments/0/limits/least", "\"least\" is above \"most\""}});
  check_told(limits(R"("ideal": 2, "most": 1.5)"), {{3, "/joins/0/segments/0/limits/ideal", "does not lie between"}});
  check_told(limits(R"("ideal": 1.2, "least": 1.5)"),
             {{3, "/joins/0/segments/0/limits/ideal", "does not lie between"}});
  check_told(limits(R"("most": 1e9)"), {{3, "/joins/0/segments/0/limits/most", "too large"}});
  check_told(limits(R"("least": 1.01, "most": 1.04)", "ease"),
             {{3, "/joins/0/segments/0/limits/least", "no limit of ease", "\"most\" alone"}});
  check_told(limits(R"("most": 1.04)", "ease"), {});
  check_told(limits(R"("least": 1.5, "ideal": 1.5, "most": 1.5)"), {});
}

TEST_CASE("a spread is even, a fade, a shape or the grain's") {
  const auto spread = [](const std::string &value) { return segments("{\"spread\":\n" + value + "}"); };
  const char *at = "/joins/0/segments/0/spread";
  check_told(spread("\"evne\""), {{4, at, "\"evne\"", "\"even\""}});
  check_told(spread("1"), {{4, at, "found a number", "\"fade\""}});
  check_told(spread("{}"), {{4, at, "says nothing", "\"fade\""}});
  check_told(spread("\"grain\""), {{4, at, "needs a long edge that is drawn", "\"path\""}});
  check_told(spread("{\"fade\": [1, 1], \"shape\": [[0, 1], [1, 1]]}"),
             {{4, "/joins/0/segments/0/spread/shape", "stand together"}});
  check_told(spread("{\"fade\": [1, -1]}"), {{4, "/joins/0/segments/0/spread/fade/1", ""}});
  check_told(spread("{\"fade\": 3}"), {{4, "/joins/0/segments/0/spread/fade", "found a number", "two lengths"}});
  check_told(spread("{\"shape\": 3}"), {{4, "/joins/0/segments/0/spread/shape", "found a number", "points"}});
  check_told(spread("{\"shape\": [[0, 1]]}"),
             {{4, "/joins/0/segments/0/spread/shape", "a list of 1", "two or more points"}});
  check_told(spread("{\"shape\": [[0.1, 1], [1, 1]]}"), {{4, "/joins/0/segments/0/spread/shape/0", "not at 0"}});
  check_told(spread("{\"shape\": [[0, 1], [0.9, 1]]}"), {{4, "/joins/0/segments/0/spread/shape/1", "not at 1"}});
  check_told(spread("{\"shape\": [[0, 1], [0.5, 1],\n[0.5, 2], [1, 1]]}"),
             {{5, "/joins/0/segments/0/spread/shape/2", "does not lie after"}});
  check_told(spread("{\"shape\": [[0, 0], [1, 0]]}"), {{4, "/joins/0/segments/0/spread/shape", "no extra anywhere"}});
  check_told(spread("{\"shape\": [[0, -1], [1, 2]]}"), {{4, "/joins/0/segments/0/spread/shape/0/1", "too small"}});
  check_told(spread("{\"shape\": [[0, 1], [1, 1e-9]]}"),
             {{4, "/joins/0/segments/0/spread/shape/1/1", "too small beside 1", "write 0"}});
  check_told(spread("{\"shape\": [[0, 1], [1.5, 2]]}"), {{4, "/joins/0/segments/0/spread/shape/1/0", "too large"}});
  check_told(spread("{\"shape\": [[0, 1], 1]}"),
             {{4, "/joins/0/segments/0/spread/shape/1", "found a number", "a point"}});
  check_told(spread("{\"shape\": [[0, 1], [1, 1, 1]]}"),
             {{4, "/joins/0/segments/0/spread/shape/1", "a list of 3", "a point"}});
  check_told(spread("{\"shape\": [[0, 0], [0.25, 3], [1, 1]]}"), {});
}

TEST_CASE("segments that cannot all be found say what to write") {
  check_told(segments("{},\n{\"long\": 30}"), {{4, "/joins/0/segments/1", "\"band\" is missing", "\"band\""}});
  check_told(segments("{},\n{\"kind\": \"flat\"}"),
             {{4, "/joins/0/segments/1", "the flat segment has no length", "\"long\""}});
  check_told(segments("{\"long\": 20}, {\"kind\": \"flat\"},\n{\"kind\": \"flat\"}"),
             {{4, "/joins/0/segments/2", "two flat segments", "\"long\""}});
  check_told(segments("{}, {\"bnad\": 3, \"long\": 4}"), {{3, "/joins/0/segments/1/bnad", "no key"}});
  check_told(segments("{}, {\"kind\": \"flta\"}"), {{3, "/joins/0/segments/1/kind", "\"flta\""}});
  check_told(segments("{}, {\"kind\": \"flat\", \"long\": \"3 cms\"}"), {{3, "/joins/0/segments/1/long", "cms"}});
  check_told(segments("{}, {\"kind\": \"flat\", \"band\": 3}, {}, {\"kind\": \"ease\", \"band\": 4}"), {});
  check_told(segments("{\"long\": 20}, {\"kind\": \"flat\"}, {\"long\": 30}"), {});
}

TEST_CASE("faults all over a job are told in one run, by line") {
  check_told(R"({
  "title": null,
  "unit": "inches",
  "fabric": { "weight": "165" },
  "gathering": { "rows": 0 },
  "lengths": { "cuff": "wrist + 5 cm" },
  "rules": [ "cuff < 3 cm" ],
  "colour": "red",
  "joins": [
    { "name": "a", "band": "cuff",
      "segments": [ { "kind": "flat", "share": 2 },
                    { "to": 3 } ] },
    { "name": "a", "long": "52 cm", "band": 0 }
  ]
})",
             {{2, "/title", "found null"},
              {3, "/unit", "inches"},
              {4, "/fabric/weight", ""},
              {5, "/gathering/rows", "too few"},
              {6, "/lengths/cuff", "wrist"},
              {7, "/rules/0", ""},
              {8, "/colour", "no key"},
              {10, "/joins/0", "\"long\" is missing"},
              {11, "/joins/0/segments/0/share", "flat segment has no"},
              {11, "/joins/0/segments/0", "flat segment has no length"},
              {12, "/joins/0/segments/1/to", "found a number"},
              {13, "/joins/1/band", "comes to 0"},
              {13, "/joins/1/name", "another join"}});
}

TEST_CASE("a fault is one line, with control characters written out") {
  CHECK(fault_line("a.json", {12, "/joins/0", {"what", "instead"}}) == "a.json:12: /joins/0: what; instead");
  CHECK(fault_line("-", {1, "", {"what", ""}}) == "-:1: : what");
  CHECK(fault_line("a\nb", {1, "/c\td", {"e\x1b[31m\x7f", "f\xC2\x9Bg\xC3\xA9"}}) ==
        "a\\u000ab:1: /c\\u0009d: e\\u001b[31m\\u007f; f\\u009bg\xC3\xA9");
  const auto faults = faults_of(job("\"we\\night\\u009b\": 1"));
  REQUIRE(faults.size() == 1);
  CHECK(fault_line("job", faults[0])
            .starts_with("job:2: /we\\u000aight\\u009b: there is no key \"we\\u000aight\\u009b\" in a job; "));
}

TEST_CASE("a fault of a long text stays short, and ends between characters") {
  std::string name;
  for (int i = 0; i < 5000; ++i)
    name += "é";
  const auto faults =
      faults_of(job("\"" + name + "\": 1, \"unit\": \"x" + name + "\", \"lengths\": {\"a\": \"" + name + " + 1 cm\"}"));
  REQUIRE(faults.size() == 3);
  for (const auto &fault : faults) {
    CHECK(fault.fault.what.size() + fault.fault.instead.size() < 1300);
    CHECK(first_bad_byte(fault.fault.what) == fault.fault.what.size());
    CHECK(first_bad_byte(fault.fault.instead) == fault.fault.instead.size());
  }
}

TEST_CASE("thousands of faults are told up to a bound, in less than a second") {
  const auto told = [](const std::string &text) {
    std::vector<InputFault> faults;
    CHECK(seconds_of([&] { faults = faults_of(text); }) < seconds_allowed);
    return faults.size();
  };
  std::string names = "{\"lengths\": {";
  for (int i = 0; i < 100'000; ++i)
    names += "\"n" + std::to_string(i) + "\": \"m" + std::to_string(i) + " + 1 cm\",\n";
  CHECK(told(names + "\"z\": 1}}") == FaultList::most);
  std::string keys = "{";
  for (int i = 0; i < 100'000; ++i)
    keys += "\"key" + std::to_string(i) + "\": 0,\n";
  CHECK(told(keys + "\"z\": 1}") == FaultList::most);
  std::string joins = "{\"joins\": [{}";
  for (int i = 0; i < 100'000; ++i)
    joins += ",\n{}";
  CHECK(told(joins + "]}") == FaultList::most);
  std::string ring = "{\"lengths\": {\"n0\": \"n99999\"";
  for (int i = 1; i < 100'000; ++i)
    ring += ",\n\"n" + std::to_string(i) + "\": \"n" + std::to_string(i - 1) + "\"";
  CHECK(told(ring + "}, \"joins\": [" + simple_join + "]}") == 1);
}

TEST_CASE("names of joins that would be told for each of too many segments are refused") {
  const auto job_of = [](std::size_t letters, int joins, int segments) {
    return gatherwright::hostile::job(
        "", "", gatherwright::hostile::listed(joins, [&](int i) {
          const std::string name = std::string(letters, 'n') + std::to_string(i);
          return "{\"name\":\"" + name + R"(","long":"52 cm","band":"22 cm","segments":[)" +
                 gatherwright::hostile::listed(segments, [](int) { return std::string("{}"); }) + "]}\n";
        }));
  };
  // A name of 9,999 letters and a digit, told for each of 1,000 segments, is 10 million bytes.
  CHECK(faults_of(job_of(9'999, 2, 1000)).empty());
  const auto faults = faults_of(job_of(9'999, 5, 1000));
  REQUIRE(faults.size() == 1);
  CHECK(faults[0].line == 3);
  CHECK(faults[0].pointer == "/joins/2/name");
  CHECK(faults[0].fault.what ==
        "the names of the joins, told for each of their segments, come to more than 20000000 bytes");
  CHECK(faults[0].fault.instead == "write shorter names");
  CHECK(faults_of(job_of(9'999, 40, 1)).empty());
}

TEST_CASE("the place of a fault has the beginning of a long name, cut between characters") {
  std::string name;
  for (int i = 0; i < 5000; ++i)
    name += "é";
  const auto faults = faults_of(lengths("\"" + name + "\": \"nowhere + 1 cm\", \"x\": \"elsewhere\""));
  REQUIRE(faults.size() == 2);
  CHECK(faults[0].pointer == "/lengths/" + name.substr(0, 1000) + "…");
  CHECK(faults[1].pointer == "/lengths/x");
  const std::string odd = "x" + name; // a byte on, so that the thousandth is the first of two
  const auto of_odd = faults_of(lengths("\"" + odd + "\": \"nowhere + 1 cm\""));
  REQUIRE(of_odd.size() == 1);
  CHECK(of_odd[0].pointer == "/lengths/" + odd.substr(0, 999) + "…");
  const auto step = [](const std::string &key) {
    std::string pointer;
    append_step(pointer, key);
    return pointer;
  };
  CHECK(step(std::string(1000, '~')).size() == 1 + 2000); // what is escaped is not what is cut
  CHECK(step(std::string(1000, 'n')) == "/" + std::string(1000, 'n'));
  CHECK(step("a/~b~/") == "/a~1~0b~0~1");
  CHECK(step("") == "/");
}

TEST_CASE("a fault of planning is told as short as one of reading, and where it stands") {
  const auto read = read_job(join("\"closed\": false"));
  const std::string endless(100'000, 'n');
  const auto at = [&read](const gatherwright::Place &place, const gatherwright::Fault &fault) {
    return placed(*read, std::array<gatherwright::Refusal, 1>{gatherwright::PlacedFault{place, fault}}).front();
  };
  const gatherwright::place::InJoin of_join{gatherwright::JoinId(0)};
  const InputFault told = at(of_join, {endless, endless});
  CHECK(told.pointer == "/joins/0");
  CHECK(told.line == 2);
  CHECK(told.fault.what.size() < 1000);
  CHECK(told.fault.instead.size() < 1000);
  CHECK(at(gatherwright::place::WholeJob{}, {endless, "short"}).fault.what == told.fault.what);
  CHECK(at(of_join, {"what", "instead"}).fault == gatherwright::Fault{"what", "instead"});
}

TEST_CASE("formulas that come to name too many lengths to be found are refused, once") {
  // Each sum names one more than the sum before: of 3,000 some 4.5 million.
  const auto faults = faults_of(gatherwright::hostile::sums_of_lengths(3000));
  REQUIRE(faults.size() == 1);
  CHECK(faults[0].fault.what == "up to here the formulas name lengths that are to be found more than 4,000,000 times");
  CHECK(faults[0].pointer.starts_with("/lengths/s2"));
  CHECK(faults_of(gatherwright::hostile::sums_of_lengths(1000)).empty());
}
