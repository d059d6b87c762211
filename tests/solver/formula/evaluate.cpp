// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/formula.hpp"
#include "solver/formula/figure.hpp"
#include "tests/seconds.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <memory>
#include <optional>
#include <random>
#include <string>
#include <vector>

using namespace gatherwright;

namespace {

const std::vector<std::string> names{"a", "b", "c", "d", "p", "q"}; // p and q are free where a test has free lengths

int index_of(std::string_view word) {
  const auto found = std::find(names.begin(), names.end(), word);
  return found == names.end() ? -1 : static_cast<int>(found - names.begin());
}

Outcome<Formula> parsed(std::string_view text) {
  return parse_formula(text, Unit::mm, index_of, names);
}

// An expression as a tree, worked out by itself: the reader under test never sees it but as text.
struct Tree {
  char kind = 'n'; // n a number, l a length in mm, s a symbol, + - * /, m min, M max, ~ negative
  double value = 0;
  int symbol = 0;
  std::unique_ptr<Tree> left;
  std::unique_ptr<Tree> right;
};

using Branch = std::unique_ptr<Tree>;

// Random trees of a wanted dimension. Numbers are small whole ones, never 0. `free`: p and q only where the value stays
// affine.
class Grower {
public:
  explicit Grower(std::uint64_t seed, bool free) : random_(seed), free_(free) {}

  // `may_be_free`: whether p and q may stand below.
  Branch grow(int dimension, int depth, bool may_be_free) {
    if (depth <= 0 || pick(5) == 0) return leaf(dimension, may_be_free);
    switch (pick(dimension == 1 ? 7 : 6)) {
    case 0:
      return node('+', grow(dimension, depth - 1, may_be_free), grow(dimension, depth - 1, may_be_free));
    case 1:
      return node('-', grow(dimension, depth - 1, may_be_free), grow(dimension, depth - 1, may_be_free));
    case 2: {
      const int part = static_cast<int>(pick(2));
      const bool free_left = pick(2) == 0;
      return node('*', grow(part, depth - 1, may_be_free && free_left),
                  grow(dimension - part, depth - 1, may_be_free && !free_left));
    }
    case 3: {
      const int divisor = static_cast<int>(pick(2));
      return node('/', grow(dimension + divisor, depth - 1, may_be_free), grow(divisor, depth - 1, false));
    }
    case 4:
      return node(pick(2) == 0 ? 'm' : 'M', grow(dimension, depth - 1, false), grow(dimension, depth - 1, false));
    case 5:
      return node('~', grow(dimension, depth - 1, may_be_free), nullptr);
    default:
      return leaf(dimension, may_be_free);
    }
  }

private:
  std::size_t pick(std::size_t count) { return random_() % count; }

  static Branch node(char kind, Branch left, Branch right) {
    auto made = std::make_unique<Tree>();
    made->kind = kind;
    made->left = std::move(left);
    made->right = std::move(right);
    return made;
  }

  Branch leaf(int dimension, bool may_be_free) {
    if (dimension > 1) return node('*', leaf(1, may_be_free), leaf(dimension - 1, false));
    if (dimension < 0) return node('/', leaf(dimension + 1, may_be_free), leaf(1, false));
    auto made = std::make_unique<Tree>();
    made->kind = dimension == 0 ? 'n' : (pick(2) == 0 ? 'l' : 's');
    made->value = static_cast<double>(1 + pick(40)) / 4;
    made->symbol = static_cast<int>(pick(free_ && may_be_free ? 6 : 4));
    return made;
  }

  std::mt19937_64 random_;
  bool free_;
};

int strength(char kind) {
  if (kind == '+' || kind == '-') return 1;
  if (kind == '*' || kind == '/') return 2;
  return kind == '~' ? 0 : 4; // a sign stands only at the head, so it always gets brackets
}

std::string figures(double value) {
  const auto quarters = static_cast<int>(value * 4);
  const std::array<const char *, 4> fractions{"", ".25", ".5", ".75"};
  return std::to_string(quarters / 4) + fractions[quarters % 4];
}

// With no more brackets than the grammar needs, so that precedence and order are put to the test.
std::string written(const Tree &tree) {
  const auto inner = [](const Tree &part, int least) {
    const std::string text = written(part);
    return strength(part.kind) < least ? '(' + text + ')' : text;
  };
  switch (tree.kind) {
  case 'n':
    return figures(tree.value);
  case 'l':
    return figures(tree.value) + " mm";
  case 's':
    return names[static_cast<std::size_t>(tree.symbol)];
  case 'm':
  case 'M':
    return (tree.kind == 'm' ? "min(" : "max(") + written(*tree.left) + " , " + written(*tree.right) + ")";
  case '~':
    return '-' + inner(*tree.left, 3);
  default:
    const int own = strength(tree.kind);
    // "6 / 6 mm" would be six sixths of a millimetre.
    if (tree.kind == '/' && tree.right->kind == 'l')
      return inner(*tree.left, own) + " / (" + written(*tree.right) + ')';
    return inner(*tree.left, own) + ' ' + tree.kind + ' ' + inner(*tree.right, own + 1);
  }
}

double worked_out(const Tree &tree, const std::vector<double> &values) {
  if (tree.kind == 'n' || tree.kind == 'l') return tree.value;
  if (tree.kind == 's') return values[static_cast<std::size_t>(tree.symbol)];
  const double left = worked_out(*tree.left, values);
  if (tree.kind == '~') return -left;
  const double right = worked_out(*tree.right, values);
  switch (tree.kind) {
  case '+':
    return left + right;
  case '-':
    return left - right;
  case '*':
    return left * right;
  case '/':
    return left / right;
  default:
    return tree.kind == 'm' ? std::min(left, right) : std::max(left, right);
  }
}

// The largest value met on the way, which what is lost by rounding is in proportion to; infinite where a divisor is
// near 0.
double largest_within(const Tree &tree, const std::vector<double> &values) {
  double largest = std::abs(worked_out(tree, values));
  if (tree.left) largest = std::max(largest, largest_within(*tree.left, values));
  if (tree.right) largest = std::max(largest, largest_within(*tree.right, values));
  return largest;
}

bool divides_by_little(const Tree &tree, const std::vector<double> &values) {
  if (tree.kind == '/' && std::abs(worked_out(*tree.right, values)) < 1e-3) return true;
  return (tree.left && divides_by_little(*tree.left, values)) || (tree.right && divides_by_little(*tree.right, values));
}

std::vector<Affine> as_fixed(const std::vector<double> &values) {
  std::vector<Affine> fixed;
  for (const double value : values)
    fixed.push_back({value, {}});
  return fixed;
}

} // namespace

TEST_CASE("random formulas come to what a plain evaluator makes of them") {
  const std::vector<double> values{170, 22.5, 390.25, 61, 45, 450};
  const std::vector<Affine> fixed = as_fixed(values);
  int worked = 0;
  for (std::uint64_t seed = 0; seed < 4000; ++seed) {
    const Branch tree = Grower(seed, false).grow(1, 5, false);
    const std::string text = written(*tree);
    const double expected = worked_out(*tree, values);
    const Outcome<Formula> formula = parsed(text);
    if (!formula && (formula.fault().what.find("negative") != std::string::npos))
      continue; // "-(3 mm)" without its brackets
    INFO(text);
    if (!formula) INFO(formula.fault().what);
    REQUIRE(formula);
    const Outcome<Affine> value = evaluate(*formula, fixed);
    const std::optional<double> number = value_of(*formula, values);
    REQUIRE(number.has_value() == static_cast<bool>(value));
    if (!value) {
      REQUIRE(divides_by_little(*tree, values));
      continue;
    }
    REQUIRE(value->constant == expected); // the same operations in the same order: the same bits
    REQUIRE(*number == expected);
    ++worked;
  }
  CHECK(worked > 3000);
}

TEST_CASE("values wait for their operators however many they are") {
  std::mt19937_64 random(17);
  const std::vector<double> numbers{170, 22.5, 390.25, 61, 45, 450};
  for (std::size_t deep = 1; deep < 60; ++deep) {
    // a - (b - (a - ( ... ))), as steps and by itself from within.
    std::vector<Formula::Step> steps;
    std::vector<int> symbols;
    for (std::size_t i = 0; i < deep; ++i) {
      symbols.push_back(static_cast<int>(random() % numbers.size()));
      steps.push_back({Formula::Code::symbol, 0, symbols.back()});
    }
    steps.insert(steps.end(), deep - 1, {Formula::Code::subtract});
    double expected = numbers[symbols.back()];
    for (std::size_t i = deep - 1; i-- > 0;)
      expected = numbers[symbols[i]] - expected;
    const Formula formula = Formula::of_steps(steps, "w").value();
    CHECK(value_of(formula, numbers) == expected);
    CHECK(evaluate(formula, as_fixed(numbers))->constant == expected);
    std::vector<Affine> free(numbers.size());
    for (int s = 0; s < static_cast<int>(free.size()); ++s)
      free[s].terms = {{s, 1.0}};
    const Outcome<Affine> line = evaluate(formula, free);
    REQUIRE(line);
    double at = line->constant;
    for (const auto &[symbol, coefficient] : line->terms)
      at += coefficient * numbers[symbol];
    CHECK(at == Approx(expected).margin(1e-9));
  }
}

TEST_CASE("a formula of any other dimension is refused") {
  for (std::uint64_t seed = 0; seed < 2000; ++seed) {
    const int dimension = std::array<int, 4>{-1, 0, 2, 3}[seed % 4];
    const std::string text = written(*Grower(seed, false).grow(dimension, 4, false));
    INFO(text);
    const Outcome<Formula> formula = parsed(text);
    // One bare number is a length in the job's unit; that is the only exception.
    REQUIRE(bool(formula) == (dimension == 0 && text.find_first_not_of("0123456789.") == std::string::npos));
  }
}

TEST_CASE("an affine formula is the line through its numeric values") {
  const std::vector<double> fixed_part{170, 22.5, 390.25, 61};
  // p and q themselves hang on two other free lengths, 10 and 11.
  std::vector<Affine> values = as_fixed(fixed_part);
  values.push_back({5, {{10, 2}, {11, -1}}});
  values.push_back({-7, {{11, 0.5}}});
  std::mt19937_64 random(99);
  int with_terms = 0;
  for (std::uint64_t seed = 0; seed < 4000; ++seed) {
    const Branch tree = Grower(seed, true).grow(1, 5, true);
    const std::string text = written(*tree);
    const Outcome<Formula> formula = parsed(text);
    if (!formula) continue;
    const Outcome<Affine> value = evaluate(*formula, values);
    std::vector<double> numeric = fixed_part;
    const double u = static_cast<double>(random() % 1000) / 8;
    const double v = static_cast<double>(random() % 1000) / 8;
    numeric.push_back(5 + 2 * u - v);
    numeric.push_back(-7 + 0.5 * v);
    if (divides_by_little(*tree, numeric)) continue;
    INFO(text);
    if (!value) INFO(value.fault().what);
    REQUIRE(value);
    REQUIRE(std::is_sorted(value->terms.begin(), value->terms.end()));
    double substituted = value->constant;
    double size = std::abs(value->constant) + largest_within(*tree, numeric);
    for (const auto &[symbol, coefficient] : value->terms) {
      REQUIRE(coefficient != 0);
      substituted += coefficient * (symbol == 10 ? u : v);
      size += std::abs(coefficient) * 125;
    }
    // Below 64 operations, each off by half a unit in the last place of the largest value met.
    REQUIRE(std::abs(substituted - worked_out(*tree, numeric)) <= 64 * std::numeric_limits<double>::epsilon() * size);
    with_terms += value->fixed() ? 0 : 1;
  }
  CHECK(with_terms > 500);
}

TEST_CASE("terms are sorted, merged and dropped where they cancel") {
  std::vector<Affine> values(6);
  values[0] = {100, {}};
  values[4] = {0, {{4, 1}}};
  values[5] = {0, {{5, 1}}};
  const auto value = [&](std::string_view text) {
    const Outcome<Affine> found = evaluate(*parsed(text), values);
    REQUIRE(found);
    return *found;
  };
  using Terms = std::vector<std::pair<int, double>>;
  CHECK(value("q + 2 * p + 3 mm").terms == Terms{{4, 2}, {5, 1}});
  CHECK(value("q + 2 * p + 3 mm").constant == 3.0);
  CHECK(value("2 * (q - p) + p").terms == Terms{{4, -1}, {5, 2}});
  CHECK(value("p - p + a").fixed());
  CHECK(value("p + q - p").terms == Terms{{5, 1}});
  CHECK(value("0 * p + a").fixed());
  CHECK(value("a * p / a").terms == Terms{{4, 1}});
  CHECK(value("p / 4").terms == Terms{{4, 0.25}});
  CHECK(value("-p").terms == Terms{{4, -1}});
  CHECK(value("min(a, 3 mm) + p").terms == Terms{{4, 1}});
  CHECK_FALSE(std::signbit(value("-(a - a)").constant));
}

TEST_CASE("a sum of a hundred thousand free lengths, in any order, comes to its terms in less than a second") {
  constexpr int lengths = 100'000;
  std::vector<Affine> values(lengths);
  for (int i = 0; i < lengths; ++i)
    values[static_cast<std::size_t>(i)].terms = {{i, 1.0}};
  std::vector<Formula::Step> steps;
  std::mt19937_64 random(7);
  std::vector<double> expected(lengths, 0.0);
  for (int i = 0; i < 2 * lengths; ++i) {
    const int symbol = i < lengths ? lengths - 1 - i : static_cast<int>(random() % lengths);
    const bool less = i > lengths && random() % 2 == 0;
    steps.push_back({Formula::Code::symbol, 0, symbol});
    if (i > 0) steps.push_back({less ? Formula::Code::subtract : Formula::Code::add});
    expected[static_cast<std::size_t>(symbol)] += less ? -1 : 1;
  }
  const std::optional<Formula> sum = Formula::of_steps(std::move(steps), "the sum");
  REQUIRE(sum);
  Outcome<Affine> found = Fault{};
  CHECK(seconds_of([&] { found = evaluate(*sum, values); }) < seconds_allowed);
  REQUIRE(found);
  std::size_t at = 0;
  for (int i = 0; i < lengths; ++i) {
    if (expected[static_cast<std::size_t>(i)] == 0) continue;
    REQUIRE(at < found->terms.size());
    REQUIRE(found->terms[at++] == std::pair(i, expected[static_cast<std::size_t>(i)]));
  }
  CHECK(at == found->terms.size());
}

TEST_CASE("a formula with more in it than can be worked out is a fault, in less than a second") {
  std::vector<Affine> values(1);
  for (int i = 0; i < 100'000; ++i)
    values[0].terms.emplace_back(i, 1.0);
  for (const Formula::Code code : {Formula::Code::add, Formula::Code::multiply}) {
    std::vector<Formula::Step> steps{{Formula::Code::symbol, 0, 0}};
    for (int i = 0; i < 100'000; ++i) {
      steps.push_back(code == Formula::Code::add ? Formula::Step{Formula::Code::symbol, 0, 0}
                                                 : Formula::Step{Formula::Code::number, 1, -1});
      steps.push_back({code});
    }
    const std::optional<Formula> formula = Formula::of_steps(std::move(steps), "all + all");
    REQUIRE(formula);
    Outcome<Affine> found = Affine{};
    CHECK(seconds_of([&] { found = evaluate(*formula, values); }) < seconds_allowed);
    REQUIRE(!found);
    CHECK(found.fault().what == "all + all has more in it than can be worked out");
  }
}

TEST_CASE("what is not in proportion to the free lengths is a fault") {
  std::vector<Affine> values(6);
  values[0] = {100, {}};
  values[4] = {0, {{4, 1}}};
  values[5] = {0, {{5, 1}}};
  for (const char *text : {"p * q / a", "p * p / a", "a * a / p", "p / q * a", "p / (2 * p) * a"}) {
    const Outcome<Affine> value = evaluate(*parsed(text), values);
    INFO(text);
    REQUIRE(!value);
    CHECK(value.fault().what.find(text) == 0);
    CHECK(value.fault().what.find("is not in proportion") != std::string::npos);
  }
  for (const char *text : {"min(p, a)", "max(a, q)", "max(p, p)"}) {
    const Outcome<Affine> value = evaluate(*parsed(text), values);
    INFO(text);
    REQUIRE(!value);
    CHECK(value.fault().what.find("min or max of a free length") != std::string::npos);
  }
}

TEST_CASE("a value that is not finite is a fault") {
  const std::vector<Affine> values = as_fixed({100, 0, 1, 1, 1, 1});
  CHECK(evaluate(*parsed("a * a / b"), values).fault().what.find("divides by 0") != std::string::npos);
  CHECK(evaluate(*parsed("a / (c - d) * a"), values).fault().what.find("divides by 0") != std::string::npos);
  std::string large = "a";
  for (int k = 0; k < 40; ++k)
    large += " * 1000000000";
  CHECK(evaluate(*parsed(large), values).fault().what.find("no finite length") != std::string::npos);
  // An overflow on the way is told though the whole would come to 0.
  std::string hidden = "1";
  for (int k = 0; k < 40; ++k)
    hidden += " * 1000000000";
  CHECK(evaluate(*parsed("a / (" + hidden + ")"), values).fault().what.find("no finite length") != std::string::npos);
  CHECK(evaluate(Formula{}, values)->constant == 0);
  CHECK_FALSE(evaluate(*parsed("a"), as_fixed({std::numeric_limits<double>::infinity()})));
}

TEST_CASE("the symbols of a formula are told once each, in ascending order") {
  CHECK(symbols_of(*parsed("c + a * c / b + 2 * a")) == std::vector<int>{0, 1, 2});
  CHECK(symbols_of(*parsed("5 mm")).empty());
}
