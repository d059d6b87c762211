// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/page/text/change.hpp"
#include "tests/outcomes.hpp"

#include <catch2/catch.hpp>

#include <string>
#include <utility>

namespace gatherwright::tests {

/// The changed text; the test fails where there is a fault.
template <class What> std::string changed_to(std::string_view text, std::string pointer, What what) {
  auto outcome = page::changed(text, {std::move(pointer), std::move(what)});
  if (const auto *faults = fault_in(outcome))
    FAIL("not changed: " << faults->front().pointer << ": " << faults->front().fault.what << "\n" << text);
  return *std::move(outcome);
}

/// The only fault of a change; the test fails where there is another number of them.
template <class What> cli::InputFault fault_of_change(std::string_view text, std::string pointer, What what) {
  const auto outcome = page::changed(text, {std::move(pointer), std::move(what)});
  const auto *faults = fault_in(outcome);
  if (!faults || faults->size() != 1) FAIL("there is not one fault");
  return faults->front();
}

} // namespace gatherwright::tests
