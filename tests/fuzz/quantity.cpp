// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/quantity.hpp"
#include "gatherwright/nearest.hpp"

#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>
#include <vector>

using namespace gatherwright;

namespace {

void demand(bool holds) {
  if (!holds) std::abort();
}

void check_fault(const Fault &fault) {
  demand(!fault.what.empty() && fault.what.size() + fault.instead.size() < 4000);
  demand((fault.what + fault.instead).find_first_of("\n\r\x1B") == std::string::npos);
}

// Whatever a tape says of a length is a length again, and no further from it than half a step and what the figures
// hide.
void check_readings(Length length) {
  const std::array<Tape, 7> tapes{{{Unit::mm, Length{0.5}},
                                   {Unit::cm, Length{1.0}},
                                   {Unit::m, Length{10.0}},
                                   {Unit::in, Length{25.4 / 16}},
                                   {Unit::ft, Length{25.4 / 8}},
                                   {Unit::yd, Length{25.4 / 16}},
                                   {Unit::in, Length{1.0}}}};
  for (const Tape &tape : tapes) {
    std::string text = named_reading(length, tape);
    if (text[0] == '~') text.erase(0, 1);
    const Outcome<Length> back = read_length(text, Unit::mm);
    demand(bool(back));
    demand(std::abs(back->mm - length.mm) <= 0.6 * tape.step.mm + 1e-9 * length.mm);
  }
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size);

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size) {
  const std::string text(reinterpret_cast<const char *>(data), size);
  for (const Unit bare : {Unit::cm, Unit::in}) {
    const Outcome<Length> length = read_length(text, bare);
    if (!length) {
      check_fault(length.fault());
      continue;
    }
    demand(std::isfinite(length->mm) && length->mm >= 0 && length->mm <= 1e9);
    if (length->mm < 0.99e9) check_readings(*length); // the nearest step may lie beyond what can be read
  }
  const Outcome<Weight> weight = read_weight(text);
  if (weight)
    demand(std::isfinite(weight->grams) && weight->grams > 0);
  else
    check_fault(weight.fault());
  const Outcome<double> count = read_count(text);
  if (count)
    demand(std::isfinite(*count) && *count > 0);
  else
    check_fault(count.fault());
  const std::vector<std::string> known{"weight", "width", text.substr(0, size / 2)};
  nearest(text, known);
  return 0;
}
