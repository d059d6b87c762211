// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/report/shown_marks.hpp"
#include "cli/report/table.hpp"
#include "gatherwright/id.hpp"
#include "gatherwright/job.hpp"
#include "gatherwright/plan.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// What a worksheet says and in what order, before it is laid out as HTML or on pages. Texts are as
/// `words::printable` makes them.
namespace gatherwright::paper {

/// How much a sheet holds, in counts of what takes time and paper: far more than anyone pins to a wall. What has no
/// room is left out, and the sheet says so where it would stand.
struct SheetRoom {
  std::size_t joins = 300;         ///< with their marks; of these are drawn
  std::size_t stretches = 3000;    ///< of all pictures
  std::size_t points = 20000;      ///< of all edges that are shown as they are drawn
  std::size_t pieces = 200;        ///< whose marks are drawn
  std::size_t piece_marks = 5000;  ///< of all those
  std::size_t cloths = 100;        ///< with how they are cut
  std::size_t placements = 2000;   ///< of all layouts that are drawn
  std::size_t rows = 20000;        ///< of all tables
  std::size_t letters = 2'000'000; ///< of all sentences: bytes
};

/// Of a sheet on pages, where each of these takes longer to set.
inline constexpr SheetRoom room_on_pages{.joins = 80,
                                         .stretches = 1000,
                                         .points = 10000,
                                         .pieces = 60,
                                         .piece_marks = 1500,
                                         .cloths = 20,
                                         .placements = 1000,
                                         .rows = 2000,
                                         .letters = 200'000};

/// A table with what it is called.
struct SheetTable {
  std::string caption;
  report::Table table;
  std::string left_out;       ///< what of it there was no room for; empty where there was
  bool told_by_joins = false; ///< what it tells stands with each join again
};

/// An edge that is shown as it is drawn, beside the straightened one.
struct AsDrawn {
  WhichEdge edge = WhichEdge::long_edge;
  std::string caption;
};

struct JoinSheet {
  int join = 0; ///< of the job
  std::string heading;
  std::string made; ///< "make 2, a mirrored pair"; may be empty
  Verdict verdict = Verdict::within_limits;
  std::string edges;
  std::vector<std::string> stretches;
  bool drawn = false;                      ///< there are pictures of it
  std::vector<std::string> of_the_picture; ///< that a ring's end meets its start, that a drawn edge is straightened
  std::vector<AsDrawn> as_drawn;           ///< where there are pictures of it
  std::string fullest;                     ///< empty where all is plain
  SheetTable marks;
  std::vector<std::string> below_marks;
  std::string mirrored; ///< empty where no piece is mirrored
  std::optional<SheetTable> marks_mirrored;
  std::vector<std::string> below_mirrored;
  std::vector<std::string> working; ///< rows, thread, cord and pins; may be empty
};

/// A cloth and how it is cut.
struct ClothSheet {
  std::size_t cloth = 0; ///< of the plan's
  std::string heading;
  std::string buy;                ///< how much, and how well that is used
  bool drawn = false;             ///< there is a picture of its layout
  std::string not_drawn;          ///< empty where it is drawn
  std::vector<std::string> steps; ///< of cutting, in their order
};

/// The heading over their pictures.
inline constexpr std::string_view marks_on_pieces = "Marks on the pieces";

/// What is cut of a job that has pieces.
struct PiecesSheet {
  std::string of_all_sizes;
  SheetTable sizes;
  std::string between_seams;   ///< the sizes that were chosen, or may be others; may be empty
  std::vector<PieceId> marked; ///< those with marks, each with a picture of them
  std::string signs;           ///< what is drawn there
  std::string left_out;        ///< whose marks are not drawn; empty where none is
  std::string others_of_pairs; ///< may be empty
  std::vector<ClothSheet> cloths;
  std::string cloths_left_out;      ///< empty where none is
  std::string too_wide;             ///< may be empty
  std::vector<std::string> savings; ///< not set on pages: they are settled before a sheet is pinned to the wall
};

/// A list under a heading; left out where it is empty.
struct SheetList {
  std::string heading;
  std::vector<std::string> sentences;
};

struct Sheet {
  std::string title;
  std::string heading; ///< the job's title, or what the sheet is
  Verdict verdict = Verdict::within_limits;
  std::string judged;                      ///< the verdict in words, with how well it lies within limits
  std::string meaning;                     ///< "mark, pin and sew as below"
  std::vector<std::string> first_cautions; ///< that stand right under the verdict
  SheetList wrong;
  SheetList mend;
  std::optional<PiecesSheet> pieces;
  std::string between_seams;      ///< and on what condition others will do; empty where there are no lengths
  std::vector<SheetTable> to_cut; ///< lengths found, lengths given, edges of each join
  SheetList rules;
  std::vector<JoinSheet> joins;
  std::string joins_left_out; ///< empty where none is
  std::string between_marks;  ///< may be empty
  SheetList notes;
  SheetList cautions;
};

/// The plan must be of the job.
Sheet sheet_of(const Job &job, const Plan &plan, const SheetRoom &room = {}, report::Pins pins = report::Pins::needed);

/// A sign that goes with the word of a verdict, so that it is told by more than colour.
std::string_view sign(Verdict verdict);

/// Whether a picture of it has any meaning: both edges are longer than 0 and no longer than anyone sews, and its
/// stretches not too many to be seen.
bool can_be_drawn(const JoinPlan &planned);

} // namespace gatherwright::paper
