// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/shared_text.hpp"

#include <catch2/catch.hpp>

#include <string>
#include <vector>

using gatherwright::SharedText;

namespace {

std::string_view seen(const SharedText &text) {
  return text;
}

} // namespace

TEST_CASE("two are equal where their texts are, whether they share one or not") {
  const std::string texts[] = {"", "a", "b", "ab", std::string(1000, 'a'), std::string("a\0b", 3)};
  for (const std::string &one : texts)
    for (const std::string &other : texts) {
      CHECK((SharedText(one) == SharedText(other)) == (one == other));
      if (one == other) CHECK(std::hash<SharedText>{}(SharedText(one)) == std::hash<SharedText>{}(SharedText(other)));
    }
  const SharedText linen("washed linen");
  const SharedText copied = linen;
  CHECK(copied == linen);
  CHECK(copied.is(linen));
  CHECK_FALSE(SharedText("washed linen").is(linen));
  CHECK(SharedText("washed linen") == linen);
}

TEST_CASE("however often a text is copied it is held once") {
  const SharedText name(std::string(1'000'000, 'l'));
  std::vector<SharedText> names(100, name);
  for (const SharedText &each : names)
    CHECK(seen(each).data() == seen(name).data());
  names.front() = "another";
  CHECK(seen(names.front()) == "another");
  CHECK(seen(name).size() == 1'000'000);
  CHECK(SharedText().empty());
  CHECK(seen(SharedText()).empty());
}
