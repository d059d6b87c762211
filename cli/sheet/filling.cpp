// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/sheet/filling.hpp"

#include "gatherwright/text.hpp"

#include <fmt/format.h>

#include <utility>

namespace gatherwright::paper {

namespace {

/// A sentence longer than this is cut short: a thousand threads, a hundred thousand stretches that are alike.
constexpr std::size_t longest_sentence = 20'000;

bool take(std::size_t &left, std::size_t wanted) {
  if (wanted > left) return false;
  left -= wanted;
  return true;
}

} // namespace

std::string cut_short(std::string sentence) {
  if (sentence.size() <= longest_sentence) return sentence;
  sentence.resize(clipped(sentence, longest_sentence).size());
  return sentence + "… The rest of this is left out here, to keep the sheet short; gatherwright plan tells it whole.";
}

std::size_t row_with(std::size_t words) {
  return 1 + words / 100;
}

bool Filling::row(std::size_t words) {
  return take(left_.rows, row_with(words));
}

std::vector<std::string> Filling::sentences(std::vector<std::string> said) {
  std::size_t kept = 0;
  for (; kept < said.size(); ++kept) {
    said[kept] = cut_short(std::move(said[kept]));
    if (!take(left_.letters, said[kept].size())) break;
  }
  if (const std::size_t more = said.size() - kept; more > 0) {
    said.resize(kept);
    said.push_back(fmt::format("{} more {} left out here, {}.", more, more == 1 ? "is" : "are", to_keep_it_short));
  }
  return said;
}

bool Filling::has_room_for_join(std::size_t rows, bool first) {
  if (left_.joins == 0 || left_.rows == 0 || (rows > left_.rows && !first)) return false;
  --left_.joins;
  return true;
}

bool Filling::has_room_for_picture(std::size_t stretches) {
  return take(left_.stretches, stretches);
}

bool Filling::has_room_for_outline(std::size_t points) {
  return take(left_.points, points);
}

bool Filling::has_room_for_piece(std::size_t marks) {
  return left_.pieces > 0 && take(left_.piece_marks, marks) && take(left_.pieces, 1);
}

bool Filling::has_room_for_cloth() {
  return take(left_.cloths, 1);
}

bool Filling::has_room_for_layout(std::size_t placements) {
  return take(left_.placements, placements);
}

void FilledTable::add(std::string name, const std::function<void(Row &)> &rest) {
  if (left_out_ > 0 || !filling_.row(name.size())) {
    ++left_out_;
    return;
  }
  Row row{std::move(name)};
  rest(row);
  made_.table.row(std::move(row));
}

SheetTable FilledTable::take() && {
  if (left_out_ > 0)
    made_.left_out =
        fmt::format("{} more {} left out here, {}.", left_out_, left_out_ == 1 ? "is" : "are", to_keep_it_short);
  return std::move(made_);
}

} // namespace gatherwright::paper
