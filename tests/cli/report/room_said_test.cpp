// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/report/plan_words.hpp"
#include "tests/cli/report/sample.hpp"

#include <catch2/catch.hpp>

using namespace gatherwright;

namespace {

/// Of a length that is 60 cm, on a tape of millimetres.
std::string said(double low, double high, double is = 600) {
  LengthPlan length;
  length.is = is;
  length.room = Interval{low, high};
  return report::room(sample::job(), length);
}

/// The same as a table has it.
std::string brief(std::optional<double> low, std::optional<double> high, double is = 600) {
  LengthPlan length;
  length.is = is;
  length.room = Interval{low, high};
  return report::room_brief(sample::job(), length);
}

} // namespace

TEST_CASE("a room is told by the steps of the tape that lie in it") {
  CHECK(said(540.3, 620.7) == "anything from 54.1 cm to 62 cm will do");
  CHECK(said(640.3, 720.7) == "anything from 64.1 cm to 72 cm would do");
  // More than a step wide, with one step in it.
  CHECK(said(540.1, 541.9) == "54.1 cm would do");
  CHECK(said(540.1, 541.9, 541) == "no other will do");
  CHECK(said(540.1, 541.9, 540.5) == "54.1 cm will do"); // from off the tape
  // Less than a step wide, with one step in it, or two but for rounding.
  CHECK(said(540.9, 541.1) == "54.1 cm would do");
  CHECK(said(541 - 1e-9, 541 + 1e-9) == "54.1 cm would do");
  CHECK(said(540, 541) == "anything from 54 cm to 54.1 cm would do");
}

TEST_CASE("a room between two steps of the tape is told by a figure in it") {
  CHECK(said(540.3, 540.7) == "54.05 cm would do");
  CHECK(said(540.25, 540.25) == "54.025 cm would do");
  CHECK(said(540.3, 540.7, 540.5) == "no other will do");
  CHECK(said(540.123456, 540.123458) == "54.0123457 cm would do");
}

TEST_CASE("a table tells a room in as few words as it takes") {
  CHECK(brief(540.3, 620.7) == "54.1 cm to 62 cm");
  CHECK(brief(640.3, 720.7) == "64.1 cm to 72 cm would do");
  CHECK(brief(std::nullopt, 620.7) == "up to 62 cm");
  CHECK(brief(540.3, std::nullopt) == "54.1 cm up");
  CHECK(brief(std::nullopt, std::nullopt) == "any length");
  CHECK(brief(540.1, 541.9, 541) == "no other");
  CHECK(report::room_brief(sample::job(), LengthPlan{}).empty());
}
