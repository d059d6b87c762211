// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/solver/cloth/published.hpp"

#include "gatherwright/limits.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <iterator>
#include <string>

using namespace gatherwright;
using gatherwright::tests::published;
using gatherwright::tests::PublishedRow;

namespace {

Gathering with_stitch(double mm) {
  Gathering gathering;
  gathering.stitch = Length{mm};
  return gathering;
}

/// A cloth as a row of ease names it: firm and supple ones by how far they hang over, wool by its shrinking.
Fabric cloth_of(const PublishedRow &row, double grams) {
  Fabric fabric;
  fabric.weight = Weight{grams};
  if (row.what.find("firm") != std::string::npos) fabric.bending_length = Length{35};
  if (row.what.find("supple") != std::string::npos) fabric.bending_length = Length{12};
  fabric.shrinks = row.what.find("wool") != std::string::npos;
  return fabric;
}

/// Our limits for what a row names, in the row's own unit. Where no weight is named or assumed, that which the program
/// takes.
std::array<double, 2> limits_for(const PublishedRow &row, double grams) {
  if (row.kind == "ease") {
    const Limits found = cloth::limits(cloth_of(row, grams), {}, Kind::ease, {});
    return {0, 100 * (found.most - 1)};
  }
  const Limits found = cloth::limits(cloth_of(row, grams), with_stitch(4), Kind::gather, {}, {.use = row.use});
  return {found.least, found.most};
}

std::vector<double> weights_of(const PublishedRow &row) {
  const auto [from, to] = row.grams.value_or(std::array{150.0, 150.0});
  std::vector<double> weights;
  for (double grams = from; grams <= to; ++grams)
    weights.push_back(grams);
  return weights;
}

/// Sums of a dozen operations on values up to 12: what lies on a limit is within it.
constexpr double on_a_limit = 1e-12;

/// How much of what is published lies within our limits, per cent: the share of its range, as a mean over the weights.
double agreement(const PublishedRow &row) {
  const auto [low, high] = *row.figure;
  double sum = 0;
  for (const double grams : weights_of(row)) {
    const auto [least, most] = limits_for(row, grams);
    if (high > low)
      sum += std::max(0.0, std::min(high, most) - std::max(low, least)) / (high - low);
    else
      sum += low >= least * (1 - on_a_limit) && low <= most * (1 + on_a_limit) ? 1 : 0;
  }
  return 100 * sum / static_cast<double>(weights_of(row).size());
}

/// By how much the whole of it lies outside our limits at the weight that suits it best, per cent of the limit.
double contradiction(const PublishedRow &row) {
  const auto [low, high] = *row.figure;
  double best = 1e9;
  for (const double grams : weights_of(row)) {
    const auto [least, most] = limits_for(row, grams);
    best = std::min(best, std::max({0.0, 1 - low / least, high / most - 1}));
  }
  return 100 * best;
}

/// Weight over published thickness: kilograms to the cubic metre.
std::vector<double> densities() {
  std::vector<double> found;
  for (const PublishedRow &row : published("thickness"))
    found.push_back((*row.grams)[0] / (*row.figure)[0]);
  return found;
}

std::string sources_page() {
  std::ifstream file(in_project("docs/sources.md"));
  return {std::istreambuf_iterator<char>(file), {}};
}

/// The agreement that docs/sources.md tells of a row: the last figure of its line in the table.
std::string told_of(const std::string &page, const std::string &what) {
  const std::size_t at = page.find("| " + what + " |");
  if (at == std::string::npos) return "no line tells of it";
  const std::string line = page.substr(at, page.find('\n', at) - at);
  const std::size_t last = line.rfind('|', line.size() - 2);
  return line.substr(last + 2, line.size() - last - 4);
}

} // namespace

TEST_CASE("every published row is read, with its source and how it was read") {
  const std::vector<PublishedRow> rows = published();
  REQUIRE(rows.size() == 28);
  for (const PublishedRow &row : rows) {
    CAPTURE(row.what);
    CHECK_FALSE(row.source.empty());
    CHECK((row.read == "full" || row.read == "excerpt" || row.read == "second-hand"));
    CHECK((row.figure || row.kind == "marks"));
  }
  CHECK(published("fullness").size() == 10);
  CHECK(published("ease").size() == 3);
  CHECK(published("thickness").size() == 10);
}

// A row is met where some weight of those the cloth may have puts all of it within our limits. The others contradict
// us, by so much; a new one, or one that is gone, wants a word in docs/sources.md.
TEST_CASE("what is published lies within our limits, but for what is listed here") {
  struct Contradiction {
    std::string what;
    double per_cent;
  };
  const std::vector<Contradiction> known{
      {"muslin flounces (1771)", 0.71},
      {"set-in sleeve of firm wovens over an armhole of 42.5 cm", 1.74},
      {"set-in sleeve of supple cloth over an armhole of 42.5 cm", 11.27},
  };
  std::vector<std::string> found;
  for (const PublishedRow &row : published()) {
    if (row.kind != "fullness" && row.kind != "ease") continue;
    const double off = contradiction(row);
    if (off <= 100 * on_a_limit) continue;
    CAPTURE(row.what);
    found.push_back(row.what);
    const auto listed =
        std::find_if(known.begin(), known.end(), [&](const auto &each) { return each.what == row.what; });
    REQUIRE(listed != known.end());
    CHECK(off == Approx(listed->per_cent).margin(0.005));
  }
  CHECK(found.size() == known.size());
}

TEST_CASE("the page of sources tells how far each published figure agrees") {
  const std::string page = sources_page();
  for (const PublishedRow &row : published()) {
    if (row.kind != "fullness" && row.kind != "ease") continue;
    CAPTURE(row.what);
    CHECK(told_of(page, row.what) == std::to_string(std::lround(agreement(row))) + " %");
  }
  for (const PublishedRow &row : published("thickness")) {
    CAPTURE(row.what);
    const double off = 100 * ((*row.figure)[0] / ((*row.grams)[0] / cloth::grams_per_mm) - 1);
    CHECK(told_of(page, row.what) == (off < 0 ? "" : "+") + std::to_string(std::lround(off)) + " %");
  }
}

TEST_CASE("ten published cloths are as thick as their weight over 500 to within 30 per cent") {
  const std::vector<double> all = densities();
  double mean = 0;
  for (const double density : all)
    mean += std::log(density) / static_cast<double>(all.size());
  double squares = 0;
  for (const double density : all)
    squares += (std::log(density) - mean) * (std::log(density) - mean);
  CHECK(std::exp(mean) == Approx(484).margin(0.5));
  CHECK(std::sqrt(squares / static_cast<double>(all.size() - 1)) == Approx(0.137).margin(0.0005));
  for (const double density : all) {
    CHECK(cloth::grams_per_mm / density >= 0.7);
    CHECK(cloth::grams_per_mm / density <= 1.3);
  }
}

// Nobody measured the cloth of either piece, so this is no proof: it says that thicknesses such cloths have are enough.
TEST_CASE("two museum pieces are as full as closest packing takes at a likely thickness") {
  const auto rows = published("packed");
  REQUIRE(rows.size() == 2);
  const auto at = [](double stitch, double thickness) {
    Fabric fabric;
    fabric.thickness = Length{thickness};
    return cloth::packed(fabric, with_stitch(stitch));
  };
  // A ruff in folds of 4 mm: cloth of 0.089 mm would weigh 45 g/m2, as fine lawn does.
  CHECK(at(4, 0.089) == Approx((*rows[0].figure)[0]).epsilon(0.002));
  CHECK(0.089 * cloth::grams_per_mm == Approx(45).margin(1));
  // 110 pleats of 3.9 cm, two layers of half of that to a pleat; 0.64 mm for two layers is 160 g/m2 for one.
  CHECK(110 * 39 / 210.0 == Approx((*rows[1].figure)[0]).epsilon(0.002));
  CHECK(at(39 / 2.0, 0.64) == Approx((*rows[1].figure)[0]).epsilon(0.01));
  CHECK(0.32 * cloth::grams_per_mm == Approx(160).margin(1));
}
