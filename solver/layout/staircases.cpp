// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/layout/staircases.hpp"

#include <algorithm>

namespace gatherwright::layout {

Staircases::Staircases(const Choices &choices, std::size_t rectangles)
    : by_number_(choices.numbered() > 0), there_(choices.numbered() / 64 + 1),
      slots_(by_number_ ? choices.numbered() : 1 << 12, -1), of_size_(rectangles + 2, 0) {}

/// Where a choice is, or would be put.
std::size_t Staircases::slot_of(const Choice &choice) const {
  if (by_number_) return choice.number;
  std::size_t slot = static_cast<std::size_t>((choice.fields * 0x9E3779B97F4A7C15u) >> 20) & (slots_.size() - 1);
  while (slots_[slot] >= 0 && states_[slots_[slot]].choice.fields != choice.fields)
    slot = (slot + 1) & (slots_.size() - 1);
  return slot;
}

int Staircases::place_of(const Choice &choice) const {
  return slots_[slot_of(choice)];
}

void Staircases::grow() {
  slots_.assign(2 * slots_.size(), -1);
  for (std::size_t i = 0; i < states_.size(); ++i)
    slots_[slot_of(states_[i].choice)] = static_cast<int>(i);
}

int Staircases::find_or_put(const State &state) {
  if (!by_number_ && 2 * (states_.size() + 1) > slots_.size()) grow();
  int &place = slots_[slot_of(state.choice)];
  if (place < 0) {
    if (by_number_) there_[state.choice.number / 64] |= std::uint64_t{1} << (state.choice.number % 64);
    place = static_cast<int>(states_.size());
    states_.push_back(state);
  }
  return place;
}

/// A box that another is within is not in the list.
void Staircases::insert(Joining &joining, const Box &box) {
  if (joining.place < 0) joining.place = find_or_put(joining.state);
  int *link = &states_[joining.place].drafts;
  while (*link >= 0 && drafts_[*link].box.across <= box.across) {
    const Draft &draft = drafts_[*link];
    if (draft.box.along <= box.along) return;
    if (draft.box.across == box.across) break;
    link = &drafts_[*link].next;
  }
  int next = *link;
  while (next >= 0 && drafts_[next].box.along >= box.along)
    next = drafts_[next].next;
  *link = static_cast<int>(drafts_.size());
  drafts_.push_back({box, next});
}

void Staircases::finish(std::size_t size) {
  for (std::size_t i = of_size_[size]; i < states_.size(); ++i) {
    State &state = states_[i];
    const std::size_t begin = boxes_.size();
    for (int at = state.drafts; at >= 0; at = drafts_[at].next)
      boxes_.push_back(drafts_[at].box);
    const std::array<std::optional<Tree::Join>, 3> without{std::nullopt, Tree::Join::behind, Tree::Join::beside};
    for (std::size_t list = 0; list < without.size(); ++list) {
      state.corners[list] = static_cast<int>(corners_.size());
      for (std::size_t box = begin; box < boxes_.size(); ++box)
        if (boxes_[box].join != without[list])
          corners_.push_back({boxes_[box].across, boxes_[box].along, static_cast<int>(box)});
    }
    state.corners[without.size()] = static_cast<int>(corners_.size());
    briefs_.push_back({boxes_[begin].across, boxes_.back().along});
  }
  drafts_.clear();
  std::fill(of_size_.begin() + static_cast<std::ptrdiff_t>(size) + 1, of_size_.end(), states_.size());
}

} // namespace gatherwright::layout
