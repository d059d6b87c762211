// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/job/settled.hpp"

#include "gatherwright/order.hpp"
#include "solver/formula/figure.hpp"

namespace gatherwright {

std::vector<Affine> values_of_symbols(const Job &job) {
  std::vector<Affine> values(job.symbols());
  for (std::size_t m = 0; m < job.measures.size(); ++m)
    values[m].constant = job.measures[m].is.mm;
  if (job.fabric.width) values[job.symbol_of_cloth_width()].constant = job.fabric.width->mm;
  for (const int index : order_of_lengths(job)) {
    const int symbol = job.symbol_of(LengthId(index));
    const Formula *is = job.lengths[index].fixed();
    if (!is) {
      values[symbol].terms = {{symbol, 1.0}};
      continue;
    }
    if (Outcome<Affine> value = evaluate(*is, values)) values[symbol] = *std::move(value);
  }
  return values;
}

Settled::Settled(const Job &job) : job_(job) {
  bool to_settle = false;
  visit_fixed(job, [&](const Formula &formula, const auto &...) { to_settle = to_settle || names_any(formula); });
  if (!to_settle) return;
  const std::vector<Affine> values = values_of_symbols(job);
  visit_fixed(made_.emplace(job), [&](Formula &formula, const auto &...) {
    if (!names_any(formula)) return;
    const Outcome<Affine> value = evaluate(formula, values);
    formula = Formula::of({value && value->fixed() ? value->constant : 0}, formula.written());
  });
}

double allowance_of(const Job &job, const Join &join) {
  if (join.allowance) return figure_of(*join.allowance);
  return job.allowance ? figure_of(*job.allowance) : 0;
}

double allowance_of(const Job &job, SideAt side) {
  if (const auto &own = job[side.piece].allowance[side.side]) return figure_of(*own);
  return job.allowance ? figure_of(*job.allowance) : 0;
}

} // namespace gatherwright
