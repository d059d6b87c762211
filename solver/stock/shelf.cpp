// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/stock/shelf.hpp"

#include "solver/job/beyond.hpp"
#include "solver/job/settled.hpp"
#include "solver/piece/layouts.hpp"

#include <algorithm>
#include <cmath>

namespace gatherwright::stock {

namespace {

/// Of one question: it is asked often, and most answers come soon.
constexpr layout::Budget of_a_question{3'000'000, 1'000'000};
constexpr layout::Budget nothing_but_bounds{0, 0};

/// Of few rectangles the exhaustive search finds a layout or excludes it sooner than others look in vain.
constexpr layout::Budget of_few{3'000'000, 20'000};

/// Ways to lay that are remembered.
constexpr std::size_t most_arrangements = 40;

/// A layout fits that is longer by no more than this share.
constexpr double rounding = 1e-9;

/// What fits by a known way to lay must be found to fit whenever it is laid: so they are kept only of as many
/// rectangles as are always laid as short as they can be.
bool is_always_proved(const layout::Problem &problem) {
  constexpr int always_proved = 16;
  int count = 0;
  for (const layout::Rectangle &rectangle : problem.rectangles)
    count += rectangle.count;
  return count <= always_proved;
}

bool is_within(const std::vector<double> &small, const std::vector<double> &large) {
  for (std::size_t i = 0; i < small.size(); ++i)
    if (small[i] > large[i]) return false;
  return true;
}

} // namespace

Shelf::Shelf(const Job &job, const allot::Scheme &scheme) : job_(job), scheme_(scheme), of_job_(cloths_of(job)) {
  for (int c = 0; c < static_cast<int>(of_job_.cloths.size()); ++c) {
    const Cloth &cloth = of_job_.cloths[c];
    if (!cloth.stock || !cloth.width) continue;
    Limited limited{ClothId(c), cloth.stock->is.mm * (1 - cloth.shrinkage.along), {}};
    for (int p = 0; p < static_cast<int>(job.pieces.size()); ++p)
      if (of_job_.of_piece[p] == c) limited.pieces.push_back(p);
    cloths_.push_back(std::move(limited));
  }
  aside_.assign(cloths_.size(), 0);
  unknown_.assign(cloths_.size(), 0);
  known_to_fit_.resize(cloths_.size());
  known_not_to_.resize(cloths_.size());
  arrangements_.resize(cloths_.size());
  find_columns();
}

double Shelf::Form::at(std::span<const double> lengths) const {
  double sum = constant;
  for (const auto &[length, coefficient] : terms)
    sum += coefficient * lengths[length];
  return sum;
}

Shelf::Form Shelf::form_of(const Affine &affine, double allowances) const {
  Form form{affine.constant + allowances, {}};
  for (const auto &[symbol, coefficient] : affine.terms) {
    const auto at = std::lower_bound(columns_.begin(), columns_.end(), scheme_.symbol_columns[symbol]);
    form.terms.emplace_back(static_cast<int>(at - columns_.begin()), coefficient);
  }
  return form;
}

/// The lengths in question, and the sizes by them.
void Shelf::find_columns() {
  columns_.clear();
  sizes_.assign(cloths_.size(), {});
  const auto each_term = [&](const auto &visit) {
    for (std::size_t c = 0; c < cloths_.size(); ++c) {
      if (is_aside(c)) continue;
      for (const int p : cloths_[c].pieces)
        for (const Affine *size : {&scheme_.pieces[p].across, &scheme_.pieces[p].along})
          for (const auto &[symbol, coefficient] : size->terms)
            visit(scheme_.symbol_columns[symbol], coefficient);
    }
  };
  each_term([&](int column, double) { columns_.push_back(column); });
  std::sort(columns_.begin(), columns_.end());
  columns_.erase(std::unique(columns_.begin(), columns_.end()), columns_.end());
  std::vector<char> grows(columns_.size(), 0);
  std::vector<char> shrinks(columns_.size(), 0);
  each_term([&](int column, double coefficient) {
    const auto at = std::lower_bound(columns_.begin(), columns_.end(), column) - columns_.begin();
    (coefficient > 0 ? grows : shrinks)[at] = 1;
  });
  ways_.clear();
  for (std::size_t k = 0; k < columns_.size(); ++k)
    ways_.push_back(grows[k] && shrinks[k] ? Way::mixed : shrinks[k] ? Way::shrinks : Way::grows);
  for (std::size_t c = 0; c < cloths_.size(); ++c) {
    if (is_aside(c)) continue;
    for (const int p : cloths_[c].pieces) {
      const auto both = [&](Side one, Side other) {
        return allowance_of(job_, SideAt(PieceId(p), one)) + allowance_of(job_, SideAt(PieceId(p), other));
      };
      sizes_[c].push_back({form_of(scheme_.pieces[p].across, both(Side::left, Side::right)),
                           form_of(scheme_.pieces[p].along, both(Side::top, Side::bottom))});
    }
  }
}

void Shelf::put_aside(std::size_t cloth) {
  aside_[cloth] = 1;
  find_columns();
}

/// Width and length of each piece in turn; of one that is left out nothing, which always fits.
std::vector<double> Shelf::sizes_at(std::size_t cloth, std::span<const double> lengths, bool fixed_only) const {
  std::vector<double> sizes;
  for (const Sizes &each : sizes_[cloth]) {
    const bool left_out = fixed_only && !(each.across.terms.empty() && each.along.terms.empty());
    sizes.push_back(left_out ? 0 : each.across.at(lengths));
    sizes.push_back(left_out ? 0 : each.along.at(lengths));
  }
  return sizes;
}

std::optional<bool> Shelf::fixed_fit(std::size_t cloth) {
  const std::vector<double> nothing(columns_.size(), 0);
  return asked(cloth, sizes_at(cloth, nothing, true));
}

bool Shelf::fits(std::size_t cloth, std::span<const double> lengths) {
  return asked(cloth, sizes_at(cloth, lengths, false)).value_or(false);
}

bool Shelf::fits(std::span<const double> lengths, std::span<const char> left_out) {
  for (std::size_t c = 0; c < cloths_.size(); ++c)
    if (!is_aside(c) && (left_out.empty() || !left_out[c]) && !fits(c, lengths)) return false;
  return true;
}

std::optional<bool> Shelf::asked(std::size_t cloth, const std::vector<double> &sizes) {
  auto &fitting = known_to_fit_[cloth];
  auto &failing = known_not_to_[cloth];
  for (const auto &known : fitting)
    if (is_within(sizes, known)) return true;
  for (const auto &known : failing)
    if (is_within(known, sizes)) return false;
  const std::optional<bool> answer = laid(cloth, sizes);
  if (!answer) ++unknown_[cloth];
  auto &known = answer.value_or(false) ? fitting : failing;
  std::erase_if(known, [&](const auto &other) {
    return answer.value_or(false) ? is_within(other, sizes) : is_within(sizes, other);
  });
  known.push_back(sizes);
  return answer;
}

std::optional<bool> Shelf::laid(std::size_t cloth, const std::vector<double> &sizes) {
  const Limited &limited = cloths_[cloth];
  std::vector<WearersPieces::Size> cut(job_.pieces.size(), {0, 0, true});
  const double width = *usable(of_job_.cloths[limited.at.at]);
  for (std::size_t i = 0; i < limited.pieces.size(); ++i) {
    const double across = sizes[2 * i];
    const double along = sizes[2 * i + 1];
    if (!(across >= layout::least_size) || !(along >= layout::least_size)) continue; // no size to be laid yet
    if (is_above(job_.pieces[limited.pieces[i]].turn ? std::min(across, along) : across, width)) return false;
    cut[limited.pieces[i]] = {across, along, false};
  }
  const layout::Problem problem = piece::problem_of(job_, of_job_, limited.at, cut);
  if (layout::misfit(problem)) return false;
  return laid(cloth, problem);
}

std::optional<bool> Shelf::laid(std::size_t cloth, const layout::Problem &problem) {
  using Answer = layout::Fitting::Answer;
  const bool whole = problem.rectangles.size() == cloths_[cloth].pieces.size();
  if (whole && fits_arranged(cloth, problem)) return true;
  const double most = cloths_[cloth].most * (1 + rounding);
  if (layout::fits(problem, most, nothing_but_bounds).answer == Answer::does_not) return false;
  ++calls_;
  const bool few = is_always_proved(problem);
  layout::Fitting found = layout::fits(problem, most, few ? of_few : of_a_question);
  if (few && found.answer == Answer::not_known) found = layout::fits(problem, most, of_a_question);
  if (found.answer == Answer::not_known) return std::nullopt;
  if (found.layout && whole && few)
    if (auto arrangement = layout::Arrangement::of(problem, *found.layout)) {
      auto &known = arrangements_[cloth];
      known.insert(known.begin(), *std::move(arrangement));
      if (known.size() > most_arrangements) known.pop_back();
    }
  return found.answer == Answer::fits;
}

/// Whether it can be laid in a way that is known from other sizes.
bool Shelf::fits_arranged(std::size_t cloth, const layout::Problem &problem) {
  auto &known = arrangements_[cloth];
  for (auto at = known.begin(); at != known.end(); ++at) {
    const layout::Arrangement::Extent extent = at->extent(problem.rectangles);
    if (is_above(extent.across, problem.width) || extent.along > cloths_[cloth].most * (1 + rounding)) continue;
    std::rotate(known.begin(), at, at + 1);
    return true;
  }
  return false;
}

} // namespace gatherwright::stock
