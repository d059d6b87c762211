// SPDX-License-Identifier: GPL-3.0-or-later
#include "bench/stock_ratios.hpp"

#include "bench/measured.hpp"
#include "cli/job/read_job.hpp"
#include "gatherwright/plan.hpp"

#include <ctime>

namespace gatherwright::bench {

namespace {

constexpr const char *three_lengths = R"({
  "unit": "cm", "tape_step": "1 mm", "allowance": "1 cm",
  "fabric": { "name": "linen", "weight": "165 g/m2", "width": "150 cm", "selvedge": "1 cm", "stock": "1.65 m" },
  "lengths": {
    "sleeve": { "from": "36 cm", "to": "70 cm", "aim": "66 cm" },
    "body": { "from": "50 cm", "to": "80 cm", "aim": "78 cm" },
    "drop": { "from": "40 cm", "to": "64 cm", "aim": "60 cm" } },
  "joins": [
    { "name": "sleeve into cuff", "long": "sleeve", "band": "24 cm", "make": 2 },
    { "name": "body into yoke", "long": "body", "band": "36 cm", "make": 2 } ],
  "pieces": [
    { "name": "body", "cut": 2, "across": "body", "along": "80 cm" },
    { "name": "sleeve", "cut": 2, "across": "sleeve", "along": "drop" },
    { "name": "cuff", "cut": 2, "across": "24 cm", "along": "12 cm" },
    { "name": "collar", "across": "42 cm", "along": "16 cm" },
    { "name": "gusset", "cut": 4, "across": "14 cm", "along": "14 cm" },
    { "name": "binder", "cut": 2, "across": "7 cm", "along": "40 cm" },
    { "name": "strap", "across": "10 cm", "along": "20 cm" } ] })";

Job job_of(const std::string &text) {
  const auto read = cli::read_job(text);
  hold(static_cast<bool>(read), "a job with stock does not read");
  return read->job;
}

void hold_chosen(const PlanOutcome &outcome) {
  hold(outcome && outcome->verdict == Verdict::within_limits, "no lengths were chosen within the stock");
  hold(outcome->cloth.at(0).stock && outcome->cloth[0].stock->proved, "the choice within the stock is not proved");
}

} // namespace

void stock_ratios(const std::string &text) {
  const PlanSettings settings{.advice = false};
  const Job job = job_of(text);
  const PlanOutcome without = plan(job, settings);
  hold(without && !without->cloth.empty(), "the example lays nothing");
  Job limited = job;
  for (Piece &piece : limited.pieces)
    piece.fabric.stock = Stock{Length{0.95 * without->cloth[0].buy}, ""};
  hold_chosen(plan(limited, settings));
  const auto [ours, base] = in_turn(
      20, [&] { plan(limited, settings); }, [&] { plan(job, settings); });
  say("stock_vs_plan", ours / base);

  const Job three = job_of(three_lengths);
  const std::clock_t start = std::clock();
  const PlanOutcome chosen = plan(three, settings);
  const std::clock_t end = std::clock();
  hold_chosen(chosen);
  say("stock_three_lengths_s", static_cast<double>(end - start) / CLOCKS_PER_SEC);
}

} // namespace gatherwright::bench
