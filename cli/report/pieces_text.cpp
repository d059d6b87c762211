// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/report/pieces_text.hpp"

#include "cli/report/pieces_words.hpp"
#include "cli/report/plan_text.hpp"
#include "cli/report/side_marks.hpp"
#include "cli/words/columns.hpp"
#include "cli/words/cutting.hpp"
#include "cli/words/names.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <span>

namespace gatherwright::report {

namespace {

constexpr std::string_view margin = "  ";

/// Steps of cutting that are told; of more the picture tells.
constexpr std::size_t most_steps = 24;

std::string paragraph(std::string_view text) {
  return text.empty() ? "" : wrapped(text, margin, margin, text_width);
}

std::string what_to_cut(const Job &job, const Plan &plan, const Ink &ink) {
  return "\n" + ink.strong("What to cut") + "\n" + paragraph(of_all_sizes(job, plan)) +
         sizes(job, plan).lines(margin, text_width) + paragraph(sizes_between_seams(job, plan));
}

/// The sides of one piece; `room`: how many marks may still be told, those told here taken off.
std::string sides(const Job &job, const Plan &plan, PieceId piece, std::size_t &room, Pins pins) {
  const PiecePlan &planned = plan.pieces.at(static_cast<std::size_t>(piece.at));
  std::string text;
  for (const SideRun &run : side_runs(planned)) {
    const double length = runs_across(run.side) ? planned.cut_across.exact : planned.cut_along.exact;
    const ToldMarks told = told_marks(job, plan, run, length, pins);
    text += wrapped(fmt::format("{}, {}.", words::where(job, piece), side_said(job, plan, run, told, room)), margin,
                    "    ", text_width);
    room -= std::min(room, told.told.size());
  }
  return text;
}

std::string marks(const Job &job, const Plan &plan, const Ink &ink, Pins pins) {
  std::string text;
  std::size_t room = most_rows;
  for (std::size_t i = 0; i < plan.pieces.size(); ++i)
    text += sides(job, plan, PieceId(static_cast<int>(i)), room, pins);
  if (text.empty()) return text;
  const std::string unit = inches_strung_to(job.unit) ? "" : fmt::format("{} ", name(job.unit));
  return ink.strong("What is sewn to each side, and its marks") + "\n" +
         paragraph(fmt::format("In {}from the cut corner: the left one of top and bottom, the top one of left and "
                               "right.",
                               unit)) +
         text + paragraph(others_of_pairs(job, plan));
}

std::string cloths(const Job &job, const Plan &plan, const Ink &ink) {
  if (plan.cloth.empty()) return "";
  std::string text = "\n" + ink.strong("Cloth") + "\n";
  const WearersPieces pieces = pieces_of(plan);
  for (const ClothPlan &cloth : plan.cloth) {
    text += wrapped(cloth_said(job, cloth, plan.cloth.size() == 1), margin, "    ", text_width);
    for (const std::string &step :
         words::cutting_said({.job = job, .cloth = cloth, .pieces = std::span(&pieces, 1)}, most_steps))
      text += wrapped(step, "  - ", "    ", text_width);
  }
  return text + paragraph(not_laid(job, plan));
}

} // namespace

std::string pieces_text(const Job &job, const Plan &plan, const Ink &ink, Pins pins) {
  if (plan.pieces.empty()) return "";
  return what_to_cut(job, plan, ink) + marks(job, plan, ink, pins) + cloths(job, plan, ink);
}

} // namespace gatherwright::report
