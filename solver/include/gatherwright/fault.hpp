// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <utility>
#include <variant>

namespace gatherwright {

/// A fault of the input: what is wrong and what would be right, as two halves of one sentence.
/// `instead` may be empty where nothing better can be said. Faults are values and are collected;
/// exceptions are kept for faults of the machine.
struct Fault {
  std::string what;
  std::string instead;

  friend bool operator==(const Fault &, const Fault &) = default;
};

/// Either a value or the fault that kept it from being made.
///   1. An outcome is true and gives its value, or is false and gives its fault.
template <class Value> class Outcome {
public:
  Outcome(Value value) : held_(std::move(value)) {}
  Outcome(Fault fault) : held_(std::move(fault)) {}

  explicit operator bool() const { return std::holds_alternative<Value>(held_); }
  const Value &operator*() const & { return std::get<Value>(held_); }
  Value &&operator*() && { return std::get<Value>(std::move(held_)); }
  const Value *operator->() const { return &std::get<Value>(held_); }
  const Fault &fault() const { return std::get<Fault>(held_); }

private:
  std::variant<Value, Fault> held_;
};

} // namespace gatherwright
