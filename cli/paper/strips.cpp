// SPDX-License-Identifier: GPL-3.0-or-later
#include "paper/strips.hpp"

#include "paper/furniture.hpp"
#include "paper/parts.hpp"
#include "paper/strip.hpp"
#include "paper/strip_drawing.hpp"
#include "paper/tiles.hpp"
#include "paper/type.hpp"
#include "words/figures.hpp"

#include <fmt/format.h>

#include <utility>

namespace gatherwright::paper {

namespace {

/// Between one strip and the next.
constexpr double between = 2.4;

constexpr std::string_view how_to = "Cut out each strip. Lay its marked edge along the stitching line, mark 0 at the "
                                    "first stitch, and mark the cloth at "
                                    "every line.";

/// Fills pages of one join from the top.
class Filler {
public:
  Filler(const Job &job, const Plan &plan, int join, PaperSize size, std::vector<Page> &pages)
      : job_(job), plan_(plan), join_(join), size_(size), pages_(pages) {}

  double width() { return blank().room.width; }

  void place(PartDrawing drawing) {
    if (!begun_ || used_ + drawing.height > room_.height) begin();
    move_by(drawing.group.items, {room_.left, room_.top + used_});
    used_ += drawing.height + between;
    pages_.back().items.push_back({std::move(drawing.group)});
  }

private:
  Sheet blank() const { return sheet_for(job_, plan_, join_, how_to, size_); }

  void begin() {
    Sheet sheet = blank();
    room_ = sheet.room;
    pages_.push_back(std::move(sheet.page));
    used_ = 0;
    begun_ = true;
  }

  const Job &job_;
  const Plan &plan_;
  int join_;
  PaperSize size_;
  std::vector<Page> &pages_;
  Room room_;
  double used_ = 0;
  bool begun_ = false;
};

constexpr std::string_view too_long_says = "This edge is too long for paper: mark it by the tape, from the table.";

/// In place of a strip that would take more paper than anyone would lay together.
PartDrawing too_long(const Strip &strip) {
  return {
      {Role::paragraph, "", {{Text{{0, 5}, strip.title, 3.6, true}}, {Text{{0, 10}, std::string(too_long_says), 3.2}}}},
      13};
}

constexpr std::string_view how_to_drawn = "The solid line is the cut edge, the dashed one the stitching line. Notch or "
                                          "mark the cloth at every line across; short "
                                          "strokes show where it takes fullness.";

/// "; allowances at its ends 1 cm and 1.5 cm", in the order its path is drawn; empty where it has none.
std::string allowances(const Job &job, const Edge &edge) {
  if (!edge.ends) return "";
  return fmt::format("; allowances at its ends {} and {}", words::length((*edge.ends)[0].mm, job.tape()),
                     words::length((*edge.ends)[1].mm, job.tape()));
}

/// Pages of a drawn edge, a tile on each.
class EdgePages {
public:
  EdgePages(const Job &job, const Plan &plan, int join, PaperSize size, std::vector<Page> &pages)
      : job_(job), plan_(plan), join_(join), size_(size), pages_(pages) {}

  void add(bool band, Pieces pieces) {
    const JoinPlan &planned = plan_.joins.at(join_);
    const Join &sewn = job_.joins.at(join_);
    const std::string title =
        edge_called(job_, sewn, planned, band, pieces) + allowances(job_, band ? sewn.band : sewn.long_edge);
    const Sheet sheet = sheet_for(job_, plan_, join_, how_to_drawn, size_);
    const EdgePicture picture = edge_picture(job_, planned, join_, band, pieces);
    if (picture.items.empty()) return put(title, "", {{Text{{0, 5}, std::string(too_long_says), 3.2}}});
    Tiling tiling = tiled(picture, sheet.room.width, sheet.room.height - caption_height);
    for (std::size_t i = 0; i < tiling.tiles.size(); ++i) {
      Tile &tile = tiling.tiles[i];
      std::string part;
      if (tiling.tiles.size() > 1)
        part = fmt::format("; part {} of {}, row {} and column {}; lay lines with the same letter on each other", i + 1,
                           tiling.tiles.size(), tile.row, tile.column);
      put(title, part, std::move(tile.items));
    }
  }

private:
  static constexpr double caption_height = 6.4;

  void put(const std::string &title, const std::string &part, std::vector<Item> items) {
    Sheet sheet = sheet_for(job_, plan_, join_, how_to_drawn, size_);
    const double base = sheet.room.top + caption_height - 2.4;
    const std::string shown = fitted(title, sheet.room.width - text_width(part, 3.2), 3.6, true);
    const double width = text_width(shown, 3.6, true);
    sheet.page.items.push_back({Group{Role::paragraph,
                                      "",
                                      {{Text{{sheet.room.left, base}, shown, 3.6, true}},
                                       {Text{{sheet.room.left + width + 0.6, base}, part, 3.2}}}}});
    move_by(items, {sheet.room.left, sheet.room.top + caption_height});
    sheet.page.items.push_back({Group{Role::figure, title, std::move(items)}});
    pages_.push_back(std::move(sheet.page));
  }

  const Job &job_;
  const Plan &plan_;
  int join_;
  PaperSize size_;
  std::vector<Page> &pages_;
};

void add_drawn_edges(EdgePages &pages, const Join &sewn, const JoinPlan &planned) {
  for (const bool band : {true, false}) {
    if (!(band ? sewn.band : sewn.long_edge).drawn) continue;
    const bool mirrored = !planned.marks_mirrored.empty();
    pages.add(band, mirrored ? Pieces::first_of_pair : Pieces::all);
    if (mirrored) pages.add(band, Pieces::mirrored);
  }
}

void add_strips(Filler &filler, const std::vector<Strip> &strips) {
  for (const Strip &strip : strips) {
    const std::vector<Part> parts = parts_of(strip, filler.width());
    if (parts.empty()) filler.place(too_long(strip));
    for (std::size_t i = 0; i < parts.size(); ++i)
      filler.place(
          part_drawing(strip, parts[i], static_cast<int>(i) + 1, static_cast<int>(parts.size()), filler.width()));
  }
}

} // namespace

Document strips(const Job &job, const Plan &plan, PaperSize size) {
  Document document{strips_title(job), {}};
  for (std::size_t j = 0; j < plan.joins.size(); ++j) {
    const int join = static_cast<int>(j);
    Filler filler(job, plan, join, size, document.pages);
    add_strips(filler, strips_of(job, plan.joins[j], join));
    EdgePages drawn(job, plan, join, size, document.pages);
    add_drawn_edges(drawn, job.joins.at(j), plan.joins[j]);
  }
  number_pages(document.pages);
  return document;
}

} // namespace gatherwright::paper
