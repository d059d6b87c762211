// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/report/table.hpp"

#include <catch2/catch.hpp>

using gatherwright::report::Table;

TEST_CASE("cells line up by their point or the space before their fraction") {
  Table table({{"", "no"}, {"band", "in", Table::Align::point}, {"long", "cm", Table::Align::point}});
  table.row({"0", "0", "0"});
  table.row({"1", "4 11/16", "7.8"});
  table.row({"10", "12 1/2", "12.25"});
  CHECK(table.lines("  ", 80) == "          band   long\n"
                                 "  no        in     cm\n"
                                 "   0   0         0\n"
                                 "   1   4 11/16   7.8\n"
                                 "  10  12 1/2    12.25\n");
}

TEST_CASE("a table that is too wide shortens first, then leaves out from the right") {
  const auto table = [] {
    Table made({{"", "mark", Table::Align::left, Table::When::shortened},
                {"", "band"},
                {"", "stitches", Table::Align::right, Table::When::left_out},
                {"", "on face", Table::Align::right, Table::When::left_out}});
    made.row({"a mark with a long name", "12.5", "31", "15"});
    return made;
  };
  CHECK(table().lines("", 80) == "mark                     band  stitches  on face\n"
                                 "a mark with a long name  12.5        31       15\n");
  CHECK(table().lines("", 40) == "mark             band  stitches  on face\n"
                                 "a mark with a…   12.5        31       15\n");
  CHECK(table().lines("", 30) == "mark            band  stitches\n"
                                 "a mark with a…  12.5        31\n");
  const std::string narrow = table().lines("", 24);
  CHECK(narrow.find("on face") == std::string::npos);
  CHECK(narrow.find("12.5") != std::string::npos);
}

TEST_CASE("a column with nothing in it is left out") {
  Table table({{"", "no"}, {"", "cut"}, {"", "band"}});
  table.row({"0", "", "3"});
  CHECK(table.lines("", 80) == "no  band\n 0     3\n");
}
