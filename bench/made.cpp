// SPDX-License-Identifier: GPL-3.0-or-later
#include "bench/made.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <random>

namespace gatherwright::bench {

namespace {

using optimum::Problem;
using optimum::Rows;
using optimum::Term;

/// Numbers that are the same on every machine: the standard's distributions need not be.
class Numbers {
public:
  explicit Numbers(std::uint64_t seed) : engine_(seed) {}
  double between(double low, double high) {
    return low + (high - low) * static_cast<double>(engine_() >> 11) * 0x1p-53;
  }
  int below(int end) { return static_cast<int>(engine_() % static_cast<std::uint64_t>(end)); }
  bool chance(double share) { return between(0, 1) < share; }

private:
  std::mt19937_64 engine_;
};

double value(const std::vector<Term> &row, const std::vector<double> &x) {
  double sum = 0;
  for (const Term &term : row)
    sum += term.value * x[term.column];
  return sum;
}

/// A problem in the making: rows are placed by what they have to spare at the chosen optimum, and the gradient that
/// their multipliers make is gathered.
struct Making {
  Numbers &numbers;
  Made made;
  std::vector<double> gradient;

  Making(Numbers &drawn_from, int unknowns) : numbers(drawn_from), gradient(unknowns, 0.0) {
    made.problem.unknowns = unknowns;
    made.optimum.assign(unknowns, 0.0);
  }
  void pull(const std::vector<Term> &row, double multiplier) {
    for (const Term &term : row)
      gradient[term.column] += multiplier * term.value;
  }
  void equal(const std::vector<Term> &row, double multiplier) {
    made.problem.equal.add(row, value(row, made.optimum));
    pull(row, multiplier);
  }
  /// Binds with this multiplier where nothing is spared.
  void at_least(const std::vector<Term> &row, double spared, double multiplier) {
    made.problem.at_least.add(row, value(row, made.optimum) - spared);
    if (spared == 0) pull(row, multiplier);
  }
};

/// Walks along the lengths; where `steep`, the next is as much longer as the slope allows.
void walk(Making &making, int first, int n, double slope, std::vector<char> &steep) {
  std::vector<double> &x = making.made.optimum;
  x[first] = making.numbers.between(20, 60);
  steep.assign(n, 0);
  for (int i = 1; i < n; ++i) {
    steep[i] = making.numbers.chance(0.25) && x[first + i - 1] + slope < 80;
    x[first + i] = steep[i] ? x[first + i - 1] + slope
                            : std::max(10.0, x[first + i - 1] + making.numbers.between(-10, 0.9 * slope));
  }
}

/// The wishes of unit rows `weight x = weight target` whose gradient at the optimum is the one gathered.
void wish_each(Making &making, Rows &into, int first, int end) {
  for (int i = first; i < end; ++i) {
    const double weight = 1 / std::sqrt(1.1 * making.numbers.between(10, 40));
    const double target = making.made.optimum[i] - making.gradient[i] / (weight * weight);
    into.add(std::vector<Term>{{i, weight}}, weight * target);
  }
}

} // namespace

Made shared_out(int n, std::uint64_t seed) {
  Numbers numbers(seed);
  Making making(numbers, n);
  constexpr double slope = 6;
  std::vector<char> steep;
  walk(making, 0, n, slope, steep);
  std::vector<Term> all;
  for (int i = 0; i < n; ++i)
    all.push_back({i, 1.0});
  making.equal(all, numbers.between(-0.3, 0.3));
  for (int i = 0; i < n; ++i) {
    const bool low = numbers.chance(0.15);
    const bool high = !low && numbers.chance(0.15);
    making.at_least({{i, 1.0}}, low ? 0 : numbers.between(1, 30), numbers.between(0.1, 1));
    making.at_least({{i, -1.0}}, high ? 0 : numbers.between(1, 30), numbers.between(0.1, 1));
  }
  for (int i = 1; i < n; ++i) {
    const std::vector<Term> row{{i - 1, 1.0}, {i, -1.0}};
    const double spared = steep[i] ? 0 : value(row, making.made.optimum) + slope;
    making.at_least(row, spared, numbers.between(0.1, 1));
  }
  wish_each(making, making.made.problem.wishes[0], 0, n);
  return making.made;
}

Made job_shape(std::uint64_t seed) {
  constexpr int joins = 10;
  constexpr int lengths = 5;
  constexpr int first_length = 4 * joins;
  Numbers numbers(seed);
  Making making(numbers, first_length + lengths);
  Problem &problem = making.made.problem;
  std::vector<double> &x = making.made.optimum;
  for (int f = 0; f < lengths; ++f)
    x[first_length + f] = f % 2 ? numbers.between(150, 300) : numbers.between(400, 700);
  const auto multiplier = [&] { return numbers.between(-0.5, 0.5); };
  for (int j = 0; j < joins; ++j) {
    const int l = 4 * j; // long, band, long, band
    problem.block_ends.push_back(l + 4);
    const int long_edge = first_length + 2 * (j % 3);
    const int band = first_length + 1 + 2 * (j % 2);
    const bool sum_of_two = j % 4 == 3;
    const double whole = sum_of_two ? x[long_edge] + x[band] : x[long_edge];
    const double fixed = whole / numbers.between(1.6, 2.4);
    const double band_length = j % 2 ? x[band] : fixed;
    x[l + 1] = x[l + 3] = band_length / 2;
    x[l] = whole * numbers.between(0.45, 0.55);
    x[l + 2] = whole - x[l];
    std::vector<Term> adds_up{{l, 1.0}, {l + 2, 1.0}, {long_edge, -1.0}};
    if (sum_of_two) adds_up.push_back({band, -1.0});
    making.equal(adds_up, multiplier());
    std::vector<Term> band_adds_up{{l + 1, 1.0}, {l + 3, 1.0}};
    if (j % 2) band_adds_up.push_back({band, -1.0});
    making.equal(band_adds_up, multiplier());
    making.equal({{l + 1, 1.0}, {l + 3, -1.0}}, multiplier());
    if (j % 5 == 1) { // says again what the rows above say
      std::vector<Term> again = band_adds_up;
      for (Term &term : again)
        term.value *= 0.5;
      making.equal(again, 0);
    }
    for (const int s : {l, l + 2}) {
      making.at_least({{s, 1.0}}, x[s], 0);
      making.at_least({{s + 1, 1.0}}, x[s + 1], 0);
      const double fullness = x[s] / x[s + 1];
      const bool scant = numbers.chance(0.25);
      const bool full = !scant && numbers.chance(0.25);
      const double least = scant ? fullness : fullness * numbers.between(0.7, 0.95);
      const double most = full ? fullness : fullness * numbers.between(1.05, 1.5);
      const auto limit = [&](bool low, double bound, bool binds) {
        const double side = low ? 1 : -1;
        const std::vector<Term> row{{s, side}, {s + 1, -side * bound}};
        making.at_least(row, binds ? 0 : value(row, x), numbers.between(0.05, 0.5));
        if (!binds || j % 3) return;
        // The same limit in other units.
        const std::vector<Term> twin{{s, 3 * side}, {s + 1, -3 * side * bound}};
        making.at_least(twin, 0, 0);
      };
      limit(true, least, scant);
      limit(false, most, full);
    }
  }
  for (int f = first_length; f < first_length + lengths; ++f) {
    const bool low = numbers.chance(0.2);
    making.at_least({{f, 1.0}}, low ? 0 : numbers.between(5, 60), numbers.between(0.05, 0.5));
    making.at_least({{f, -1.0}}, low ? numbers.between(5, 60) : 0, numbers.between(0.05, 0.5));
  }
  // A rule and its reverse: an equality written as two inequalities.
  const std::vector<Term> rule{{first_length, 1.0}, {first_length + 1, -1.0}};
  const std::vector<Term> reverse{{first_length, -1.0}, {first_length + 1, 1.0}};
  making.at_least(rule, 0, numbers.between(0.05, 0.5));
  making.at_least(reverse, 0, 0);
  // Evenness (l - (1 + k) b), each band and each free length drawn to some place: the rows are triangular, so what they
  // must be off by follows from the gradient by substitution.
  std::vector<double> &gradient = making.gradient;
  for (int s = 0; s < first_length; s += 2) {
    const double k = numbers.between(0.8, 1.4);
    const double weight = 1 / std::sqrt(k * numbers.between(60, 140));
    const std::vector<Term> row{{s, weight}, {s + 1, -(1 + k) * weight}};
    const double off = gradient[s] / weight;
    problem.wishes[0].add(row, value(row, x) - off);
    gradient[s + 1] += (1 + k) * weight * off;
  }
  for (int c = 1; c < first_length + lengths; c += c < first_length - 1 ? 2 : 1) {
    const double weight = 1 / std::sqrt(numbers.between(60, 140));
    const std::vector<Term> row{{c, weight}};
    problem.wishes[0].add(row, value(row, x) - gradient[c] / weight);
  }
  return making.made;
}

Made all_levels(int n, std::uint64_t seed) {
  Numbers numbers(seed);
  Making making(numbers, n);
  Problem &problem = making.made.problem;
  constexpr double slope = 6;
  std::vector<char> steep;
  walk(making, 0, n, slope, steep);
  std::vector<Term> all;
  for (int i = 0; i < n; ++i)
    all.push_back({i, 1.0});
  making.equal(all, 0);
  struct Binding {
    std::vector<Term> row;
    int last;      ///< the greatest column: from that column's level on it may have a multiplier
    bool any_sign; ///< a limit that cannot hold
  };
  std::vector<Binding> binding;
  for (int i = 0; i < n; ++i) {
    const bool low = numbers.chance(0.15);
    const bool high = !low && numbers.chance(0.15);
    making.at_least({{i, 1.0}}, low ? 0 : numbers.between(1, 30), 0);
    making.at_least({{i, -1.0}}, high ? 0 : numbers.between(1, 30), 0);
    if (low) binding.push_back({{{i, 1.0}}, i, false});
    if (high) binding.push_back({{{i, -1.0}}, i, false});
  }
  // Limits: the slopes, and every eighth length is wanted both longer and shorter than it is, by as much.
  for (int i = 1; i < n; ++i) {
    const std::vector<Term> row{{i - 1, 1.0}, {i, -1.0}};
    problem.limits.add(row, -slope);
    if (steep[i]) {
      problem.limits.bound.back() = value(row, making.made.optimum);
      binding.push_back({row, i, false});
    }
  }
  for (int i = 3; i < n; i += 8) {
    const double off = numbers.between(0.5, 3);
    problem.limits.add(std::vector<Term>{{i, 1.0}}, making.made.optimum[i] + off);
    problem.limits.add(std::vector<Term>{{i, -1.0}}, off - making.made.optimum[i]);
    binding.push_back({{{i, 1.0}}, i, true});
  }
  for (int level = 0; level < optimum::wish_levels; ++level) {
    const int first = n * level / optimum::wish_levels;
    const int end = n * (level + 1) / optimum::wish_levels;
    std::fill(making.gradient.begin(), making.gradient.end(), 0.0);
    for (const Binding &row : binding)
      if (row.last < end && row.last >= first)
        making.pull(row.row, row.any_sign ? numbers.between(-0.5, 0.5) : numbers.between(0.1, 1));
    if (level + 1 == optimum::wish_levels) making.pull(all, numbers.between(-0.3, 0.3));
    wish_each(making, problem.wishes[level], first, end);
  }
  return making.made;
}

Problem coupled_joins(int joins, int free_lengths, std::uint64_t seed) {
  Numbers numbers(seed);
  Problem problem;
  for (int j = 0; j < joins; ++j)
    problem.block_ends.push_back(6 * (j + 1));
  const int first_length = 6 * joins;
  problem.unknowns = first_length + free_lengths;
  for (int f = 0; f < free_lengths; ++f) {
    const int column = first_length + f;
    // Long edges first, then bands: two of three are long edges.
    const bool band = f % 3 == 2;
    const double aim = band ? numbers.between(180, 260) : numbers.between(400, 560);
    problem.at_least.add(std::vector<Term>{{column, 1.0}}, 0);
    problem.at_least.add(std::vector<Term>{{column, 1.0}}, 0.85 * aim);
    problem.at_least.add(std::vector<Term>{{column, -1.0}}, -1.15 * aim);
    problem.wishes[f % 2 ? 2 : 0].add(std::vector<Term>{{column, 1 / aim}}, 1);
  }
  for (int j = 0; j < joins; ++j) {
    const int l = 6 * j; // long, band of each segment in turn
    const int long_edge = first_length + 3 * (numbers.below(free_lengths) / 3) + numbers.below(2) * (free_lengths > 1);
    const int third = numbers.below(free_lengths / 3) * 3 + 2;
    std::vector<Term> adds_up{{l, 1.0}, {l + 2, 1.0}, {l + 4, 1.0}};
    adds_up.push_back({std::min(long_edge, problem.unknowns - 1), -1.0});
    problem.equal.add(adds_up, 0);
    std::vector<Term> band_adds_up{{l + 1, 1.0}, {l + 3, 1.0}, {l + 5, 1.0}};
    const bool free_band = j % 2;
    if (free_band) band_adds_up.push_back({first_length + third, -1.0});
    problem.equal.add(band_adds_up, free_band ? 0 : numbers.between(180, 260));
    problem.equal.add(std::vector<Term>{{l, 1.0}, {l + 1, -1.0}}, 0);
    problem.equal.add(std::vector<Term>{{l, 1.0}}, 15);
    problem.equal.add(std::vector<Term>{{l + 3, 1.0}, {l + 5, -1.0}}, 0);
    for (int c = 0; c < 6; ++c)
      problem.at_least.add(std::vector<Term>{{l + c, 1.0}}, 0);
    for (const int s : {l + 2, l + 4}) {
      const double scale = 0.1;
      const double ideal = numbers.between(1.7, 2.3);
      problem.limits.add(std::vector<Term>{{s, scale}, {s + 1, -1.18 * scale}}, 0);
      problem.limits.add(std::vector<Term>{{s, -scale}, {s + 1, (ideal + 0.2) * scale}}, 0);
      const double evenness = scale / std::sqrt(ideal - 1);
      problem.wishes[1].add(std::vector<Term>{{s, evenness}, {s + 1, -ideal * evenness}}, 0);
    }
  }
  return problem;
}

void rebuild(const Problem &from, Problem &into) {
  into.unknowns = from.unknowns;
  into.block_ends.assign(from.block_ends.begin(), from.block_ends.end());
  const auto again = [](const Rows &rows, Rows &built) {
    built.clear();
    for (int i = 0; i < rows.size(); ++i)
      built.add(rows.row(i), rows.bound[i]);
  };
  again(from.equal, into.equal);
  again(from.at_least, into.at_least);
  again(from.limits, into.limits);
  for (int level = 0; level < optimum::wish_levels; ++level)
    again(from.wishes[level], into.wishes[level]);
}

double distance(const std::vector<double> &x, const std::vector<double> &optimum) {
  if (x.size() != optimum.size()) return INFINITY;
  double apart = 0;
  double greatest = 0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    if (std::isnan(x[i])) return INFINITY;
    apart = std::max(apart, std::abs(x[i] - optimum[i]));
    greatest = std::max(greatest, std::abs(optimum[i]));
  }
  return greatest > 0 ? apart / greatest : apart;
}

} // namespace gatherwright::bench
