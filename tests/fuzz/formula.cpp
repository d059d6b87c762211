// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/formula.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>
#include <vector>

using namespace gatherwright;

namespace {

const std::vector<std::string> names{"a", "cuff", "sleeve", "sleeve_head", "\u00E9", "cloth_width"};

int index_of(std::string_view word) {
  const auto found = std::find(names.begin(), names.end(), word);
  return found == names.end() ? -1 : static_cast<int>(found - names.begin());
}

void demand(bool holds) {
  if (!holds) std::abort();
}

void check_fault(const Fault &fault) {
  demand(!fault.what.empty() && fault.what.size() + fault.instead.size() < 4000);
  demand((fault.what + fault.instead).find_first_of("\n\r\x1B") == std::string::npos);
}

/// Whatever is read is well formed, so that its program makes it again.
void check_program(const Formula &formula) {
  const auto steps = formula.steps();
  const auto again = Formula::of_steps({steps.begin(), steps.end()}, formula.written());
  demand(again && again->steps().size() == steps.size() && again->written() == formula.written());
}

void check_formula(const Formula &formula) {
  check_program(formula);
  // `a` and `cuff` are free, the others fixed.
  const std::vector<Affine> values{{1, {{0, 1}}}, {0, {{1, -2}}}, {520, {}}, {610, {}}, {0, {}}, {1500, {}}};
  for (const int symbol : symbols_of(formula))
    demand(symbol >= 0 && symbol < 6);
  const Outcome<Affine> value = evaluate(formula, values);
  if (!value) return check_fault(value.fault());
  demand(std::isfinite(value->constant));
  for (std::size_t k = 0; k < value->terms.size(); ++k) {
    demand(std::isfinite(value->terms[k].second) && value->terms[k].second != 0);
    demand(k == 0 || value->terms[k - 1].first < value->terms[k].first);
  }
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size);

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size) {
  const std::string text(reinterpret_cast<const char *>(data), size);
  const Outcome<Formula> formula = parse_formula(text, Unit::cm, index_of, names);
  if (formula)
    check_formula(*formula);
  else
    check_fault(formula.fault());
  const Outcome<Comparison> rule = parse_comparison(text, Unit::in, index_of, names);
  if (rule) {
    check_formula(rule->left);
    check_formula(rule->right);
  } else {
    check_fault(rule.fault());
  }
  if (const auto fault = check_name(text)) check_fault(*fault);
  return 0;
}
