// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/kind.hpp"

#include <catch2/catch.hpp>

#include <cstddef>
#include <set>
#include <string_view>
#include <vector>

using namespace gatherwright;

namespace {

/// The kinds of which a question is answered with yes.
std::vector<Kind> those_that(bool (*question)(Kind)) {
  std::vector<Kind> found;
  for (const Kind kind : all_kinds)
    if (question(kind)) found.push_back(kind);
  return found;
}

using Kinds = std::vector<Kind>;

} // namespace

TEST_CASE("the rows of the kinds stand in the order of the kinds") {
  REQUIRE(kinds.size() == all_kinds.size());
  for (std::size_t i = 0; i < kinds.size(); ++i) {
    CHECK(static_cast<std::size_t>(all_kinds[i]) == i);
    CHECK(&row_of(all_kinds[i]) == &kinds[i]);
  }
  CHECK(name(Kind::gather) == "gather");
  CHECK(name(Kind::gauge) == "gauge");
  CHECK(name(Kind::draw) == "draw");
  CHECK(name(Kind::ease) == "ease");
  CHECK(name(Kind::flat) == "flat");
}

TEST_CASE("the kinds are the five of the format, each with a name of its own") {
  std::set<std::string_view> names;
  for (const KindRow &row : kinds)
    names.insert(row.name);
  CHECK(names == std::set<std::string_view>{"gather", "gauge", "draw", "ease", "flat"});
}

TEST_CASE("what is asked of a kind is answered for each of the five") {
  CHECK(those_that(takes_fullness) == Kinds{Kind::gather, Kind::gauge, Kind::draw, Kind::ease});
  CHECK(those_that(told_in_percent) == Kinds{Kind::ease});
  CHECK(those_that(has_least) == Kinds{Kind::gather, Kind::gauge, Kind::draw});
  CHECK(those_that(runs_on_thread) == Kinds{Kind::gather, Kind::gauge});
  CHECK(those_that(may_be_spread) == Kinds{Kind::gather, Kind::ease});
  CHECK(those_that(stands_off) == Kinds{Kind::gather});
  CHECK(those_that(is_folded) == Kinds{Kind::gauge});
  CHECK(those_that(on_cord) == Kinds{Kind::draw});
}

TEST_CASE("only gauging asks for a third row of thread") {
  for (const Kind kind : all_kinds)
    CHECK(row_of(kind).rows == (kind == Kind::gauge ? 3 : 2));
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
