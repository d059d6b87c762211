// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/cli/job/told_of_text.hpp"

#include "tests/hostile_job.hpp"
#include "tests/seconds.hpp"

#include <catch2/catch.hpp>

using namespace gatherwright::cli;
using gatherwright::tests::check_told;
using gatherwright::tests::faults_of;

namespace {

/// A job that is sound but for its cloth, on line 1, and its pieces, which begin on line 2.
std::string job(const std::string &pieces, const std::string &of_job = "") {
  return "{" + of_job + R"("measures": {"wrist": "17 cm"}, "lengths": {"sleeve": {}, "cuff": "wrist + 5 cm"}, "joins": [
      {"name": "sleeve into cuff", "long": "sleeve", "band": "cuff", "segments": [
        {"kind": "flat", "long": "3 cm", "to": "slit end"}, {"to": "elbow"}, {}]},
      {"name": "waist", "long": "220 cm", "band": "84 cm", "closed": true, "segments": [
        {"long": 60, "band": 22, "to": "seam"}, {"long": 100, "band": 40, "to": "seam"}, {}]},
      {"name": "odd", "long": "52 cm", "band": "22 cm", "segments": [
        {"long": 10, "band": 5, "to": "end"}, {"long": 10, "band": 5, "to": "start"}, {}]},
      {"name": "cap", "long": {"path": "M 0 0 L 300 0"}, "band": "25 cm"}], "pieces": )" +
         pieces + "}";
}

constexpr int first = 8; // the line on which the list of pieces begins

std::string pieces(const std::string &list, const std::string &of_job = "") {
  return job("[" + list + "]", of_job);
}

/// A piece that is sound but for what is put in, on the line after its own, which is the first.
std::string piece(const std::string &keys, const std::string &of_job = "") {
  return pieces("{\"name\": \"p\", \"across\": 20, \"along\": 30,\n" + keys + "}", of_job);
}
constexpr int in_piece = first + 1;

/// What is sewn to its top begins one line further on.
std::string top(const std::string &value) {
  return piece("\"sides\": {\"top\":\n" + value + "}");
}
constexpr int at_top = in_piece + 1;

std::string fabric(const std::string &keys) {
  return "{\"joins\": [{\"name\": \"n\", \"long\": 52, \"band\": 22}], \"fabric\": {\n" + keys + "}}";
}

} // namespace

TEST_CASE("the pieces of the job are a list") {
  check_told(job("\n{}"), {{first + 1, "/pieces", "found an object", "a list of pieces such as"}});
  check_told(job("3"), {{first, "/pieces", "found a number", "a list of pieces"}});
  check_told(job("null"), {{first, "/pieces", "found null", "a list of pieces"}});
  check_told(job("[]"), {});
  check_told(pieces("4,\n\"p\""), {{first, "/pieces/0", "found a number", "a piece as an object in braces"},
                                   {first + 1, "/pieces/1", "found a text", "a piece"}});
}

TEST_CASE("a piece needs its name and both sizes, and a name of its own") {
  check_told(pieces("{}"), {{first, "/pieces/0", "\"name\" is missing", "\"name\": \"sleeve\""},
                            {first, "/pieces/0", "\"across\" is missing", "selvedge to selvedge"},
                            {first, "/pieces/0", "\"along\" is missing", "down the warp"}});
  check_told(pieces(R"({"name": "", "across": 1, "along": 1})"), {{first, "/pieces/0/name", "the name is empty"}});
  check_told(pieces(R"({"name": "a\nb", "across": 1, "along": 1})"),
             {{first, "/pieces/0/name", "a line break or control character"}});
  check_told(pieces(R"({"name": 3, "across": 1, "along": 1})"), {{first, "/pieces/0/name", "found a number"}});
  check_told(pieces("{\"name\": \"p\", \"across\": 1, \"along\": 1},\n{\"name\":\n\"p\", \"across\": 1, \"along\": 1}"),
             {{first + 2, "/pieces/1/name", "another piece is called \"p\"", "its own name"}});
}

TEST_CASE("an unknown key of a piece offers the nearest, or where it belongs") {
  check_told(piece(R"("turned": true)"), {{in_piece, "/pieces/0/turned", "no key \"turned\" in a piece", "\"turn\""}});
  check_told(pieces(R"({"name": "p", "acros": 1, "along": 1})"),
             {{first, "/pieces/0/acros", "\"acros\"", "write \"across\""}});
  check_told(piece(R"("top": "waist")"), {{in_piece, "/pieces/0/top", "in a piece", "it belongs in \"sides\""}});
  check_told(piece(R"("selvedge": 1)"), {{in_piece, "/pieces/0/selvedge", "in a piece", "it belongs in \"fabric\""}});
  check_told(piece(R"("sides": {"upper": "waist"})"), {{in_piece, "/pieces/0/sides/upper", "no key \"upper\" in sides",
                                                        "the keys are top, bottom, left, right"}});
  check_told(piece(R"("allowance": {"botom": 1})"),
             {{in_piece, "/pieces/0/allowance/botom", "in an allowance by sides", "\"bottom\""}});
  check_told(piece(R"("fabric": {"stock": "2.5 m"})"), {{in_piece, "/pieces/0/fabric/stock", "not how wide it is"}});
  check_told(pieces("", "\"cut\": 2, "), {{1, "/cut", "no key \"cut\" in a job", "it belongs in \"pieces\""}});
}

TEST_CASE("how many are cut is a whole number up to ten thousand, and so it is of all") {
  const char *at = "/pieces/0/cut";
  check_told(piece("\"cut\": 0"), {{in_piece, at, "0 is too few", "from 1 to 10000"}});
  check_told(piece("\"cut\": -1"), {{in_piece, at, "-1 is too few"}});
  check_told(piece("\"cut\": 1.5"), {{in_piece, at, "1.5 is not whole"}});
  check_told(piece("\"cut\": \"two\""), {{in_piece, at, "found a text", "a whole number such as 2"}});
  check_told(piece("\"cut\": 10001"), {{in_piece, at, "10001 is too many", "from 1 to 10000"}});
  check_told(piece("\"cut\": 10000"), {});
  const std::string many = "{\"name\": \"p\", \"across\": 20, \"along\": 30, \"cut\": 5000},\n"
                           "{\"name\": \"q\", \"across\": 20, \"along\": 30, \"cut\": 500";
  check_told(job("\n[" + many + "0}]"), {});
  check_told(job("\n[" + many + "1}]"), {{first + 1, "/pieces", "10001 pieces are too many", "no more than 10000"}});
  const auto single = [](int i) {
    return "{\"name\":\"" + gatherwright::hostile::n("p", i) + "\",\"across\":1,\"along\":1}";
  };
  check_told(pieces(gatherwright::hostile::listed(10'000, single)), {});
  check_told(pieces(gatherwright::hostile::listed(10'001, single)), {{first, "/pieces", "10001 pieces are too many"}});
}

TEST_CASE("the sizes of a piece are formulas of anything, above 0 where they are fixed") {
  const auto across = [](const std::string &value) {
    return pieces("{\"name\": \"p\", \"along\": 1, \"across\":\n" + value + "}");
  };
  const char *at = "/pieces/0/across";
  check_told(across("0"), {{first + 1, at, "this comes to 0", "above 0"}});
  check_told(across("\"wrist - 17 cm\""), {{first + 1, at, "this comes to 0"}});
  check_told(across("\"wrist - 18 cm\""), {{first + 1, at, "this comes to -1 cm"}});
  check_told(across("-1"), {{first + 1, at, ""}});
  check_told(across("\"1000000 m\""), {{first + 1, at, "more than 100 km"}});
  check_told(across("\"100000 m\""), {});
  check_told(across("\"sleve\""), {{first + 1, at, "sleve", "sleeve"}});
  check_told(across("\"sleeve * sleeve / 1 cm\""), {{first + 1, at, "multiplies"}});
  check_told(across("\"cloth_width / 2\""), {{first + 1, at, "cloth_width is not known"}});
  check_told(across("true"), {{first + 1, at, "found true", "a length such as"}});
  check_told(across("\"2 * sleeve - 3 cm\""), {});
  check_told(pieces("{\"name\": \"p\", \"across\": 1, \"along\":\n\"12 cms\"}"),
             {{first + 1, "/pieces/0/along", "cms", "cm"}});
}

TEST_CASE("an allowance is fixed and not below 0, for all sides or one by one") {
  const char *at = "/pieces/0/allowance";
  check_told(piece("\"allowance\": \"-1 cm\""), {{in_piece, at, ""}});
  check_told(piece("\"allowance\": \"wrist - 18 cm\""), {{in_piece, at, "comes to -1 cm"}});
  check_told(piece("\"allowance\": \"sleeve / 50\""), {{in_piece, at, "hangs on \"sleeve\"", "fixed"}});
  check_told(piece("\"allowance\": [1, 1]"), {{in_piece, at, "found a list"}});
  check_told(piece("\"allowance\": 0"), {});
  check_told(piece("\"allowance\": {}"), {});
  check_told(piece("\"allowance\": {\"top\": \"1 cms\",\n\"left\": \"sleeve\", \"right\":\n-1}"),
             {{in_piece, "/pieces/0/allowance/top", "cms"},
              {in_piece + 1, "/pieces/0/allowance/left", "hangs on \"sleeve\""},
              {in_piece + 2, "/pieces/0/allowance/right", ""}});
}

TEST_CASE("whether pieces are mirrored or may be turned is true or false") {
  check_told(piece("\"mirrored\": 1"), {{in_piece, "/pieces/0/mirrored", "found a number", "true or false"}});
  check_told(piece("\"turn\": \"yes\""), {{in_piece, "/pieces/0/turn", "found a text", "true or false"}});
}

TEST_CASE("what is sewn to a side is a join by its name, or a part of one") {
  const char *at = "/pieces/0/sides/top";
  check_told(piece("\"sides\": \"waist\""), {{in_piece, "/pieces/0/sides", "found a text", "sides as an object"}});
  check_told(top("3"), {{at_top, at, "found a number", "the name of a join"}});
  check_told(top("[[]]"), {{at_top, "/pieces/0/sides/top/0", "found a list", "the name of a join"}});
  check_told(top("\"\""), {{at_top, at, "the name is empty"}});
  check_told(top("{}"), {{at_top, at, "\"join\" is missing", "\"join\": \"sleeve into cuff\""}});
  check_told(top("{\"jion\": \"waist\"}"), {{at_top, "/pieces/0/sides/top/jion", "in a part of a side", "\"join\""}});
  check_told(top("\"sleve into cuff\""),
             {{at_top, at, "there is no join \"sleve into cuff\"", "write \"sleeve into cuff\""}});
  check_told(top("{\"join\":\n\"Waist\"}"),
             {{at_top + 1, "/pieces/0/sides/top/join", "there is no join \"Waist\"", "write \"waist\""}});
  check_told(top("\"placket\""), {{at_top, at, "there is no join \"placket\"",
                                   "the joins are \"sleeve into cuff\", \"waist\", \"odd\", \"cap\""}});
  check_told(top("{\"join\": 3}"), {{at_top, "/pieces/0/sides/top/join", "found a number"}});
  check_told(top("[\"waist\",\n\"waste\",\n{\"join\": \"wast\"}]"),
             {{at_top + 1, "/pieces/0/sides/top/1", "\"waste\"", "\"waist\""},
              {at_top + 2, "/pieces/0/sides/top/2/join", "\"wast\"", "\"waist\""}});
  check_told(top("[]"), {});
}

TEST_CASE("a part of a side is of the long edge or the band, and not of one that is drawn") {
  check_told(top("{\"join\": \"waist\", \"edge\":\n\"bnad\"}"),
             {{at_top + 1, "/pieces/0/sides/top/edge", "\"bnad\"", "write \"band\""}});
  check_told(top("{\"join\": \"waist\", \"edge\": true}"),
             {{at_top, "/pieces/0/sides/top/edge", "found true", "one of \"long\", \"band\""}});
  check_told(top("\"cap\""), {{at_top, "/pieces/0/sides/top", "this edge is drawn", "leave it out"}});
  check_told(top("[\"waist\",\n{\"join\": \"cap\"}]"), {{at_top + 1, "/pieces/0/sides/top/1", "this edge is drawn"}});
  check_told(top("{\"join\": \"cap\", \"edge\": \"band\"}"), {});
  check_told(top("{\"join\": \"cap\", \"edge\": \"lnog\"}"), {{at_top, "/pieces/0/sides/top/edge", "\"lnog\""}});
}

TEST_CASE("a part of a side begins at a length that is not below 0, and may hang on what is to be found") {
  const auto at = [](const std::string &value) { return top("{\"join\": \"waist\", \"at\":\n" + value + "}"); };
  const char *pointer = "/pieces/0/sides/top/at";
  check_told(at("\"5 cms\""), {{at_top + 1, pointer, "cms", "cm"}});
  check_told(at("-1"), {{at_top + 1, pointer, ""}});
  check_told(at("\"wrist - 18 cm\""), {{at_top + 1, pointer, "comes to -1 cm"}});
  check_told(at("null"), {{at_top + 1, pointer, "found null"}});
  for (const char *fine : {"0", "\"sleeve - 60 cm\"", "\"wrist / 2\""})
    check_told(at(fine), {});
}

TEST_CASE("a part of a side runs from one mark of its join to one behind it") {
  const auto part = [](const std::string &marks, const std::string &join = "sleeve into cuff") {
    return top("{\"join\": \"" + join + "\",\n" + marks + "}");
  };
  const char *from = "/pieces/0/sides/top/from";
  const char *to = "/pieces/0/sides/top/to";
  check_told(part(R"("from": "slit ned")"),
             {{at_top + 1, from, "there is no mark \"slit ned\" in \"sleeve into cuff\"", "write \"slit end\""}});
  check_told(part("\"from\": \"elbw\",\n\"to\": \"ened\""),
             {{at_top + 1, from, "\"elbw\"", "write \"elbow\""}, {at_top + 2, to, "\"ened\"", "write \"end\""}});
  check_told(part(R"("to": "wrist bone")"),
             {{at_top + 1, to, "\"wrist bone\"", "its marks are \"start\", \"slit end\", \"elbow\", \"end\""}});
  check_told(part(R"("to": 1)"), {{at_top + 1, to, "found a number"}});
  check_told(part(R"("from": "")"), {{at_top + 1, from, "the name is empty"}});
  check_told(part("\"from\": \"elbow\",\n\"to\": \"slit end\""),
             {{at_top + 2, to, "\"slit end\" does not come behind \"elbow\"", "comes first"}});
  check_told(part("\"from\": \"elbow\",\n\"to\": \"elbow\""), {{at_top + 2, to, "does not come behind"}});
  check_told(part(R"("to": "start")"), {{at_top + 1, to, "\"start\" does not come behind \"start\""}});
  check_told(part(R"("from": "end")"), {{at_top + 1, from, "\"end\" does not come behind \"end\""}});
  check_told(part(R"("from": "seam")", "waist"),
             {{at_top + 1, from, "more than one mark of \"waist\" is called \"seam\"", "a name of its own"}});
  check_told(part("\"from\": \"seam\",\n\"to\": \"seam\"", "waist"),
             {{at_top + 1, from, "more than one"}, {at_top + 2, to, "more than one"}});
  check_told(part("\"from\": \"end\"", "waist"),
             {{at_top + 1, from, "does not come behind", "ring is written as two"}});
  check_told(part("\"from\": \"start\",\n\"to\": \"end\"", "odd"),
             {{at_top + 1, from, "more than one mark of \"odd\" is called \"start\""},
              {at_top + 2, to, "more than one mark of \"odd\" is called \"end\""}});
  check_told(top("{\"join\": \"odd\"}"), {}); // neither is written out
}

TEST_CASE("what hangs on a join or a mark that is itself at fault is not told as well") {
  const auto of = [](const std::string &joins, const std::string &part) {
    return "{\"joins\": " + joins +
           ", \"pieces\": [{\"name\": \"p\", \"across\": 9, \"along\": 9, \"sides\": {\"top\": " + part + "}}]}";
  };
  check_told(of(R"([{"nmae": "hem", "long": 52, "band": 22}])", "\"hem\""), {{1, "/joins/0/nmae", "no key"}});
  check_told(of(R"([{"name": 3, "long": 52, "band": 22}])", "\"hem\""), {{1, "/joins/0/name", "found a number"}});
  check_told(of("3", "\"hem\""), {{1, "/joins", "found a number"}});
  const auto segments = [&](const std::string &list) {
    return of(R"([{"name": "hem", "long": 52, "band": 22, "segments": )" + list + "}]",
              R"({"join": "hem", "to": "side"})");
  };
  check_told(segments(R"([{"to": 3}, {}])"), {{1, "/joins/0/segments/0/to", "found a number"}});
  check_told(segments(R"([{"ot": "side"}, {}])"), {{1, "/joins/0/segments/0/ot", "no key"}});
  check_told(segments(R"([4, {}])"), {{1, "/joins/0/segments/0", "found a number"}});
  check_told(segments("[]"), {{1, "/joins/0/segments", "no segment"}});
  check_told(segments("{}"), {{1, "/joins/0/segments", "found an object"}});
  check_told(of(R"([{"name": "hem", "long": 52, "band": 22, "segmens": [{"to": "side"}, {}]}])",
                R"({"join": "hem", "to": "side"})"),
             {{1, "/joins/0/segmens", "no key"}});
  // Of a join that is at fault otherwise the marks are known.
  check_told(of(R"([{"name": "hem", "long": 0, "band": 22, "segments": [{"to": "side"}, {}]}])",
                R"({"join": "hem", "to": "sied"})"),
             {{1, "/joins/0/long", "comes to 0"}, {1, "/pieces/0/sides/top/to", "\"sied\"", "\"side\""}});
  // A mark that is not known lies neither before nor behind another.
  check_told(of(R"([{"name": "hem", "long": 52, "band": 22}])", R"({"join": "hem", "form": "end", "to": "start"})"),
             {{1, "/pieces/0/sides/top/form", "no key", "\"from\""}});
}

TEST_CASE("what a fabric says of selvedges, of shrinking and of how it is sold is judged") {
  check_told(fabric(R"("selvedge": -1)"), {{2, "/fabric/selvedge", ""}});
  check_told(fabric(R"("selvedge": "wrist")"), {{2, "/fabric/selvedge", ""}});
  check_told(fabric(R"("sold_by": 0)"), {{2, "/fabric/sold_by", "comes to 0", "above 0"}});
  check_told(fabric(R"("stock": 0)"), {{2, "/fabric/stock", "comes to 0", "above 0"}});
  check_told(fabric(R"("stock": "2.5", "width": "1.5 m")"), {});
  check_told(fabric(R"("sold_by": "10 cms")"), {{2, "/fabric/sold_by", "cms"}});
  check_told(fabric(R"("shrinkage": "5 %")"), {{2, "/fabric/shrinkage", "found a text", "{ along, across }"}});
  check_told(fabric(R"("shrinkage": {"weft": "5 %"})"), {{2, "/fabric/shrinkage/weft", "no key \"weft\""}});
  check_told(fabric(R"("stock": "2.5 m")"), {{2, "/fabric/stock", "not how wide it is", "\"width\""}});
  check_told(job("[]", R"("shrinkage": {}, )"), {{1, "/shrinkage", "in a job", "it belongs in \"fabric\""}});
}

TEST_CASE("a share has a % sign and is below one half") {
  const auto along = [](const std::string &value) { return fabric("\"shrinkage\": {\"along\":\n" + value + "}"); };
  const char *at = "/fabric/shrinkage/along";
  check_told(along("5"), {{3, at, "a share has a % sign", "write \"5 %\""}});
  check_told(along("0.05"), {{3, at, "a share has a % sign", "write \"5 %\""}});
  check_told(along("-5"), {{3, at, "a share has a % sign", "such as \"5 %\""}});
  check_told(along("\"5\""), {{3, at, "\"5\" has no % sign", "write \"5 %\""}});
  check_told(along("\"5 cm\""), {{3, at, "\"5 cm\" is no share", "\"5 %\""}});
  check_told(along("\"5 cm %\""), {{3, at, "is no share"}});
  check_told(along("\"2,5 %\""), {{3, at, "\"2,5 %\" is no share", "write \"2.5 %\""}});
  check_told(along("\"-5 %\""), {{3, at, "is no share"}});
  check_told(along("\"% 5\""), {{3, at, "is no share"}});
  check_told(along("\"%\""), {{3, at, "is no share"}});
  check_told(along("\"\""), {{3, at, "is no share"}});
  check_told(along("\"50 %\""), {{3, at, "\"50 %\" is too much", "from 0 % to below 50 %"}});
  check_told(along("\"60 %\""), {{3, at, "\"60 %\" is too much"}});
  check_told(along("\"1e1 %\""), {{3, at, "is no share"}});
  check_told(along("[]"), {{3, at, "found a list", "a share such as \"5 %\""}});
  check_told(fabric("\"shrinkage\": {\"along\": 5,\n\"across\": \"99 %\"}"),
             {{2, at, "% sign"}, {3, "/fabric/shrinkage/across", "too much"}});
}

TEST_CASE("between the selvedges something is left of the width") {
  check_told(fabric("\"width\": \"3 cm\",\n\"selvedge\": \"1.5 cm\""),
             {{3, "/fabric/selvedge", "between selvedges of 1.5 cm nothing is left of a width of 3 cm",
               "more than what is lost"}});
  check_told(fabric("\"width\": \"3 cm\", \"selvedge\": \"1.4 cm\""), {});
  check_told(fabric("\"width\": \"3 cm\", \"selvedge\": \"1.4 cm\", \"shrinkage\": {\"across\": \"10 %\"}"),
             {{2, "/fabric/selvedge", "once it is washed"}});
  check_told(fabric("\"selvedge\": \"80 cm\""), {}); // the width is not known
  check_told("{\"joins\": [{\"name\": \"n\", \"long\": 52, \"band\": 22, \"fabric\": {\n\"selvedge\": \"80 cm\"}}], "
             "\"fabric\": {\"width\": \"150 cm\"}}",
             {{2, "/joins/0/fabric/selvedge", "nothing is left"}});
}

TEST_CASE("where a piece leaves its selvedges to the job the fault is at its own key that made it one") {
  const std::string cloth = R"("fabric": {"width": "150 cm", "selvedge": "1 cm"}, )";
  const auto own = [&](const std::string &keys) { return piece("\"fabric\": {\n" + keys + "}", cloth); };
  const int line = in_piece + 1;
  check_told(own(R"("selvedge": "75 cm")"), {{line, "/pieces/0/fabric/selvedge", "nothing is left"}});
  check_told(own(R"("width": "2 cm")"), {{line, "/pieces/0/fabric/width", "nothing is left of a width of 2 cm"}});
  check_told(own("\"shrinkage\": {\"across\": \"10 %\"},\n\"width\": \"2 cm\""),
             {{line + 1, "/pieces/0/fabric/width", "nothing is left"}});
  check_told(own("\"width\": \"2.1 cm\",\n\"shrinkage\": {\"across\": \"10 %\"}"),
             {{line + 1, "/pieces/0/fabric/shrinkage", "once it is washed"}});
  check_told(own(R"("name": "lace", "width": "2 cm")"), {}); // another cloth, whose selvedges are not known
  check_told(piece("\"fabric\": {\"shrinkage\": {\"across\": \"20 %\"}}",
                   R"("fabric": {"width": "3 cm", "selvedge": "1.3 cm"}, )"),
             {{in_piece, "/pieces/0/fabric/shrinkage", "once it is washed"}});
}

TEST_CASE("a cloth that is at fault in the job is not told of its pieces as well") {
  const std::string cloth = R"("fabric": {"width": "150 cm", "selvedge": "80 cm"}, )";
  check_told(piece("\"turn\": true", cloth), {{1, "/fabric/selvedge", "nothing is left"}});
  check_told(piece(R"("fabric": {"shrinkage": {"across": "2 %"}})", cloth),
             {{1, "/fabric/selvedge", "nothing is left"}});
  check_told(piece(R"("fabric": {"selvedge": "75 cm"})", cloth),
             {{1, "/fabric/selvedge", "nothing is left"}, {in_piece, "/pieces/0/fabric/selvedge", "nothing is left"}});
  check_told(piece(R"("fabric": {"width": 0})", R"("fabric": {"width": "2 cm", "selvedge": "5 mm"}, )"),
             {{in_piece, "/pieces/0/fabric/width", "comes to 0"}});
  check_told(piece(R"("fabric": "linen")"), {{in_piece, "/pieces/0/fabric", "found a text", "a fabric as an object"}});
}

TEST_CASE("another cloth needs a name of its own") {
  const auto two = [](const std::string &one, const std::string &other, const std::string &of_job) {
    return pieces("{\"name\": \"p\", \"across\": 9, \"along\": 9" + one +
                      "},\n{\"name\": \"q\", \"across\": 9, \"along\": 9" + other + "}",
                  of_job);
  };
  const auto own = [](const std::string &keys) { return ", \"fabric\": {" + keys + "}"; };
  const std::string cloth = R"("fabric": {"name": "drill", "width": "150 cm"}, )";
  const std::string nameless = R"("fabric": {"width": "150 cm"}, )";
  const char *second = "/pieces/1/fabric";
  const char *instead = "another cloth needs a name of its own";
  for (const char *differs : {R"("width": "140 cm")", R"("selvedge": "1 cm")", R"("shrinkage": {"along": "1 %"})",
                              R"("sold_by": "25 cm")", R"("stock": "2 m")", R"("shrinkage": {"across": "1 %"})"}) {
    INFO(differs);
    check_told(two("", own(differs), cloth), {{first + 1, second, "called \"drill\"", instead}});
    check_told(two("", own(differs), nameless), {{first + 1, second, "no name either", instead}});
    check_told(two(own(differs), "", cloth), {{first, "/pieces/0/fabric", "called \"drill\"", instead}});
    check_told(two("", own(std::string(differs) + R"(, "name": "lawn")"), cloth), {});
    check_told(two(own(differs), own(differs), cloth), {});
  }
  check_told(two("", own(R"("weight": "90 g/m2", "width": "140 cm")"), nameless),
             {{first + 1, second, "no name either"}});
  check_told(two("", own(R"("weight": "90 g/m2")"), nameless), {}); // they are bought as one
  check_told(two(own(R"("width": "1.5 m", "selvedge": 0, "sold_by": "10 cm", "shrinkage": {})"), "", cloth), {});
  check_told(two(own(R"("name": "lawn", "width": "90 cm")"), own(R"("name": "lawn", "width": "80 cm")"), cloth),
             {{first + 1, second, "called \"lawn\""}});
  // What is at fault itself is not compared.
  check_told(two("", own(R"("width": "0 cm")"), cloth), {{first + 1, "/pieces/1/fabric/width", "comes to 0"}});
  check_told(two("", own(R"("nmae": "lawn", "width": "90 cm")"), cloth),
             {{first + 1, "/pieces/1/fabric/nmae", "no key"}});
  check_told(two(R"(, "fabrik": {"width": "90 cm"})", own(R"("width": "90 cm")"), cloth),
             {{first, "/pieces/0/fabrik", "no key", "\"fabric\""}});
  check_told(two("", own(R"("selvedge": "75 cm")"), cloth),
             {{first + 1, "/pieces/1/fabric/selvedge", "nothing is left"}});
  check_told(two("", own(R"("width": "90 cm")"), R"("fabric": {"name": 3, "width": "150 cm"}, )"),
             {{1, "/fabric/name", "found a number"}});
}

TEST_CASE("a cloth is named once for all the pieces that are cut from it") {
  const auto nth = [](int i) {
    return "{\"name\":\"" + gatherwright::hostile::n("p", i) +
           "\",\"across\":9,\"along\":9,\"fabric\":{\"width\":" + std::to_string(i < 2 ? 90 : 80) + "}}\n";
  };
  check_told(pieces(gatherwright::hostile::listed(4, nth)),
             {{first + 2, "/pieces/2/fabric", "no name either"}, {first + 3, "/pieces/3/fabric", "no name either"}});
}

TEST_CASE("faults all over the pieces are told in one run, by line") {
  check_told(pieces("\n{\"name\": \"sleeve\", \"cut\": \"two\", \"across\": \"sleeve\", \"along\": 56},\n"
                    "{\"name\": \"cuff\", \"across\": \"cuff\",\n\"along\": \"12 cms\",\n\"turn\": \"yes\", \"sides\": "
                    "{\"top\": {\"join\": \"waist\",\n\"at\": \"5 cms\"}}}"),
             {{first + 1, "/pieces/0/cut", "found a text"},
              {first + 3, "/pieces/1/along", "cms"},
              {first + 4, "/pieces/1/turn", "found a text"},
              {first + 5, "/pieces/1/sides/top/at", "cms"}});
}

TEST_CASE("names that would be told for too many parts of sides are refused") {
  const auto of = [](std::size_t letters, int parts) {
    return pieces("\n{\"name\": \"" + std::string(letters, 'n') + R"(", "across": 9, "along": 9, "sides": {"top": [)" +
                  gatherwright::hostile::listed(parts, [](int) { return std::string("\"waist\""); }) + "]}}");
  };
  CHECK(faults_of(of(19'995, 1000)).empty()); // with the five letters of the join 20 million
  check_told(of(19'996, 1000), {{first + 1, "/pieces/0", "told for each part of a side, come to more than 20000000"}});
}

TEST_CASE("many pieces, parts, joins and marks are read, or refused up to a bound, in less than a second each") {
  using gatherwright::hostile::listed;
  using gatherwright::hostile::n;
  const auto read_in_time = [](const std::string &text) {
    std::vector<InputFault> faults;
    CHECK(seconds_of([&] { faults = faults_of(text); }) < seconds_allowed);
    return faults.size();
  };
  const auto of = [](const std::string &joins, const std::string &list) {
    return "{\"joins\":[" + joins + "],\"pieces\":[" + list + "]}";
  };
  const auto plain = [](int i) { return "{\"name\":\"" + n("j", i) + R"(","long":52,"band":22})"; };
  const auto sewn = [](const std::string &parts) {
    return R"({"name":"p","across":9,"along":9,"sides":{"left":[)" + parts + "]}}";
  };
  CHECK(read_in_time(gatherwright::hostile::many_pieces(10'000)) == 0);
  CHECK(read_in_time(gatherwright::hostile::parts_of_a_side(1000)) == 0);
  CHECK(read_in_time(of(listed(20'000, plain), sewn(listed(20'000, [](int i) { return "\"" + n("j", i) + "\""; })))) ==
        0);
  CHECK(read_in_time(of(listed(20'000, plain), sewn(listed(20'000, [](int i) { return "\"" + n("k", i) + "\""; })))) ==
        FaultList::most);
  const std::string marked = R"({"name":"j","long":52,"band":22,"segments":[)" +
                             listed(20'000, [](int i) { return "{\"to\":\"" + n("m", i) + "\"}"; }) + "]}";
  const auto of_mark = [](const char *mark) {
    return [mark](int i) { return "{\"join\":\"j\",\"from\":\"" + n(mark, i) + "\"}"; };
  };
  CHECK(read_in_time(of(marked, sewn(listed(19'999, of_mark("m"))))) == 0);
  CHECK(read_in_time(of(marked, sewn(listed(20'000, of_mark("n"))))) == FaultList::most);
  CHECK(read_in_time(of(plain(0), listed(50'000, [](int) { return std::string("{}"); }))) == FaultList::most);
}
