// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/stock/choice.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <queue>
#include <utility>

namespace gatherwright::stock {

namespace {

using optimum::Problem;
using optimum::Solution;
using optimum::Solver;
using optimum::Status;
using optimum::Term;

/// Budgets of one search: boxes in which the levels are solved, and layouts looked for.
constexpr int most_boxes = 20'000;
constexpr int most_calls = 600;
constexpr int most_calls_of_a_trial = 80;
constexpr int most_calls_of_a_conflict = 600; ///< all that is tried of it

/// A misfit is made smaller length by length, each by so many halvings of what is left.
constexpr int halvings = 4;

/// A length this near to a step, in steps, is on it.
constexpr double on_step = 1e-6;

/// Two choices are equally good where their levels are, within this share of the larger.
constexpr double equal_share = 1e-9;

/// Limits that are passed by no more than this share of the numbers in them are kept.
constexpr double limit_share = 1e-9;

/// A level whose residuals come to less than this is met.
constexpr double nothing = 1e-18;

/// No tape is longer, in steps.
constexpr std::int64_t longest = std::int64_t{1} << 40;

using Levels = std::array<double, optimum::wish_levels + 1>;

/// Rounded to what tells choices apart, so that the order of boxes is one.
Levels rounded(Levels levels, double share) {
  for (double &level : levels) {
    if (!(level > nothing)) {
      level = 0;
      continue;
    }
    int exponent = 0;
    const double mantissa = std::frexp(level * (1 + share), &exponent);
    constexpr double digits = 1 << 28;
    level = std::ldexp(std::floor(mantissa * digits + 0.5) / digits, exponent);
  }
  return levels;
}

bool is_better(const Levels &a, const Levels &b) {
  for (std::size_t i = 0; i < a.size(); ++i) {
    if (std::abs(a[i] - b[i]) <= equal_share * std::max(a[i], b[i]) + nothing) continue;
    return a[i] < b[i];
  }
  return false;
}

struct Box {
  std::vector<std::int64_t> low, high;
  Levels levels{};
  Levels key{};
  std::vector<double> at; ///< the optimum, in steps
  int number = 0;         ///< in the order in which they come
};

struct Later {
  bool operator()(const Box &a, const Box &b) const { return a.key != b.key ? a.key > b.key : a.number > b.number; }
};

class Search {
public:
  Search(const Problem &problem, double step, Shelf &shelf, std::span<const char> left_out, Solver &solver)
      : shelf_(shelf), left_out_(left_out), solver_(solver), step_(step), problem_(problem),
        count_(shelf.columns().size()) {
    for (const int column : shelf.columns()) {
      problem_.at_least.add(std::array<Term, 1>{{{column, 1.0}}}, 0);
      problem_.at_least.add(std::array<Term, 1>{{{column, -1.0}}}, 0);
    }
    start_.emplace(problem_, solver.work());
  }

  /// `first`: the first choice will do, whatever its levels.
  Choice run(bool first) {
    push(std::vector<std::int64_t>(count_, 0), std::vector<std::int64_t>(count_, longest));
    bool complete = start_->done();
    while (complete && !boxes_.empty()) {
      if (best_ && (first || boxes_.top().key > rounded(best_->levels, 4 * equal_share))) break;
      if (number_ > most_boxes || shelf_.spent() || spent()) {
        complete = false;
        break;
      }
      Box box = boxes_.top();
      boxes_.pop();
      look_at(box);
    }
    complete = complete && !unclear_;
    Choice choice;
    choice.proved = complete;
    if (!best_ && !complete) best_of_fits();
    if (best_) {
      choice.outcome = Choice::Outcome::chosen;
      choice.steps = best_->low;
    } else {
      choice.outcome = complete && misfits_ ? Choice::Outcome::none : Choice::Outcome::not_found;
    }
    return choice;
  }

private:
  bool spent() const { return solver_.work() && solver_.work()->spent(); }

  /// Solves the levels within a box; one where level 0 cannot hold is left out.
  void push(std::vector<std::int64_t> low, std::vector<std::int64_t> high) {
    for (std::size_t k = 0; k < count_; ++k)
      if (low[k] > high[k]) return;
    Box box{std::move(low), std::move(high), {}, {}, {}, number_++};
    if (!solve(box)) return;
    box.key = rounded(box.levels, 0);
    boxes_.push(std::move(box));
  }

  bool solve(Box &box) {
    const int first = problem_.at_least.size() - 2 * static_cast<int>(count_);
    for (std::size_t k = 0; k < count_; ++k) {
      problem_.at_least.bound[first + 2 * static_cast<int>(k)] = static_cast<double>(box.low[k]) * step_;
      problem_.at_least.bound[first + 2 * static_cast<int>(k) + 1] = -static_cast<double>(box.high[k]) * step_;
    }
    const Solution &solution = solver_.solve(problem_, Solver::Wanted::point, &*start_);
    if (solution.status == Status::conflict) return false;
    if (solution.status != Status::optimal && solution.status != Status::stalled) {
      unclear_ = true;
      return false;
    }
    box.levels = levels_of(solution);
    box.at.clear();
    for (std::size_t k = 0; k < count_; ++k) {
      const double steps = solution.x[shelf_.columns()[k]] / step_;
      box.at.push_back(std::clamp(steps, static_cast<double>(box.low[k]), static_cast<double>(box.high[k])));
    }
    return true;
  }

  Levels levels_of(const Solution &solution) const {
    Levels levels{};
    const auto residual = [&](const optimum::Rows &rows, int i, double &numbers) {
      double sum = -rows.bound[i];
      numbers = std::abs(rows.bound[i]);
      for (const Term &term : rows.row(i)) {
        sum += term.value * solution.x[term.column];
        numbers += std::abs(term.value * solution.x[term.column]);
      }
      return sum;
    };
    double numbers = 0;
    for (int i = 0; i < problem_.limits.size(); ++i) {
      const double lacks = -residual(problem_.limits, i, numbers);
      if (lacks > limit_share * numbers) levels[0] += lacks * lacks;
    }
    for (int level = 0; level < optimum::wish_levels; ++level)
      for (int i = 0; i < problem_.wishes[level].size(); ++i) {
        const double off = residual(problem_.wishes[level], i, numbers);
        if (std::abs(off) > 1e-12 * numbers) levels[level + 1] += off * off;
      }
    return levels;
  }

  bool fits(const std::vector<std::int64_t> &point) {
    std::vector<double> lengths;
    for (const std::int64_t steps : point)
      lengths.push_back(static_cast<double>(steps) * step_);
    return shelf_.fits(lengths, left_out_);
  }

  /// The step that makes pieces no larger than the optimum does.
  std::int64_t smaller(std::size_t k, double at) const {
    const double nearest = std::round(at);
    if (std::abs(at - nearest) <= on_step || shelf_.ways()[k] == Way::mixed) return static_cast<std::int64_t>(nearest);
    return static_cast<std::int64_t>(shelf_.ways()[k] == Way::shrinks ? std::ceil(at) : std::floor(at));
  }

  void look_at(const Box &box) {
    std::vector<std::int64_t> point;
    std::optional<std::size_t> between; // the length that lies furthest from any step
    double furthest = on_step;
    for (std::size_t k = 0; k < count_; ++k) {
      point.push_back(std::clamp(smaller(k, box.at[k]), box.low[k], box.high[k]));
      const double off = std::abs(box.at[k] - std::round(box.at[k]));
      if (off <= furthest) continue;
      furthest = off;
      between = k;
    }
    if (!fits(point)) return cut(box, point);
    if (between) return branch(box, *between);
    if (box.low == box.high)
      take(box);
    else
      push(point, point);
  }

  void take(const Box &box) {
    if (best_ && !is_better(box.levels, best_->levels) &&
        (is_better(best_->levels, box.levels) || best_->low <= box.low))
      return;
    best_ = box;
  }

  void branch(const Box &box, std::size_t k) {
    const auto below = static_cast<std::int64_t>(std::floor(box.at[k]));
    std::vector<std::int64_t> high = box.high;
    high[k] = below;
    push(box.low, high);
    std::vector<std::int64_t> low = box.low;
    low[k] = below + 1;
    push(low, box.high);
  }

  /// Cuts away what is no smaller than the first misfit on the way from the least corner to a point that does not fit.
  void cut(const Box &box, const std::vector<std::int64_t> &point) {
    misfits_ = true;
    std::vector<std::int64_t> least = point;
    std::int64_t way = 0;
    for (std::size_t k = 0; k < count_; ++k) {
      if (shelf_.ways()[k] == Way::grows) least[k] = box.low[k];
      if (shelf_.ways()[k] == Way::shrinks) least[k] = box.high[k];
      way = std::max(way, std::abs(point[k] - least[k]));
    }
    const auto on_way = [&](std::int64_t n) {
      std::vector<std::int64_t> at = least;
      for (std::size_t k = 0; k < count_; ++k)
        at[k] += static_cast<std::int64_t>(
            std::llround(static_cast<double>(point[k] - least[k]) * static_cast<double>(n) / static_cast<double>(way)));
      return at;
    };
    std::vector<std::int64_t> misfit = least;
    if (way > 0 && fits(least)) {
      std::int64_t fits_at = 0;
      std::int64_t fails_at = way;
      while (fails_at - fits_at > 1) {
        const std::int64_t middle = fits_at + (fails_at - fits_at) / 2;
        (fits(on_way(middle)) ? fits_at : fails_at) = middle;
      }
      fits_.push_back(on_way(fits_at));
      misfit = on_way(fails_at);
    }
    lower(least, misfit);
    leave_smaller(box, misfit);
  }

  /// Makes a misfit smaller while it is one: often some length has no part in it, and all of that goes.
  void lower(const std::vector<std::int64_t> &least, std::vector<std::int64_t> &misfit) {
    for (std::size_t k = 0; k < count_; ++k) {
      if (misfit[k] == least[k]) continue;
      std::int64_t fails_at = std::exchange(misfit[k], least[k]);
      if (!fits(misfit)) continue;
      std::int64_t fits_at = least[k];
      for (int n = 0; n < halvings && std::abs(fails_at - fits_at) > 1; ++n) {
        misfit[k] = fits_at + (fails_at - fits_at) / 2;
        (fits(misfit) ? fits_at : fails_at) = misfit[k];
      }
      misfit[k] = fails_at;
    }
  }

  /// The parts of a box in which some piece is smaller than at a misfit; they do not meet.
  void leave_smaller(const Box &box, const std::vector<std::int64_t> &misfit) {
    std::vector<std::int64_t> low = box.low;
    std::vector<std::int64_t> high = box.high;
    for (std::size_t k = 0; k < count_; ++k) {
      const Way way = shelf_.ways()[k];
      if (way != Way::shrinks) {
        std::vector<std::int64_t> below = high;
        below[k] = misfit[k] - 1;
        push(low, below);
      }
      if (way != Way::grows) {
        std::vector<std::int64_t> above = low;
        above[k] = misfit[k] + 1;
        push(above, high);
      }
      if (way != Way::shrinks) low[k] = std::max(low[k], misfit[k]);
      if (way != Way::grows) high[k] = std::min(high[k], misfit[k]);
    }
  }

  /// The best of the points that were found to fit, where there was no time for more.
  void best_of_fits() {
    constexpr std::size_t most_tried = 200;
    for (std::size_t i = 0; i < std::min(fits_.size(), most_tried); ++i) {
      Box point{fits_[i], fits_[i], {}, {}, {}, 0};
      if (solve(point)) take(point);
    }
  }

  Shelf &shelf_;
  std::span<const char> left_out_;
  Solver &solver_;
  double step_;
  Problem problem_;
  std::size_t count_;
  std::optional<optimum::Elimination> start_;
  std::priority_queue<Box, std::vector<Box>, Later> boxes_;
  std::vector<std::vector<std::int64_t>> fits_;
  std::optional<Box> best_;
  int number_ = 0;
  bool misfits_ = false; ///< something did not fit
  bool unclear_ = false; ///< some box could not be solved
};

/// What is kept of a scheme's level 0; small sizes are wished for, and nothing else.
Problem without(const allot::Scheme &scheme, const std::vector<char> &dropped, const Shelf &shelf) {
  std::vector<char> equal(scheme.problem.equal.size(), 1);
  std::vector<char> at_least(scheme.problem.at_least.size(), 1);
  for (std::size_t c = 0; c < scheme.conditions.size(); ++c) {
    if (!dropped[c]) continue;
    const auto &[is_equal, row] = scheme.condition_rows[c];
    (is_equal ? equal : at_least)[row] = 0;
  }
  Problem kept;
  kept.unknowns = scheme.problem.unknowns;
  kept.block_ends = scheme.problem.block_ends;
  for (int i = 0; i < scheme.problem.equal.size(); ++i)
    if (equal[i]) kept.equal.add(scheme.problem.equal.row(i), scheme.problem.equal.bound[i]);
  for (int i = 0; i < scheme.problem.at_least.size(); ++i)
    if (at_least[i]) kept.at_least.add(scheme.problem.at_least.row(i), scheme.problem.at_least.bound[i]);
  constexpr double one_metre = 1000;
  for (std::size_t k = 0; k < shelf.columns().size(); ++k) {
    if (shelf.ways()[k] == Way::mixed) continue;
    const double towards = shelf.ways()[k] == Way::shrinks ? 1e6 : 0;
    kept.wishes[0].add(std::array<Term, 1>{{{shelf.columns()[k], 1 / one_metre}}}, towards / one_metre);
  }
  return kept;
}

} // namespace

Choice choose(const allot::Scheme &scheme, double tape_step, Shelf &shelf, optimum::Solver &solver, Effort effort) {
  if (shelf.columns().empty()) return {};
  shelf.allow(shelf.calls() + (effort == Effort::trial ? most_calls_of_a_trial : most_calls));
  return Search(scheme.problem, tape_step, shelf, {}, solver).run(false);
}

NamedConflict named_conflict(const allot::Scheme &scheme, double tape_step, Shelf &shelf, optimum::Solver &solver) {
  const std::size_t conditions = scheme.conditions.size();
  const std::size_t cloths = shelf.cloths().size();
  std::vector<char> dropped(conditions, 0);
  std::vector<char> left_out(cloths, 0);
  NamedConflict named;
  shelf.allow(shelf.calls() + most_calls_of_a_conflict);
  const auto still_none = [&] {
    const Problem kept = without(scheme, dropped, shelf);
    const bool all_out = std::all_of(left_out.begin(), left_out.end(), [](char out) { return out != 0; });
    if (all_out) return solver.feasible(kept) == std::optional(false);
    const Choice choice = Search(kept, tape_step, shelf, left_out, solver).run(true);
    if (choice.outcome == Choice::Outcome::not_found) named.irreducible = false;
    return choice.outcome == Choice::Outcome::none;
  };
  for (std::size_t c = cloths; c-- > 0;) {
    left_out[c] = 1;
    if (!shelf.is_aside(c) && !still_none()) left_out[c] = 0;
  }
  for (std::size_t c = conditions; c-- > 0;) {
    dropped[c] = 1;
    if (!still_none()) dropped[c] = 0;
  }
  for (std::size_t c = 0; c < conditions; ++c)
    if (!dropped[c]) named.conditions.push_back(scheme.conditions[c]);
  for (std::size_t c = 0; c < cloths; ++c)
    if (!left_out[c]) named.conditions.push_back(condition::WithinStock{shelf.cloths()[c].at});
  return named;
}

} // namespace gatherwright::stock
