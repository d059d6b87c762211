// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/fault.hpp"

#include <catch2/catch.hpp>

#include <memory>
#include <utility>

using namespace gatherwright;

TEST_CASE("an outcome is true and gives its value, or is false and gives its fault") {
  const Outcome<std::string> made = std::string("cuff");
  REQUIRE(made);
  CHECK(*made == "cuff");
  CHECK(made->size() == 4);
  const Outcome<std::string> refused = Fault{"this is no name", "write one"};
  REQUIRE_FALSE(refused);
  CHECK(refused.fault() == Fault{"this is no name", "write one"});
  // A value may be taken out of it, whether or not it can be copied.
  Outcome<std::unique_ptr<int>> alone = std::make_unique<int>(7);
  const std::unique_ptr<int> taken = *std::move(alone);
  CHECK(*taken == 7);
}
