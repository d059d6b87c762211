// SPDX-License-Identifier: GPL-3.0-or-later
#include <gatherwright/gatherwright.hpp>

#include <iostream>

using namespace gatherwright;

int main() {
  Job job;
  job.fabric.weight = *read_weight("165 g/m2");
  const auto index = [](std::string_view name) { return name == "cuff" ? 0 : name == "sleeve" ? 1 : -1; };
  const auto formula = [&](std::string_view text) { return *parse_formula(text, job.unit, index, {}); };

  job.lengths = {{.name = "cuff", .is = formula("17 cm + 5 cm")},
                 {.name = "sleeve", .is = FreeLength{.from = formula("45 cm"), .to = formula("60 cm")}}};
  Join join{.name = "sleeve into cuff", .segments = {Segment{}}}; // one segment, gathered all along
  join.long_edge.is = formula("sleeve");
  join.band.is = formula("cuff");
  join.marks = PinsAtParts{.parts = 4};
  job.joins = {join};

  const PlanOutcome outcome = plan(job);
  if (!outcome) {
    for (const Refusal &refusal : outcome.fault())
      if (const auto *placed = std::get_if<PlacedFault>(&refusal))
        std::cerr << placed->fault.what << "; " << placed->fault.instead << "\n";
    return 2;
  }
  const Plan &made = *outcome;
  std::cout << "sleeve: " << named_reading(Length{made.lengths[1].is.value()}, job.tape()) << "\n";
  for (const Mark &mark : made.joins[0].marks)
    std::cout << reading(Length{mark.band.tape}, job.tape()) << " meets "
              << reading(Length{mark.long_edge.tape}, job.tape()) << "\n";
  return made.verdict == Verdict::within_limits ? 0 : 1;
}
