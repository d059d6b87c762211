// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/formula.hpp"
#include "tests/seconds.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <numbers>
#include <string>
#include <vector>

using namespace gatherwright;

namespace {

const std::vector<std::string> names{"wrist", "cuff", "neck", "sleeve", "sleeve_head", "épaule", "袖", "cloth_width"};
const std::vector<double> millimetre_values{170, 220, 390, 520, 610, 120, 455, 1500};

int index_of(std::string_view word) {
  const auto found = std::find(names.begin(), names.end(), word);
  return found == names.end() ? -1 : static_cast<int>(found - names.begin());
}

Outcome<Formula> parsed(std::string_view text, Unit bare = Unit::cm) {
  return parse_formula(text, bare, index_of, names);
}

std::vector<Affine> fixed_values() {
  std::vector<Affine> values;
  for (const double value : millimetre_values)
    values.push_back({value, {}});
  return values;
}

double mm_of(std::string_view text, Unit bare = Unit::cm) {
  const Outcome<Formula> formula = parsed(text, bare);
  INFO(text);
  if (!formula) INFO(formula.fault().what);
  REQUIRE(formula);
  const Outcome<Affine> value = evaluate(*formula, fixed_values());
  REQUIRE(value);
  CHECK(value->fixed());
  return value->constant;
}

struct Hint {
  const char *text;
  const char *what;
  const char *instead;
};

void check_hint(const Hint &hint, const Fault &fault) {
  INFO(hint.text << ": " << fault.what << "; " << fault.instead);
  CHECK(fault.what.find(hint.what) != std::string::npos);
  CHECK(fault.instead.find(hint.instead) != std::string::npos);
}

} // namespace

TEST_CASE("a formula comes to what it says") {
  CHECK(mm_of("wrist + 5 cm") == 220.0);
  CHECK(mm_of("wrist+5cm") == 220.0);
  CHECK(mm_of("cuff - wrist - 1 cm") == 40.0);
  CHECK(mm_of("cuff - (wrist - 1 cm)") == 60.0);
  CHECK(mm_of("2 * (sleeve + 3 cm)") == 1100.0);
  CHECK(mm_of("sleeve / 2 / 2") == 130.0);
  CHECK(mm_of("-wrist + cuff") == 50.0);
  CHECK(mm_of("(-2) * (wrist - cuff)") == 100.0);
  CHECK(mm_of("wrist * cuff / neck") == 170.0 * 220.0 / 390.0);
  CHECK(mm_of("wrist / neck * cuff") == 170.0 / 390.0 * 220.0);
  CHECK(mm_of("wrist * pi") == 170 * std::numbers::pi);
  CHECK(mm_of("min(wrist, cuff)") == 170.0);
  CHECK(mm_of("max(wrist,cuff)") == 220.0);
  CHECK(mm_of("max(min(wrist, cuff), 2 * wrist) + 1 cm") == 350.0);
  CHECK(mm_of("max(2,5) * wrist") == 850.0);
  CHECK(mm_of("min(cuff,5 cm)") == 50.0);
  CHECK(mm_of("épaule * 2 + 袖") == 695.0);
  CHECK(mm_of("cloth_width / 2") == 750.0);
  CHECK(mm_of("1 yd 4 1/2 in + wrist") == 1028.7 + 170);
  CHECK(mm_of("5' 10 1/2\" - wrist") == 1790.7 - 170);
  CHECK(mm_of("wrist + ¾ in") == 170 + 19.05);
  CHECK(mm_of("  wrist\u00A0+\t5 cm ") == 220.0);
}

TEST_CASE("a lone quantity or bare number is a formula") {
  CHECK(mm_of("22") == 220.0);
  CHECK(mm_of("22", Unit::in) == 558.8);
  CHECK(mm_of("24 3/4", Unit::in) == 628.65);
  CHECK(mm_of("24 3/4 in") == 628.65);
  CHECK(parsed("24 3/4 in")->steps().size() == 1);
  CHECK(parsed(" wrist + 5 cm ")->written() == "wrist + 5 cm");
  CHECK(parsed("22")->written() == "22");
  const Formula fixed = Formula::of(Length{220}, "22 cm");
  CHECK(fixed.written() == "22 cm");
  CHECK(evaluate(fixed, {})->constant == 220.0);
}

TEST_CASE("n/m is a fraction of a unit unless a division precedes it") {
  CHECK(mm_of("wrist + 3/4 in") == 170 + 19.05);
  CHECK(mm_of("wrist * 3/4") == 127.5);
  CHECK(mm_of("3/4 * wrist") == 127.5);
  CHECK(mm_of("wrist / 3/4") == 170.0 / 3 / 4);
  CHECK(mm_of("cuff * wrist / 3/4 in") == 220.0 * 170 / 3 / 101.6); // 4 in are divided by
  CHECK(mm_of("cuff * wrist / (3/4 in)") == 220.0 * 170 / 19.05);
  CHECK(mm_of("cuff / 2 1/2") == 88.0);
  CHECK(mm_of("2 1/2 * cuff") == 550.0);
  CHECK(mm_of("cuff * wrist / 2 1/2 in") == 220.0 * 170 / 63.5);
}

TEST_CASE("every term must be a length") {
  const std::vector<Hint> hints{
      {"wrist + 5", "5 has no unit", "write 5 cm"},
      {"5 + wrist", "5 has no unit", "write 5 cm"},
      {"wrist - 2 1/2", "2 1/2 has no unit", "write 2 1/2 cm"},
      {"wrist + (5)", "5 has no unit", "write 5 cm"},
      {"max(wrist, 5)", "5 has no unit", "write 5 cm"},
      {"(22)", "22 has no unit", "write 22 cm"},
      {"wrist * cuff", "wrist * cuff is an area", "divide by a length"},
      {"cuff + wrist * neck", "wrist * neck is an area", "divide by a length"},
      {"wrist * cuff * neck", "wrist * cuff * neck is a volume", "divide by a length"},
      {"wrist / cuff", "wrist / cuff is a pure number", "length"},
      {"2 * 3", "2 * 3 is a pure number", "length"},
      {"pi", "pi is a pure number", "length"},
      {"2 / wrist", "2 / wrist is something divided by a length", "length"},
      {"(wrist + 5 cm) * cuff", "(wrist + 5 cm) * cuff is an area", "divide by a length"},
      {"wrist * cuff + 5", "wrist * cuff is an area and 5 is a pure number", "both must be lengths"},
      {"24-3/4 in", "\"24-3/4 in\"", "write 24 3/4 in"},
      {"24-3/4", "\"24-3/4\"", "write 24 3/4"},
      {"wrist + 24-3/4 in", "\"24-3/4 in\"", "write 24 3/4 in"},
      {"wrist + 24 - 3/4 in", "24 has no unit", "write 24 cm"},
  };
  for (const Hint &hint : hints) {
    const Outcome<Formula> formula = parsed(hint.text);
    INFO(hint.text);
    REQUIRE(!formula);
    check_hint(hint, formula.fault());
  }
  CHECK(parsed("wrist + 5", Unit::in).fault().instead == "write 5 in");
}

TEST_CASE("what cannot be read as a formula is refused with what would be right") {
  const std::vector<Hint> hints{
      {"wirst + 5 cm", "\"wirst\" is not known", "write wrist"},
      {"Cuff", "\"Cuff\" is not known", "write cuff"},
      {"zzzzzz", "\"zzzzzz\" is not known", "known are wrist, cuff"},
      {"sleeve head + 1 cm", "\"sleeve head\"", "write sleeve_head"},
      {"sleeve-head", "\"sleeve-head\"", "write sleeve_head"},
      {"sleeve cuff", "missing between sleeve and cuff", "write sleeve_cuff if it is one name"},
      {"2 wrist", "missing between 2 and wrist", "write 2 * wrist"},
      {"2wrist", "missing between 2 and wrist", "write 2 * wrist"},
      {"2 pi * wrist", "missing between 2 and pi", "write 2 * pi"},
      {"wrist 5 cm", "missing between wrist and 5", "+ - * or /"},
      {"(wrist) (cuff)", "missing between ) and (", "+ - * or /"},
      {"wrist (cuff)", "missing between wrist and (", "+ - * or /"},
      {"wrist cm", "wrist is a length already", "leave out cm"},
      {"(wrist + 5) cm", "5 has no unit", "write 5 cm"},
      {"(wrist) cm", "cm follows no number", "behind its number"},
      {"wrist + cm", "cm has no number", "write such as 1 cm"},
      {"wrist + inches", "inches is no unit", "in"},
      {"5 cms + wrist", "\"5 cms\": cms is no unit", "write 5 cm"},
      {"wrist + 5 inches", "inches is no unit", "write 5 in"},
      {"wrist + 2,5 cm", "\"2,5 cm\"", "write 2.5 cm"},
      {"wrist + 1 m 20 cm", "strung", "write 1.2 m"},
      {"wrist * 1e3", "\"1e3\": no exponents", "write 1000"},
      {"wrist,", "comma at the end", "write wrist"},
      {"5 cm,", "comma at the end", "write 5 cm"},
      {"wrist, cuff", "comma", "point"},
      {"(wrist", "\"(wrist\": the bracket is not closed", "write )"},
      {"wrist)", "\"wrist)\": ) closes nothing", "("},
      {"()", "\"()\"", "write a length"},
      {"wrist ++ cuff", "\"++\": two operators", "leave one out"},
      {"wrist * / cuff", "\"* /\": two operators", "leave one out"},
      {"wrist * -2", "\"* -\": two operators", "brackets"},
      {"--wrist", "\"--\": two operators", "brackets"},
      {"* wrist", "nothing stands before *", "write"},
      {"+wrist", "nothing stands before +", "write"},
      {"wrist +", "nothing follows +", "write"},
      {"foo(wrist)", "\"foo\" is no function", "min(a, b) and max(a, b)"},
      {"min(wrist)", "min takes two", "write min(a, b)"},
      {"max(wrist, cuff, neck)", "max takes two", "write max(a, b)"},
      {"max(wrist,2,5 cm)", "max takes two", "write max(a, b)"},
      {"min()", "nothing stands between", "write"},
      {"min(wrist,", "nothing follows", "write"},
      {"min(wrist,)", "nothing stands between", "write"},
      {"min", "min has no bracket", "write min(a, b)"},
      {"wrist × 2", "\"×\" is no operator", "write *"},
      {"wrist ÷ 2", "\"÷\" is no operator", "write /"},
      {"wrist \u2212 2 cm", "no minus sign", "write -"},
      {"wrist^2", "no powers", "write a product"},
      {"50 % * wrist", "percent", "0.05"},
      {"[wrist]", "\"[\" is no bracket", "write ("},
      {"wrist <= cuff", "comparison", "one formula"},
      {"wrist & cuff", "\"&\" means nothing here", "+ - * /"},
      {"wrist / 0", "wrist / 0 divides by 0", "something else"},
      {"wrist / 0 cm * cuff", "divides by 0", "something else"},
      {"-5 cm", "negative", "write 5 cm"},
      {"8 cms", "\"8 cms\": cms is no unit", "write 8 cm"},
      {"", "nothing", "62 cm"},
      {"\xFF", "UTF-8", "UTF-8"},
  };
  for (const Hint &hint : hints) {
    const Outcome<Formula> formula = parsed(hint.text);
    INFO(hint.text);
    REQUIRE(!formula);
    check_hint(hint, formula.fault());
  }
}

TEST_CASE("a cloth of no width is said so where its width is named") {
  const auto nothing = [](std::string_view) { return -1; };
  const Outcome<Formula> formula = parse_formula("cloth_width / 2", Unit::cm, nothing, {});
  REQUIRE(!formula);
  CHECK(formula.fault().what.find("cloth_width") == 0);
}

TEST_CASE("names are letters, digits and underscores, and no word that formulas know") {
  for (const char *good :
       {"cuff", "a_1", "g", "é", "рукав", "袖", "كم", "आस्तीन", "a\u0301b", "mm_", "Min", "cms", "שרוול"})
    CHECK_FALSE(check_name(good));
  const std::vector<Hint> bad{
      {"sleeve head", "\"sleeve head\": a name has no spaces", "write sleeve_head"},
      {"sleeve\u00A0head", "no spaces", "write sleeve_head"},
      {" cuff ", "no spaces", "write cuff"},
      {"sleeve-head", "\"sleeve-head\"", "write sleeve_head"},
      {"2nd", "begins with a letter", "letter first"},
      {"_a", "begins with a letter", "letter first"},
      {"½a", "\"½a\"", "write a"},
      {"x²", "\"x²\"", "write x"},
      {"m (", "\"m (\"", ""},
      {"cm", "cm is a unit", "cm_1"},
      {"nail", "nail is a unit", "nail_1"},
      {"in", "in is a unit", "in_1"},
      {"min", "min is a function", "min_1"},
      {"max", "max is a function", "max_1"},
      {"pi", "pi is", "pi_1"},
      {"cloth_width", "cloth_width is", "cloth_width_1"},
      {"", "empty", "letter"},
      {"\xC3", "UTF-8", "UTF-8"},
  };
  for (const Hint &hint : bad) {
    const std::optional<Fault> fault = check_name(hint.text);
    INFO(hint.text);
    REQUIRE(fault);
    check_hint(hint, *fault);
  }
}

TEST_CASE("a rule is two formulas and one comparison") {
  const auto rule = [](std::string_view text) { return parse_comparison(text, Unit::cm, index_of, names); };
  const Outcome<Comparison> cloth = rule(" 2 * sleeve <= 150 cm ");
  REQUIRE(cloth);
  CHECK(cloth->relation == Relation::at_most);
  CHECK(cloth->left.written() == "2 * sleeve");
  CHECK(cloth->right.written() == "150 cm");
  CHECK(evaluate(cloth->left, fixed_values())->constant == 1040.0);
  CHECK(evaluate(cloth->right, fixed_values())->constant == 1500.0);
  CHECK(rule("cuff>=wrist")->relation == Relation::at_least);
  CHECK(rule("cuff = wrist + 5 cm")->relation == Relation::equal);
  CHECK(evaluate(rule("sleeve - cuff >= -5 cm")->right, {})->constant == -50.0);
  CHECK(evaluate(rule("3/4 in <= cuff")->left, {})->constant == 19.05);

  const std::vector<Hint> hints{
      {"2 * sleeve <= 150", "150 has no unit", "write 150 cm"},
      {"150 >= 2 * sleeve", "150 has no unit", "write 150 cm"},
      {"24 3/4 >= sleeve", "24 3/4 has no unit", "write 24 3/4 cm"},
      {"wrist + 5 >= cuff", "5 has no unit", "write 5 cm"},
      {"wrist / cuff >= 2", "wrist / cuff is a pure number", "length"},
      {"sleeve = 24-3/4 in", "\"24-3/4 in\"", "write 24 3/4 in"},
      {"wrist < cuff", "\"<\"", "write wrist <= cuff"},
      {"wrist > cuff", "\">\"", "write wrist >= cuff"},
      {"wrist == cuff", "\"==\"", "write wrist = cuff"},
      {"wrist =< cuff", "\"=<\"", "write wrist <= cuff"},
      {"wrist => cuff", "\"=>\"", "write wrist >= cuff"},
      {"wrist ≤ cuff", "\"≤\"", "write wrist <= cuff"},
      {"wrist ≥ cuff", "\"≥\"", "write wrist >= cuff"},
      {"wrist != cuff", "\"!=\"", "<=, >= or ="},
      {"wrist <= cuff <= neck", "more than once", "a <= b and b <= c"},
      {"wrist + cuff", "compares nothing", "<=, >= or ="},
      {"<= cuff", "nothing stands before <=", "write"},
      {"wrist <=", "nothing follows <=", "write"},
      {"wirst <= cuff", "\"wirst\" is not known", "write wrist"},
      {"", "nothing", "a + b <= c"},
      {"wrist <= \xFF", "UTF-8", "UTF-8"},
  };
  for (const Hint &hint : hints) {
    const Outcome<Comparison> comparison = rule(hint.text);
    INFO(hint.text);
    REQUIRE(!comparison);
    check_hint(hint, comparison.fault());
  }
}

TEST_CASE("a thousand brackets are read and more are refused at once") {
  const auto nested = [](std::size_t depth) { return std::string(depth, '(') + "wrist" + std::string(depth, ')'); };
  CHECK(mm_of(nested(1000)) == 170.0);
  CHECK_FALSE(parsed(nested(1001)));
  CHECK(parsed(nested(1001)).fault().what.find("1000 brackets") != std::string::npos);
  std::string functions = "wrist";
  for (int depth = 0; depth < 1000; ++depth)
    functions = "max(" + functions + ", cuff)";
  CHECK(mm_of(functions) == 220.0);
  const auto rule = [](std::string_view text) { return bool(parse_comparison(text, Unit::cm, index_of, names)); };
  for (const std::string &text : std::vector<std::string>{std::string(10'000'000, '('), std::string(10'000'000, ')'),
                                                          nested(5'000'000), std::string(10'000'000, '-')}) {
    CHECK(seconds_of([&] { CHECK_FALSE(parsed(text)); }) < seconds_allowed);
    CHECK(seconds_of([&] { CHECK_FALSE(rule(text + "<= wrist")); }) < seconds_allowed);
  }
}

TEST_CASE("a formula of any length is read in time that grows with it") {
  std::string sum = "wrist";
  for (int term = 0; term < 100000; ++term)
    sum += " + 1 mm";
  CHECK(seconds_of([&] { CHECK(mm_of(sum) == 100170.0); }) < 2 * seconds_allowed);
  std::string ladder = "wrist";
  for (int term = 0; term < 100000; ++term)
    ladder += " * 2 - wrist";
  CHECK(seconds_of([&] { CHECK(mm_of("wrist + 0 * (" + ladder + ")") == 170.0); }) < 2 * seconds_allowed);
}
