// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/advice/slopes.hpp"

#include "solver/formula/evaluate.hpp"
#include "solver/formula/figure.hpp"

#include <algorithm>

namespace gatherwright::advice {

namespace {

/// Appends every symbol that a formula names, ascending.
Slice append_symbols(const Formula &formula, std::vector<int> &symbols) {
  const auto first = static_cast<std::ptrdiff_t>(symbols.size());
  for (const Formula::Step &step : formula.steps())
    if (step.code == Formula::Code::symbol) symbols.push_back(step.symbol);
  if (symbols.end() - symbols.begin() - first > 1) {
    std::sort(symbols.begin() + first, symbols.end());
    symbols.erase(std::unique(symbols.begin() + first, symbols.end()), symbols.end());
  }
  return {static_cast<std::size_t>(first), symbols.size() - static_cast<std::size_t>(first)};
}

} // namespace

Slopes::Slopes(const Job &job, const Plan &plan, optimum::Work &work)
    : job_(job), work_(work), planned_(job.symbols()), slope_(job.symbols()), named_(job.symbols()) {
  for (std::size_t m = 0; m < job.measures.size(); ++m)
    planned_[m] = job.measures[m].is.mm;
  if (job.fabric.width) planned_[job.symbol_of_cloth_width()] = job.fabric.width->mm;
  for (int i = 0; i < static_cast<int>(job.lengths.size()); ++i) {
    const int symbol = job.symbol_of(LengthId(i));
    planned_[symbol] = *plan.lengths[i].is;
    named_[symbol].terms.emplace_back(symbol, 1.0);
  }
  for (int s = 0; s < job.symbols(); ++s)
    if (!job.length_of(s)) named_[s].constant = planned_[s];
  constexpr std::size_t each_has = 4;
  terms_.reserve(each_has * job.lengths.size());
  symbols_.reserve(each_has * job.lengths.size());
  length_is_.reserve(job.lengths.size());
  for (const NamedLength &length : job.lengths)
    length_is_.push_back(read(length.fixed()));
}

ReadFormula Slopes::read(const Formula *formula) {
  ReadFormula read;
  if (!formula) return read;
  read.formula = formula;
  read.symbols = append_symbols(*formula, symbols_);
  if (read.symbols.count == 0) {
    const auto fixed = value_of(*formula, planned_);
    read.is_affine = fixed.has_value();
    read.at = fixed.value_or(0);
    return read;
  }
  read.terms.first = terms_.size();
  if (const int named = symbols_.back(); formula->steps().size() == 1 && job_.length_of(named)) {
    read.is_affine = true;
    read.at = planned_[named];
    read.terms.count = 1;
    terms_.emplace_back(named, 1.0);
    return read;
  }
  const Outcome<double> constant = formula::evaluate_onto(*formula, named_, terms_);
  if (!constant) {
    terms_.resize(read.terms.first);
    want_by_length();
    return read;
  }
  read.is_affine = true;
  read.terms.count = terms_.size() - read.terms.first;
  read.at = *constant;
  for (const auto &[symbol, coefficient] : read.terms.of(terms_))
    read.at += coefficient * planned_[symbol];
  return read;
}

void Slopes::want_by_length() {
  if (!by_length_.empty()) return;
  by_length_.resize(job_.symbols());
  for (int s = 0; s < job_.symbols(); ++s)
    by_length_[s].constant = planned_[s];
}

bool Slopes::moves_any(std::span<const int> symbols) const {
  if (is_longer(symbols.size()))
    return std::any_of(moved_.begin(), moved_.end(),
                       [&](int symbol) { return std::binary_search(symbols.begin(), symbols.end(), symbol); });
  return std::any_of(symbols.begin(), symbols.end(), [&](int symbol) { return slope_[symbol] != 0; });
}

/// Whether so many symbols or terms are better looked up for those that move than gone through. The lesser work is
/// counted.
bool Slopes::is_longer(std::size_t count) const {
  constexpr std::size_t each_looked_up = 16;
  const bool look_up = !moved_.empty() && each_looked_up * moved_.size() < count;
  work_.add(static_cast<std::int64_t>(look_up ? each_looked_up * moved_.size() : count) + each_look);
  return look_up;
}

void Slopes::add_slopes(std::span<const std::pair<int, double>> terms, Line &line) const {
  if (!is_longer(terms.size())) {
    for (const auto &[symbol, coefficient] : terms)
      line.slope += coefficient * slope_[symbol];
    return;
  }
  for (const int symbol : moved_) {
    const auto at = std::lower_bound(terms.begin(), terms.end(), symbol,
                                     [](const auto &term, int sought) { return term.first < sought; });
    if (at != terms.end() && at->first == symbol) line.slope += at->second * slope_[symbol];
  }
}

/// Of one that is not affine in all lengths.
bool Slopes::work_out(const Formula &formula, Line &line) const {
  constexpr int each_step = 20;
  work_.add(each_step * static_cast<std::int64_t>(formula.steps().size()));
  const Outcome<Affine> value = evaluate(formula, by_length_);
  if (!value) return false;
  line.at = value->constant;
  if (!value->terms.empty()) line.slope = value->terms.front().second;
  return true;
}

bool Slopes::follow(const Dependence &on_it) {
  const auto move = [this](int length, double slope) {
    const int symbol = job_.symbol_of(LengthId(length));
    slope_[symbol] = slope;
    if (by_length_.empty()) return;
    by_length_[symbol].terms.clear();
    if (slope != 0) by_length_[symbol].terms.emplace_back(0, slope);
  };
  moved_.clear();
  move(on_it.lengths.front(), 1);
  for (const int derived : std::span(on_it.lengths).subspan(1)) {
    Line line;
    if (moves(length_is_[derived]) && !line_of(length_is_[derived], line)) return false;
    move(derived, line.slope);
  }
  for (const int length : on_it.lengths)
    if (const int symbol = job_.symbol_of(LengthId(length)); slope_[symbol] != 0) moved_.push_back(symbol);
  std::sort(moved_.begin(), moved_.end());
  return true;
}

void Slopes::stay(const Dependence &on_it) {
  for (const int length : on_it.lengths) {
    const int symbol = job_.symbol_of(LengthId(length));
    slope_[symbol] = 0;
    if (!by_length_.empty()) by_length_[symbol].terms.clear();
  }
}

std::optional<double> Slopes::value_at(double value, const Formula &formula, const Dependence &on_it) const {
  std::vector<double> numbers = planned_;
  const double by = value - planned(LengthId(on_it.lengths.front()));
  for (const int length : on_it.lengths) {
    const int symbol = job_.symbol_of(LengthId(length));
    numbers[symbol] += slope_[symbol] * by;
  }
  return value_of(formula, numbers);
}

} // namespace gatherwright::advice
