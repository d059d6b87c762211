// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/optimum/left_rows.hpp"

#include "solver/optimum/tolerances.hpp"

#include <cmath>
#include <numeric>

namespace gatherwright::optimum {

void LeftRows::begin(int shared) {
  rows_.clear();
  kept_.clear();
  fixed_.assign(shared, 0);
  fixes_.clear();
  fix_terms_.clear();
}

void LeftRows::begin(const LeftRows &from) {
  rows_ = from.rows_;
  kept_ = from.kept_;
  fixed_ = from.fixed_;
  fixes_ = from.fixes_;
  fix_terms_ = from.fix_terms_;
}

void LeftRows::take(ReducedRows::Pen &pen, double norm) {
  pen.end_row(-1, 0, norm);
  rows_.take(pen);
  kept_.push_back(1);
}

/// The place of a row's one term on an open unknown; -1 where it has none or several.
int LeftRows::only_open_term(int left) const {
  int only = -1;
  for (int k = rows_[left].first; k < rows_[left].end; ++k) {
    const Term &term = rows_.terms()[k];
    if (fixed_[term.column] != 0 || std::abs(term.value) <= tolerance::dependent_share * rows_[left].norm) continue;
    if (only >= 0) return -1;
    only = k;
  }
  return only;
}

std::span<const int> LeftRows::fix_single_ones(const Freedom &freedom, const WorkCounter &count) {
  newly_fixed_.clear();
  for (bool again = true; again;) {
    again = false;
    count.add(rows_.size());
    for (int i = 0; i < rows_.size(); ++i) {
      if (!is_kept(i)) continue;
      const int term = only_open_term(i);
      if (term < 0) continue;
      if (newly_fixed_.empty()) find_touching(freedom.maps());
      add_fix(i, rows_.terms()[term], freedom, count);
      again = true;
    }
  }
  return newly_fixed_;
}

void LeftRows::add_fix(int left, const Term &term, const Freedom &freedom, const WorkCounter &count) {
  const int shared = term.column;
  Fix &made = fixes_.emplace_back();
  made = {left, shared, term.value, static_cast<int>(fix_terms_.size()), 0};
  fix_terms_.push_back({freedom.shared_begin() + shared, 1.0});
  for (int t = touching_start_[shared]; t < touching_start_[shared + 1]; ++t) {
    const BlockMap &map = freedom.maps()[touching_[t]];
    count.add(map.size);
    const int c = map.column_of(shared);
    for (int i = 0; i < map.size; ++i)
      if (const double along = map.row(i)[c]; along != 0) fix_terms_.push_back({map.begin + i, along});
  }
  made.end_term = static_cast<int>(fix_terms_.size());
  kept_[left] = 0;
  fixed_[shared] = 1;
  newly_fixed_.push_back(shared);
}

/// Which blocks touch each shared unknown.
void LeftRows::find_touching(const BlockMaps &maps) {
  touching_start_.assign(fixed_.size() + 1, 0);
  for (const BlockMap &map : maps.all())
    for (const int s : map.touched)
      ++touching_start_[s + 1];
  std::partial_sum(touching_start_.begin(), touching_start_.end(), touching_start_.begin());
  touching_.resize(touching_start_.back());
  next_.assign(touching_start_.begin(), touching_start_.end() - 1);
  for (int j = 0; j < maps.size(); ++j)
    for (const int s : maps[j].touched)
      touching_[next_[s]++] = j;
}

/// Where each shared unknown stands in the rows.
void LeftRows::find_places(const WorkCounter &count) {
  places_start_.assign(fixed_.size() + 1, 0);
  for (const Term &term : rows_.all_terms())
    ++places_start_[term.column + 1];
  std::partial_sum(places_start_.begin(), places_start_.end(), places_start_.begin());
  places_.resize(places_start_.back());
  next_.assign(places_start_.begin(), places_start_.end() - 1);
  for (int i = 0; i < rows_.size(); ++i)
    for (const Term &term : terms_of(i))
      places_[next_[term.column]++] = Place{i, term.value};
  count.add(static_cast<std::int64_t>(places_.size()));
}

void LeftRows::move_fixed(int first_fix, int end_fix, Freedom &freedom, const WorkCounter &count) {
  if (end_fix == first_fix) return;
  find_places(count);
  for (int f = first_fix; f < end_fix; ++f) {
    const Fix &made = fixes_[f];
    const double by = rows_[made.left].rest / made.value;
    if (by == 0) continue;
    count.add(made.end_term - made.first_term);
    for (const Term &term : moved_by(made))
      freedom.move_unknown(term.column, by * term.value);
    for (int k = places_start_[made.shared]; k < places_start_[made.shared + 1]; ++k)
      rows_[places_[k].row].rest -= by * places_[k].value;
  }
}

void LeftRows::move(std::span<const double> y, const OpenUnknowns &open) {
  for (int i = 0; i < rows_.size(); ++i) {
    if (!is_kept(i)) continue;
    for (const Term &term : terms_of(i))
      if (!open.is_fixed(term.column)) rows_[i].rest -= term.value * y[open.place(term.column)];
  }
}

int LeftRows::append_kept(const OpenUnknowns &open, ReducedRows &into) const {
  int kept = 0;
  for (int i = 0; i < rows_.size(); ++i) {
    if (!is_kept(i)) continue;
    const std::span<const Term> terms = terms_of(i);
    ReducedRows::Pen pen = into.pen(1, terms.size());
    for (const Term &term : terms)
      if (!open.is_fixed(term.column)) pen.put(open.place(term.column), term.value);
    pen.end_row(-1, rows_[i].rest, rows_[i].norm);
    into.take(pen);
    ++kept;
  }
  return kept;
}

} // namespace gatherwright::optimum
