// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/layout/choices.hpp"

#include <bit>

namespace gatherwright::layout {

namespace {

constexpr double most_numbered = 1 << 22;

/// The coefficients of the product of 1 + 2 x + 3 x^2 + ... up to each count: a choice of so many of a kind has one
/// more choices of its own.
std::vector<double> parts_by_size(const std::vector<int> &counts) {
  std::vector<double> parts{1};
  for (const int count : counts) {
    std::vector<double> more(parts.size() + static_cast<std::size_t>(count));
    for (std::size_t i = 0; i < parts.size(); ++i)
      for (std::size_t taken = 0; taken <= static_cast<std::size_t>(count); ++taken)
        more[i + taken] += parts[i] * static_cast<double>(taken + 1);
    parts.swap(more);
  }
  return parts;
}

} // namespace

std::optional<Choices> Choices::of(const Strip &strip) {
  Choices choices;
  int bit = 0;
  double number = 1;
  for (const Kind &kind : strip.kinds) {
    const int width = std::bit_width(static_cast<unsigned>(kind.count)) + 1;
    if (bit + width > 64) return std::nullopt;
    const bool numbered = number <= most_numbered;
    choices.one_.push_back({std::uint64_t{1} << bit, numbered ? static_cast<std::uint32_t>(number) : 0});
    choices.guard_ |= std::uint64_t{1} << (bit + width - 1);
    choices.all_ |= static_cast<std::uint64_t>(kind.count) << bit;
    choices.counts_.push_back(kind.count);
    bit += width;
    number *= kind.count + 1;
  }
  if (number <= most_numbered) choices.numbered_ = static_cast<std::uint32_t>(number);
  choices.parts_ = parts_by_size(choices.counts_);
  return choices;
}

void Choices::parts_of(std::uint32_t number, std::vector<std::uint32_t> &parts) const {
  parts.assign(1, 0);
  for (std::size_t kind = 0; kind < counts_.size(); ++kind) {
    const std::size_t size = parts.size();
    const std::uint32_t one = one_[kind].number;
    const std::uint32_t taken = number / one % static_cast<std::uint32_t>(counts_[kind] + 1);
    parts.resize(size * (taken + 1));
    for (std::size_t i = size; i < parts.size(); ++i)
      parts[i] = parts[i - size] + one;
  }
}

Choice Choices::all() const {
  Choice all;
  for (std::size_t kind = 0; kind < counts_.size(); ++kind)
    for (int copy = 0; copy < counts_[kind]; ++copy)
      all = all + one_[kind];
  return all;
}

} // namespace gatherwright::layout
