// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/layout/lay.hpp"

#include "solver/layout/aside.hpp"
#include "solver/layout/checker.hpp"
#include "solver/layout/drawn.hpp"
#include "solver/layout/grid.hpp"
#include "solver/layout/task.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <utility>

namespace gatherwright::layout {

namespace {

/// The layout of what was not set aside, with the rest behind it.
Tree with_aside(const Grid &grid, const Aside &aside, const Tree &rest) {
  Tree tree;
  int root = tree.graft(rest);
  for (Tree::Node &node : tree.nodes)
    if (node.join == Tree::Join::piece) node.first = aside.kind_of[node.first];
  for (const std::size_t kind : aside.kinds) {
    const Kind &of = grid.strip.kinds[kind];
    const bool turned = of.may_turn && of.across < of.along;
    for (int copy = 0; copy < of.count; ++copy)
      root = tree.join(Tree::Join::behind, tree.piece(grid.strip, static_cast<int>(kind), turned), root);
  }
  tree.root = root;
  return tree;
}

Certificate certificate_of(const Problem &problem, const Grid &grid, const Aside &aside, const Bound &bound) {
  Certificate certificate{bound.kind, grid.across, grid.along, grid.strip.width, {}, {}, {}, bound.least};
  for (const std::size_t kind : aside.kinds)
    for (std::size_t i = 0; i < problem.rectangles.size(); ++i)
      if (grid.source[i].kind == kind) certificate.aside.push_back(i);
  std::vector<int> in_rest(grid.strip.kinds.size(), -1);
  for (std::size_t i = 0; i < aside.kind_of.size(); ++i)
    in_rest[aside.kind_of[i]] = static_cast<int>(i);
  for (const Grid::Source &source : grid.source) {
    const bool priced = bound.kind != Certificate::Kind::tallest;
    const int kind = priced ? in_rest[source.kind] : -1;
    std::int64_t price = kind < 0 ? 0 : bound.prices.straight[kind];
    std::int64_t turned = kind >= 0 && aside.rest.kinds[kind].may_turn ? bound.prices.turned[kind] : price;
    if (source.turned) std::swap(price, turned);
    certificate.price.push_back(price);
    certificate.turned.push_back(turned);
  }
  return certificate;
}

/// Of what cannot all be counted in one unit: the tallest and the area, a little less for rounding.
double plain_bound(const Problem &problem) {
  double tallest = 0;
  double area = 0;
  for (const Rectangle &rectangle : problem.rectangles) {
    const double least = rectangle.may_turn ? std::min(rectangle.across, rectangle.along) : rectangle.along;
    tallest = std::max(tallest, least);
    area += rectangle.count * rectangle.across * rectangle.along;
  }
  return std::max(tallest, area / problem.width) * (1 - 1e-12);
}

Layout finished(const Problem &problem, const Grid &grid, const Aside &aside, const Task &task) {
  Layout layout = drawn(problem, grid, with_aside(grid, aside, task.layout().value_or(Tree{})));
  if (grid.held) {
    layout.bound = std::min(plain_bound(problem), layout.length);
    layout.certified = layout.bound;
  } else {
    const Bound &best = task.bounds().best();
    layout.bound = grid.along.length(aside.along + task.bound());
    layout.certificate = certificate_of(problem, grid, aside, best);
    layout.certified = grid.along.length(aside.along + best.least);
  }
  layout.shortest = layout.bound == layout.length;
  if (const auto flaw = check(problem, layout))
    throw std::logic_error("a layout has a flaw of kind " + std::to_string(static_cast<int>(flaw->what)));
  return layout;
}

void hold(const Problem &problem) {
  if (misfit(problem)) throw std::invalid_argument("a problem without a layout");
}

} // namespace

Layout lay(const Problem &problem, const Budget &budget) {
  hold(problem);
  if (problem.rectangles.empty()) {
    Layout nothing;
    nothing.shortest = true;
    return nothing;
  }
  const Grid grid = on_grid(problem);
  const Aside aside = set_aside(grid.strip);
  Task task(aside.rest, budget);
  if (!aside.rest.kinds.empty()) task.shorten();
  return finished(problem, grid, aside, task);
}

Fitting fits(const Problem &problem, double length, const Budget &budget) {
  hold(problem);
  if (problem.rectangles.empty()) return {Fitting::Answer::fits, lay(problem, budget)};
  const Grid grid = on_grid(problem);
  const Aside aside = set_aside(grid.strip);
  const double number = std::floor(length * (1 + rounding) / grid.along.times * grid.along.over);
  const Ticks limit = number > 0x1p62 ? Ticks{1} << 62 : number >= 0 ? static_cast<Ticks>(number) - aside.along : -1;
  Task task(aside.rest, budget);
  if (!aside.rest.kinds.empty() && limit >= 0) task.fit(limit);
  const bool found = limit >= 0 && (aside.rest.kinds.empty() || task.layout());
  if (found) return {Fitting::Answer::fits, finished(problem, grid, aside, task)};
  if (grid.held) return {plain_bound(problem) > length ? Fitting::Answer::does_not : Fitting::Answer::not_known, {}};
  return {task.bound() > limit ? Fitting::Answer::does_not : Fitting::Answer::not_known, {}};
}

} // namespace gatherwright::layout
