// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/layout/certified.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <vector>

namespace gatherwright::layout {

namespace {

using Number = std::int64_t;
__extension__ using Product = __int128; ///< of two numbers, and sums of such

constexpr double most_number = 0x1p62;
/// Lists of sums are no longer than this; what does not fit is bounded more simply.
constexpr std::size_t most_sums = 100'000;
/// And all of them together than this.
constexpr std::size_t most_work = 100'000'000;

/// A rectangle in the certificate's units.
struct Counted {
  Number across = 0;
  Number along = 0;
  Number across_turned = 0; ///< its width where it lies turned; 0 where it may not
  Number along_turned = 0;
  int count = 0;
  Number price = 0;
  Number price_turned = 0;

  Number least_across() const { return across_turned > 0 ? std::min(across, across_turned) : across; }
  Number least_along() const { return across_turned > 0 ? std::min(along, along_turned) : along; }
};

bool is_unit(const Unit &unit) {
  return unit.times > 0 && unit.over > 0 && std::isfinite(unit.times) && std::isfinite(unit.over);
}

/// A size in units, where it is a number of them within rounding.
std::optional<Number> number_of(double size, const Unit &unit, double allowed) {
  const double number = std::round(size / unit.times * unit.over);
  if (!(number >= 0 && number < most_number)) return std::nullopt;
  if (!(std::abs(number * unit.times / unit.over - size) <= allowed)) return std::nullopt;
  return static_cast<Number>(number);
}

bool fits(double size, const Problem &problem) {
  return size <= problem.width * (1 + rounding / 10);
}

std::optional<std::vector<Counted>> counted(const Problem &problem, const Certificate &certificate) {
  const std::size_t size = problem.rectangles.size();
  if (certificate.price.size() != size || certificate.turned.size() != size) return std::nullopt;
  double longest = problem.width;
  for (const Rectangle &rectangle : problem.rectangles)
    longest = std::max({longest, rectangle.along, rectangle.across});
  const double off_across = problem.width * rounding / 1000;
  const double off_along = longest * rounding / 1000;
  std::vector<Counted> all;
  for (std::size_t i = 0; i < size; ++i) {
    Rectangle rectangle = problem.rectangles[i];
    Number price = certificate.price[i];
    Number turned = certificate.turned[i];
    if (price < 0 || turned < 0) return std::nullopt;
    bool either = rectangle.may_turn;
    if (either && !fits(rectangle.across, problem)) {
      std::swap(rectangle.across, rectangle.along);
      std::swap(price, turned);
      either = false;
    }
    either = either && fits(rectangle.along, problem);
    const auto across = number_of(rectangle.across, certificate.across, off_across);
    const auto along = number_of(rectangle.along, certificate.along, off_along);
    if (!across || !along) return std::nullopt;
    Counted one{*across, *along, 0, 0, rectangle.count, price, turned};
    if (either) {
      const auto across_turned = number_of(rectangle.along, certificate.across, off_across);
      const auto along_turned = number_of(rectangle.across, certificate.along, off_along);
      if (!across_turned || !along_turned) return std::nullopt;
      if (*across_turned == *across) { // a square lies one way
        all.push_back(one);
        continue;
      }
      one.across_turned = *across_turned;
      one.along_turned = *along_turned;
    }
    all.push_back(one);
  }
  return all;
}

/// Takes rectangles out of the list, each kind where nothing that is left fits beside it; the length they take, or
/// nothing where something does.
std::optional<Product> set_aside(std::vector<Counted> &all, const Certificate &certificate) {
  Product sum = 0;
  for (const std::size_t index : certificate.aside) {
    if (index >= all.size() || all[index].count == 0) return std::nullopt;
    Number narrowest = std::numeric_limits<Number>::max() / 2;
    for (std::size_t i = 0; i < all.size(); ++i)
      if (all[i].count > (i == index ? 1 : 0)) narrowest = std::min(narrowest, all[i].least_across());
    if (all[index].least_across() + narrowest <= certificate.width) return std::nullopt;
    sum += Product{all[index].least_along()} * all[index].count;
    all[index].count = 0;
  }
  return sum;
}

/// Bars to choose from: so many of a size and a price each.
struct Bars {
  Number size = 0;
  Number price = 0;
  int count = 0;
};

struct Choice {
  Number size = 0;
  Number price = 0;
};

/// Both lists go up in size and in price; of the choices of either those that no smaller one is worth as much as.
std::vector<Choice> best_of(const std::vector<Choice> &a, const std::vector<Choice> &b) {
  std::vector<Choice> all(a.size() + b.size());
  std::merge(a.begin(), a.end(), b.begin(), b.end(), all.begin(), [](const Choice &x, const Choice &y) {
    return x.size < y.size || (x.size == y.size && x.price > y.price);
  });
  std::vector<Choice> kept;
  for (const Choice &choice : all)
    if (kept.empty() || choice.price > kept.back().price) kept.push_back(choice);
  return kept;
}

/// The greatest price of bars that a line of that length can meet.
Number greatest_price(const std::vector<Bars> &bars, Number length) {
  std::vector<Choice> choices{{0, 0}};
  Number for_nothing = 0; ///< of bars without a size
  Bars dearest{1, 0, 0};  ///< for its size
  for (const Bars &each : bars)
    if (each.size == 0)
      for_nothing += each.price * each.count;
    else if (Product{each.price} * dearest.size > Product{dearest.price} * each.size)
      dearest = each;
  std::size_t work = 0;
  for (const Bars &each : bars) {
    if (each.price == 0 || each.size == 0 || each.size > length) continue;
    Number left = std::min<Number>(each.count, length / each.size);
    for (Number take = 1; left > 0; left -= take, take = std::min(2 * take, left)) {
      std::vector<Choice> more;
      for (const Choice &choice : choices)
        if (choice.size + take * each.size <= length)
          more.push_back({choice.size + take * each.size, choice.price + take * each.price});
      choices = best_of(choices, more);
      work += choices.size();
      if (choices.size() > most_sums || work > most_work)
        return for_nothing + static_cast<Number>(Product{length} * dearest.price / dearest.size);
    }
  }
  return for_nothing + choices.back().price;
}

std::vector<Bars> bars_of(const std::vector<Counted> &all, bool across) {
  std::vector<Bars> bars;
  for (const Counted &one : all) {
    if (one.count == 0) continue;
    bars.push_back({across ? one.across : one.along, one.price, one.count});
    if (one.across_turned > 0)
      bars.push_back({across ? one.across_turned : one.along_turned, one.price_turned, one.count});
  }
  return bars;
}

/// The price of all bars, each rectangle lying as it is cheaper.
Product price_of_all(const std::vector<Counted> &all, bool across) {
  Product sum = 0;
  for (const Counted &one : all) {
    Product price = Product{across ? one.along : one.across} * one.price;
    if (one.across_turned > 0)
      price = std::min(price, Product{across ? one.along_turned : one.across_turned} * one.price_turned);
    sum += price * one.count;
  }
  return sum;
}

/// The greatest sum of rectangles' lengths up to a number; where there are too many sums, the number itself.
Number greatest_sum(const std::vector<Counted> &all, Number to) {
  std::vector<Number> sums{0};
  std::size_t work = 0;
  for (const Counted &one : all)
    for (int copy = 0; copy < one.count; ++copy) {
      std::vector<Number> more = sums;
      for (const Number length : {one.along, one.along_turned}) {
        const auto before = static_cast<std::ptrdiff_t>(more.size());
        for (const Number sum : sums)
          if (length > 0 && sum + length <= to) more.push_back(sum + length);
        std::inplace_merge(more.begin(), more.begin() + before, more.end());
      }
      more.erase(std::unique(more.begin(), more.end()), more.end());
      if (more.size() == sums.size()) break;
      work += more.size();
      if (more.size() > most_sums || work > most_work) return to;
      sums = std::move(more);
    }
  return sums.back();
}

bool proves(const std::vector<Counted> &rest, const Certificate &certificate) {
  const Number least = certificate.least;
  if (least < 0) return false;
  if (least == 0) return true;
  if (certificate.kind == Certificate::Kind::tallest)
    return std::any_of(rest.begin(), rest.end(),
                       [&](const Counted &one) { return one.count > 0 && one.least_along() >= least; });
  const bool across = certificate.kind == Certificate::Kind::bars_across;
  const Product all = price_of_all(rest, across);
  const std::vector<Bars> bars = bars_of(rest, across);
  const Number line = greatest_price(bars, across ? certificate.width : least - 1);
  if (across && line <= 0) return false;
  const Product proved = across ? (all + line - 1) / line : 0;
  if (across ? proved >= least : all > Product{certificate.width} * line) return true;
  // Not yet of what is one shorter; but a layout that is shorter than the least is no longer than this.
  const Number shorter = greatest_sum(rest, least - 1);
  return across ? proved > shorter : all > Product{certificate.width} * greatest_price(bars, shorter);
}

/// The tallest and the area.
double plain_bound(const Problem &problem) {
  double tallest = 0;
  double area = 0;
  for (const Rectangle &rectangle : problem.rectangles) {
    const bool turns = rectangle.may_turn && fits(rectangle.along, problem);
    const bool turned = rectangle.may_turn && !fits(rectangle.across, problem);
    const double least = turned  ? rectangle.across
                         : turns ? std::min(rectangle.across, rectangle.along)
                                 : rectangle.along;
    tallest = std::max(tallest, least);
    area += rectangle.count * rectangle.across * rectangle.along;
  }
  return std::max(tallest, area / problem.width);
}

} // namespace

std::optional<double> certified(const Problem &problem, const Certificate &certificate) {
  const double plain = plain_bound(problem);
  if (certificate.kind == Certificate::Kind::tallest && certificate.least == 0 && certificate.aside.empty())
    return plain;
  if (!is_unit(certificate.across) || !is_unit(certificate.along)) return std::nullopt;
  const double width = certificate.across.length(certificate.width);
  if (!(certificate.width > 0 && width >= problem.width * (1 - rounding / 1000))) return std::nullopt;
  auto rest = counted(problem, certificate);
  if (!rest) return std::nullopt;
  const auto aside = set_aside(*rest, certificate);
  if (!aside || !proves(*rest, certificate)) return std::nullopt;
  const Product sum = *aside + certificate.least;
  return std::max(plain, static_cast<double>(sum) * certificate.along.times / certificate.along.over);
}

} // namespace gatherwright::layout
