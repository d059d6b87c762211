// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/solver/optimum/exact/families.hpp"

#include <cmath>
#include <random>
#include <vector>

namespace gatherwright::tests::exact {

namespace {

using optimum::Problem;
using optimum::Rows;
using optimum::Term;

/// A row with its value at the point round which level 0 is made, which few enough binary digits keep exact.
struct Made {
  std::vector<Term> terms;
  double value = 0;
};

class Maker {
public:
  Maker(Family family, const Draw &draw) : family_(family), draw_(draw) {}

  Problem make() {
    problem_.unknowns = 1 + draw_(most_unknowns);
    for (int column = 0; column < problem_.unknowns; ++column) {
      column_scale_.push_back(columns_are_spread() ? std::ldexp(1.0, draw_(31) - 10) : 1.0);
      const bool fraction = fractions() && !nearly_parallel();
      point_.push_back((fraction ? draw_(513) - 256 : 8 * (draw_(11) - 5)) / 8.0 / column_scale_[column]);
    }
    keeps_ = draw_(5) > 0;
    for (int i = draw_(3); i > 0; --i)
      add_equal(row());
    for (int i = draw_(7); i > 0; --i)
      add_at_least(row());
    for (int i = draw_(5); i > 0; --i)
      add_limit(row());
    for (int level = 0; level < optimum::wish_levels; ++level)
      for (int i = draw_(5); i > 0; --i)
        add_wish(level, row());
    return problem_;
  }

private:
  bool fractions() const { return family_ != Family::whole && (family_ < Family::duplicate || draw_(2) == 0); }
  bool nearly_parallel() const { return family_ == Family::nearly_parallel || family_ == Family::more_nearly_parallel; }
  bool columns_are_spread() const { return family_ == Family::columns_spread || family_ == Family::both_spread; }
  bool rows_are_spread() const { return family_ == Family::rows_spread || family_ == Family::both_spread; }

  double coefficient(bool fraction) {
    const int whole = fraction ? 1 + draw_(255) : 64 * (1 + draw_(2));
    return (draw_(2) ? whole : -whole) / 64.0;
  }

  double value(const std::vector<Term> &terms) const {
    double sum = 0;
    for (const Term &term : terms)
      sum += term.value * point_[term.column];
    return sum;
  }

  Made row() {
    Made made = earlier_.empty() || draw_(2) ? fresh() : again(earlier_[draw_(static_cast<int>(earlier_.size()))]);
    earlier_.push_back(made);
    return made;
  }

  Made fresh() {
    Made made;
    const bool fraction = fractions();
    const double scale = rows_are_spread() ? std::ldexp(1.0, draw_(31) - 10) : 1;
    for (int column = 0; column < problem_.unknowns; ++column)
      if (draw_(2)) made.terms.push_back({column, coefficient(fraction) * column_scale_[column] * scale});
    if (made.terms.empty()) {
      const int column = draw_(problem_.unknowns);
      made.terms.push_back({column, column_scale_[column] * scale});
    }
    made.value = value(made.terms);
    return made;
  }

  /// An earlier row as its family has it again; of the others a fresh one.
  Made again(const Made &earlier) {
    Made made = earlier;
    if (family_ == Family::duplicate || family_ == Family::implied) {
      const double times = std::array{1.0, 1.0, -1.0, 0.5, 3.0, -4.0}[draw_(6)];
      for (Term &term : made.terms)
        term.value *= times;
    } else if (nearly_parallel()) {
      Term &term = made.terms[draw_(static_cast<int>(made.terms.size()))];
      const int digits = (family_ == Family::nearly_parallel ? 14 : 30) + draw_(16);
      term.value += std::ldexp(draw_(2) ? 1.0 : -1.0, -digits);
      if (draw_(2) == 0) return made; // the bound of the other
    } else {
      return fresh();
    }
    made.value = value(made.terms);
    return made;
  }

  /// A distance in the row's own size.
  double room(const Made &row, int most) {
    double size = 0;
    for (const Term &term : row.terms)
      size = std::max(size, std::abs(term.value) / column_scale_[term.column]);
    const double far = family_ == Family::bounds_spread ? std::ldexp(1.0, draw_(41) - 20) : 1;
    return size * far * (fractions() ? draw_(64 * most) / 64.0 : draw_(most + 1));
  }

  void add_equal(const Made &row) {
    problem_.equal.add(row.terms, row.value + (keeps_ || draw_(2) ? 0 : room(row, 3)));
  }

  void add_at_least(const Made &row) {
    const bool met = draw_(2) == 0;
    const double less = met ? 0 : room(row, 3);
    problem_.at_least.add(row.terms, row.value - (keeps_ || draw_(2) ? less : -less));
    if (family_ == Family::implied && draw_(2)) add_opposite(row, draw_(2) ? problem_.at_least : problem_.limits);
  }

  void add_opposite(const Made &row, Rows &rows) {
    std::vector<Term> terms = row.terms;
    for (Term &term : terms)
      term.value = -term.value;
    rows.add(terms, -row.value);
  }

  void add_limit(const Made &row) {
    problem_.limits.add(row.terms, row.value + (draw_(3) ? room(row, 4) : -room(row, 2)));
    if (family_ == Family::implied && draw_(2)) add_opposite(row, problem_.limits);
  }

  void add_wish(int level, const Made &row) {
    problem_.wishes[level].add(row.terms, row.value + (draw_(2) ? room(row, 9) : -room(row, 9)));
  }

  Family family_;
  const Draw &draw_;
  Problem problem_;
  bool keeps_ = true;
  std::vector<double> column_scale_;
  std::vector<double> point_;
  std::vector<Made> earlier_;
};

} // namespace

Problem make_problem(Family family, const Draw &draw) {
  return Maker(family, draw).make();
}

Problem make_problem(Family family, std::uint64_t seed) {
  std::mt19937_64 random(seed);
  return make_problem(family, [&](int below) { return static_cast<int>(random() % static_cast<unsigned>(below)); });
}

} // namespace gatherwright::tests::exact
