// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/solver/optimum/exact/lexicographic.hpp"

#include "tests/solver/optimum/exact/least_squares.hpp"

#include <algorithm>
#include <stdexcept>

namespace gatherwright::tests::exact {

namespace {

/// The points that keep some equalities: a point, and the directions (each of as many numbers as there are unknowns)
/// in which they reach on.
class Plane {
public:
  explicit Plane(int unknowns) : point_(unknowns) {
    for (int column = 0; column < unknowns; ++column) {
      directions_.emplace_back(unknowns);
      directions_.back()[column] = 1;
    }
  }

  int size() const { return static_cast<int>(directions_.size()); }
  const Vector &point() const { return point_; }
  const Matrix &directions() const { return directions_; }

  /// What a row is along the directions, with what is left of its bound at the point.
  Row along(const Row &row) const {
    Row seen{Vector(directions_.size()), row.bound - dot(row.terms, point_)};
    for (std::size_t k = 0; k < directions_.size(); ++k)
      seen.terms[k] = dot(row.terms, directions_[k]);
    return seen;
  }

  /// False: the plane does not meet the equality.
  bool hold(const Row &equality) {
    const Row seen = along(equality);
    const auto found = std::find_if(seen.terms.begin(), seen.terms.end(), [](const Number &n) { return sgn(n) != 0; });
    if (found == seen.terms.end()) return sgn(seen.bound) == 0;
    const std::size_t pivot = found - seen.terms.begin();
    const Vector direction = directions_[pivot];
    add(point_, seen.bound / seen.terms[pivot], direction);
    for (std::size_t k = 0; k < directions_.size(); ++k)
      if (k != pivot) add(directions_[k], -seen.terms[k] / seen.terms[pivot], direction);
    directions_.erase(directions_.begin() + static_cast<std::ptrdiff_t>(pivot));
    return true;
  }

  void move(const Vector &along_directions) {
    for (std::size_t k = 0; k < directions_.size(); ++k)
      add(point_, along_directions[k], directions_[k]);
  }

private:
  Vector point_;
  Matrix directions_;
};

std::vector<Row> dense(const optimum::Rows &rows, int unknowns) {
  std::vector<Row> made;
  for (int i = 0; i < rows.size(); ++i) {
    Row row{Vector(unknowns), Number(rows.bound[i])};
    for (const optimum::Term &term : rows.row(i))
      row.terms[term.column] += Number(term.value);
    made.push_back(std::move(row));
  }
  return made;
}

std::vector<Row> along(const Plane &plane, const std::vector<Row> &rows) {
  std::vector<Row> seen;
  for (const Row &row : rows)
    seen.push_back(plane.along(row));
  return seen;
}

/// Whether a point of the plane reaches all these bounds; the plane's point is then one.
bool reach(Plane &plane, const std::vector<Row> &rows, Vector *multipliers = nullptr) {
  const LeastSquares problem{plane.size(), {}, along(plane, rows), {}};
  const Least found = least(problem, Vector(plane.size()));
  plane.move(found.y);
  bool reached = true;
  if (multipliers) multipliers->assign(rows.size(), 0);
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const Number rest = rows[i].rest(plane.point());
    if (sgn(rest) >= 0) continue;
    reached = false;
    if (multipliers) (*multipliers)[i] = -rest;
  }
  return reached;
}

class Levels {
public:
  explicit Levels(const optimum::Problem &problem)
      : unknowns_(problem.unknowns), equal_(dense(problem.equal, unknowns_)),
        at_least_(dense(problem.at_least, unknowns_)), limits_(dense(problem.limits, unknowns_)), plane_(unknowns_) {
    for (const optimum::Rows &wishes : problem.wishes)
      wishes_.push_back(dense(wishes, unknowns_));
  }

  Answer solve() {
    if (!hold_level_0()) return answer_;
    answer_.feasible = true;
    answer_.at_least_binds.assign(at_least_.size(), 0);
    answer_.limit_binds.assign(limits_.size(), 0);
    meet_limits();
    for (std::size_t level = 0; level < wishes_.size(); ++level) {
      const Least found = least({plane_.size(), along(plane_, wishes_[level]), {}, hard()}, Vector(plane_.size()));
      take(found);
      for (const Row &wish : wishes_[level]) {
        const Number rest = wish.rest(plane_.point());
        answer_.least[level + 1] += rest * rest;
        plane_.hold({wish.terms, dot(wish.terms, plane_.point())});
      }
    }
    answer_.x = plane_.point();
    find_loose();
    return answer_;
  }

private:
  bool hold_level_0() {
    for (std::size_t i = 0; i < equal_.size(); ++i)
      if (!plane_.hold(equal_[i])) {
        contradict(Vector(at_least_.size()), static_cast<int>(i));
        return false;
      }
    Vector short_by;
    if (reach(plane_, at_least_, &short_by)) return true;
    contradict(std::move(short_by), -1);
    return false;
  }

  /// The equalities' multipliers with which these of the inequalities, and 1 of that equality, sum to no terms.
  void contradict(Vector at_least, int equality) {
    Vector sum(unknowns_);
    Number bound = 0;
    for (std::size_t i = 0; i < at_least.size(); ++i) {
      add(sum, -at_least[i], at_least_[i].terms);
      bound += at_least[i] * at_least_[i].bound;
    }
    const std::size_t others = equality < 0 ? equal_.size() : static_cast<std::size_t>(equality);
    if (equality >= 0) {
      add(sum, -1, equal_[equality].terms);
      bound += equal_[equality].bound;
    }
    Matrix columns(unknowns_, Vector(others));
    for (int c = 0; c < unknowns_; ++c)
      for (std::size_t i = 0; i < others; ++i)
        columns[c][i] = equal_[i].terms[c];
    Vector equal = exact::solve(std::move(columns), std::move(sum), static_cast<int>(others)).value();
    for (std::size_t i = 0; i < others; ++i)
      bound += equal[i] * equal_[i].bound;
    equal.resize(equal_.size());
    if (equality >= 0) equal[equality] = 1;
    if (sgn(bound) < 0)
      for (Number &times : equal)
        times = -times;
    if (sgn(bound) == 0 || (sgn(bound) < 0 && !is_zero(at_least))) throw std::logic_error("a conflict that is none");
    answer_.conflict_equal = std::move(equal);
    answer_.conflict_at_least = std::move(at_least);
  }

  void meet_limits() {
    Least found = least({plane_.size(), {}, along(plane_, limits_), along(plane_, at_least_)}, Vector(plane_.size()));
    take(found);
    std::vector<Row> can_hold;
    for (std::size_t i = 0; i < limits_.size(); ++i) {
      const Number rest = limits_[i].rest(plane_.point());
      answer_.violation.push_back(sgn(rest) < 0 ? Number(-rest) : Number(0));
      answer_.least[0] += answer_.violation[i] * answer_.violation[i];
      if (sgn(rest) >= 0) continue;
      answer_.limit_binds[i] = 1;
      plane_.hold({limits_[i].terms, dot(limits_[i].terms, plane_.point())});
    }
  }

  /// Level 0's inequalities, then the limits less their least violations.
  std::vector<Row> hard() const {
    std::vector<Row> rows = along(plane_, at_least_);
    for (std::size_t i = 0; i < limits_.size(); ++i)
      rows.push_back(plane_.along({limits_[i].terms, limits_[i].bound - answer_.violation[i]}));
    return rows;
  }

  void take(const Least &found) {
    plane_.move(found.y);
    for (std::size_t i = 0; i < found.multipliers.size(); ++i) {
      if (sgn(found.multipliers[i]) == 0) continue;
      if (i < at_least_.size())
        answer_.at_least_binds[i] = 1;
      else
        answer_.limit_binds[i - at_least_.size()] = 1;
    }
  }

  /// An unknown is loose where a direction that changes it leaves all that is held, and leads from no row that is met
  /// to below it.
  void find_loose() {
    answer_.loose.assign(unknowns_, 0);
    std::vector<Row> met;
    for (Row &row : hard())
      if (sgn(row.bound) == 0) met.push_back({std::move(row.terms), 0});
    for (int column = 0; column < unknowns_; ++column) {
      Vector change;
      for (const Vector &direction : plane_.directions())
        change.push_back(direction[column]);
      if (is_zero(change)) continue;
      for (const int way : {1, -1}) {
        Plane directions(plane_.size());
        directions.hold({change, way});
        if (!reach(directions, met)) continue;
        answer_.loose[column] = 1;
        break;
      }
    }
  }

  int unknowns_;
  std::vector<Row> equal_;
  std::vector<Row> at_least_;
  std::vector<Row> limits_;
  std::vector<std::vector<Row>> wishes_;
  Plane plane_;
  Answer answer_;
};

} // namespace

bool Answer::unique() const {
  return std::none_of(loose.begin(), loose.end(), [](char is_loose) { return is_loose != 0; });
}

Answer solve(const optimum::Problem &problem) {
  return Levels(problem).solve();
}

RowValue value(const optimum::Rows &rows, int row, const Vector &x) {
  RowValue found{-Number(rows.bound[row]), abs(Number(rows.bound[row]))};
  for (const optimum::Term &term : rows.row(row)) {
    const Number part = Number(term.value) * x[term.column];
    found.rest += part;
    found.size += abs(part);
  }
  return found;
}

Vector numbers(std::span<const double> values) {
  Vector made;
  for (const double value : values)
    made.emplace_back(value);
  return made;
}

} // namespace gatherwright::tests::exact
