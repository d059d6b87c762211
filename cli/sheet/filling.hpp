// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/report/table.hpp"
#include "cli/sheet/sheet_content.hpp"

#include <cstddef>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

/// A sheet filled from the top, until it has no more room.
namespace gatherwright::paper {

inline constexpr std::string_view to_keep_it_short =
    "to keep the sheet short; gatherwright plan --json tells all of them";

/// A sentence that goes on without end, ended where nobody reads on.
std::string cut_short(std::string sentence);

/// How many rows one with so many bytes of words counts as.
std::size_t row_with(std::size_t words);

/// What is left of a sheet's room.
class Filling {
public:
  explicit Filling(const SheetRoom &room) : left_(room) {}

  /// Whether there is room for a row with so many bytes of words.
  bool row(std::size_t words);

  /// As many as there is room for, and how many are left out.
  std::vector<std::string> sentences(std::vector<std::string> said);

  /// Of the first join, however many rows it wants, the first are shown; any other comes whole or not at all.
  bool has_room_for_join(std::size_t rows, bool first);

  bool has_room_for_picture(std::size_t stretches);
  bool has_room_for_outline(std::size_t points);
  bool has_room_for_piece(std::size_t marks);
  bool has_room_for_cloth();
  bool has_room_for_layout(std::size_t placements);

private:
  SheetRoom left_;
};

/// A table of as many rows as there is room for.
class FilledTable {
public:
  using Row = std::vector<std::string>;

  FilledTable(std::string caption, report::Table table, Filling &filling)
      : made_{std::move(caption), std::move(table), {}}, filling_(filling) {}

  /// `rest` adds the cells after the name.
  void add(std::string name, const std::function<void(Row &)> &rest);

  SheetTable take() &&;

private:
  SheetTable made_;
  Filling &filling_;
  std::size_t left_out_ = 0;
};

} // namespace gatherwright::paper
