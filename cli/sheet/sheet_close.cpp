// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/sheet/sheet_close.hpp"

#include "cli/picture/drawn_edge_picture.hpp"
#include "cli/picture/fullness_picture.hpp"
#include "cli/picture/join_picture.hpp"
#include "cli/report/plan_words.hpp"
#include "cli/sheet/columns.hpp"
#include "cli/sheet/pieces_blocks.hpp"
#include "cli/sheet/sheet_blocks.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <vector>

namespace gatherwright::paper {

namespace {

constexpr double join_heading_high = 12; ///< of a join, with the gap before it

Blocks joined(Blocks first, const Blocks &rest) {
  first.insert(first.end(), rest.begin(), rest.end());
  return first;
}

void put_columns(PageFlow &flow, const Blocks &blocks) {
  if (blocks.empty()) return;
  Columns(flow, blocks, flow.half_width()).set(flow);
}

/// Lists beside each other.
void put_lists(PageFlow &flow, const SheetList &one, const SheetList &other) {
  Blocks blocks;
  for (const SheetList *list : {&one, &other})
    if (!list->sentences.empty())
      blocks.push_back({[list](PageFlow &at) {
        at.small_heading(list->heading, first_lines);
        at.list(list->sentences, "•");
      }});
  put_columns(flow, blocks);
}

/// Lengths whose room is known, in the table; the others, which are all told by their place, in a sentence below it.
struct LengthsSaid {
  SheetTable with_room;
  std::string others;
};

LengthsSaid lengths_said(const SheetTable &lengths) {
  LengthsSaid said{{lengths.caption, report::Table(lengths.table.headed()), lengths.left_out}, ""};
  for (const std::vector<std::string> &row : lengths.table.cells())
    if (row.back().empty())
      said.others += fmt::format("{}{} {}", said.others.empty() ? "" : ", ", row[0], row[1]);
    else
      said.with_room.table.row(row);
  return said;
}

bool is_of_lengths(const SheetTable &table) {
  return table.table.headed().back().heading == report::room_heading;
}

void put_lengths(PageFlow &flow, const SheetTable &lengths) {
  const LengthsSaid said = lengths_said(lengths);
  const bool tabled = !said.with_room.table.cells().empty();
  if (tabled || said.others.empty()) put_table(flow, said.with_room);
  if (said.others.empty()) return;
  flow.paragraph(tabled ? fmt::format("Others: {}.", said.others)
                        : fmt::format("{}: {}.", lengths.caption, said.others));
}

/// Tables and rules together in two columns, or the rules over both below the tables; of a job with pieces their sizes
/// at the left, all else at the right or in two columns below.
void sizes_and_rules(PageFlow &flow, const Sheet &sheet) {
  const double half = flow.half_width();
  Blocks tables;
  if (sheet.pieces && !sheet.between_seams.empty())
    tables.push_back({[&sheet](PageFlow &at) { at.paragraph(sheet.between_seams); }});
  for (const SheetTable &each : sheet.to_cut)
    if (!each.told_by_joins || !sheet.joins_left_out.empty())
      tables.push_back({[&each](PageFlow &at) { is_of_lengths(each) ? put_lengths(at, each) : put_table(at, each); },
                        std::min(half, flow.table_width(each.table))});
  const PageFlow::Content rules = [&sheet](PageFlow &at) {
    if (sheet.rules.sentences.empty()) return;
    at.small_heading(sheet.rules.heading, first_lines);
    at.list(sheet.rules.sentences, "");
  };
  if (!sheet.pieces && tables.empty() && sheet.rules.sentences.empty()) {
    if (!sheet.between_seams.empty()) flow.paragraph(sheet.between_seams);
    return;
  }
  flow.heading("What to cut", first_lines + 20);
  if (!sheet.pieces && !sheet.between_seams.empty()) flow.paragraph(sheet.between_seams);
  std::vector<Rows> ways(2);
  if (sheet.pieces) {
    const double widest = flow.table_width(sheet.pieces->sizes.table);
    const Block sizes{[&sheet](PageFlow &at) { put_sizes(at, *sheet.pieces); }, std::min(widest, flow.width())};
    for (Rows &way : ways)
      way.add(Columns(flow, {sizes}, half));
    if (const double left = std::max(half, widest); left < 0.65 * flow.width())
      ways.emplace_back().add(Columns(flow, joined({sizes}, joined(tables, {{rules}})), left));
  }
  ways[0].add(Columns(flow, tables, half));
  ways[0].add(Columns(flow, {{rules}}, half));
  ways[1].add(Columns(flow, joined(tables, {{rules}}), half));
  lowest(ways).set(flow);
}

/// What stands of one join, block by block.
class JoinBlocks {
public:
  JoinBlocks(const Job &job, const Plan &plan, const JoinSheet &sheet)
      : job_(job), asked_(job.joins.at(sheet.join)), planned_(plan.joins.at(sheet.join)), sheet_(sheet) {}

  Blocks pictures() const {
    Blocks blocks;
    if (!sheet_.drawn) return blocks;
    blocks.push_back({[this](PageFlow &flow) {
      put_figure(flow, join_picture(job_, asked_, planned_, flow.width(), MarksCalled::by_number),
                 sheet_.of_the_picture);
    }});
    for (const AsDrawn &each : sheet_.as_drawn)
      blocks.push_back({[this, &each](PageFlow &flow) {
        put_figure(flow, drawn_edge_picture(job_, asked_, planned_, each.edge, flow.width()), {each.caption});
      }});
    if (!sheet_.fullest.empty())
      blocks.push_back({[this](PageFlow &flow) {
        put_figure(flow, *fullness_picture(asked_, planned_, flow.width()), {sheet_.fullest});
      }});
    return blocks;
  }

  /// No table in a column narrower than `widest`; what is said in place of marks under their table, or apart from it.
  Blocks tables(double widest, bool words_apart) const {
    const auto words = [this](PageFlow &flow) {
      put_paragraphs(flow, sheet_.below_marks);
      if (!sheet_.marks_mirrored && !sheet_.mirrored.empty()) flow.paragraph(sheet_.mirrored);
    };
    Blocks blocks;
    blocks.push_back({[this, words, words_apart](PageFlow &flow) {
                        put_table(flow, sheet_.marks);
                        if (!words_apart) words(flow);
                      },
                      widest});
    if (words_apart) blocks.push_back({words});
    if (sheet_.marks_mirrored)
      blocks.push_back({[this](PageFlow &flow) {
                          put_table(flow, *sheet_.marks_mirrored);
                          put_paragraphs(flow, sheet_.below_mirrored);
                        },
                        widest});
    if (!sheet_.working.empty())
      blocks.push_back({[this](PageFlow &flow) {
        flow.gap(1);
        put_paragraphs(flow, sheet_.working);
      }});
    return blocks;
  }

  /// Whether every mark has its line in a picture so wide.
  bool can_be_drawn_in(double width) const {
    constexpr double between_marks = 1.2;
    constexpr double between_names = 5;
    const auto named =
        std::count_if(planned_.marks.begin(), planned_.marks.end(), [](const Mark &mark) { return mark.reference; });
    return static_cast<double>(planned_.marks.size()) * between_marks < width &&
           static_cast<double>(named) * between_names < width;
  }

  /// What the wider of its tables takes.
  double table_width(const PageFlow &flow) const {
    const double table = flow.table_width(sheet_.marks.table);
    return sheet_.marks_mirrored ? std::max(table, flow.table_width(sheet_.marks_mirrored->table)) : table;
  }

private:
  static void put_figure(PageFlow &flow, const Page &drawing, const std::vector<std::string> &caption) {
    flow.gap(1.5);
    flow.figure(drawing);
    put_paragraphs(flow, caption);
  }

  const Job &job_;
  const Join &asked_;
  const JoinPlan &planned_;
  const JoinSheet &sheet_;
};

/// The ways a join may stand: words, pictures and tables below each other, the tables at the left with what is said of
/// them beside; words over both columns, or all in two columns, the tables at the right.
std::vector<Rows> ways_of(const PageFlow &flow, const JoinBlocks &blocks, const Block &words) {
  const double whole = flow.width();
  const double half = flow.half_width();
  const double table = std::clamp(blocks.table_width(flow), half, 0.7 * whole);
  const double least_table = std::min(table, blocks.table_width(flow));
  const bool small = blocks.can_be_drawn_in(half);
  std::vector<Rows> ways(1);
  ways[0].add(Columns(flow, {words}, half));
  if (small)
    ways[0].add(Columns(flow, blocks.pictures(), half));
  else
    for (const Block &picture : blocks.pictures())
      ways[0].add(Columns(flow, {picture}, half));
  ways[0].add(Columns(flow, blocks.tables(least_table, true), table));
  const double left = whole - PageFlow::between_columns - table;
  if (!small || !blocks.can_be_drawn_in(left) || left < 0.35 * whole) return ways;
  const Blocks tables = blocks.tables(least_table, false);
  ways.resize(3);
  ways[1].add(Columns(flow, {words}, left));
  ways[1].add(Columns(flow, joined(blocks.pictures(), tables), left));
  ways[2].add(Columns(flow, joined({words}, joined(blocks.pictures(), tables)), left));
  return ways;
}

void put_join_close(PageFlow &flow, const Job &job, const Plan &plan, const JoinSheet &sheet) {
  const JoinBlocks blocks(job, plan, sheet);
  const std::vector<Rows> ways = ways_of(flow, blocks, {[&sheet](PageFlow &at) { put_words(at, sheet); }});
  const Rows &best = lowest(ways);
  flow.heading(join_heading(sheet), best.height() + join_heading_high < flow.height() ? best.height() : first_lines);
  best.set(flow);
}

/// Where notes and cautions stand.
enum class NotesAt { end, beginning };

struct Set {
  Document document;
  bool notes_alone = false; ///< on the last page
};

Set set(const Job &job, const Plan &plan, const Sheet &sheet, PaperSize size, NotesAt notes) {
  PageFlow flow(size, sheet.title, Setting::close);
  put_head(flow, sheet);
  put_lists(flow, sheet.wrong, sheet.mend);
  sizes_and_rules(flow, sheet);
  if (sheet.pieces) put_pieces(flow, job, plan, *sheet.pieces, Setting::close);
  if (notes == NotesAt::beginning) put_lists(flow, sheet.notes, sheet.cautions);
  for (const JoinSheet &each : sheet.joins)
    put_join_close(flow, job, plan, each);
  if (!sheet.joins_left_out.empty()) flow.paragraph(sheet.joins_left_out);
  if (!sheet.between_marks.empty()) flow.paragraph(sheet.between_marks);
  const std::size_t without_notes = flow.pages();
  if (notes == NotesAt::end) put_lists(flow, sheet.notes, sheet.cautions);
  const bool notes_alone = flow.pages() > without_notes;
  return {flow.take(), notes_alone};
}

} // namespace

Document set_close(const Job &job, const Plan &plan, const Sheet &sheet, PaperSize size) {
  Set at_end = set(job, plan, sheet, size, NotesAt::end);
  if (!at_end.notes_alone) return std::move(at_end.document);
  Set first = set(job, plan, sheet, size, NotesAt::beginning);
  return std::move(first.document.pages.size() <= at_end.document.pages.size() ? first.document : at_end.document);
}

} // namespace gatherwright::paper
