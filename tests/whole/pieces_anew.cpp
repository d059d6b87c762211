// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/report/plan_json.hpp"
#include "tests/made_job.hpp"
#include "tests/table.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <iterator>
#include <nlohmann/json.hpp>
#include <random>
#include <string>
#include <vector>

// Cut sizes and marks of pieces, reckoned anew from figures that are drawn by lot and from the joins' own marks.

namespace report = gatherwright::report;
namespace tests = gatherwright::tests;
using gatherwright::Job;
using nlohmann::json;

namespace {

/// Figures are whole quarters of a step of the tape, so that sizes lie on steps, half way between two and elsewhere.
class Lot {
public:
  explicit Lot(std::uint32_t seed) : random_(seed) {}

  int below(int end) { return static_cast<int>(random_() % static_cast<std::uint32_t>(end)); }
  int quarters(int least, int most) { return least + below(most - least + 1); }

private:
  std::mt19937 random_;
};

struct Tape {
  const char *unit;
  const char *step;   ///< as the job says it
  const char *length; ///< of a quarter of the step, as a formula
  double quarter;     ///< in the unit
};

// Sums of these are exact in inches; in centimetres they are off by some 1e-14.
constexpr Tape tapes[] = {
    {"cm", "2 mm", "0.05 cm", 0.05}, {"cm", "1 mm", "0.025 cm", 0.025}, {"in", "1/8 in", "1/32 in", 0.03125}};

constexpr const char *side_names[] = {"top", "bottom", "left", "right"};
constexpr int top = 0, bottom = 1, left = 2, right = 3;

bool runs_across(int side) {
  return side == top || side == bottom;
}

/// What is sewn to a side: the join's edge from mark `from` to mark `to`, each the number of segments before it.
struct Part {
  bool band = false;
  int from = 0;
  int to = 3;
  int at = 0;
};

/// A piece and the join of three segments that is sewn to it; every figure in quarters of a step.
struct Made {
  int allowance_of_job = 0;
  int allowances[4] = {}; ///< below 0: the job's
  int across = 0;
  int along = 0;
  int cut = 1;
  bool mirrored = false;
  std::vector<Part> sides[4];
  int long_edges[3] = {};
  int bands[3] = {};

  int allowance(int side) const { return allowances[side] < 0 ? allowance_of_job : allowances[side]; }
};

Made drawn_by(Lot &lot) {
  Made made;
  made.allowance_of_job = lot.quarters(0, 60);
  for (int &allowance : made.allowances)
    allowance = lot.below(3) == 0 ? lot.quarters(0, 90) : -1;
  for (int segment = 0; segment < 3; ++segment) {
    made.bands[segment] = lot.quarters(100, 400);
    // Flat, then twice gathered by some half as much again and twice as much.
    made.long_edges[segment] = made.bands[segment] * (segment == 0 ? 2 : segment + 2) / 2;
  }
  made.across = lot.quarters(2600, 4000);
  made.along = lot.quarters(2600, 4000);
  made.cut = 1 + lot.below(4);
  made.mirrored = lot.below(2) == 0;
  for (auto &parts : made.sides) {
    int at = lot.quarters(0, 40);
    for (int part = lot.below(3); part > 0; --part) {
      const int from = lot.below(3);
      const int to = from + 1 + lot.below(3 - from);
      const bool band = lot.below(2) == 0;
      parts.push_back({band, from, to, at});
      for (int segment = from; segment < to; ++segment)
        at += band ? made.bands[segment] : made.long_edges[segment];
      at += lot.quarters(1, 40);
    }
    if (lot.below(2) == 0) std::reverse(parts.begin(), parts.end());
  }
  return made;
}

constexpr const char *mark_names[] = {"start", "first", "second", "end"};

std::string size_of(int quarters, const Tape &tape) {
  return std::to_string(quarters) + " * " + tape.length;
}

json join_of(const Made &made, const Tape &tape) {
  json segments;
  for (int s = 0; s < 3; ++s) {
    segments.push_back({{"kind", s == 0 ? "flat" : "gather"},
                        {"long", size_of(made.long_edges[s], tape)},
                        {"band", size_of(made.bands[s], tape)}});
    if (s < 2) segments[static_cast<std::size_t>(s)]["to"] = mark_names[s + 1];
  }
  const auto sum = [&](const int(&of)[3]) { return size_of(of[0] + of[1] + of[2], tape); };
  return {{"name", "seam"}, {"long", sum(made.long_edges)}, {"band", sum(made.bands)}, {"segments", segments}};
}

json piece_of(const Made &made, const Tape &tape) {
  json piece{{"name", "piece"},
             {"cut", made.cut},
             {"mirrored", made.mirrored},
             {"across", size_of(made.across, tape)},
             {"along", size_of(made.along, tape)}};
  for (int side = 0; side < 4; ++side) {
    if (made.allowances[side] >= 0) piece["allowance"][side_names[side]] = size_of(made.allowances[side], tape);
    for (const Part &part : made.sides[side])
      piece["sides"][side_names[side]].push_back({{"join", "seam"},
                                                  {"edge", part.band ? "band" : "long"},
                                                  {"from", mark_names[part.from]},
                                                  {"to", mark_names[part.to]},
                                                  {"at", size_of(part.at, tape)}});
  }
  return piece;
}

std::string text_of(const Made &made, const Tape &tape) {
  const json job{{"unit", tape.unit},
                 {"tape_step", tape.step},
                 {"allowance", size_of(made.allowance_of_job, tape)},
                 {"fabric", {{"weight", "150 g/m2"}, {"width", "900 cm"}}},
                 {"marks", {{"parts", 4}}},
                 {"joins", json::array({join_of(made, tape)})},
                 {"pieces", json::array({piece_of(made, tape)})}};
  return job.dump(2);
}

struct Mark {
  int side = 0;
  bool band = false;
  int number = 0;
  double exact = 0;
  double tape = 0;
};

/// Of the steps below and above that which is nearer; half way the lower.
double on_tape(double length, double step) {
  const double below = std::floor(length / step + 1e-6) * step;
  return length - below > (0.5 + 1e-6) * step ? below + step : below;
}

/// The marks of the sides as the words of docs/format.md have them, from the marks of the join.
std::vector<Mark> marks_of(const Made &made, const json &join, double quarter) {
  std::vector<Mark> marks;
  for (int side = 0; side < 4; ++side) {
    const std::size_t first = marks.size();
    for (const Part &part : made.sides[side]) {
      // Marks 0, 1, then four pins' parts to a gathered segment: 5 and 9.
      const int numbers[] = {0, 1, 5, 9};
      const auto place = [&](int number) {
        return join["marks"][static_cast<std::size_t>(number)][part.band ? "band" : "long"];
      };
      const double before = quarter * (made.allowance(runs_across(side) ? left : top) + part.at);
      const json begins = place(numbers[part.from]);
      for (int number = numbers[part.from]; number <= numbers[part.to]; ++number) {
        const json lies = place(number);
        marks.push_back({side, part.band, number, before + lies["exact"].get<double>() - begins["exact"].get<double>(),
                         on_tape(before + lies["tape"].get<double>() - begins["tape"].get<double>(), 4 * quarter)});
      }
    }
    std::sort(marks.begin() + static_cast<std::ptrdiff_t>(first), marks.end(),
              [](const Mark &a, const Mark &b) { return a.exact < b.exact; });
  }
  return marks;
}

/// The second of a pair lies turned over left for right.
std::vector<Mark> turned_over(const std::vector<Mark> &marks, double cut_across, double cut_on_tape) {
  std::vector<Mark> turned;
  const int whose[] = {top, bottom, right, left};
  for (int side = 0; side < 4; ++side)
    for (Mark mark : marks)
      if (mark.side == whose[side]) {
        mark.side = side;
        if (runs_across(side)) {
          mark.exact = cut_across - mark.exact;
          mark.tape = cut_on_tape - mark.tape;
        }
        turned.push_back(mark);
      }
  std::sort(turned.begin(), turned.end(),
            [](const Mark &a, const Mark &b) { return a.side != b.side ? a.side < b.side : a.exact < b.exact; });
  return turned;
}

// Figures are sums of some ten numbers of up to 300, each rounded to 1e-16 of itself.
constexpr double rounding = 1e-11;

void compare(const json &told, double exact, double tape) {
  CHECK(told["exact"].get<double>() == Approx(exact).margin(rounding));
  CHECK(told["tape"].get<double>() == Approx(tape).margin(rounding));
  CHECK(tests::mixed_number(told["text"]) == Approx(tape).margin(rounding));
}

void compare(const json &told, const std::vector<Mark> &wanted) {
  REQUIRE(told.size() == wanted.size());
  for (std::size_t m = 0; m < wanted.size(); ++m) {
    CHECK(told[m]["side"] == side_names[wanted[m].side]);
    CHECK(told[m]["join"] == "seam");
    CHECK(told[m]["edge"] == (wanted[m].band ? "band" : "long"));
    CHECK(told[m]["n"] == wanted[m].number);
    compare(told[m]["at"], wanted[m].exact, wanted[m].tape);
  }
}

} // namespace

TEST_CASE("cut sizes and marks of pieces drawn by lot are those that are reckoned anew") {
  int marks = 0;
  int turned = 0;
  int off_the_tape = 0;
  for (std::uint32_t seed = 1; seed <= 240; ++seed) {
    const Tape &tape = tapes[seed % std::size(tapes)];
    Lot lot(seed);
    const Made made = drawn_by(lot);
    const std::string text = text_of(made, tape);
    INFO(text);
    const Job job = tests::job_of(text);
    const json plan = json::parse(report::plan_json(job, tests::plan_of(job, {.advice = false, .layouts = false})));
    const json &piece = plan["pieces"][0];
    const double step = 4 * tape.quarter;
    const double across = tape.quarter * (made.across + made.allowance(left) + made.allowance(right));
    const double along = tape.quarter * (made.along + made.allowance(top) + made.allowance(bottom));
    compare(piece["cut_across"], across, on_tape(across, step));
    compare(piece["cut_along"], along, on_tape(along, step));
    const std::vector<Mark> wanted = marks_of(made, plan["joins"][0], tape.quarter);
    compare(piece["marks"], wanted);
    REQUIRE(piece.contains("marks_mirrored") == (made.mirrored && made.cut >= 2));
    if (piece.contains("marks_mirrored")) {
      compare(piece["marks_mirrored"], turned_over(wanted, across, on_tape(across, step)));
      turned += static_cast<int>(wanted.size());
    }
    marks += static_cast<int>(wanted.size());
    off_the_tape += across != on_tape(across, step);
  }
  CHECK(marks > 2000);
  CHECK(turned > 500);
  CHECK(off_the_tape > 100);
}

TEST_CASE("sides are marked where their parts begin and end, reckoned without the join's marks") {
  for (std::uint32_t seed = 1001; seed <= 1060; ++seed) {
    const Tape &tape = tapes[seed % std::size(tapes)];
    Lot lot(seed);
    const Made made = drawn_by(lot);
    const Job job = tests::job_of(text_of(made, tape));
    const json plan = json::parse(report::plan_json(job, tests::plan_of(job, {.advice = false, .layouts = false})));
    for (int side = 0; side < 4; ++side)
      for (const Part &part : made.sides[side]) {
        int length = 0;
        for (int segment = part.from; segment < part.to; ++segment)
          length += part.band ? made.bands[segment] : made.long_edges[segment];
        const int begins = made.allowance(runs_across(side) ? left : top) + part.at;
        for (const double end : {tape.quarter * begins, tape.quarter * (begins + length)}) {
          const auto &marks = plan["pieces"][0]["marks"];
          CHECK(std::any_of(marks.begin(), marks.end(), [&](const json &mark) {
            return mark["side"] == side_names[side] &&
                   std::abs(mark["at"]["exact"].get<double>() - end) <= 1e-9; // gathered edges are solved for
          }));
        }
      }
  }
}
