// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/job/reading.hpp"

#include <span>

namespace gatherwright::cli {

/// The keys of one object. Whoever opens it says which keys it knows; the others are faults that name the nearest of
/// these.
class Fields {
public:
  /// `of` is what the object describes, as said in a fault: "a join". A value that is no object is a fault, and has no
  /// keys. `known` must outlive the fields.
  Fields(Reading &reading, const Value &object, std::string_view of, std::span<const std::string_view> known);

  /// The value of a key, if it is there.
  const Value *operator[](std::string_view key) const;

  /// Whether the key is there, or one that was most likely meant for it.
  bool meant(std::string_view key) const;

  /// The value of a key that must be there; if it is not, that is a fault of the object.
  const Value *required(std::string_view key, std::string_view instead) const;

  const Value &object() const { return object_; }

private:
  void refuse_unknown(const Value &child, std::string_view of, std::span<const std::string_view> known);

  Reading &reading_;
  const Value &object_;
  std::vector<std::string_view> misspelt_; // what unknown keys were most likely meant for
};

} // namespace gatherwright::cli
