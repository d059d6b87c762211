// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/strip/strips.hpp"

#include "cli/drawing/type.hpp"
#include "cli/report/plan_words.hpp"
#include "cli/report/short_names.hpp"
#include "cli/strip/furniture.hpp"
#include "cli/strip/parts.hpp"
#include "cli/strip/strip.hpp"
#include "cli/strip/strip_drawing.hpp"
#include "cli/strip/tiles.hpp"
#include "cli/words/figures.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace gatherwright::paper {

namespace {

/// Between one strip and the next.
constexpr double between = 2.4;

constexpr std::string_view how_to = "Cut out each strip. Lay its marked edge along the stitching line, mark 0 at the "
                                    "first stitch, and mark the cloth at "
                                    "every line.";

/// Beyond these nothing more is begun: so much paper is not cut, and drawing it would take seconds.
constexpr std::size_t most_pages = 200;
constexpr std::size_t most_drawn = 2'000'000;

std::size_t drawn_in(const std::vector<Item> &items);

/// How much drawing it takes, in points of lines: to begin a line takes as long as ten, words as long as forty and one
/// for every four bytes.
std::size_t drawn_in(const Item &item) {
  if (const auto *line = std::get_if<Line>(&item.is)) return 10 + line->points.size();
  if (const auto *text = std::get_if<Text>(&item.is)) return 40 + text->says.size() / 4;
  return drawn_in(std::get<Group>(item.is).items);
}

std::size_t drawn_in(const std::vector<Item> &items) {
  std::size_t sum = 0;
  for (const Item &item : items)
    sum += drawn_in(item);
  return sum;
}

/// The pages so far, and how much is drawn on them.
struct Stack {
  std::vector<Page> pages;
  std::size_t drawn = 0;

  bool has_room_for(std::size_t more_pages, std::size_t more) const {
    return pages.size() + more_pages <= most_pages && drawn + more <= most_drawn;
  }

  void begin(Page page) {
    drawn += drawn_in(page.items);
    pages.push_back(std::move(page));
  }

  void add(Item item) {
    drawn += drawn_in(item);
    pages.back().items.push_back(std::move(item));
  }
};

/// The name of a join above its strips, below those of another; and its rows of gathering under it.
constexpr double heading_height = 8;
constexpr double rows_height = 4.6;

/// Fills pages from the top, with the strips of one join after another.
class Filler {
public:
  Filler(const Job &job, const Plan &plan, int join, PaperSize size, Stack &stack)
      : job_(job), plan_(plan), join_(join), size_(size), stack_(stack) {}

  double width() { return blank().room.width; }

  void go_on_with(int join) {
    join_ = join;
    headed_ = false;
  }

  /// Nothing more goes on the page at hand.
  void close() { begun_ = false; }

  void place(PartDrawing drawing) {
    const double heading = headed_ ? 0 : heading_height + (rows_said(job_, plan_, join_).empty() ? 0 : rows_height);
    if (!begun_ || used_ + heading + drawing.height > room_.height)
      begin();
    else if (!headed_)
      head();
    move_by(drawing.group.items, {room_.left, room_.top + used_});
    used_ += drawing.height + between;
    stack_.add({std::move(drawing.group)});
  }

private:
  HeadedPage blank() const { return sheet_for(job_, plan_, join_, how_to, size_); }

  void begin() {
    HeadedPage sheet = blank();
    room_ = sheet.room;
    stack_.begin(std::move(sheet.page));
    used_ = 0;
    begun_ = true;
    headed_ = true;
  }

  void head() {
    const Point base{room_.left, room_.top + used_ + heading_height - 2};
    stack_.add({Group{Role::heading,
                      "",
                      {{Text{base, fitted(join_called(job_, plan_, join_), room_.width, 4.4, true), 4.4, true}}}}});
    used_ += heading_height;
    headed_ = true;
    const std::string rows = rows_said(job_, plan_, join_);
    if (rows.empty()) return;
    stack_.add(
        {Group{Role::paragraph, "", {{Text{{base.x, base.y + rows_height}, fitted(rows, room_.width, 3.2), 3.2}}}}});
    used_ += rows_height;
  }

  const Job &job_;
  const Plan &plan_;
  int join_;
  PaperSize size_;
  Stack &stack_;
  Room room_;
  double used_ = 0;
  bool begun_ = false;
  bool headed_ = false; ///< the page at hand names the join
};

constexpr std::string_view too_long_says = "This edge is too long for paper: mark it by the tape, from the table.";
constexpr std::string_view too_much_says =
    "This edge has too many marks to be drawn: mark it by the tape, from the table.";
constexpr std::string_view nothing_says = "This edge comes out as nothing: there is nothing to mark.";

/// Words in place of a strip.
PartDrawing instead(const std::string &title, std::string_view says) {
  return {{Role::paragraph, "", {{Text{{0, 5}, title, 3.6, true}}, {Text{{0, 10}, std::string(says), 3.2}}}}, 13};
}

/// In place of a strip that would take more paper than anyone would lay together, or of one of an edge that is nothing.
PartDrawing without_parts(const Strip &strip) {
  return instead(strip.title, strip.length > 0 ? too_long_says : nothing_says);
}

constexpr std::string_view how_to_drawn = "The solid line is the cut edge, the dashed one the stitching line. Notch or "
                                          "mark the cloth at every line across; short "
                                          "strokes show where it takes fullness.";

/// "; allowances at its ends 1 cm and 1.5 cm", in the order its path is drawn; empty where it has none.
std::string allowances(const Job &job, const std::optional<std::array<double, 2>> &ends) {
  if (!ends) return "";
  return fmt::format("; allowances at its ends {} and {}", words::fine_length((*ends)[0], job.tape()),
                     words::fine_length((*ends)[1], job.tape()));
}

/// Pages of a drawn edge, a tile on each.
class EdgePages {
public:
  EdgePages(const Job &job, const Plan &plan, int join, PaperSize size, Stack &stack)
      : job_(job), plan_(plan), join_(join), size_(size), stack_(stack) {}

  /// False where there is no room left for it.
  bool add(bool band, Pieces pieces) {
    const JoinPlan &planned = plan_.joins.at(join_);
    const Join &sewn = job_.joins.at(join_);
    const std::string title =
        edge_called(job_, sewn, planned, band, pieces) + allowances(job_, band ? planned.band_ends : planned.long_ends);
    const HeadedPage sheet = sheet_for(job_, plan_, join_, how_to_drawn, size_);
    const EdgePicture picture = edge_picture(job_, planned, join_, band, pieces);
    if (picture.items.empty()) return put_words(title, too_long_says);
    const std::size_t drawn = drawn_in(picture.items);
    if (drawn > most_drawn) return put_words(title, too_much_says);
    const auto tiled_below = [&](const std::string &part) {
      const double above = caption_of(title, part, sheet.room.width).height;
      return tiled(picture, sheet.room.width, sheet.room.height - above);
    };
    Tiling tiling = tiled_below("");
    if (tiling.tiles.size() > 1) tiling = tiled_below(part_called(Tile{888, 888, {}}, 888, 888));
    if (tiling.tiles.size() > most_pages) return put_words(title, too_long_says);
    if (!stack_.has_room_for(tiling.tiles.size(), drawn)) return false;
    const std::size_t count = tiling.tiles.size();
    for (std::size_t i = 0; i < count; ++i) {
      Tile &tile = tiling.tiles[i];
      put(title, count > 1 ? part_called(tile, i + 1, count) : "", std::move(tile.items));
    }
    return true;
  }

private:
  static std::string part_called(const Tile &tile, std::size_t number, std::size_t count) {
    return fmt::format("; part {} of {}, row {} and column {}; lay lines with the same letter on each other", number,
                       count, tile.row, tile.column);
  }

  bool put_words(const std::string &title, std::string_view says) {
    if (!stack_.has_room_for(1, 0)) return false;
    put(title, "", {{Text{{0, 5}, std::string(says), 3.2}}});
    return true;
  }

  void put(const std::string &title, const std::string &part, std::vector<Item> items) {
    HeadedPage sheet = sheet_for(job_, plan_, join_, how_to_drawn, size_);
    Caption above = caption_of(title, part, sheet.room.width);
    move_by(above.words.items, {sheet.room.left, sheet.room.top});
    sheet.page.items.push_back({std::move(above.words)});
    move_by(items, {sheet.room.left, sheet.room.top + above.height});
    sheet.page.items.push_back({Group{Role::figure, title, std::move(items)}});
    stack_.begin(std::move(sheet.page));
  }

  const Job &job_;
  const Plan &plan_;
  int join_;
  PaperSize size_;
  Stack &stack_;
};

/// False where there is no room left for all of them.
bool add_drawn_edges(EdgePages &pages, const Join &sewn, const JoinPlan &planned) {
  const bool mirrored = planned.marks_mirrored.has_value();
  for (const bool band : {true, false}) {
    if (!(band ? sewn.band : sewn.long_edge).drawn()) continue;
    if (!pages.add(band, mirrored ? Pieces::first_of_pair : Pieces::all)) return false;
    if (mirrored && !pages.add(band, Pieces::mirrored)) return false;
  }
  return true;
}

std::vector<PartDrawing> drawings_of(const Strip &strip, double width) {
  const std::vector<Part> parts = parts_of(strip, width);
  if (parts.empty()) return {without_parts(strip)};
  std::vector<PartDrawing> drawings;
  for (std::size_t i = 0; i < parts.size(); ++i)
    drawings.push_back(part_drawing(strip, parts[i], static_cast<int>(i) + 1, static_cast<int>(parts.size()), width));
  return drawings;
}

bool add_strips(Filler &filler, const std::vector<Strip> &strips, const Stack &stack) {
  for (const Strip &strip : strips) {
    if (!stack.has_room_for(1, 0)) return false;
    std::vector<PartDrawing> drawings = drawings_of(strip, filler.width());
    std::size_t drawn = 0;
    for (const PartDrawing &drawing : drawings)
      drawn += drawn_in(drawing.group.items);
    if (drawn > most_drawn)
      drawings = {instead(strip.title, too_much_says)};
    else if (!stack.has_room_for(1, drawn))
      return false;
    for (PartDrawing &drawing : drawings)
      filler.place(std::move(drawing));
  }
  return true;
}

/// The joins to be drawn, in their order.
std::vector<int> wanted_of(const Plan &plan, const std::optional<std::vector<JoinId>> &only) {
  std::vector<int> joins;
  for (std::size_t j = 0; j < plan.joins.size(); ++j)
    if (!only || std::find(only->begin(), only->end(), JoinId(static_cast<int>(j))) != only->end())
      joins.push_back(static_cast<int>(j));
  return joins;
}

/// A last page: from which join on there are edges that are not drawn, and of how many `more` joins.
void say_what_is_left_out(const Job &job, const Plan &plan, int join, std::size_t more, PaperSize size, Stack &stack) {
  const std::string also = more == 0 ? "" : fmt::format(" and of {} more", more);
  Filler(job, plan, join, size, stack)
      .place(instead(fmt::format("Edges of this join{} are left out here", also),
                     "This is as much paper as is drawn: mark them by the tape, from the table, or plan fewer joins at "
                     "once."));
}

} // namespace

Document strips(const Job &whole, const Plan &plan, PaperSize size, const std::optional<std::vector<JoinId>> &only) {
  const std::optional<Job> short_named = report::with_short_names(whole);
  const Job &job = short_named ? *short_named : whole;
  Stack stack;
  Filler filler(job, plan, 0, size, stack);
  const std::vector<int> wanted = wanted_of(plan, only);
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    const int join = wanted[i];
    const JoinPlan &planned = plan.joins.at(join);
    const Join &sewn = job.joins.at(join);
    filler.go_on_with(join);
    if (report::is_wrong_way_round(plan, join)) {
      filler.place(instead("No strips of this join", report::no_marks_so));
      continue;
    }
    EdgePages drawn(job, plan, join, size, stack);
    if (add_strips(filler, strips_of(job, planned, join), stack) && add_drawn_edges(drawn, sewn, planned)) {
      if (sewn.long_edge.drawn() || sewn.band.drawn()) filler.close();
      continue;
    }
    say_what_is_left_out(job, plan, join, wanted.size() - i - 1, size, stack);
    break;
  }
  number_pages(stack.pages);
  return {strips_title(job), std::move(stack.pages)};
}

} // namespace gatherwright::paper
