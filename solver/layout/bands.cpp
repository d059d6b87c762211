// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/layout/bands.hpp"

#include "solver/layout/columns.hpp"
#include "solver/layout/random.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <utility>
#include <vector>

namespace gatherwright::layout {

namespace {

/// So many bands at once are laid anew, at least and at most.
constexpr int least_anew = 2;
constexpr int most_anew = 6;
/// The share of its worth by which a rectangle may be worth more when it is laid anew.
constexpr double more_worth = 0.1;
/// What is empty may become a little less uneven where bands are no shorter: nothing else would ever come of them.
constexpr double as_uneven = 0.9;

/// Steps for a way to lie, in each band that it is looked at for.
constexpr std::int64_t steps_a_way = 2000;
constexpr std::int64_t fewest_ways = 16;

/// How much more the largest is worth for its area than what is tiny: how much is best differs from set to set.
constexpr std::array<double, 4> more_for_larger{0.05, 0.1, 0.2, 0.4};

/// What is larger is harder to find a place for later.
std::vector<double> worths_of(const Strip &strip, double more) {
  double largest = 0;
  for (const Kind &kind : strip.kinds)
    largest = std::max(largest, kind.area());
  std::vector<double> worths;
  for (const Kind &kind : strip.kinds)
    worths.push_back(kind.area() * (1 + more * std::sqrt(std::sqrt(kind.area() / largest))));
  return worths;
}

struct Band {
  Tree tree;
  double empty = 0; ///< so much of its length, were all that is empty together

  double share_empty() const { return empty / static_cast<double>(tree.along()); }
};

/// How unevenly what is empty is shared out.
double unevenness(const std::vector<Band> &bands) {
  double sum = 0;
  for (const Band &band : bands)
    sum += band.empty * band.empty;
  return sum;
}

Ticks length_of(const std::vector<Band> &bands) {
  Ticks sum = 0;
  for (const Band &band : bands)
    sum += band.tree.along();
  return sum;
}

class Bands {
public:
  Bands(const Strip &strip, Allowance &allowance) : strip_(strip), allowance_(allowance), columns_(strip), random_(1) {}

  Tree lay(Ticks enough) {
    for (const double more : more_for_larger)
      if (bands_.empty() || (along_ > enough && !allowance_.spent())) lay_all(more);
    while (along_ > enough && bands_.size() > 1 && !allowance_.spent())
      lay_some_anew();
    return together();
  }

private:
  void lay_all(double more) {
    std::vector<int> counts;
    for (const Kind &kind : strip_.kinds)
      counts.push_back(kind.count);
    std::vector<double> worths = worths_of(strip_, more);
    columns_.offer(std::move(counts), worths);
    std::vector<Band> bands =
        laid(strip_.rectangles(), bands_.empty() ? std::numeric_limits<Ticks>::max() : along_ - 1);
    if (bands.empty()) return;
    bands_ = std::move(bands);
    along_ = length_of(bands_);
    worths_ = std::move(worths);
  }

  /// All that is on offer, in bands; nothing where they are longer than `longest`.
  std::vector<Band> laid(int rectangles, Ticks longest) {
    std::vector<Band> bands;
    while (rectangles > 0) {
      Band band = next_band(rectangles);
      const int times = copies(band.tree);
      rectangles -= times * pieces(band.tree);
      longest -= times * band.tree.along();
      if (longest < 0) return {};
      bands.insert(bands.end(), static_cast<std::size_t>(times), band);
    }
    return bands;
  }

  /// Opened by one that may turn as it leaves less empty.
  Band next_band(int rectangles) {
    const int kind = opener();
    columns_.take(kind);
    const std::vector<int> before = columns_.left();
    const std::int64_t steps = allowance_.left() / std::max(1, rectangles / 10);
    const auto ways = static_cast<std::size_t>(std::max(steps / steps_a_way, fewest_ways));
    Band band = opened_by(kind, false, ways);
    if (!strip_.kinds[kind].may_turn) return band;
    std::vector<int> after = columns_.left();
    columns_.put_back(before);
    Band turned = opened_by(kind, true, ways);
    if (turned.share_empty() < band.share_empty()) return turned;
    columns_.put_back(std::move(after));
    return band;
  }

  Band opened_by(int kind, bool turned, std::size_t ways) {
    Band band;
    Tree &tree = band.tree;
    const int first = tree.piece(strip_, kind, turned);
    const int rest = columns_.fill(strip_.width - tree.across_of(first), tree.along_of(first), ways, tree, allowance_);
    tree.root = tree.join(Tree::Join::beside, first, rest);
    double area = 0;
    for (const Tree::Node &node : tree.nodes)
      if (node.join == Tree::Join::piece) area += strip_.kinds[node.first].area();
    band.empty = static_cast<double>(tree.along()) - area / static_cast<double>(strip_.width);
    return band;
  }

  /// The longest that is left; of those as long the widest.
  int opener() const {
    int longest = -1;
    for (int kind = 0; kind < static_cast<int>(strip_.kinds.size()); ++kind) {
      if (columns_.left()[kind] == 0) continue;
      if (longest < 0) longest = kind;
      const Kind &best = strip_.kinds[longest];
      const Kind &of = strip_.kinds[kind];
      if (of.least_along() > best.least_along() || (of.least_along() == best.least_along() && of.area() > best.area()))
        longest = kind;
    }
    return longest;
  }

  static int pieces(const Tree &tree) {
    return static_cast<int>(std::count_if(tree.nodes.begin(), tree.nodes.end(),
                                          [](const Tree::Node &node) { return node.join == Tree::Join::piece; }));
  }

  /// How often a band can be laid, with what is left of its kinds, which is taken.
  int copies(const Tree &band) {
    std::vector<int> kinds;
    for (const Tree::Node &node : band.nodes)
      if (node.join == Tree::Join::piece) kinds.push_back(node.first);
    std::sort(kinds.begin(), kinds.end());
    int more = std::numeric_limits<int>::max();
    for (auto at = kinds.begin(); at != kinds.end();) {
      const auto end = std::upper_bound(at, kinds.end(), *at);
      more = std::min(more, columns_.left()[*at] / static_cast<int>(end - at));
      at = end;
    }
    for (const int kind : kinds)
      for (int time = 0; time < more; ++time)
        columns_.take(kind);
    return 1 + more;
  }

  void lay_some_anew() {
    const std::vector<std::size_t> chosen = some();
    std::vector<Band> before;
    std::vector<int> counts(strip_.kinds.size());
    int rectangles = 0;
    for (const std::size_t place : chosen) {
      before.push_back(bands_[place]);
      for (const Tree::Node &node : bands_[place].tree.nodes)
        if (node.join == Tree::Join::piece) {
          ++counts[node.first];
          ++rectangles;
        }
    }
    allowance_.spend(static_cast<std::int64_t>(counts.size()) * 4);
    columns_.offer(std::move(counts), by_lot());
    const Ticks length = length_of(before);
    std::vector<Band> after = laid(rectangles, length);
    if (after.empty()) return;
    const Ticks shorter = length - length_of(after);
    if (shorter == 0 && unevenness(after) < as_uneven * unevenness(before)) return;
    exchange(chosen, std::move(after));
    along_ -= shorter;
  }

  /// Places of bands, all different, going down: half of them of two drawn by lot the one that leaves more empty.
  std::vector<std::size_t> some() {
    const int all = static_cast<int>(bands_.size());
    const auto many = static_cast<std::size_t>(std::min(all, least_anew + random_.below(most_anew - least_anew + 1)));
    std::vector<std::size_t> places;
    while (places.size() < many) {
      auto place = static_cast<std::size_t>(random_.below(all));
      const auto other = static_cast<std::size_t>(random_.below(all));
      if (random_.below(2) == 0 && bands_[other].empty > bands_[place].empty) place = other;
      if (std::find(places.begin(), places.end(), place) == places.end()) places.push_back(place);
    }
    std::sort(places.rbegin(), places.rend());
    return places;
  }

  std::vector<double> by_lot() {
    std::vector<double> worths = worths_;
    for (double &worth : worths)
      worth *= 1 + more_worth * random_.below(1024) / 1024;
    return worths;
  }

  void exchange(const std::vector<std::size_t> &places, std::vector<Band> after) {
    for (const std::size_t place : places) {
      std::swap(bands_[place], bands_.back());
      bands_.pop_back();
    }
    for (Band &band : after)
      bands_.push_back(std::move(band));
  }

  Tree together() const {
    Tree tree;
    for (const Band &band : bands_)
      tree.root = tree.join(Tree::Join::behind, tree.root, tree.graft(band.tree));
    return tree;
  }

  const Strip &strip_;
  Allowance &allowance_;
  std::vector<double> worths_;
  Columns columns_;
  Random random_;
  std::vector<Band> bands_;
  Ticks along_ = 0;
};

} // namespace

Tree lay_in_bands(const Strip &strip, Ticks enough, Allowance &allowance) {
  return Bands(strip, allowance).lay(enough);
}

} // namespace gatherwright::layout
