// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/words/cutting.hpp"
#include "cli/words/listed.hpp"
#include "cli/words/overloaded.hpp"
#include "tests/cli/words/laid.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <regex>
#include <set>
#include <string>

using namespace gatherwright;
using namespace gatherwright::words;

namespace {

/// Whoever does what is told, step by step, with the parts on the table.
class Cutter {
public:
  Cutter(const ClothPlan &cloth, const CutParts &parts) : cloth_(cloth), parts_(parts) {}

  void work(const std::vector<ToldItem> &items) {
    for (const ToldItem &item : items) {
      REQUIRE(!item.empty());
      std::set<std::size_t> out;
      for (std::size_t i = 0; i < item.size(); ++i)
        out = std::visit([&](const auto &step) { return done(step, i > 0, out); }, item[i]);
    }
  }

  std::set<std::size_t> at_hand{0};
  std::multiset<std::size_t> cuts; ///< made

private:
  using Parts = std::set<std::size_t>;

  /// From the end of what is left of the lay.
  Parts done(const TearOff &torn, bool follows, const Parts &) {
    CHECK_FALSE(follows);
    const CutStep &lay = parts_.steps.at(0);
    REQUIRE(lay.run == Cut::Run::across);
    std::vector<std::size_t> made;
    for (const std::size_t part : torn.parts) {
      REQUIRE(lay.parts.at(torn_) == part);
      CHECK(parts_.parts[part].length == Approx(parts_.parts[torn.parts.front()].length));
      if (torn_ < lay.cuts.size()) made.push_back(lay.cuts[torn_]);
      CHECK(at_hand.insert(part).second);
      ++torn_;
    }
    CHECK(torn.cuts == made);
    cuts.insert(made.begin(), made.end());
    if (torn_ == lay.parts.size()) CHECK(at_hand.erase(0) == 1);
    return {torn.parts.begin(), torn.parts.end()};
  }

  Parts done(const Divide &divide, bool follows, const Parts &before) {
    Parts out;
    const CutStep &first = parts_.steps.at(divide.steps.front());
    for (const std::size_t number : divide.steps) {
      const CutStep &step = parts_.steps.at(number);
      CHECK(at_hand.erase(step.part) == 1);
      if (follows) CHECK(before.contains(step.part));
      CHECK(step.run == first.run);
      CHECK(step.parts.size() == first.parts.size());
      cuts.insert(step.cuts.begin(), step.cuts.end());
      check_straight_through(step);
      for (const std::size_t part : step.parts)
        CHECK(out.insert(part).second);
    }
    at_hand.insert(out.begin(), out.end());
    return out;
  }

  void check_straight_through(const CutStep &step) {
    const LayPart &part = parts_.parts[step.part];
    for (const std::size_t number : step.cuts) {
      const Cut &cut = cloth_.cuts.at(number);
      const bool across = cut.run == Cut::Run::across;
      CHECK(cut.run == step.run);
      CHECK(cut.from <= Approx(across ? part.across : part.along).margin(1e-6));
      CHECK(cut.to >= Approx(across ? part.across + part.width : part.along + part.length).margin(1e-6));
      CHECK(cut.at > (across ? part.along : part.across));
      CHECK(cut.at < (across ? part.along + part.length : part.across + part.width));
    }
  }

  const ClothPlan &cloth_;
  const CutParts &parts_;
  std::size_t torn_ = 0;
};

void check_all_is_cut(const laid::Laid &laid) {
  const CutParts parts = cut_parts(laid.cloth);
  Cutter cutter(laid.cloth, parts);
  cutter.work(told_cutting(laid.cloth, parts));
  std::multiset<std::size_t> all_cuts;
  for (std::size_t cut = 0; cut < laid.cloth.cuts.size(); ++cut)
    all_cuts.insert(cut);
  CHECK(cutter.cuts == all_cuts);
  std::multiset<std::size_t> pieces;
  double area = 0;
  for (const std::size_t number : cutter.at_hand) {
    const LayPart &part = parts.parts[number];
    area += part.width * part.length;
    CHECK_FALSE(part.step);
    if (!part.placement) continue;
    pieces.insert(*part.placement);
    const Placement &placed = laid.cloth.lay[*part.placement];
    const WearersPieces::Size &size = laid.pieces[placed.wearer].sizes[placed.piece.at];
    CHECK(part.width == Approx(placed.turned ? size.along : size.across));
    CHECK(part.length == Approx(placed.turned ? size.across : size.along));
    CHECK(part.across == Approx(placed.across).margin(1e-6));
    CHECK(part.along == Approx(placed.along).margin(1e-6));
  }
  std::multiset<std::size_t> all_pieces;
  for (std::size_t piece = 0; piece < laid.cloth.lay.size(); ++piece)
    all_pieces.insert(piece);
  CHECK(pieces == all_pieces);
  CHECK(area == Approx(laid.cloth.usable * laid.cloth.length));
}

/// The numbers of cuts that sentences name.
std::multiset<int> cuts_named(const std::vector<std::string> &sentences) {
  std::multiset<int> found;
  static const std::regex list(R"(\(cuts? ([^)]*)\))"), run(R"((\d+)(?: to (\d+))?)");
  for (const std::string &sentence : sentences)
    for (std::sregex_iterator each(sentence.begin(), sentence.end(), list), end; each != end; ++each) {
      const std::string numbers = (*each)[1];
      for (std::sregex_iterator of(numbers.begin(), numbers.end(), run); of != end; ++of)
        for (int n = std::stoi((*of)[1]), last = (*of)[2].matched ? std::stoi((*of)[2]) : n; n <= last; ++n)
          found.insert(n);
    }
  return found;
}

} // namespace

TEST_CASE("whoever cuts as the sentences' steps say has every piece once, at its size, and has made every cut") {
  check_all_is_cut(laid::smock());
  check_all_is_cut(laid::lay(laid::smock_pieces(), 1480, {1, 1.04, 1.1, 1.04}));
  for (std::uint32_t seed = 1; seed <= 60; ++seed) {
    INFO("seed " << seed);
    check_all_is_cut(laid::random(seed));
  }
}

TEST_CASE("a smock is told in a few sentences that name every cut by its number") {
  const laid::Laid smock = laid::smock();
  const std::vector<std::string> said = cutting_said(smock.told());
  CHECK(said.size() <= 10);
  std::multiset<int> all;
  for (int n = 1; n <= static_cast<int>(smock.cloth.cuts.size()); ++n)
    all.insert(n);
  CHECK(cuts_named(said) == all);
  CHECK(said[0] == "Straighten one end on a thread and take off the selvedges, 1 cm at each side.");
  CHECK(said[1] == "Tear off 92.5 cm across the whole width (cut 1); cut it along at 73.5 and 147 cm (cuts 2 and 3): 2 "
                   "bodies (1 x 92.5 cm left over).");
}

TEST_CASE("cloth that shrinks is washed before it is cut") {
  laid::Laid smock = laid::smock();
  smock.cloth.cloth.shrinkage = {0.05, 0.02};
  CHECK(cutting_said(smock.told())[0] == "Wash it first: it is counted to shrink 5 % along, 2 % across.");
  smock.cloth.cloth.shrinkage = {0.035, 0};
  CHECK(cutting_said(smock.told())[0] == "Wash it first: it is counted to shrink 3.5 % along.");
}

TEST_CASE("equal lengths are torn off in one sentence and cut alike") {
  const laid::Laid squares = laid::lay({{"small square", 200, 40, 40}}, 1480);
  const std::vector<std::string> said = cutting_said(squares.told());
  REQUIRE(said.size() == 3);
  CHECK(said[1] ==
        "Tear off 4 cm 5 times across the whole width (cuts 1 to 5); cut each along into 37 of 4 cm (cuts 6 to "
        "185): 185 small squares.");
}

TEST_CASE("a lay that is one piece wants no cut") {
  const laid::Laid blanket = laid::lay({{"blanket", 1, 1480, 2000}}, 1480);
  CHECK(cutting_said(blanket.told()).back() == "That is the blanket, whole.");
}

TEST_CASE("a turned piece is said to be turned, and one of many wearers whose it is") {
  const laid::Laid turned = laid::lay({{"strap", 2, 900, 200, true}}, 800);
  CHECK(cutting_said(turned.told()).back().find("2 straps (turned)") != std::string::npos);
  const laid::Laid two = laid::lay({{"strap", 2, 100, 200}}, 800, {1, 1.2});
  CHECK(cutting_said(two.told()).back().find("2 straps (porter 1)") != std::string::npos);
}

TEST_CASE(
    "thousands of pieces are told in as many sentences as there is room for, and the rest is left to the picture") {
  std::vector<laid::Kind> kinds;
  for (int i = 0; i < 300; ++i)
    kinds.push_back({"part", 1, 100.0 + i, 200.0 + 3 * i});
  const laid::Laid many = laid::lay(kinds, 1480);
  const std::vector<std::string> said = cutting_said(many.told(), 12);
  REQUIRE(said.size() == 13);
  CHECK(said.back() == "And so on: all " + std::to_string(many.cloth.cuts.size()) +
                           " cuts are numbered in the picture, in their order.");
}

TEST_CASE("names take the plural that they have") {
  CHECK(so_many(1, "sleeve") == "sleeve");
  CHECK(so_many(2, "sleeve") == "2 sleeves");
  CHECK(so_many(2, "body") == "2 bodies");
  CHECK(so_many(3, "patch") == "3 patches");
  CHECK(so_many(2, "facings") == "2 facings");
  CHECK(so_many(2, "collar half") == "2 collar halves");
  CHECK(so_many(2, "part 7") == "2 of part 7");
  CHECK(so_many(2, "part b") == "2 of part b");
  CHECK(so_many(2, "") == "2 of ");
}
