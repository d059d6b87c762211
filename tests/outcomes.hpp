// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/outcome.hpp"

namespace gatherwright::tests {

/// The value of an outcome, or null.
template <class Value, class Faults> const Value *value_in(const Outcome<Value, Faults> &outcome) {
  return outcome ? &*outcome : nullptr;
}
template <class Value, class Faults> Value *value_in(Outcome<Value, Faults> &outcome) {
  return outcome ? &*outcome : nullptr;
}

/// What kept it from being made, or null.
template <class Value, class Faults> const Faults *fault_in(const Outcome<Value, Faults> &outcome) {
  return outcome ? nullptr : &outcome.fault();
}

} // namespace gatherwright::tests
