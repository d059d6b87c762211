// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/made_job.hpp"
#include "tests/table.hpp"

#include <algorithm>
#include <fstream>
#include <iterator>
#include <map>
#include <sstream>
#include <string>
#include <vector>

// "By a Lady", The Workwoman's Guide (London, 1838), ch. VI, Plate 17: shirts cut of straight pieces, planned as jobs
// with pieces. Everything is in nails of 2 1/4 in, as cut: seams are not taken off, so no side has an allowance.

using namespace gatherwright;
using gatherwright::tests::mixed_number;
using gatherwright::tests::table;

namespace {

constexpr double nail = 57.15; // millimetres

struct BookPiece {
  std::string name;
  int count = 1;
  double across = 0; ///< nails
  double along = 0;  ///< nails, down the selvedge
};

struct Cutting {
  double width = 0;
  std::vector<BookPiece> pieces;

  double area_bound() const {
    double area = 0;
    for (const BookPiece &piece : pieces)
      area += piece.count * piece.across * piece.along;
    return area / width;
  }
  const BookPiece &operator[](const std::string &name) const {
    return *std::find_if(pieces.begin(), pieces.end(), [&](const BookPiece &piece) { return piece.name == name; });
  }
};

/// All pieces as those of a job whose join is that of the sleeves into their wristbands.
std::string job_text(const Cutting &cutting) {
  std::ostringstream text;
  text << R"({ "unit": "in", "allowance": 0, "fabric": { "weight": "150 g/m2", "width": ")" << cutting.width
       << R"( nail" }, "joins": [ { "name": "sleeve into wristband", "long": ")" << cutting["sleeve"].across
       << R"( nail", "band": ")" << cutting["wristband"].along << R"( nail" } ], "pieces": [)";
  const char *between = " ";
  for (const BookPiece &piece : cutting.pieces) {
    text << between << R"({ "name": ")" << piece.name << R"(", "cut": )" << piece.count << R"(, "across": ")"
         << piece.across << R"( nail", "along": ")" << piece.along << R"( nail" })";
    between = ", ";
  }
  text << " ] }";
  return text.str();
}

struct Laid {
  double length = 0; ///< nails
  double bound = 0;
  bool shortest = false;
};

Laid laid(const Cutting &cutting) {
  const Plan plan = tests::plan_of(job_text(cutting), {.advice = false});
  CHECK(plan.verdict == Verdict::within_limits);
  REQUIRE(plan.cloth.size() == 1);
  const ClothPlan &cloth = plan.cloth[0];
  std::size_t pieces = 0;
  for (const BookPiece &piece : cutting.pieces)
    pieces += static_cast<std::size_t>(piece.count);
  CHECK(cloth.lay.size() == pieces);
  return {cloth.length / nail, cloth.bound / nail, cloth.shortest};
}

/// "2 11 1/2": yards of sixteen nails, and nails.
double yards_and_nails(const std::string &text) {
  const std::size_t space = text.find(' ');
  return 16 * mixed_number(text.substr(0, space)) + mixed_number(text.substr(space));
}

std::vector<double> numbers(const std::string &text, char between) {
  std::istringstream parts(text);
  std::vector<double> found;
  for (std::string part; std::getline(parts, part, between);)
    found.push_back(mixed_number(part));
  return found;
}

struct Figure {
  Cutting cutting;
  double printed = 0;
};

/// Figures 4 and 6 as their text has them: pieces of six shirts.
std::map<std::string, Figure> figures() {
  std::map<std::string, Figure> figures;
  for (const auto &row : table("cutting_pieces.csv")) {
    Figure &figure = figures[row[0]];
    figure.cutting.width = std::stod(row[1]);
    figure.printed = std::stod(row[2]);
    figure.cutting.pieces.push_back({row[3], std::stoi(row[6]), std::stod(row[4]), std::stod(row[5])});
  }
  return figures;
}

/// A column of the scale of labouring shirts.
class Size {
public:
  explicit Size(std::size_t column) {
    for (const auto &row : table("shirt_scale.csv"))
      rows_[row.at(0)] = row.at(column);
  }

  double printed_for_one() const { return yards_and_nails(rows_.at("cloth for one (yd nl)")); }
  double printed_for_six() const { return yards_and_nails(rows_.at("cloth for six")); }

  /// The pieces that the figures cut, in these sizes. The gussets of bosom and flap are not among them: the book cuts
  /// them from scraps.
  Cutting shirts(int count) const {
    const double width = mixed_number(rows_.at("proper width of cloth"));
    const std::vector<double> gussets = numbers(rows_.at("gussets sleeve / neck / bosom / flap"), ',');
    Cutting cutting{width, {{"body", count, width, yards_and_nails(rows_.at("whole length of skirt"))}}};
    cutting.pieces.push_back({"sleeve", 2 * count, mixed_number(rows_.at("width of sleeve")),
                              mixed_number(rows_.at("sleeve length down selvage"))});
    const auto add = [&](const char *name, int of_each, const char *row) {
      const std::string &both = rows_.at(row);
      const std::size_t middle = both.find(" / ");
      cutting.pieces.push_back(
          {name, of_each * count, mixed_number(both.substr(0, middle)), mixed_number(both.substr(middle + 3))});
    };
    add("binder", 2, "binder width / length");
    add("collar", 1, "collar width / length");
    add("wristband", 2, "wristband width / length");
    add("strap", 2, "shoulder-strap width / length");
    cutting.pieces.push_back({"sleeve gusset", 2 * count, gussets.at(0), gussets.at(0)});
    cutting.pieces.push_back({"neck gusset", count, gussets.at(1), gussets.at(1)});
    return cutting;
  }

private:
  std::map<std::string, std::string> rows_;
};

std::string contents(const std::string &path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

/// The cells of the row of docs/sources.md that tells of a size of shirt.
std::vector<std::string> told_of(const std::string &size) {
  const std::string page = contents(in_project("docs/sources.md"));
  const std::size_t table = page.find("| shirt |");
  const std::size_t row = page.find("\n| " + size + " |", table);
  REQUIRE(row != std::string::npos);
  std::istringstream line(page.substr(row + 2, page.find('\n', row + 2) - row - 2));
  std::vector<std::string> told;
  for (std::string cell; std::getline(line, cell, '|');)
    told.push_back(cell);
  return told;
}

} // namespace

TEST_CASE("six shirts of a job in nails take no more cloth than the handbook's own cutting of 1838") {
  const auto figures = ::figures();
  REQUIRE(figures.size() == 2);
  CHECK(figures.at("4").printed == 232);
  CHECK(figures.at("6").printed == 288);
  for (const auto &[name, figure] : figures) {
    INFO("figure " << name);
    const Laid ours = laid(figure.cutting);
    CHECK(ours.length <= figure.printed + 1e-9);
    CHECK(ours.bound >= figure.cutting.area_bound() - 1e-9);
    CHECK(ours.length <= 1.004 * ours.bound);
  }
}

// The text of the figures cuts the gussets of bosom and flap of what is over: of figure 4 a scrap of 1/2 by 9 nails
// makes eighteen of 1/2 nail, and then not a thread is left.
TEST_CASE("with the smallest gussets too six shirts take what the handbook prints, or hardly more") {
  auto figures = ::figures();
  std::vector<BookPiece> &of_four = figures.at("4").cutting.pieces;
  of_four.push_back({"flap gusset", 12, 0.5, 0.5});
  of_four.push_back({"bosom gusset", 6, 0.5, 0.5});
  CHECK(figures.at("4").cutting.area_bound() == Approx(232).epsilon(1e-12));
  CHECK(laid(figures.at("4").cutting).length <= 1.004 * 232);
  std::vector<BookPiece> &of_six = figures.at("6").cutting.pieces;
  of_six.push_back({"flap gusset", 12, 1, 1});
  of_six.push_back({"bosom gusset", 6, 0.5, 0.5});
  CHECK(laid(figures.at("6").cutting).length <= 288 + 1e-9);
}

// Where the printed cloth is less than the area of the scale's own pieces, no cutting gets them out of it.
TEST_CASE("a shirt of every size takes the cloth that the handbook prints for it, or little more than its pieces are") {
  const std::vector<std::string> sizes{"child, 8 to 10", "child, 11 to 14", "child, 15 to 18",
                                       "man, small",     "man, larger",     "man, largest"};
  for (std::size_t column = 1; column <= sizes.size(); ++column) {
    INFO(sizes[column - 1]);
    const Size size(column);
    const std::vector<std::string> told = told_of(sizes[column - 1]);
    REQUIRE(told.size() == 8);

    const Cutting one = size.shirts(1);
    const Laid of_one = laid(one);
    CHECK(of_one.shortest);
    CHECK(of_one.length >= one.area_bound() - 1e-9);
    CHECK(of_one.length <= 1.02 * std::max(size.printed_for_one(), one.area_bound()));
    CHECK(mixed_number(told[1]) == size.printed_for_one());
    CHECK(mixed_number(told[2]) == Approx(one.area_bound()).margin(0.05));
    CHECK(mixed_number(told[3]) == Approx(of_one.length));

    const Cutting six = size.shirts(6);
    const Laid of_six = laid(six);
    CHECK(of_six.length <= 1.02 * std::max(size.printed_for_six(), six.area_bound()));
    CHECK(of_six.length <= 6 * of_one.length + 1e-9);
    CHECK(mixed_number(told[4]) == size.printed_for_six());
    CHECK(mixed_number(told[5]) == Approx(six.area_bound()).margin(0.05));
    CHECK(of_six.bound <= mixed_number(told[6]) + 1e-9);
    CHECK(of_six.length <=
          mixed_number(told[6]) + 1e-9); // one that is told is still there where a shorter one is found
  }
}
