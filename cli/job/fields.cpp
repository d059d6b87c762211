// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/job/fields.hpp"

#include "cli/job/values.hpp"
#include "cli/words/quoted.hpp"

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

/// Where keys belong that are easily written one level too high or too low.
std::string_view home_of(std::string_view key) {
  struct Home {
    std::string_view name;
    std::span<const std::string_view> keys;
  };
  static constexpr std::string_view fabric[] = {"weight",    "width",          "selvedge", "shrinkage", "sold_by",
                                                "thickness", "bending_length", "shrinks",  "swatch",    "stock"};
  static constexpr std::string_view gathering[] = {"stitch", "rows", "tail", "longest", "threads", "count"};
  static constexpr std::string_view marks[] = {"parts", "apart", "every", "halves"};
  static constexpr std::string_view segments[] = {"kind", "share", "limits", "spread"};
  static constexpr std::string_view joins[] = {"long", "band", "closed", "make", "mirrored", "use", "segments"};
  static constexpr std::string_view pieces[] = {"cut", "turn", "sides"};
  static constexpr std::string_view sides[] = {"top", "bottom", "left", "right"};
  static constexpr std::string_view wearer[] = {"age"};
  static constexpr std::string_view job[] = {"unit",    "tape_step", "tolerance", "measures",
                                             "lengths", "rules",     "pieces"};
  static constexpr Home homes[] = {{"\"fabric\"", fabric},     {"\"gathering\"", gathering}, {"\"marks\"", marks},
                                   {"\"segments\"", segments}, {"\"joins\"", joins},         {"\"pieces\"", pieces},
                                   {"\"sides\"", sides},       {"\"wearer\"", wearer},       {"the job itself", job}};
  for (const Home &home : homes)
    if (std::find(home.keys.begin(), home.keys.end(), key) != home.keys.end()) return home.name;
  return {};
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
  const std::string_view home = home_of(child.key);
  const auto meant = home.empty() ? nearest_of(child.key, known) : std::nullopt;
  if (meant) misspelt_.push_back(*meant);
  const std::string otherwise = home.empty() ? "the keys are " + listed(known) : "it belongs in " + std::string(home);
  reading_.fault_of_key(child, {"there is no key " + quoted(child.key) + " in " + std::string(of),
                                meant ? "write " + quoted(*meant) : otherwise});
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
