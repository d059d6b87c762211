// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/validate.hpp"

#include <catch2/catch.hpp>

using namespace gatherwright;

namespace {

using Lack = SegmentLacks::Lack;

std::vector<std::pair<int, Lack>> lacks(std::vector<SegmentGives> segments) {
  std::vector<std::pair<int, Lack>> found;
  for (const SegmentLacks &each : lacking(segments))
    found.emplace_back(each.segment, each.lack);
  return found;
}

constexpr SegmentGives open_gather{Kind::gather, false, false};
constexpr SegmentGives long_gather{Kind::gather, true, false};
constexpr SegmentGives band_gather{Kind::gather, false, true};
constexpr SegmentGives open_flat{Kind::flat, false, false};
constexpr SegmentGives long_flat{Kind::flat, true, false};
constexpr SegmentGives band_flat{Kind::flat, false, true};

} // namespace

TEST_CASE("one segment that says nothing takes all of the band") {
  for (const Kind kind : {Kind::gather, Kind::gauge, Kind::draw, Kind::ease})
    CHECK(lacks({{kind, false, false}}).empty());
}

TEST_CASE("two gathered sides round a plain centre lack nothing once the centre has a length") {
  CHECK(lacks({open_gather, long_flat, open_gather}).empty());
  CHECK(lacks({open_gather, band_flat, open_gather}).empty());
  CHECK(lacks({open_gather, open_flat, open_gather}) ==
        std::vector<std::pair<int, Lack>>{{1, Lack::flat_beside_equal}});
}

TEST_CASE("beside segments that share the band equally every other gives its part of it") {
  CHECK(lacks({open_gather, band_gather, {Kind::ease, true, true}}).empty());
  CHECK(lacks({open_gather, long_gather, band_gather, long_gather}) ==
        std::vector<std::pair<int, Lack>>{{1, Lack::band_beside_equal}, {3, Lack::band_beside_equal}});
  CHECK(lacks({long_gather, {Kind::draw, false, false}}) ==
        std::vector<std::pair<int, Lack>>{{0, Lack::band_beside_equal}});
}

TEST_CASE("where no segment is left open one flat segment may be") {
  CHECK(lacks({long_gather, open_flat, long_gather}).empty());
  CHECK(lacks({band_gather, open_flat}).empty());
  CHECK(lacks({open_flat}).empty());
  CHECK(lacks({open_flat, long_gather, open_flat, open_flat}) ==
        std::vector<std::pair<int, Lack>>{{2, Lack::second_flat}, {3, Lack::second_flat}});
}
