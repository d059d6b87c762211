// SPDX-License-Identifier: GPL-3.0-or-later
#include "job/fields.hpp"

#include "job/values.hpp"

#include <algorithm>

namespace gatherwright::cli {

namespace {

std::string listed(std::span<const std::string_view> words) {
  std::string list;
  for (const std::string_view word : words) {
    if (!list.empty()) list += ", ";
    list += word;
  }
  return list;
}

} // namespace

Fields::Fields(Reading &reading, const Value &object, std::string_view of, std::span<const std::string_view> known)
    : reading_(reading), object_(object) {
  if (object.kind != Value::Kind::object) {
    refuse_kind(reading, object, std::string(of) + " as an object in braces: { " + listed(known) + " }");
    return;
  }
  for (const Value &child : reading.document.children(object)) {
    if (reading.faults.full()) return;
    if (!child.repeated && std::find(known.begin(), known.end(), child.key) == known.end())
      refuse_unknown(child, of, known);
  }
}

void Fields::refuse_unknown(const Value &child, std::string_view of, std::span<const std::string_view> known) {
  const auto meant = nearest_of(child.key, known);
  if (meant) misspelt_.push_back(*meant);
  reading_.fault_of_key(child, {"there is no key " + quoted(child.key) + " in " + std::string(of),
                                meant ? "write " + quoted(*meant) : "the keys are " + listed(known)});
}

const Value *Fields::operator[](std::string_view key) const {
  return reading_.document.child(object_, key);
}

bool Fields::meant(std::string_view key) const {
  return (*this)[key] != nullptr || std::find(misspelt_.begin(), misspelt_.end(), key) != misspelt_.end();
}

const Value *Fields::required(std::string_view key, std::string_view instead) const {
  const Value *value = (*this)[key];
  if (object_.kind == Value::Kind::object && !meant(key))
    reading_.fault(object_, {quoted(key) + " is missing", std::string(instead)});
  return value;
}

} // namespace gatherwright::cli
