// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/sheet/columns.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <random>
#include <string>

using namespace gatherwright;
using namespace gatherwright::paper;

TEST_CASE("blocks are shared out so that the higher column is as low as may be, or hardly higher") {
  std::mt19937 random(1);
  std::uniform_real_distribution<double> height(1, 60);
  for (int round = 0; round < 200; ++round) {
    const std::size_t blocks = 1 + round % 7;
    std::vector<double> left;
    std::vector<double> right;
    for (std::size_t i = 0; i < blocks; ++i) {
      left.push_back(height(random));
      right.push_back(height(random));
    }
    double least = 1e9;
    for (std::size_t chosen = 0; chosen < std::size_t{1} << blocks; ++chosen) {
      double high_left = 0;
      double high_right = 0;
      for (std::size_t i = 0; i < blocks; ++i)
        (chosen >> i & 1 ? high_right : high_left) += chosen >> i & 1 ? right[i] : left[i];
      if ((chosen & 1) == 0) least = std::min(least, std::max(high_left, high_right));
    }
    const Sharing sharing = shared_out(left, right);
    CHECK_FALSE(sharing.at_right.front());
    CHECK(sharing.height >= least - 1e-9);
    CHECK(sharing.height <= least + 3 + 1e-9);
  }
}

TEST_CASE("blocks in two columns take no more than they were measured to, and stay on one page") {
  PageFlow flow(PaperSize::a4, "sheet", Setting::close);
  flow.paragraph("first");
  Blocks blocks;
  for (int i = 0; i < 5; ++i)
    blocks.push_back({[i](PageFlow &at) {
      for (int line = 0; line <= i; ++line)
        at.paragraph("line " + std::to_string(line));
    }});
  const Columns columns(flow, blocks, flow.half_width());
  const double before = flow.room();
  columns.set(flow);
  CHECK(before - flow.room() <= columns.height() + 1e-3);
  CHECK(before - flow.room() > 0.9 * columns.height());
  CHECK(flow.pages() == 1);
  CHECK(flow.width() == PageFlow(PaperSize::a4, "sheet", Setting::close).width());
}

TEST_CASE("a block does not go into a column that is too narrow for it") {
  PageFlow flow(PaperSize::a4, "sheet", Setting::close);
  double narrowest = 1e9;
  const auto line = [](PageFlow &at) { at.paragraph("a line"); };
  const Blocks blocks{{line},
                      {line},
                      {[&](PageFlow &at) {
                         narrowest = std::min(narrowest, at.width());
                         at.paragraph("wide");
                       },
                       flow.half_width() + 10}};
  Columns(flow, blocks, flow.half_width() - 20).set(flow);
  CHECK(narrowest >= flow.half_width() + 10);
}
