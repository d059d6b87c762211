// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/layout/bands.hpp"

#include "solver/layout/acceptance.hpp"
#include "solver/layout/fill.hpp"
#include "solver/layout/random.hpp"
#include "solver/layout/task.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <utility>
#include <vector>

namespace gatherwright::layout {

namespace {

constexpr int last_few = 100;
constexpr std::size_t most_kinds = 400;
constexpr int drawn_by_lot = 48;
constexpr std::size_t history = 30;

/// How often all is laid; each time what lay in bands that were badly used is worth more, and comes earlier.
constexpr int times = 6;
constexpr double learning = 1.0;

/// What is larger is worth more for its area: it is harder to find a place for later.
std::vector<double> worths(const Strip &strip) {
  double largest = 0;
  for (const Kind &kind : strip.kinds)
    largest = std::max(largest, kind.area());
  std::vector<double> worths;
  for (const Kind &kind : strip.kinds)
    worths.push_back(kind.area() * (1 + 0.05 * std::sqrt(kind.area() / largest)));
  return worths;
}

class Bands {
public:
  Bands(const Strip &strip, const std::vector<double> &worths, Allowance &allowance)
      : strip_(strip), allowance_(allowance), filling_(strip, worths), random_(1), left_(strip.rectangles()),
        used_(strip.kinds.size()) {
    for (const Kind &kind : strip.kinds) {
      count_.push_back(kind.count);
      changes_.turned = changes_.turned || kind.may_turn;
    }
    by_area_.resize(strip.kinds.size());
    std::iota(by_area_.begin(), by_area_.end(), 0);
    std::stable_sort(by_area_.begin(), by_area_.end(),
                     [&](int a, int b) { return strip.kinds[a].area() > strip.kinds[b].area(); });
  }

  Tree lay() {
    while (left_ > last_few)
      add_band();
    add_last();
    return std::move(tree_);
  }

  /// Of each kind, the share of their bands that was used, where its rectangles lie.
  std::vector<double> used() const {
    std::vector<double> shares;
    for (std::size_t kind = 0; kind < used_.size(); ++kind)
      shares.push_back(used_[kind] / strip_.kinds[kind].count);
    return shares;
  }

private:
  /// Notes how well a part of the strip is used.
  void note(const Tree &part, int times_laid) {
    double area = 0;
    for (const Tree::Node &node : part.nodes)
      if (node.join == Tree::Join::piece) area += strip_.kinds[node.first].area();
    const double share = area / (static_cast<double>(strip_.width) * static_cast<double>(part.along()));
    for (const Tree::Node &node : part.nodes)
      if (node.join == Tree::Join::piece) used_[node.first] += share * times_laid;
  }

  int opener() const {
    int longest = -1;
    for (int kind = 0; kind < static_cast<int>(count_.size()); ++kind)
      if (count_[kind] > 0 && (longest < 0 || strip_.kinds[kind].least_along() > strip_.kinds[longest].least_along()))
        longest = kind;
    return longest;
  }

  /// Some of what is left, each large one likelier than a small one.
  Sequence by_lot() {
    std::vector<int> pieces;
    for (const int kind : by_area_)
      for (int copy = 0; copy < std::min(count_[kind], drawn_by_lot); ++copy)
        pieces.push_back(kind);
    Sequence sequence;
    const int size = static_cast<int>(pieces.size());
    std::vector<int> places;
    for (int i = 0; i < drawn_by_lot; ++i) {
      const int at = random_.below(size);
      places.push_back(i % 3 == 0 ? std::min(at, random_.below(size)) : at);
    }
    std::sort(places.begin(), places.end());
    places.erase(std::unique(places.begin(), places.end()), places.end());
    for (const int place : places)
      sequence.pieces.push_back({pieces[place], false, random_.below(2) == 0, random_.below(2) == 0});
    return sequence;
  }

  Sequence improved(Sequence sequence, Ticks across, Ticks along, std::int64_t steps) {
    const std::int64_t end = allowance_.left() - steps;
    double left = filling_.left_over(sequence, across, along, allowance_);
    std::vector<double> earlier(history, left);
    Sequence best = sequence;
    double least = left;
    for (std::size_t round = 0; allowance_.left() > std::max<std::int64_t>(end, 0) && left > 0; ++round) {
      Sequence next = changed(sequence, changes_, random_);
      const double now = filling_.left_over(next, across, along, allowance_);
      double &before = earlier[round % history];
      if (now <= before || now <= left) {
        left = now;
        sequence = std::move(next);
        if (left < least) {
          least = left;
          best = sequence;
        }
      }
      before = std::min(before, left);
    }
    return best;
  }

  void add_band() {
    const int kind = opener();
    const Kind &of = strip_.kinds[kind];
    --count_[kind];
    Tree band;
    const int first = band.piece(strip_, kind, of.may_turn && of.across < of.along);
    const Ticks across = strip_.width - band.across_of(first);
    const Ticks along = band.along_of(first);
    Sequence sequence;
    if (across > 0) {
      const std::int64_t steps = allowance_.left() / std::max(1, left_ / 14);
      sequence = improved(by_lot(), across, along, steps);
      append_rest(sequence);
      filling_.left_over(sequence, across, along, allowance_);
      band.root = band.join(Tree::Join::beside, first, band.graft(filling_.tree()));
    } else {
      band.root = first;
    }
    ++count_[kind];
    repeat(band);
  }

  /// All else that is left, the larger first; of very many kinds some, the smallest among them.
  void append_rest(Sequence &sequence) {
    std::vector<int> in(count_.size());
    for (const Sequence::Piece &piece : sequence.pieces)
      ++in[piece.kind];
    std::vector<int> kinds;
    for (const int kind : by_area_)
      if (count_[kind] > in[kind]) kinds.push_back(kind);
    if (kinds.empty()) return;
    const std::size_t step = kinds.size() / most_kinds + 1;
    for (std::size_t i = (kinds.size() - 1) % step; i < kinds.size(); i += step)
      for (int copy = in [kinds[i]]; copy < count_[kinds[i]]; ++copy)
        sequence.pieces.push_back({kinds[i], false, false, true});
  }

  void repeat(const Tree &band) {
    std::vector<int> used(count_.size());
    for (const Tree::Node &node : band.nodes)
      if (node.join == Tree::Join::piece) ++used[node.first];
    int most = std::numeric_limits<int>::max();
    for (std::size_t kind = 0; kind < used.size(); ++kind)
      if (used[kind] > 0) most = std::min(most, count_[kind] / used[kind]);
    note(band, most);
    for (int time = 0; time < most; ++time)
      tree_.root = tree_.join(Tree::Join::behind, tree_.root, tree_.graft(band));
    for (std::size_t kind = 0; kind < used.size(); ++kind) {
      count_[kind] -= most * used[kind];
      left_ -= most * used[kind];
    }
  }

  void add_last() {
    Strip last{strip_.width, {}};
    std::vector<int> kind_of;
    for (std::size_t kind = 0; kind < count_.size(); ++kind)
      if (count_[kind] > 0) {
        last.kinds.push_back(strip_.kinds[kind]);
        last.kinds.back().count = count_[kind];
        kind_of.push_back(static_cast<int>(kind));
      }
    if (last.kinds.empty()) return;
    Task task(last, {0, std::max<std::int64_t>(allowance_.left(), 0)});
    task.shorten();
    Tree laid = *task.layout();
    for (Tree::Node &node : laid.nodes)
      if (node.join == Tree::Join::piece) node.first = kind_of[node.first];
    note(laid, 1);
    tree_.root = tree_.join(Tree::Join::behind, tree_.root, tree_.graft(laid));
  }

  const Strip &strip_;
  Allowance &allowance_;
  Filling filling_;
  Random random_;
  int left_;
  Changes changes_{false, true};
  std::vector<int> count_; ///< of each kind, what is left
  std::vector<int> by_area_;
  std::vector<double> used_; ///< of each kind, the sum of its rectangles' bands' shares
  Tree tree_;
};

} // namespace

Tree lay_in_bands(const Strip &strip, Allowance &allowance) {
  std::vector<double> worth = worths(strip);
  Tree best;
  for (int time = 0; time < times && (best.empty() || !allowance.spent()); ++time) {
    Allowance now(allowance.left() / (times - time));
    const std::int64_t before = now.left();
    Bands bands(strip, worth, now);
    Tree tree = bands.lay();
    const std::vector<double> used = bands.used();
    const double mean = strip.area() / (static_cast<double>(strip.width) * static_cast<double>(tree.along()));
    for (std::size_t kind = 0; kind < worth.size(); ++kind)
      worth[kind] *= std::clamp(1 + learning * (mean - used[kind]), 0.5, 2.0);
    if (best.empty() || tree.along() < best.along()) best = std::move(tree);
    allowance.spend(before - now.left());
  }
  return best;
}

} // namespace gatherwright::layout
