// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/kind.hpp"

#include <catch2/catch.hpp>

#include <cstddef>

using namespace gatherwright;

TEST_CASE("the rows of the kinds stand in the order of the kinds") {
  CHECK(name(Kind::gather) == "gather");
  CHECK(name(Kind::gauge) == "gauge");
  CHECK(name(Kind::draw) == "draw");
  CHECK(name(Kind::ease) == "ease");
  CHECK(name(Kind::flat) == "flat");
  for (std::size_t i = 0; i < kinds.size(); ++i)
    CHECK(static_cast<std::size_t>(all_kinds[i]) == i);
}

TEST_CASE("a kind that takes no fullness has no least, and is neither threaded, spread, folded nor drawn up") {
  int plain = 0;
  for (const Kind kind : all_kinds) {
    INFO(name(kind));
    if (!takes_fullness(kind)) {
      ++plain;
      CHECK_FALSE(has_least(kind));
      CHECK_FALSE(runs_on_thread(kind));
      CHECK_FALSE(may_be_spread(kind));
      CHECK_FALSE(stands_off(kind));
      CHECK_FALSE(is_folded(kind));
      CHECK_FALSE(on_cord(kind));
      CHECK_FALSE(told_in_percent(kind));
    }
    // A thread or a cord draws it up, not both; what stands or folds is drawn up on thread.
    CHECK_FALSE((runs_on_thread(kind) && on_cord(kind)));
    if (stands_off(kind) || is_folded(kind)) CHECK(runs_on_thread(kind));
    CHECK(row_of(kind).rows >= 2);
  }
  CHECK(plain == 1);
}

TEST_CASE("a kind that is too full is offered as one that takes more, down to none") {
  CHECK(offered_next(Kind::flat) == Kind::ease);
  CHECK(offered_next(Kind::ease) == Kind::gather);
  CHECK(offered_next(Kind::gather) == Kind::gauge);
  CHECK_FALSE(offered_next(Kind::gauge));
  CHECK_FALSE(offered_next(Kind::draw));
  for (Kind kind : all_kinds) {
    int steps = 0;
    while (const auto next = offered_next(kind)) {
      kind = *next;
      REQUIRE(++steps < static_cast<int>(kinds.size()));
    }
  }
}
