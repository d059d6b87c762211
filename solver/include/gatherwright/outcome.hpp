// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <concepts>
#include <string>
#include <type_traits>
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

/// Either a value or what kept it from being made: one fault, several, or whatever tells it in that place.
///   1. An outcome is true and gives its value, or is false and gives its fault.
template <class Value, class Faults = Fault> class Outcome {
  static_assert(!std::same_as<Value, bool> && !std::same_as<Faults, bool>, "whether there is a value is the bool");
  static_assert(!std::same_as<Value, Faults>);

public:
  Outcome(Value value) : held_(std::in_place_index<0>, std::move(value)) {}
  Outcome(Faults faults) : held_(std::in_place_index<1>, std::move(faults)) {}

  explicit operator bool() const { return held_.index() == 0; }

  /// The value, where there is one; else std::bad_variant_access.
  const Value &operator*() const & { return std::get<0>(held_); }
  Value &operator*() & { return std::get<0>(held_); }
  Value &&operator*() && { return std::get<0>(std::move(held_)); }
  const Value *operator->() const { return &std::get<0>(held_); }
  Value *operator->() { return &std::get<0>(held_); }

  /// What kept it from being made, where there is no value; else std::bad_variant_access.
  const Faults &fault() const & { return std::get<1>(held_); }
  Faults &&fault() && { return std::get<1>(std::move(held_)); }

  /// What `next` makes of the value, an outcome that can have the same faults; where there is none, its faults.
  template <class Next> auto and_then(Next &&next) const & -> std::invoke_result_t<Next, const Value &> {
    if (!*this) return fault();
    return std::forward<Next>(next)(**this);
  }
  template <class Next> auto and_then(Next &&next) && -> std::invoke_result_t<Next, Value> {
    if (!*this) return std::move(*this).fault();
    return std::forward<Next>(next)(*std::move(*this));
  }

private:
  std::variant<Value, Faults> held_;
};

} // namespace gatherwright
